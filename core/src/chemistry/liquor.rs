//! A liquor from its recipe: pH, pH window, gas region, incompatibilities.

use super::{
    alkali::PhWindow,
    compatibility::{Clash, ClashSeverity, Ingredient, clashes},
    equilibrium::{EquilibriumError, Mix},
    headspace::{GasRegion, Headspace},
    oxidant::Oxidant,
    percarbonate::{self, PercarbonatePowder, PeroxideConditions, Released},
    substance::{
        ACETIC_ACID, CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE,
        in_moles_per_litre, moles_per_litre,
    },
};
use crate::{
    message::Field,
    quantity::{
        Basis, Estimate, MassConcentration, OutOfRange, QuantityKind, Volume, grams,
        grams_per_litre, in_grams_per_litre,
    },
};

/// Vinegar in a litre of liquor, mL.
pub const VINEGAR: Field = Field("vinegar_in_liquor");
/// Hardness of the water, as calcium carbonate.
pub const HARDNESS: Field = Field("water_hardness");

/// Acetic acid in household vinegar, g/L (5 % by volume; from memory).
const VINEGAR_STRENGTH: f64 = 50.0;
/// Moles of H2O2 in one of Na2CO3·1.5H2O2.
const PEROXIDE_PER_PERCARBONATE: f64 = 1.5;

/// Contents of a litre of liquor.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    pub oxidant: Oxidant,
    /// Available chlorine, or H2O2 (from percarbonate).
    pub active: MassConcentration,
    /// Soda ash besides that of percarbonate.
    pub soda_ash: MassConcentration,
    /// mL of 5 % vinegar.
    pub vinegar: f64,
    pub celsius: f64,
    /// Other ingredients, and materials that touch the liquor.
    pub co_solutes: Vec<Ingredient>,
}

/// A liquor at equilibrium.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedLiquor {
    pub oxidant: Oxidant,
    pub mix: Mix,
    pub ph: f64,
    /// For hypochlorite.
    pub gas: Option<GasRegion>,
    pub window: PhWindow,
}

impl Recipe {
    /// Clashes among its ingredients, most severe first.
    pub fn clashes(&self) -> Vec<Clash> {
        let mut present = vec![match self.oxidant {
            Oxidant::Hypochlorite => Ingredient::Hypochlorite,
            Oxidant::Percarbonate => Ingredient::Percarbonate,
            Oxidant::Peroxide => Ingredient::Peroxide,
        }];
        present.extend(&self.co_solutes);
        clashes(&present)
    }

    /// Whether the ingredients are incompatible, so that no pH is shown. Acid is an exception:
    /// the pH itself shows the consequence.
    pub fn is_refused(&self) -> bool {
        self.clashes().iter().any(|clash| {
            clash.severity == ClashSeverity::Refused && clash.second != Ingredient::Acid
        })
    }

    /// pH, window and gas region.
    ///
    /// # Errors
    /// A temperature outside 5-80 °C, vinegar outside 0-1000 mL, both oxidants together, or
    /// an ionic strength above 3 mol/kg.
    pub fn solve(&self) -> Result<SolvedLiquor, EquilibriumError> {
        let kind = QuantityKind::Volume;
        let vinegar = OutOfRange::check(VINEGAR, kind, self.vinegar, 0.0, 1000.0)? / 1000.0;
        let mix = Mix::new(self.celsius)?
            .with_soda_ash(SODIUM_CARBONATE.molar(self.soda_ash))
            .with_acetic_acid(ACETIC_ACID.molar(grams_per_litre(VINEGAR_STRENGTH * vinegar)));
        let (mix, window) = match self.oxidant {
            Oxidant::Hypochlorite => {
                (mix.with_bleach(CHLORINE.molar(self.active)), PhWindow::HYPOCHLORITE)
            }
            Oxidant::Percarbonate | Oxidant::Peroxide => {
                let percarbonate = SODIUM_PERCARBONATE.molar(self.percarbonate());
                (mix.with_percarbonate(percarbonate), PhWindow::PEROXIDE)
            }
        };
        let trace = moles_per_litre(1e-6);
        let mix = self.co_solutes.iter().fold(mix, |mix, other| match other {
            Ingredient::Peroxide | Ingredient::Percarbonate => mix.with_peroxide(trace),
            Ingredient::Hypochlorite => mix.with_hypochlorite(trace),
            _ => mix,
        });
        let ph = mix.solve()?.ph();
        let gas = (self.oxidant == Oxidant::Hypochlorite).then(|| Headspace::of(&mix).gas_region());
        Ok(SolvedLiquor { oxidant: self.oxidant, mix, ph, gas, window })
    }

