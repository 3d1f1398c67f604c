//! How much of a thing brings a bath to a pH.
//!
//! At a given acidity the charge of a bath is linear in what is added to it, so the dose
//! follows at once; only the activity coefficients have to be settled by repetition.

use super::balance::{Folded, Totals, balance_at, charge};
use super::solver::{HIGHEST_STRENGTH, davies};
use super::{Mix, Refusal, constants::exp10};
use crate::chemistry::refusal::within;
use crate::chemistry::substance::{
    ACETIC_ACID, CITRIC_ACID, SODIUM_BICARBONATE, SODIUM_CARBONATE, SODIUM_HYDROXIDE, Substance,
    moles_per_litre,
};
use crate::quantity::{PH, QuantityKind};
use uom::si::f64::MolarConcentration;

/// Something that moves the pH of a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Reagent {
    /// NaOH.
    Lye,
    /// Na2CO3.
    SodaAsh,
    /// NaHCO3.
    BakingSoda,
    AceticAcid,
    CitricAcid,
    /// Dissolved carbon dioxide.
    CarbonDioxide,
}

impl Reagent {
    /// Whether this only ever takes a bath towards acid.
    pub fn is_acid(self) -> bool {
        matches!(self, Self::AceticAcid | Self::CitricAcid | Self::CarbonDioxide)
    }

    /// What is weighed, anhydrous; nothing for dissolved CO2.
    pub fn substance(self) -> Option<Substance> {
        match self {
            Self::Lye => Some(SODIUM_HYDROXIDE),
            Self::SodaAsh => Some(SODIUM_CARBONATE),
            Self::BakingSoda => Some(SODIUM_BICARBONATE),
            Self::AceticAcid => Some(ACETIC_ACID),
            Self::CitricAcid => Some(CITRIC_ACID),
            Self::CarbonDioxide => None,
        }
    }

    fn add_to(self, totals: &mut Totals, amount: f64) {
        let sodium = match self {
            Self::Lye | Self::BakingSoda => amount,
            Self::SodaAsh => 2.0 * amount,
            Self::AceticAcid | Self::CitricAcid | Self::CarbonDioxide => 0.0,
        };
        totals.spectator_charge += sodium;
        totals.spectator_strength += sodium;
        totals.spectator_count += sodium;
        match self {
            Self::Lye => {}
            Self::SodaAsh | Self::BakingSoda | Self::CarbonDioxide => totals.carbonate += amount,
            Self::AceticAcid => totals.acetate += amount,
            Self::CitricAcid => totals.citrate += amount,
        }
    }
}

impl Mix {
    /// The amount of `reagent`, in moles per litre of bath, that brings this mix to
    /// `target_ph`; its own volume is not counted.
    ///
    /// # Errors
    /// A pH outside 0-14; acid while hypochlorite is present; hypochlorite with peroxide; a
    /// pH that no amount of this reagent reaches from here (it lies on the other side, or
    /// beyond the reagent's own pH); too much salt on the way.
    pub fn dose(&self, reagent: Reagent, target_ph: f64) -> Result<MolarConcentration, Refusal> {
        within(PH, QuantityKind::Ph, target_ph, 0.0, 14.0)?;
        self.refuse_two_oxidants()?;
        if reagent.is_acid() && self.hypochlorite_moles_per_litre() > 0.0 {
            return Err(Refusal::AcidWithHypochlorite);
        }
        let dose =
            self.dose_per_kilogram(|totals, amount| reagent.add_to(totals, amount), target_ph)?;
        if dose < 0.0 {
            return Err(Refusal::Unreachable { target_ph });
        }
        Ok(moles_per_litre(dose * self.constants().kilograms_per_litre))
    }

    /// The strong base (or acid, if negative) that must be in the bath besides this mix for it
    /// to read `measured_ph`, moles per litre.
    ///
    /// # Errors
    /// A pH outside 0-14; hypochlorite with peroxide; too much salt.
    pub fn hidden_base(&self, measured_ph: f64) -> Result<MolarConcentration, Refusal> {
        within(PH, QuantityKind::Ph, measured_ph, 0.0, 14.0)?;
        self.refuse_two_oxidants()?;
        let add = |totals: &mut Totals, amount: f64| {
            totals.spectator_charge += amount;
            totals.spectator_strength += amount.abs();
            totals.spectator_count += amount.abs();
        };
        let dose = self.dose_per_kilogram(add, measured_ph)?;
        Ok(moles_per_litre(dose * self.constants().kilograms_per_litre))
    }

    /// Solves for the amount, mol/kg, that `add` must be called with.
    fn dose_per_kilogram(
        &self,
        add: impl Fn(&mut Totals, f64),
        target_ph: f64,
    ) -> Result<f64, Refusal> {
        const MOST_ROUNDS: usize = 200;
        let unreachable = Refusal::Unreachable { target_ph };
        let constants = self.constants();
        let empty = self.totals();
        let h = exp10(-target_ph);
        let mut one = Totals {
            open_carbon_dioxide: empty.open_carbon_dioxide.map(|_| 0.0),
            ..Totals::default()
        };
        add(&mut one, 1.0);

        let (mut dose, mut strength, mut solutes) =
            (0.0, empty.spectator_strength, 2.0 * empty.spectator_count);
        for round in 0..MOST_ROUNDS {
            let folded = Folded::new(constants, davies(constants, strength, solutes));
            let worth = charge(&one, &folded, h);
            let next = -(charge(&empty, &folded, h) + folded.proton_charge(h)) / worth;
            if worth.abs() < 1e-9 || !next.is_finite() {
                return Err(unreachable);
            }
            let settled = (next - dose).abs() <= 1e-13 * (next.abs() + strength);
            dose = next;
            let mut filled = empty;
            add(&mut filled, dose);
            let at = balance_at(&filled, &folded, h);
            if settled {
                return if at.ionic_strength <= HIGHEST_STRENGTH {
                    Ok(dose)
                } else {
                    Err(too_concentrated(at.ionic_strength))
                };
            }
            // Whole steps settle fastest; half steps settle what swings.
            let share = if round < MOST_ROUNDS / 4 { 1.0 } else { 0.5 };
            let found = at.ionic_strength.clamp(0.0, 2.0 * HIGHEST_STRENGTH);
            strength += share * (found - strength);
            solutes = at.solutes;
        }
        Err(too_concentrated(strength))
    }
}

fn too_concentrated(ionic_strength: f64) -> Refusal {
    Refusal::TooConcentrated { ionic_strength, highest: HIGHEST_STRENGTH }
}
