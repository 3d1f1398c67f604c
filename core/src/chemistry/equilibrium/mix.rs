//! What was put into a bath.

use super::balance::Totals;
use super::constants::Constants;
use crate::chemistry::refusal::{Refusal, within};
use crate::chemistry::substance::in_moles_per_litre;
use crate::message::Field;
use crate::quantity::QuantityKind;
use uom::si::f64::MolarConcentration;

/// Whether the bath trades carbon dioxide with the air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Air {
    /// No exchange: right for the hours that a bath lasts.
    #[default]
    Closed,
    /// At rest with air that holds this much CO2, atm: where a liquor left standing ends.
    Open { carbon_dioxide_atm: f64 },
}

/// What is dissolved in a bath, at one temperature. Amounts are moles per litre of liquor at
/// that temperature; adding twice adds up, and adding a negative amount counts as none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    constants: Constants,
    air: Air,
    /// mol/L.
    sodium: f64,
    other_charge: f64,
    other_strength: f64,
    other_count: f64,
    chloride: f64,
    hypochlorite: f64,
    carbonate: f64,
    peroxide: f64,
    acetate: f64,
    citrate: f64,
}

impl Mix {
    /// Pure water at a temperature in °C.
    ///
    /// # Errors
    /// Outside 5-80 °C.
    pub fn new(celsius: f64) -> Result<Self, Refusal> {
        Ok(Self::at(Constants::at(celsius)?))
    }

    /// Pure water at the temperature of constants that were worked out before.
    pub fn at(constants: Constants) -> Self {
        Self {
            constants,
            air: Air::Closed,
            sodium: 0.0,
            other_charge: 0.0,
            other_strength: 0.0,
            other_count: 0.0,
            chloride: 0.0,
            hypochlorite: 0.0,
            carbonate: 0.0,
            peroxide: 0.0,
            acetate: 0.0,
            citrate: 0.0,
        }
    }

    /// The same contents at another temperature.
    #[must_use]
    pub fn moved_to(mut self, constants: Constants) -> Self {
        self.constants = constants;
        self
    }

    /// NaOCl with the equal amount of NaCl that its making leaves in it: bleach.
    #[must_use]
    pub fn with_bleach(self, hypochlorite: MolarConcentration) -> Self {
        self.with_hypochlorite(hypochlorite).with_salt(hypochlorite)
    }

    /// NaOCl alone.
    #[must_use]
    pub fn with_hypochlorite(mut self, amount: MolarConcentration) -> Self {
        let amount = taken(amount);
        self.sodium += amount;
        self.hypochlorite += amount;
        self
    }

    /// NaCl.
    #[must_use]
    pub fn with_salt(mut self, amount: MolarConcentration) -> Self {
        let amount = taken(amount);
        self.sodium += amount;
        self.chloride += amount;
        self
    }

    /// NaOH.
    #[must_use]
    pub fn with_lye(mut self, amount: MolarConcentration) -> Self {
        self.sodium += taken(amount);
        self
    }

    /// Na2CO3.
    #[must_use]
    pub fn with_soda_ash(mut self, amount: MolarConcentration) -> Self {
        let amount = taken(amount);
        self.sodium += 2.0 * amount;
        self.carbonate += amount;
        self
    }

    /// NaHCO3.
    #[must_use]
    pub fn with_baking_soda(mut self, amount: MolarConcentration) -> Self {
        let amount = taken(amount);
        self.sodium += amount;
        self.carbonate += amount;
        self
    }

    /// Dissolved CO2 (looked at only while [`Air::Closed`]).
    #[must_use]
    pub fn with_carbon_dioxide(mut self, amount: MolarConcentration) -> Self {
        self.carbonate += taken(amount);
        self
    }

    /// H2O2.
    #[must_use]
    pub fn with_peroxide(mut self, amount: MolarConcentration) -> Self {
        self.peroxide += taken(amount);
        self
    }

