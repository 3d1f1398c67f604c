//! Hydrogen peroxide in a bottle: content by its label, and the soda ash that goes with it.

use crate::{
    chemistry::{
        household::{STRONGEST_PEROXIDE, peroxide_too_strong},
        peroxide_solution,
        substance::{HYDROGEN_PEROXIDE, SODIUM_CARBONATE},
    },
    message::{Field, Message},
    quantity::{
        Basis, ComputedEstimate, Estimate, MassConcentration, OutOfRange, QuantityKind,
        UncertainInput, grams_per_litre, in_grams_per_litre, in_grams_per_millilitre,
        propagate_uncertainty,
    },
};
use serde::{Deserialize, Serialize};

pub const PEROXIDE_STRENGTH: Field = Field("peroxide_strength");

/// Weakest bottle that a bath is planned with, % on either basis.
const WEAKEST: f64 = 0.1;

/// A bottle of hydrogen peroxide in water by its label, a titration or an assumption.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PeroxideBottle {
    /// The strength on `basis`, in percent.
    pub figure: Estimate<f64>,
    pub basis: PeroxideBasis,
}

/// What the percentage on a bottle of peroxide counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PeroxideBasis {
    /// g H2O2 in 100 g (w/w).
    ByMass,
    /// g H2O2 in 100 mL (w/v).
    ByVolume,
}

impl PeroxideBasis {
    pub const ALL: [Self; 2] = [Self::ByMass, Self::ByVolume];
}

impl PeroxideBottle {
    /// A bottle by its label. Closed bottles keep their strength for a year or more, opened ones
    /// lose some: 15 % less to 5 % more (common practice, no source).
    pub fn labelled(percent: f64, basis: PeroxideBasis) -> Self {
        let (low, high) = (0.85 * percent, 1.05 * percent);
        Self { figure: Estimate { value: percent, low, high, basis: Basis::Label }, basis }
    }

    /// A bottle without a strength: 3 to 12 %, the grades that are sold (common practice, no
    /// source). Too wide for a dose.
    pub fn unknown() -> Self {
        let figure = Estimate { value: 6.0, low: 3.0, high: 12.0, basis: Basis::Assumed };
        Self { figure, basis: PeroxideBasis::ByMass }
    }

    /// H2O2 in the bottle at 20 °C.
    ///
    /// # Errors
    /// [`OutOfRange`] beside [`PEROXIDE_STRENGTH`] outside 0.1 to 12 %.
    pub fn peroxide(&self) -> Result<ComputedEstimate<MassConcentration>, OutOfRange> {
        let [strength, density] = self.inputs()?;
        let litre = |[figure]: &[f64; 1]| [1000.0 * self.composition(*figure, density.value)[0]];
        let [litre] = propagate_uncertainty(&[strength], litre)
            .ok_or_else(|| self.out_of_range(self.figure.value))?;
        Ok(litre.map(grams_per_litre))
    }

    /// Whether the label's figure, or any part of another range, is above
    /// [`STRONGEST_PEROXIDE`].
    pub fn is_too_strong(&self) -> bool {
        self.strongest() > self.most() * (1.0 + 1e-9)
    }

    /// Refuses a bottle that [is too strong](Self::is_too_strong) for a bath.
    ///
    /// # Errors
    /// The reason, beside [`PEROXIDE_STRENGTH`].
    pub fn check(&self) -> Result<(), Message> {
        if !self.is_too_strong() && !self.figure.value.is_nan() {
            return Ok(());
        }
        Err(peroxide_too_strong(self.strongest() / 100.0).beside(PEROXIDE_STRENGTH))
    }

    /// The label's figure, else the high end of the range, in percent on its basis.
    pub fn strongest(&self) -> f64 {
        if self.figure.basis == Basis::Label { self.figure.value } else { self.figure.high }
    }

    /// The strength on its basis, and nothing for the density, which follows from it.
    ///
    /// # Errors
    /// As [`Self::peroxide`].
    pub(super) fn inputs(&self) -> Result<[UncertainInput; 2], OutOfRange> {
        let figure = self.figure;
        if self.is_too_strong() || figure.value.is_nan() || figure.value < WEAKEST {
            return Err(self.out_of_range(figure.value.max(figure.high)));
        }
        // The range is cut at the strongest bottle.
        let cut = |end: f64| end.clamp(0.0, self.most());
        let figure = Estimate { low: cut(figure.low), high: cut(figure.high), ..figure };
        let density = Estimate::exact(0.0, Basis::Computed);
        Ok([
            UncertainInput::of(PEROXIDE_STRENGTH, figure),
            UncertainInput::of(PEROXIDE_STRENGTH, density),
        ])
    }

