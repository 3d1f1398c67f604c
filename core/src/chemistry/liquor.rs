//! A liquor as a person would state it, worked out.

use super::{
    alkali::Window,
    compatibility::{Clash, Ingredient, Severity, clashes},
    equilibrium::Mix,
    headspace::{self, GasRegion},
    percarbonate::{self, Powder, Released},
    refusal::{Refusal, within},
    substance::{
        ACETIC_ACID, CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE,
        in_moles_per_litre, moles_per_litre,
    },
};
use crate::{
    chemistry::Oxidant,
    message::Field,
    quantity::{
        Basis, Estimate, MassConcentration, QuantityKind, Volume, grams, grams_per_litre,
        in_grams_per_litre,
    },
};

/// Vinegar that got into a litre of liquor, mL.
pub const VINEGAR: Field = Field("vinegar_in_liquor");
/// Hardness of the water, as calcium carbonate.
pub const HARDNESS: Field = Field("water_hardness");

/// Acetic acid in household vinegar, g/L (5 % by volume; from memory).
const VINEGAR_STRENGTH: f64 = 50.0;
/// Moles of H2O2 in one of Na2CO3·1.5H2O2.
const PEROXIDE_PER_PERCARBONATE: f64 = 1.5;

/// What is in a litre.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    pub oxidant: Oxidant,
    /// Available chlorine, or H2O2 (from percarbonate).
    pub active: MassConcentration,
    /// Soda ash besides what percarbonate brings.
    pub soda_ash: MassConcentration,
    /// mL of 5 % vinegar that got into the litre.
    pub vinegar: f64,
    pub celsius: f64,
    /// What else is in it, or touches it.
    pub company: Vec<Ingredient>,
}

/// A liquor worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkedOut {
    pub oxidant: Oxidant,
    pub mix: Mix,
    pub ph: f64,
    /// For hypochlorite.
    pub gas: Option<GasRegion>,
    pub window: Window,
}

impl Recipe {
    /// What its parts do to each other, the worst first.
    pub fn clashes(&self) -> Vec<Clash> {
        let mut present = vec![match self.oxidant {
            Oxidant::Hypochlorite => Ingredient::Hypochlorite,
            Oxidant::Percarbonate => Ingredient::Percarbonate,
            Oxidant::Peroxide => Ingredient::Peroxide,
        }];
        present.extend(&self.company);
        clashes(&present)
    }

    /// Whether the mixture has no pH worth telling: something is in it that must not be. Acid
    /// is no such case: its slip is answered by the pH that it makes.
    pub fn is_refused(&self) -> bool {
        self.clashes()
            .iter()
            .any(|clash| clash.severity == Severity::Refused && clash.second != Ingredient::Acid)
    }

    /// pH, window and gas region.
    ///
    /// # Errors
    /// A temperature outside 5-80 °C, vinegar outside 0-1000 mL, the two oxidants together, or
    /// more salt than the model takes.
    pub fn work_out(&self) -> Result<WorkedOut, Refusal> {
        let vinegar = within(VINEGAR, QuantityKind::Volume, self.vinegar, 0.0, 1000.0)? / 1000.0;
        let mix = Mix::new(self.celsius)?
            .with_soda_ash(SODIUM_CARBONATE.molar(self.soda_ash))
            .with_acetic_acid(ACETIC_ACID.molar(grams_per_litre(VINEGAR_STRENGTH * vinegar)));
        let (mix, window) = match self.oxidant {
            Oxidant::Hypochlorite => {
                (mix.with_bleach(CHLORINE.molar(self.active)), Window::HYPOCHLORITE)
            }
            Oxidant::Percarbonate | Oxidant::Peroxide => {
                let percarbonate = SODIUM_PERCARBONATE.molar(self.percarbonate());
                (mix.with_percarbonate(percarbonate), Window::PEROXIDE)
            }
        };
        let trace = moles_per_litre(1e-6);
        let mix = self.company.iter().fold(mix, |mix, other| match other {
            Ingredient::Peroxide | Ingredient::Percarbonate => mix.with_peroxide(trace),
            Ingredient::Hypochlorite => mix.with_hypochlorite(trace),
            _ => mix,
        });
        let chlorine = self.oxidant == Oxidant::Hypochlorite;
        let ph = mix.solve()?.ph();
        let gas = chlorine.then(|| headspace::Liquor::of(&mix).gas_region());
        Ok(WorkedOut { oxidant: self.oxidant, mix, ph, gas, window })
    }

    /// The pure percarbonate that holds the peroxide.
    pub fn percarbonate(&self) -> MassConcentration {
        let peroxide = in_moles_per_litre(HYDROGEN_PEROXIDE.molar(self.active));
        SODIUM_PERCARBONATE
            .mass_concentration(moles_per_litre(peroxide / PEROXIDE_PER_PERCARBONATE))
    }

