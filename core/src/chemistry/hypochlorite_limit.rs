//! The strongest hypochlorite solution that is accepted.

use super::decay::STRENGTH;
use super::substance::{CHLORINE, SODIUM_HYPOCHLORITE};
use crate::quantity::{
    QuantityKind, MassConcentration, MassDensity, OutOfRange, in_grams_per_litre, in_grams_per_millilitre,
};

/// Strongest hypochlorite, NaOCl by mass (common practice, no source: trade liquors stop near
/// 15 %).
pub(super) const STRONGEST_SHARE: f64 = 0.15;

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
    let hypochlorite_per_chlorine = SODIUM_HYPOCHLORITE.grams_per_mole / CHLORINE.grams_per_mole;
    let share_at =
        |grams: f64, density: f64| grams * hypochlorite_per_chlorine / (1000.0 * density);
    let share = share_at(grams, per_litre);
    if (0.0..=STRONGEST_SHARE).contains(&share) {
        return Ok(());
    }
    // The same share at this density, or on the line of density against strength.
    let highest = match density {
        Some(_) => STRONGEST_SHARE * 1000.0 * per_litre / hypochlorite_per_chlorine,
        None => {
            998.0 * STRONGEST_SHARE
                / (hypochlorite_per_chlorine - 1000.0 * DENSITY_SLOPE * STRONGEST_SHARE)
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

/// g/mL per g/L of available chlorine at 20 °C, with the accompanying salt: fitted to
/// SG 1.157 at 120 g/L without lye (Powell Fabrication, read); ±0.02 for real products.
const DENSITY_SLOPE: f64 = 0.001_31;

fn usual_density(available_chlorine_grams_per_litre: f64) -> f64 {
    0.998 + DENSITY_SLOPE * available_chlorine_grams_per_litre
}
