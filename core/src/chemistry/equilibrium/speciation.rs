//! Distribution of a bath's oxidants between their forms against pH.

use super::conditional::ConditionalConstants;
use super::constants::exp10;
use super::error::EquilibriumError;
use super::mix::Mix;
use super::solver;
use super::speciate::speciate;
use super::species::Species;
use super::totals::Totals;

/// Forms of the oxidants at one pH, each as a share of its own total, 0 to 1. For an oxidant
/// that the bath does not contain, the shares of a trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OxidantShares {
    pub ph: f64,
    /// Of Cl2 + HOCl + OCl-; a Cl2 counts once.
    pub chlorine: f64,
    pub hypochlorous_acid: f64,
    pub hypochlorite: f64,
    /// Of H2O2 + HO2-.
    pub hydrogen_peroxide: f64,
    pub perhydroxyl: f64,
}

/// A bath's oxidants as a function of pH, at fixed temperature, chloride and ionic strength.
#[derive(Clone, Copy)]
pub struct Speciation {
    totals: Totals,
    conditional: ConditionalConstants,
}

impl Speciation {
    /// Shares at one pH.
    pub fn at(&self, ph: f64) -> OxidantShares {
        let amounts = speciate(&self.totals, &self.conditional, exp10(-ph));
        let amount = |species: Species| amounts[species as usize];
        OxidantShares {
            ph,
            chlorine: amount(Species::Chlorine) / self.totals.hypochlorite,
            hypochlorous_acid: amount(Species::HypochlorousAcid) / self.totals.hypochlorite,
            hypochlorite: amount(Species::Hypochlorite) / self.totals.hypochlorite,
            hydrogen_peroxide: amount(Species::HydrogenPeroxide) / self.totals.peroxide,
            perhydroxyl: amount(Species::Perhydroxyl) / self.totals.peroxide,
        }
    }

    /// Shares at `count` evenly spaced pH from `from` to `to`, both included.
    pub fn curve(
        &self,
        from: f64,
        to: f64,
        count: usize,
    ) -> impl Iterator<Item = OxidantShares> + '_ {
        let step = if count > 1 { (to - from) / (count - 1) as f64 } else { 0.0 };
        (0..count).map(move |index| self.at(from + step * index as f64))
    }
}

impl Mix {
    /// Speciation of this bath's oxidants. Activity coefficients are those of the bath as it
    /// is, constant over pH; above I = 3 mol/kg those of I = 3.
    ///
    /// # Errors
    /// Hypochlorite with peroxide.
    pub fn speciation(&self) -> Result<Speciation, EquilibriumError> {
        /// Negligible in every balance, mol/kg.
        const TRACE: f64 = 1e-12;
        self.refuse_two_oxidants()?;
        let mut totals = self.totals();
        let root = solver::solve(&totals, self.constants());
        totals.hypochlorite = totals.hypochlorite.max(TRACE);
        totals.peroxide = totals.peroxide.max(TRACE);
        Ok(Speciation { totals, conditional: root.conditional })
    }
}

/// Shares of a bath's oxidants at `count` pH from 0 to 14.
///
/// # Errors
/// As [`Mix::speciation`].
pub fn species_curve(mix: &Mix, count: usize) -> Result<Vec<OxidantShares>, EquilibriumError> {
    Ok(mix.speciation()?.curve(0.0, 14.0, count).collect())
}
