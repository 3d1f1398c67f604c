//! pH and species of a bath: the entry to the solver.

use super::activity::{MAX_IONIC_STRENGTH, STRONG_IN_SALTS, model_error, too_concentrated};
use super::constants::MORRIS_HOTTEST;
use super::error::EquilibriumError;
use super::mix::Mix;
use super::solver::{self, Root};
use super::speciate::speciate;
use super::species::Species;
use super::totals::Totals;
use crate::chemistry::substance::moles_per_litre;
use strum::EnumCount;
use uom::si::f64::MolarConcentration;

impl Mix {
    /// pH and species of this bath.
    ///
    /// # Errors
    /// Hypochlorite with peroxide, or an ionic strength above 3 mol/kg.
    pub fn solve(&self) -> Result<Solution, EquilibriumError> {
        self.refuse_two_oxidants()?;
        let totals = self.totals();
        let root = solver::solve(&totals, self.constants());
        if !root.ionic_strength.is_finite() || root.ionic_strength > MAX_IONIC_STRENGTH {
            return Err(too_concentrated(root.ionic_strength));
        }
        Ok(Solution::new(self, &totals, &root))
    }
}

/// A bath at equilibrium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solution {
    ph: f64,
    /// mol/kg.
    ionic_strength: f64,
    /// mol/L, indexed by [`Species`].
    amounts: [f64; Species::COUNT],
    pub validity: Validity,
}

/// Where an answer is outside the published ranges. All `false` is best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Validity {
    /// Ionic strength above [`STRONG_IN_SALTS`].
    pub strong_in_salts: bool,
    /// Hypochlorite above 35 °C, where no dissociation constant was measured.
    pub hypochlorite_extrapolated: bool,
}

impl Solution {
    fn new(mix: &Mix, totals: &Totals, root: &Root) -> Self {
        let constants = mix.constants();
        let amounts = speciate(totals, &root.conditional, root.h)
            .map(|per_kilogram| per_kilogram * constants.kilograms_per_litre);
        Self {
            ph: -root.h.log10(),
            ionic_strength: root.ionic_strength,
            amounts,
            validity: Validity {
                strong_in_salts: root.ionic_strength > STRONG_IN_SALTS,
                hypochlorite_extrapolated: totals.hypochlorite > 0.0
                    && constants.celsius > MORRIS_HOTTEST,
            },
        }
    }

    /// `-log10` of hydrogen ion activity.
    pub fn ph(&self) -> f64 {
        self.ph
    }

    /// Error of [`Self::ph`] by the model alone, in pH either way: [`model_error`].
    pub fn model_error(&self) -> f64 {
        model_error(self.ionic_strength)
    }

    /// mol per kg of water.
    pub fn ionic_strength(&self) -> f64 {
        self.ionic_strength
    }

    /// Concentration of one species.
    pub fn amount(&self, species: Species) -> MolarConcentration {
        moles_per_litre(self.moles_per_litre(species))
    }

    /// [`Self::amount`] as a number, mol/L.
    pub fn moles_per_litre(&self, species: Species) -> f64 {
        self.amounts[species as usize]
    }
}
