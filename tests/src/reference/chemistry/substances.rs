//! Chlorine sources, solutions of hydrogen peroxide, exposure limits.

use crate::reference::{RowInputs, given};
use bleachfield_core::chemistry::{
    exposure_limit::{self, AirUnit, ExposureLimits, milligrams_per_cubic_metre},
    peroxide_solution,
    substance::{self, ChlorineSource, Substance},
};
use bleachfield_core::quantity::{in_grams_per_litre, in_grams_per_millilitre};

type Answer = Result<f64, String>;

fn source(inputs: &RowInputs) -> Result<ChlorineSource, String> {
    Ok(match inputs.text("of")? {
        "calcium_hypochlorite" => substance::CALCIUM_HYPOCHLORITE,
        "dichlor" => substance::SODIUM_DICHLOROISOCYANURATE,
        "dichlor_dihydrate" => substance::SODIUM_DICHLOROISOCYANURATE_DIHYDRATE,
        "trichlor" => substance::TRICHLOROISOCYANURIC_ACID,
        other => return Err(format!("no chlorine source is called {other}")),
    })
}

pub fn chlorine_source_mass(inputs: &RowInputs) -> Answer {
    Ok(source(inputs)?.substance.grams_per_mole)
}

pub fn sulfur_dioxide_mass(_: &RowInputs) -> Answer {
    Ok(substance::SULFUR_DIOXIDE.grams_per_mole)
}

/// Percent of the pure substance.
pub fn available_chlorine(inputs: &RowInputs) -> Answer {
    Ok(100.0 * source(inputs)?.available_chlorine())
}

/// Percent of the pure substance in a product with `available` percent available chlorine.
pub fn purity(inputs: &RowInputs) -> Answer {
    Ok(inputs.number("available")? / source(inputs)?.available_chlorine())
}

pub fn peroxide_density(inputs: &RowInputs) -> Answer {
    let density = peroxide_solution::density(inputs.number("percent")? / 100.0);
    given(density.map(in_grams_per_millilitre))
}

pub fn peroxide_strength(inputs: &RowInputs) -> Answer {
    let strength = peroxide_solution::strength(inputs.number("percent")? / 100.0);
    given(strength.map(in_grams_per_litre))
}

pub fn exposure_limit(inputs: &RowInputs) -> Answer {
    let limits: ExposureLimits = match inputs.text("of")? {
        "chlorine" => exposure_limit::CHLORINE,
        "hydrogen_peroxide" => exposure_limit::HYDROGEN_PEROXIDE,
        "sodium_hydroxide" => exposure_limit::SODIUM_HYDROXIDE,
        "sulfur_dioxide" => exposure_limit::SULFUR_DIOXIDE,
        other => return Err(format!("no limit for {other}")),
    };
    let unit = match inputs.text("unit")? {
        "ppm" => AirUnit::Ppm,
        _ => AirUnit::MilligramsPerCubicMetre,
    };
    if unit != limits.unit {
        return Err(format!("the limits are in {:?}", limits.unit));
    }
    Ok(match inputs.text("by")? {
        "niosh" => limits.niosh,
        "osha" => limits.osha,
        "dangerous" => limits.dangerous,
        other => return Err(format!("no limit by {other}")),
    })
}

/// mg/m³ of a gas from ppm.
pub fn air_mass(inputs: &RowInputs) -> Answer {
    let gas: Substance = match inputs.text("of")? {
        "chlorine" => substance::CHLORINE,
        "hydrogen_peroxide" => substance::HYDROGEN_PEROXIDE,
        "sulfur_dioxide" => substance::SULFUR_DIOXIDE,
        other => return Err(format!("no gas is called {other}")),
    };
    Ok(milligrams_per_cubic_metre(gas, inputs.number("ppm")?))
}