    /// Sodium percarbonate as moles of Na2CO3·1.5H2O2 (157.01 g/mol).
    #[must_use]
    pub fn with_percarbonate(self, amount: MolarConcentration) -> Self {
        self.with_soda_ash(amount).with_peroxide(amount * 1.5)
    }

    /// Acetic acid.
    #[must_use]
    pub fn with_acetic_acid(mut self, amount: MolarConcentration) -> Self {
        self.acetate += taken(amount);
        self
    }

    /// Citric acid.
    #[must_use]
    pub fn with_citric_acid(mut self, amount: MolarConcentration) -> Self {
        self.citrate += taken(amount);
        self
    }

    /// Na2SO4, Na2S2O3 or another salt of sodium with a twofold ion that takes up no protons
    /// here: counted for ionic strength only.
    #[must_use]
    pub fn with_sulfate(mut self, amount: MolarConcentration) -> Self {
        let amount = taken(amount);
        self.sodium += 2.0 * amount;
        self.other_charge -= 2.0 * amount;
        self.other_strength += 4.0 * amount;
        self.other_count += amount;
        self
    }

    /// Strong acid with an inert onefold ion (as HCl without its chloride), or, if negative,
    /// strong base: the charge that a measured pH shows and the recipe does not.
    #[must_use]
    pub fn with_strong_acid(mut self, amount: MolarConcentration) -> Self {
        let amount = in_moles_per_litre(amount);
        if amount > 0.0 {
            self.other_charge -= amount;
            self.other_strength += amount;
            self.other_count += amount;
        } else if amount < 0.0 {
            self.sodium -= amount;
        }
        self
    }

    /// The same bath, open or closed.
    ///
    /// # Errors
    /// A partial pressure below zero or above one atmosphere.
    pub fn under(mut self, air: Air) -> Result<Self, Refusal> {
        if let Air::Open { carbon_dioxide_atm } = air {
            within(CARBON_DIOXIDE, QuantityKind::Number, carbon_dioxide_atm, 0.0, 1.0)?;
        }
        self.air = air;
        Ok(self)
    }

    /// The constants in use.
    pub fn constants(&self) -> &Constants {
        &self.constants
    }

    /// Chlorine(+1) in the mix, mol/L.
    pub fn hypochlorite_moles_per_litre(&self) -> f64 {
        self.hypochlorite
    }

    /// Chloride in the mix, mol/L.
    pub fn chloride_moles_per_litre(&self) -> f64 {
        self.chloride
    }

    pub(super) fn refuse_two_oxidants(&self) -> Result<(), Refusal> {
        if self.hypochlorite > 0.0 && self.peroxide > 0.0 {
            return Err(Refusal::TwoOxidants);
        }
        Ok(())
    }

    /// The contents per kilogram of water, taking a litre of liquor to hold as much water as
    /// a litre of water does (within 1 % for these salts below 0.5 mol/L).
    pub(super) fn totals(&self) -> Totals {
        let per_litre = 1.0 / self.constants.kilograms_per_litre;
        Totals {
            spectator_charge: (self.sodium + self.other_charge) * per_litre,
            spectator_strength: (self.sodium + self.other_strength) * per_litre,
            spectator_count: (self.sodium + self.other_count) * per_litre,
            chloride: self.chloride * per_litre,
            hypochlorite: self.hypochlorite * per_litre,
            carbonate: self.carbonate * per_litre,
            peroxide: self.peroxide * per_litre,
            acetate: self.acetate * per_litre,
            citrate: self.citrate * per_litre,
            open_carbon_dioxide: match self.air {
                Air::Closed => None,
                Air::Open { carbon_dioxide_atm } => {
                    Some(self.constants.carbon_dioxide_henry * carbon_dioxide_atm)
                }
            },
        }
    }
}

/// The field that a refusal about the air's carbon dioxide belongs beside.
pub const CARBON_DIOXIDE: Field = Field("carbon_dioxide");

/// An amount in mol/L; less than none, or no number, counts as none.
fn taken(amount: MolarConcentration) -> f64 {
    in_moles_per_litre(amount).max(0.0)
}