    /// What is to be known of this liquor of percarbonate, at a pH.
    ///
    /// # Errors
    /// More than dissolves; a temperature outside 5-80 °C; a pH outside 7-13.
    pub fn percarbonate_truth(&self, ph: f64) -> Result<PercarbonateTruth, Refusal> {
        let percarbonate = self.percarbonate();
        percarbonate::refuse_undissolved(percarbonate, self.celsius)?;
        let pure = Powder { share: Estimate::exact(1.0, Basis::Computed) };
        let Released { soda_ash, .. } = pure.released(percarbonate);
        let cool = percarbonate::Standing { celsius: 20.0, ph };
        let here = percarbonate::Standing { celsius: self.celsius, ph };
        Ok(PercarbonateTruth {
            percarbonate,
            dissolves: percarbonate::solubility(self.celsius)?,
            soda_ash: soda_ash.value,
            oxygen: pure.oxygen(grams(in_grams_per_litre(percarbonate)), self.celsius).value,
            left_after_hour: percarbonate::left_in_liquor(60.0)?,
            left_after_day: percarbonate::left_in_liquor(1440.0)?,
            faster_than_cool: percarbonate::relative_loss(cool, here)?,
        })
    }
}

/// What a liquor of percarbonate does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PercarbonateTruth {
    /// Of the pure, to a litre.
    pub percarbonate: MassConcentration,
    /// The most that goes in.
    pub dissolves: MassConcentration,
    /// That it brings.
    pub soda_ash: MassConcentration,
    /// That a litre gives off when all is spent.
    pub oxygen: Volume,
    /// Shares, where it stands made up.
    pub left_after_hour: Estimate<f64>,
    pub left_after_day: Estimate<f64>,
    /// How many times as fast it is lost as at 20 °C.
    pub faster_than_cool: Estimate<f64>,
}

/// Soda ash that water of this hardness (as CaCO3) takes out of each litre, at most.
pub fn soda_lost(hardness: MassConcentration) -> MassConcentration {
    SODIUM_CARBONATE.mass_concentration(percarbonate::soda_lost_to_hardness(hardness))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::quantity::in_millilitres;

    fn liquor(oxidant: Oxidant, active: f64) -> Recipe {
        Recipe {
            oxidant,
            active: grams_per_litre(active),
            soda_ash: grams_per_litre(0.0),
            vinegar: 0.0,
            celsius: 25.0,
            company: Vec::new(),
        }
    }

    #[test]
    fn a_slip_of_vinegar_brings_the_liquor_into_its_gas_region() {
        // 0.0282 mol/L of acetic acid, 34 mL of 5 % vinegar: pH 6.05 (computed with another
        // solver, without activity correction of the gas).
        let slip = Recipe {
            vinegar: 33.9,
            company: vec![Ingredient::Acid],
            ..liquor(Oxidant::Hypochlorite, 2.0)
        };
        let worked = slip.work_out().unwrap();
        assert!((worked.ph - 6.05).abs() < 0.05, "{}", worked.ph);
        assert!(worked.ph < worked.gas.unwrap().dangerous.unwrap());
        assert!(!slip.is_refused() && slip.clashes().len() == 1);
    }

    #[test]
    fn two_oxidants_have_no_ph() {
        for (oxidant, other) in [
            (Oxidant::Hypochlorite, Ingredient::Peroxide),
            (Oxidant::Hypochlorite, Ingredient::Percarbonate),
            (Oxidant::Percarbonate, Ingredient::Hypochlorite),
        ] {
            let both = Recipe { company: vec![other], ..liquor(oxidant, 2.0) };
            assert_eq!(both.work_out(), Err(Refusal::TwoOxidants));
            assert!(both.is_refused());
        }
    }

    #[test]
    fn percarbonate_tells_its_truth_and_refuses_what_lies_at_the_bottom() {
        let truth = liquor(Oxidant::Percarbonate, 3.25).percarbonate_truth(10.6).unwrap();
        assert!((in_grams_per_litre(truth.percarbonate) - 10.0).abs() < 0.01);
        assert!((in_millilitres(truth.oxygen) - 1170.0).abs() < 5.0);
        assert!((truth.faster_than_cool.value - 1.0) > 0.2);
        assert!(liquor(Oxidant::Percarbonate, 60.0).percarbonate_truth(10.6).is_err());
    }

    #[test]
    fn hard_water_takes_soda() {
        let lost = soda_lost(grams_per_litre(0.2));
        assert!((in_grams_per_litre(lost) - 0.2118).abs() < 1e-3);
    }
}
