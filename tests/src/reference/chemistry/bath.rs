//! Constants, pH, species, gas and doses.

use crate::reference::RowInputs;
use bleachfield_core::chemistry::{
    equilibrium::{Air, Constants, Electrolyte, Mix, Reagent, Species},
    headspace::Headspace,
    substance::{ACETIC_ACID, CHLORINE, in_moles_per_litre, moles_per_litre},
    water,
};
use bleachfield_core::quantity::grams_per_litre;

type Answer = Result<f64, String>;

fn say(error: impl std::fmt::Debug) -> String {
    format!("{error:?}")
}

fn constants(inputs: &RowInputs) -> Result<Constants, String> {
    Constants::at(inputs.number("celsius")?).map_err(say)
}

pub fn water_density(inputs: &RowInputs) -> Answer {
    Ok(1000.0 * water::kilograms_per_litre(inputs.number("celsius")?))
}

pub fn debye_slope(inputs: &RowInputs) -> Answer {
    Ok(water::debye_slope(inputs.number("celsius")?))
}

/// Of an electrolyte alone in water.
pub fn mean_activity_coefficient(inputs: &RowInputs) -> Answer {
    let electrolyte = match inputs.text("of")? {
        "sodium_hydroxide" => Electrolyte::SodiumHydroxide,
        "sodium_chloride" => Electrolyte::SodiumChloride,
        "sodium_bicarbonate" => Electrolyte::SodiumBicarbonate,
        "sodium_carbonate" => Electrolyte::SodiumCarbonate,
        "sodium_acetate" => Electrolyte::SodiumAcetate,
        "hydrochloric_acid" => Electrolyte::HydrochloricAcid,
        other => return Err(format!("no electrolyte is called {other}")),
    };
    Ok(constants(inputs)?.mean_activity_coefficient(electrolyte, inputs.number("molality")?))
}

pub fn pk(inputs: &RowInputs) -> Answer {
    Ok(-constant(inputs)?.log10())
}

pub fn constant(inputs: &RowInputs) -> Answer {
    let constants = constants(inputs)?;
    Ok(match inputs.text("of")? {
        "water" => constants.water,
        "carbonic_1" => constants.carbonic_1,
        "carbonic_2" => constants.carbonic_2,
        "carbon_dioxide_henry" => constants.carbon_dioxide_henry,
        "hypochlorous" => constants.hypochlorous,
        "chlorine_hydrolysis" => constants.chlorine_hydrolysis,
        "chlorine_henry" => constants.chlorine_henry,
        "peroxide" => constants.peroxide,
        "acetic" => constants.acetic,
        "citric_1" => constants.citric[0],
        "citric_2" => constants.citric[1],
        "citric_3" => constants.citric[2],
        other => return Err(format!("no constant is called {other}")),
    })
}

pub fn chlorine_hydrolysis_in_salt(inputs: &RowInputs) -> Answer {
    Ok(constants(inputs)?.chlorine_hydrolysis_in_salt(inputs.number("molality")?))
}

/// A mix from `celsius` and any of the amounts below; mol/L, or mol/kg with `scale=molal`.
fn mix(inputs: &RowInputs) -> Result<Mix, String> {
    let constants = constants(inputs)?;
    let scale = match inputs.text_or("scale", "molar") {
        "molar" => 1.0,
        "molal" => constants.kilograms_per_litre,
        other => return Err(format!("no scale is called {other}")),
    };
    let amount = |key: &str| -> Result<_, String> {
        Ok(moles_per_litre(scale * inputs.number_or(key, 0.0)?))
    };
    let chlorine = CHLORINE.molar(grams_per_litre(inputs.number_or("chlorine_g", 0.0)?));
    let closed = Mix::at(constants)
        .with_bleach(chlorine)
        .with_bleach(amount("bleach")?)
        .with_salt(amount("salt")?)
        .with_lye(amount("lye")?)
        .with_soda_ash(amount("soda")?)
        .with_baking_soda(amount("bicarbonate")?)
        .with_carbon_dioxide(amount("co2")?)
        .with_peroxide(amount("peroxide")?)
        .with_percarbonate(amount("percarbonate")?)
        .with_acetic_acid(amount("acetic")?)
        .with_citric_acid(amount("citric")?)
        .with_sulfate(amount("sulfate")?)
        .with_strong_acid(amount("strong_acid")?);
    let air = inputs.number_or("pco2", -1.0)?;
    if air < 0.0 {
        return Ok(closed);
    }
    closed.under(Air::Open { carbon_dioxide_atm: air }).map_err(say)
}

