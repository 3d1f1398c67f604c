//! Hypochlorite solutions: density by strength, and the strongest that is accepted.

use super::decay::STRENGTH;
use super::substance::{CHLORINE, SODIUM_HYPOCHLORITE};
use crate::quantity::{
    MassConcentration, MassDensity, OutOfRange, QuantityKind, in_grams_per_litre,
    in_grams_per_millilitre,
};

/// Strongest hypochlorite, NaOCl by mass (common practice, no source: trade liquors have 12 to
/// 15 %).
pub const STRONGEST_SHARE: f64 = 0.15;

/// Refuses hypochlorite above [`STRONGEST_SHARE`] by mass.
///
/// # Errors
/// [`OutOfRange`] in g/L of available chlorine, with the maximum at this density.
pub(super) fn check_hypochlorite(
    available_chlorine: MassConcentration,
    density: Option<MassDensity>,
) -> Result<(), OutOfRange> {
    let grams = in_grams_per_litre(available_chlorine);
    let per_litre = density.map_or_else(|| usual_density(grams), in_grams_per_millilitre);
    let share = grams * NAOCL_PER_CHLORINE / (1000.0 * per_litre);
    if (0.0..=STRONGEST_SHARE).contains(&share) {
        return Ok(());
    }
    // The same share at this density, or on the line of density against strength.
    let highest = match density {
        Some(_) => STRONGEST_SHARE * 1000.0 * per_litre / NAOCL_PER_CHLORINE,
        None => {
            1000.0 * DENSITY_OF_WATER * STRONGEST_SHARE
                / (NAOCL_PER_CHLORINE - 1000.0 * DENSITY_SLOPE * STRONGEST_SHARE)
        }
    };
    Err(OutOfRange {
        subject: STRENGTH,
        given: grams,
        min: 0.0,
        max: highest,
        kind: QuantityKind::Concentration,
    })
}

/// Grams of NaOCl per gram of available chlorine.
pub const NAOCL_PER_CHLORINE: f64 = SODIUM_HYPOCHLORITE.grams_per_mole / CHLORINE.grams_per_mole;

/// Density at no strength, 20 °C, g/mL.
pub const DENSITY_OF_WATER: f64 = 0.998;

/// g/mL per g/L of available chlorine at 20 °C, with the accompanying salt: fitted to
/// SG 1.157 at 120 g/L without lye (Powell Fabrication, read).
pub const DENSITY_SLOPE: f64 = 0.001_31;

/// Error of [`usual_density`] for real products, g/mL, mostly from lye (Powell Fabrication:
/// 1.157 to 1.168 at 120 g/L; read).
pub const DENSITY_ERROR: f64 = 0.02;

/// Density at 20 °C, g/mL.
pub fn usual_density(available_chlorine_grams_per_litre: f64) -> f64 {
    DENSITY_OF_WATER + DENSITY_SLOPE * available_chlorine_grams_per_litre
}
