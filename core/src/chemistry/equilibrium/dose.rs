//! Dose of a reagent that brings a bath to a pH.
//!
//! At a given pH the charge of a bath is linear in the amount added, so the dose follows
//! directly; only the activity coefficients are iterated.

use super::activity::{
    ActivityCoefficients, MAX_IONIC_STRENGTH, Medium, SodiumTerms, too_concentrated,
};
use super::balance::{ProtonBalance, ProtonReference};
use super::conditional::ConditionalConstants;
use super::constants::exp10;
use super::error::EquilibriumError;
use super::mix::Mix;
use super::reagent::Reagent;
use super::speciate::charge;
use super::totals::Totals;
use crate::chemistry::substance::moles_per_litre;
use crate::quantity::{OutOfRange, PH, QuantityKind};
use uom::si::f64::MolarConcentration;

impl Mix {
    /// Amount of `reagent`, mol per litre of bath, that brings this mix to `target_ph`. The
    /// volume of the reagent is neglected.
    ///
    /// # Errors
    /// A pH outside 0-14; acid while hypochlorite is present; hypochlorite with peroxide; a
    /// pH that no amount of this reagent reaches from here (on the other side, or beyond the
    /// reagent's own pH); ionic strength above 3 mol/kg.
    pub fn dose(
        &self,
        reagent: Reagent,
        target_ph: f64,
    ) -> Result<MolarConcentration, EquilibriumError> {
        OutOfRange::check(PH, QuantityKind::Ph, target_ph, 0.0, 14.0)?;
        self.refuse_two_oxidants()?;
        if reagent.is_acid() && self.hypochlorite_moles_per_litre() > 0.0 {
            return Err(EquilibriumError::AcidWithHypochlorite);
        }
        let dose =
            self.dose_per_kilogram(|totals, amount| reagent.add_to(totals, amount), target_ph)?;
        if dose < 0.0 {
            return Err(EquilibriumError::Unreachable { target_ph });
        }
        Ok(moles_per_litre(dose * self.constants().kilograms_per_litre))
    }

    /// Strong base (acid if negative), mol/L, that the bath must contain besides this mix to
    /// read `measured_ph`.
    ///
    /// # Errors
    /// A pH outside 0-14; hypochlorite with peroxide; ionic strength above 3 mol/kg.
    pub fn hidden_base(&self, measured_ph: f64) -> Result<MolarConcentration, EquilibriumError> {
        OutOfRange::check(PH, QuantityKind::Ph, measured_ph, 0.0, 14.0)?;
        self.refuse_two_oxidants()?;
        let dose = self.dose_per_kilogram(Totals::add_strong_base, measured_ph)?;
        Ok(moles_per_litre(dose * self.constants().kilograms_per_litre))
    }

    /// Amount, mol/kg, with which `add` brings the bath to `target_ph`.
    fn dose_per_kilogram(
        &self,
        add: impl Fn(&mut Totals, f64),
        target_ph: f64,
    ) -> Result<f64, EquilibriumError> {
        const MAX_ROUNDS: usize = 200;
        let unreachable = EquilibriumError::Unreachable { target_ph };
        let constants = self.constants();
        let empty = self.totals();
        let h = exp10(-target_ph);
        let mut one = Totals {
            open_carbon_dioxide: empty.open_carbon_dioxide.map(|_| 0.0),
            ..Totals::default()
        };
        add(&mut one, 1.0);

        let (mut dose, mut filled, mut medium) = (0.0, empty, Medium::guess(&empty));
        for round in 0..MAX_ROUNDS {
            let sodium = SodiumTerms::of(filled.sodium);
            let activity = ActivityCoefficients::sit(constants, &sodium, &medium);
            let conditional = ConditionalConstants::new(constants, activity);
            let charge_per_mole = charge(&one, &conditional, h);
            let next =
                -(charge(&empty, &conditional, h) + conditional.proton_charge(h)) / charge_per_mole;
            if charge_per_mole.abs() < 1e-9 || !next.is_finite() {
                return Err(unreachable);
            }
            let settled = (next - dose).abs() <= 1e-13 * (next.abs() + medium.ionic_strength);
            dose = next;
            filled = empty;
            add(&mut filled, dose);
            let at = ProtonBalance::at(&filled, &ProtonReference::of(&filled), &conditional, h);
            if settled {
                let strength = at.medium.ionic_strength;
                return if strength <= MAX_IONIC_STRENGTH {
                    Ok(dose)
                } else {
                    Err(too_concentrated(strength))
                };
            }
            // Full steps converge fastest; half steps damp oscillation.
            let share = if round < MAX_ROUNDS / 4 { 1.0 } else { 0.5 };
            let before = medium.ionic_strength;
            let found = at.medium.ionic_strength.clamp(0.0, 2.0 * MAX_IONIC_STRENGTH);
            let ionic_strength = before + share * (found - before);
            medium = Medium { ionic_strength, ..at.medium };
        }
        Err(too_concentrated(medium.ionic_strength))
    }
}