pub fn ph(inputs: &RowInputs) -> Answer {
    Ok(mix(inputs)?.solve().map_err(say)?.ph())
}

pub fn species(inputs: &RowInputs) -> Answer {
    let species = match inputs.text("of")? {
        "chlorine" => Species::Chlorine,
        "hypochlorous_acid" => Species::HypochlorousAcid,
        "perhydroxyl" => Species::Perhydroxyl,
        "carbonate" => Species::Carbonate,
        other => return Err(format!("no species is called {other}")),
    };
    Ok(mix(inputs)?.solve().map_err(say)?.moles_per_litre(species))
}

/// Share of an oxidant's form at a pH, in pure water.
pub fn share(inputs: &RowInputs) -> Answer {
    let speciation = Mix::at(constants(inputs)?).speciation().map_err(say)?;
    let shares = speciation.at(inputs.number("ph")?);
    Ok(match inputs.text("of")? {
        "hypochlorous_acid" => shares.hypochlorous_acid,
        "hypochlorite" => shares.hypochlorite,
        "perhydroxyl" => shares.perhydroxyl,
        other => return Err(format!("no share is called {other}")),
    })
}

/// Share of a trace of chlorine that is Cl2 in brine, without activity correction.
pub fn chlorine_share(inputs: &RowInputs) -> Answer {
    Ok(trace_in_brine(inputs)?(inputs.number("ph")?))
}

/// The pH at which that share is one half.
pub fn half_chlorine_ph(inputs: &RowInputs) -> Answer {
    let share = trace_in_brine(inputs)?;
    let (mut low, mut high) = (-2.0, 9.0);
    while high - low > 1e-9 {
        let middle = 0.5 * (low + high);
        if share(middle) > 0.5 { low = middle } else { high = middle }
    }
    Ok(low)
}

fn trace_in_brine(inputs: &RowInputs) -> Result<impl Fn(f64) -> f64, String> {
    const TRACE: f64 = 1e-9;
    let brine = Mix::at(constants(inputs)?)
        .with_hypochlorite(moles_per_litre(TRACE))
        .with_salt(moles_per_litre(inputs.number("salt")?));
    let liquor = Headspace::of(&brine);
    Ok(move |ph| in_moles_per_litre(liquor.dissolved_at(ph)) / TRACE)
}

pub fn headspace(inputs: &RowInputs) -> Answer {
    Ok(Headspace::of(&mix(inputs)?).ppm_at(inputs.number("ph")?))
}

pub fn gas_ph(inputs: &RowInputs) -> Answer {
    let found = Headspace::of(&mix(inputs)?).gas_ph(inputs.number("ppm")?).map_err(say)?;
    found.ok_or_else(|| "never".to_owned())
}

/// What brings a mix to a pH: grams per litre, or `as=vinegar` mL of 5 % w/v per litre.
pub fn dose(inputs: &RowInputs) -> Answer {
    let reagent = match inputs.text("reagent")? {
        "acetic" => Reagent::AceticAcid,
        "citric" => Reagent::CitricAcid,
        "lye" => Reagent::Lye,
        "soda" => Reagent::SodaAsh,
        other => return Err(format!("no reagent is called {other}")),
    };
    let moles = mix(inputs)?.dose(reagent, inputs.number("to")?).map_err(say)?;
    let substance = reagent.substance().ok_or("it has no mass")?;
    let grams = in_moles_per_litre(moles) * substance.grams_per_mole;
    if inputs.text_or("as", "grams") == "vinegar" {
        assert_eq!(substance, ACETIC_ACID, "vinegar is acetic acid");
        return Ok(grams / 50.0 * 1000.0);
    }
    Ok(grams)
}
