//! Figures of merit for washing, as mills quote them.
//! Not here: the number of rinses by hand, which is `plan`.
//!
//! All liquor amounts are masses of liquor per mass of oven-dry fibre (both
//! ends in the same unit); concentrations are in any one unit. Definitions:
//! Sixta (ed.), *Handbook of Pulp* (2006), ch. 5, for the dilution factor and
//! the Norden number; Perkins for the displacement ratio and the wash yield
//! (from memory).

use super::{RinsePlan, Wash};
use crate::quantity::{Estimate, MassConcentration, in_grams, in_grams_per_litre, in_millilitres};

/// A washer, or a whole row of them, by its inlets and outlets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Washer {
    /// Liquor that enters with the fibre, per fibre.
    pub liquor_in: f64,
    /// Liquor that leaves with the fibre, per fibre.
    pub liquor_out: f64,
    /// Clean wash liquor, per fibre.
    pub wash: f64,
    /// Solute in the liquor that enters with the fibre.
    pub x_in: f64,
    /// Solute in the liquor that leaves with the fibre.
    pub x_out: f64,
    /// Solute in the wash liquor.
    pub y_in: f64,
}

impl Washer {
    /// A whole wash by hand as one washer, for the solute that decided the
    /// number of rinses. `None` if none did.
    pub fn of_plan(wash: &Wash, plan: &RinsePlan) -> Option<Self> {
        let solute = plan.slowest?;
        let grams_per_litre = |known: Estimate<MassConcentration>| in_grams_per_litre(known.value);
        let fibre = in_grams(wash.pulp.dry_fibre().value);
        let held = in_grams(wash.pulp.held().value) / fibre;
        Some(Self {
            liquor_in: held,
            liquor_out: held,
            wash: in_millilitres(plan.water) / fibre,
            x_in: grams_per_litre(wash.liquor.get(solute)?),
            x_out: grams_per_litre(plan.steps.last()?.left.get(solute)?),
            y_in: wash.tap.get(solute).map_or(0.0, in_grams_per_litre),
        })
    }

    /// Liquor that leaves as filtrate, per fibre: inlets less the liquor that
    /// leaves with the fibre.
    pub fn filtrate(&self) -> f64 {
        self.liquor_in + self.wash - self.liquor_out
    }

    /// Solute in the filtrate, by mass balance. `None` if no filtrate leaves.
    pub fn y_out(&self) -> Option<f64> {
        let filtrate = self.filtrate();
        (filtrate > 0.0).then(|| {
            (self.liquor_in * self.x_in + self.wash * self.y_in - self.liquor_out * self.x_out)
                / filtrate
        })
    }

    /// Wash liquor in excess of the liquor that leaves with the fibre, per fibre.
    pub fn dilution_factor(&self) -> f64 {
        self.wash - self.liquor_out
    }

    /// Displacement ratio: 1 is a full exchange of the liquor. `None` if the
    /// wash is no cleaner than the liquor.
    pub fn displacement_ratio(&self) -> Option<f64> {
        let span = self.x_in - self.y_in;
        (span > 0.0).then(|| (self.x_in - self.x_out) / span)
    }

    /// Share of the solute washed out. `None` if there was none.
    pub fn wash_yield(&self) -> Option<f64> {
        let entering = self.liquor_in * self.x_in;
        (entering > 0.0).then(|| 1.0 - self.liquor_out * self.x_out / entering)
    }

    /// Norden's efficiency: the number of ideal counter-current mixing stages
    /// of the same effect. `None` where the formula is undefined (wash no
    /// cleaner than what leaves, or nothing exchanged).
    pub fn norden(&self) -> Option<f64> {
        let (spread_in, spread_out) = self.spreads()?;
        if !(spread_in > 0.0 && spread_out > 0.0 && self.liquor_out > 0.0 && self.wash > 0.0) {
            return None;
        }
        if (self.wash / self.liquor_out - 1.0).abs() < 1e-9 {
            // The limit as the wash approaches the liquor that leaves with the fibre:
            // n equal steps, of which the last is what is left above the wash.
            let at_limit = (self.x_in - self.x_out) / (self.x_out - self.y_in);
            return ((self.liquor_in / self.liquor_out - 1.0).abs() < 1e-9).then_some(at_limit);
        }
        Some((spread_in / spread_out).ln() / (self.wash / self.liquor_out).ln())
    }

    /// Norden's efficiency brought to a common outlet consistency of 10 %
    /// (9 of liquor per fibre), so that washers can be compared.
    pub fn e10(&self) -> Option<f64> {
        let (spread_in, spread_out) = self.spreads()?;
        let common = (1.0 + self.dilution_factor() / 9.0).ln();
        (spread_in > 0.0 && spread_out > 0.0 && common.is_finite() && common.abs() > 1e-12)
            .then(|| (spread_in / spread_out).ln() / common)
    }

    /// Liquor times its excess of solute, where the fibre enters and where it leaves.
    fn spreads(&self) -> Option<(f64, f64)> {
        let spread_in = self.liquor_in * (self.x_in - self.y_out()?);
        Some((spread_in, self.liquor_out * (self.x_out - self.y_in)))
    }
}

/// Solute left, over solute in, after `stages` ideal counter-current mixing
/// stages with clean wash liquor, the fibre carrying `liquor` throughout
/// (Kremser's equation with the wash factor `wash / liquor`).
pub fn counter_current(liquor: f64, wash: f64, stages: u32) -> f64 {
    let factor = wash / liquor;
    let n = f64::from(stages);
    if (factor - 1.0).abs() < 1e-9 {
        1.0 / (n + 1.0)
    } else {
        (factor - 1.0) / (factor.powf(n + 1.0) - 1.0)
    }
}
