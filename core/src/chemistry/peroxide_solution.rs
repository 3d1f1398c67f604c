//! Solutions of hydrogen peroxide in water: density, and strength by volume.

use crate::quantity::{MassConcentration, MassDensity, grams_per_litre, grams_per_millilitre};

/// Highest share of hydrogen peroxide by mass that [`density`] is fitted to.
const STRONGEST: f64 = 0.30;

/// Density at 20 °C of a solution with this share of hydrogen peroxide by mass; `None` outside
/// 0 to 30 %.
///
/// A fit to the table of concentrative properties in the CRC Handbook (from memory: 1.0131 at
/// 4 %, 1.0351 at 10 %, 1.0725 at 20 %, 1.1122 at 30 %), within 0.001 g/mL.
pub fn density(share: f64) -> Option<MassDensity> {
    kilograms_per_litre(share).map(grams_per_millilitre)
}

/// Hydrogen peroxide in a litre of a solution with this share of it by mass, at 20 °C; `None`
/// outside 0 to 30 %.
pub fn strength(share: f64) -> Option<MassConcentration> {
    kilograms_per_litre(share).map(|kilograms| grams_per_litre(1000.0 * kilograms * share))
}

fn kilograms_per_litre(share: f64) -> Option<f64> {
    (0.0..=STRONGEST).contains(&share).then_some(0.9982 + share * (0.366 + share * 0.045))
}