    /// Pure percarbonate that contains the peroxide.
    pub fn percarbonate(&self) -> MassConcentration {
        let peroxide = in_moles_per_litre(HYDROGEN_PEROXIDE.molar(self.active));
        SODIUM_PERCARBONATE
            .mass_concentration(moles_per_litre(peroxide / PEROXIDE_PER_PERCARBONATE))
    }

    /// Solubility, products and loss of this percarbonate liquor at a pH.
    ///
    /// # Errors
    /// More than dissolves; a temperature outside 5-80 °C; a pH outside 7-13.
    pub fn percarbonate_facts(&self, ph: f64) -> Result<PercarbonateFacts, OutOfRange> {
        let percarbonate = self.percarbonate();
        percarbonate::check_dissolves(percarbonate, self.celsius)?;
        let pure = PercarbonatePowder { share: Estimate::exact(1.0, Basis::Computed) };
        let Released { soda_ash, .. } = pure.released(percarbonate);
        let cool = PeroxideConditions { celsius: 20.0, ph };
        let here = PeroxideConditions { celsius: self.celsius, ph };
        Ok(PercarbonateFacts {
            percarbonate,
            dissolves: percarbonate::solubility(self.celsius)?,
            soda_ash: soda_ash.value,
            oxygen: pure.oxygen(grams(in_grams_per_litre(percarbonate)), self.celsius).value,
            left_after_hour: percarbonate::left_in_liquor(60.0, here)?,
            left_after_day: percarbonate::left_in_liquor(1440.0, here)?,
            faster_than_cool: percarbonate::relative_loss(cool, here)?,
        })
    }
}

/// Properties of a percarbonate liquor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PercarbonateFacts {
    /// Pure percarbonate per litre.
    pub percarbonate: MassConcentration,
    /// Solubility.
    pub dissolves: MassConcentration,
    /// Soda ash released.
    pub soda_ash: MassConcentration,
    /// Oxygen from a litre when all of it has decomposed.
    pub oxygen: Volume,
    /// Share left in the made-up liquor.
    pub left_after_hour: Estimate<f64>,
    pub left_after_day: Estimate<f64>,
    /// Rate of loss relative to 20 °C.
    pub faster_than_cool: Estimate<f64>,
}

/// Soda ash precipitated by water of this hardness (as CaCO3), per litre; upper bound.
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
            co_solutes: Vec::new(),
        }
    }

    #[test]
    fn vinegar_brings_the_liquor_into_its_gas_region() {
        // 0.0282 mol/L of acetic acid, 34 mL of 5 % vinegar: pH 6.05 (computed with another
        // solver, without activity correction of the gas).
        let slip = Recipe {
            vinegar: 33.9,
            co_solutes: vec![Ingredient::Acid],
            ..liquor(Oxidant::Hypochlorite, 2.0)
        };
        let solved = slip.solve().unwrap();
        assert!((solved.ph - 6.05).abs() < 0.05, "{}", solved.ph);
        assert!(solved.ph < solved.gas.unwrap().dangerous.unwrap());
        assert!(!slip.is_refused() && slip.clashes().len() == 1);
    }

    #[test]
    fn two_oxidants_have_no_ph() {
        for (oxidant, other) in [
            (Oxidant::Hypochlorite, Ingredient::Peroxide),
            (Oxidant::Hypochlorite, Ingredient::Percarbonate),
            (Oxidant::Percarbonate, Ingredient::Hypochlorite),
        ] {
            let both = Recipe { co_solutes: vec![other], ..liquor(oxidant, 2.0) };
            assert_eq!(both.solve(), Err(EquilibriumError::TwoOxidants));
            assert!(both.is_refused());
        }
    }

    #[test]
    fn percarbonate_facts_and_refusal_above_solubility() {
        let facts = liquor(Oxidant::Percarbonate, 3.25).percarbonate_facts(10.6).unwrap();
        assert!((in_grams_per_litre(facts.percarbonate) - 10.0).abs() < 0.01);
        assert!((in_millilitres(facts.oxygen) - 1170.0).abs() < 5.0);
        assert!((facts.faster_than_cool.value - 1.0) > 0.2);
        assert!(liquor(Oxidant::Percarbonate, 60.0).percarbonate_facts(10.6).is_err());
    }

    #[test]
    fn hard_water_precipitates_soda() {
        let lost = soda_lost(grams_per_litre(0.2));
        assert!((in_grams_per_litre(lost) - 0.2118).abs() < 1e-3);
    }
}
