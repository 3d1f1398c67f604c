//! How the oxidants of a bath are shared between their forms, at any pH.

use super::balance::{Folded, Totals, speciate};
use super::constants::exp10;
use super::solver;
use super::{Mix, Refusal, Species};

/// The forms of the oxidants at one pH, each as a share of its own total (0 to 1). Where the
/// bath holds none of an oxidant, its shares are those of a trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    pub ph: f64,
    /// Of Cl2 + HOCl + OCl-; a Cl2 counts once.
    pub chlorine: f64,
    pub hypochlorous_acid: f64,
    pub hypochlorite: f64,
    /// Of H2O2 + HO2-.
    pub hydrogen_peroxide: f64,
    pub perhydroxyl: f64,
}

/// A bath's oxidants against pH, at its own temperature, chloride and ionic strength.
#[derive(Clone, Copy)]
pub struct Picture {
    totals: Totals,
    folded: Folded,
}

impl Picture {
    /// The shares at one pH.
    pub fn at(&self, ph: f64) -> Shares {
        let amounts = speciate(&self.totals, &self.folded, exp10(-ph));
        let amount = |species: Species| amounts[species as usize];
        Shares {
            ph,
            chlorine: amount(Species::Chlorine) / self.totals.hypochlorite,
            hypochlorous_acid: amount(Species::HypochlorousAcid) / self.totals.hypochlorite,
            hypochlorite: amount(Species::Hypochlorite) / self.totals.hypochlorite,
            hydrogen_peroxide: amount(Species::HydrogenPeroxide) / self.totals.peroxide,
            perhydroxyl: amount(Species::Perhydroxyl) / self.totals.peroxide,
        }
    }

    /// The shares at `count` evenly spaced pH from `from` to `to`, both included.
    pub fn curve(&self, from: f64, to: f64, count: usize) -> impl Iterator<Item = Shares> + '_ {
        let step = if count > 1 { (to - from) / (count - 1) as f64 } else { 0.0 };
        (0..count).map(move |index| self.at(from + step * index as f64))
    }
}

impl Mix {
    /// The picture of this bath's oxidants. Activity coefficients are those of the bath as it
    /// is, held over the whole range of pH; above I = 1 mol/kg they are those of I = 1.
    ///
    /// # Errors
    /// Hypochlorite with peroxide.
    pub fn picture(&self) -> Result<Picture, Refusal> {
        /// Little enough to change nothing, mol/kg.
        const TRACE: f64 = 1e-12;
        self.refuse_two_oxidants()?;
        let mut totals = self.totals();
        let root = solver::solve(&totals, self.constants());
        totals.hypochlorite = totals.hypochlorite.max(TRACE);
        totals.peroxide = totals.peroxide.max(TRACE);
        Ok(Picture { totals, folded: root.folded })
    }
}

/// The shares of a bath's oxidants at `count` pH from 0 to 14.
///
/// # Errors
/// As [`Mix::picture`].
pub fn species_curve(mix: &Mix, count: usize) -> Result<Vec<Shares>, Refusal> {
    Ok(mix.picture()?.curve(0.0, 14.0, count).collect())
}
