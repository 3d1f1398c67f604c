//! pH and species of a bath.
//!
//! ```
//! use bleachfield_core::chemistry::{equilibrium::Mix, substance::moles_per_litre};
//!
//! let bath = Mix::new(25.0)?.with_bleach(moles_per_litre(0.0282));
//! assert!((bath.solve()?.ph() - 9.9).abs() < 0.1);
//! # Ok::<(), bleachfield_core::chemistry::Refusal>(())
//! ```
//!
//! The model: complete mixing, the acids of [`Constants`], Davies activity coefficients (good
//! to I = 0.5 mol/kg; a solution beyond that says so, and beyond 1.0 it is refused), no ion
//! pairs, no oxidation. Hypochlorite and peroxide together are refused: what they do to each
//! other is no equilibrium. pH is `-log10` of the hydrogen ion *activity*, as a meter has it.

pub(crate) mod balance;
pub mod constants;
mod curve;
mod dose;
mod mix;
mod solver;
mod species;

pub use constants::Constants;
pub use curve::{Picture, Shares, species_curve};
pub use dose::Reagent;
pub use mix::{Air, CARBON_DIOXIDE, Mix};
pub use species::Species;

use super::refusal::Refusal;
use super::substance::moles_per_litre;
use solver::{HIGHEST_STRENGTH, Root};
use uom::si::f64::MolarConcentration;

/// Ionic strength to which Davies' equation is held to be good, mol/kg.
pub const DAVIES_GOOD_TO: f64 = 0.5;
/// Partial pressure of carbon dioxide in outdoor air, atm: about 420 ppm in the early 2020s
/// (from memory). Indoors it is often twice that.
pub const OUTDOOR_CARBON_DIOXIDE: f64 = 420e-6;

/// A bath at equilibrium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solution {
    ph: f64,
    /// mol/kg.
    ionic_strength: f64,
    /// mol/L, by species number.
    amounts: [f64; Species::COUNT],
    /// How far the answer may be trusted.
    pub validity: Validity,
}

/// What an answer leans on outside the published ranges. All false is best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Validity {
    /// Ionic strength above [`DAVIES_GOOD_TO`].
    pub strong_in_salts: bool,
    /// Hypochlorite above 35 °C, where no dissociation constant was measured.
    pub hypochlorite_extrapolated: bool,
}

impl Solution {
    /// `-log10` of hydrogen ion activity.
    pub fn ph(&self) -> f64 {
        self.ph
    }

    /// Ionic strength, mol per kg of water.
    pub fn ionic_strength(&self) -> f64 {
        self.ionic_strength
    }

    /// How much there is of one dissolved thing.
    pub fn amount(&self, species: Species) -> MolarConcentration {
        moles_per_litre(self.moles_per_litre(species))
    }

    /// [`Self::amount`] as a number, mol/L.
    pub fn moles_per_litre(&self, species: Species) -> f64 {
        self.amounts[species as usize]
    }
}

impl Mix {
    /// pH and species of this bath.
    ///
    /// # Errors
    /// Hypochlorite with peroxide, or an ionic strength above 1 mol/kg.
    pub fn solve(&self) -> Result<Solution, Refusal> {
        self.refuse_two_oxidants()?;
        let constants = self.constants();
        let totals = self.totals();
        let root = solver::solve(&totals, constants);
        if !root.ionic_strength.is_finite() || root.ionic_strength > HIGHEST_STRENGTH {
            return Err(Refusal::TooConcentrated {
                ionic_strength: root.ionic_strength,
                highest: HIGHEST_STRENGTH,
            });
        }
        Ok(self.solution(&totals, &root))
    }

    fn solution(&self, totals: &balance::Totals, root: &Root) -> Solution {
        let constants = self.constants();
        let amounts = balance::speciate(totals, &root.folded, root.h)
            .map(|per_kilogram| per_kilogram * constants.kilograms_per_litre);
        Solution {
            ph: -root.h.log10(),
            ionic_strength: root.ionic_strength,
            amounts,
            validity: Validity {
                strong_in_salts: root.ionic_strength > DAVIES_GOOD_TO,
                hypochlorite_extrapolated: totals.hypochlorite > 0.0
                    && constants.celsius > constants::MORRIS_HOTTEST,
            },
        }
    }
}

#[cfg(test)]
mod tests;