    /// H2O2 in g/mL and density in g/mL for values of [`Self::inputs`].
    pub(super) fn composition(&self, figure: f64, _density: f64) -> [f64; 2] {
        let density = |share: f64| {
            peroxide_solution::density(share).map_or(f64::NAN, in_grams_per_millilitre)
        };
        match self.basis {
            PeroxideBasis::ByMass => {
                let share = figure / 100.0;
                [share * density(share), density(share)]
            }
            PeroxideBasis::ByVolume => {
                let strength = figure / 100.0;
                // The density differs from 1 by 4 % at most: two steps settle it to 1e-5.
                let share = strength / density(strength / density(strength));
                [strength, density(share)]
            }
        }
    }

    /// [`STRONGEST_PEROXIDE`] on this basis, in percent.
    fn most(&self) -> f64 {
        match self.basis {
            PeroxideBasis::ByMass => 100.0 * STRONGEST_PEROXIDE,
            PeroxideBasis::ByVolume => {
                let litre = peroxide_solution::strength(STRONGEST_PEROXIDE);
                litre.map_or(100.0 * STRONGEST_PEROXIDE, |litre| in_grams_per_litre(litre) / 10.0)
            }
        }
    }

    fn out_of_range(&self, given: f64) -> OutOfRange {
        OutOfRange {
            subject: PEROXIDE_STRENGTH,
            given,
            min: WEAKEST,
            max: self.most(),
            // The percentage itself, not a share.
            kind: QuantityKind::Number,
        }
    }
}

/// Grams of soda ash to a gram of H2O2: what sodium percarbonate, 2 Na2CO3 · 3 H2O2, brings, so
/// that a peroxide bath is the same liquor as a percarbonate bath of the same strength
/// (stoichiometry).
pub fn soda_ash_per_peroxide() -> f64 {
    2.0 * SODIUM_CARBONATE.grams_per_mole / (3.0 * HYDROGEN_PEROXIDE.grams_per_mole)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;

    fn grams(percent: f64, basis: PeroxideBasis) -> f64 {
        let bottle = PeroxideBottle::labelled(percent, basis);
        in_grams_per_litre(bottle.peroxide().unwrap().value)
    }

    #[test]
    fn a_litre_holds_the_share_of_its_mass() {
        // 1.0095 g/mL at 3 %, 1.0424 at 12 % by the fit.
        assert!((grams(3.0, PeroxideBasis::ByMass) - 30.28).abs() < 0.05);
        assert!((grams(12.0, PeroxideBasis::ByMass) - 125.1).abs() < 0.2);
        assert!((grams(3.0, PeroxideBasis::ByVolume) - 30.0).abs() < 1e-9);
        let by_volume = PeroxideBottle::labelled(6.0, PeroxideBasis::ByVolume);
        let [strength, density] = by_volume.composition(6.0, 0.0);
        let share = strength / density;
        let exact = in_grams_per_millilitre(peroxide_solution::density(share).unwrap());
        assert!((density - exact).abs() < 1e-4);
    }

    #[test]
    fn above_12_percent_is_refused_on_both_bases() {
        for basis in PeroxideBasis::ALL {
            assert!(PeroxideBottle::labelled(12.0, basis).peroxide().is_ok(), "{basis:?}");
            for percent in [13.0, 30.0, 35.0, 0.0, f64::NAN] {
                let error = PeroxideBottle::labelled(percent, basis).peroxide().unwrap_err();
                assert_eq!(error.subject, PEROXIDE_STRENGTH, "{percent} {basis:?}");
            }
        }
        let found = Estimate { value: 11.5, low: 11.0, high: 12.5, basis: Basis::Measured };
        let bottle = PeroxideBottle { figure: found, basis: PeroxideBasis::ByMass };
        assert!(bottle.is_too_strong());
    }

    #[test]
    fn the_limit_is_one_of_mass_whatever_the_label_counts() {
        let refused = |percent, basis| PeroxideBottle::labelled(percent, basis).check().is_err();
        // 12 g in 100 g are 12.5 g in 100 mL.
        assert!(!refused(12.0, PeroxideBasis::ByMass) && refused(12.1, PeroxideBasis::ByMass));
        assert!(!refused(12.4, PeroxideBasis::ByVolume) && refused(12.6, PeroxideBasis::ByVolume));
        assert!(refused(f64::NAN, PeroxideBasis::ByMass));
        // Measured: any part of the range.
        let measured = |figure| PeroxideBottle {
            figure: Estimate::within(figure, 0.05, Basis::Measured),
            basis: PeroxideBasis::ByMass,
        };
        assert!(measured(11.8).check().is_err() && measured(11.0).check().is_ok());
    }

    #[test]
    fn soda_ash_is_that_of_percarbonate() {
        assert!((soda_ash_per_peroxide() - 2.0775).abs() < 5e-4);
    }
}
