//! Contents of a bath.

use super::constants::Constants;
use super::error::EquilibriumError;
use super::reagent::Reagent;
use super::totals::Totals;
use crate::chemistry::substance::in_moles_per_litre;
use crate::message::Field;
use crate::quantity::{OutOfRange, QuantityKind};
use serde::{Deserialize, Serialize};
use uom::si::f64::MolarConcentration;

pub const CARBON_DIOXIDE: Field = Field("carbon_dioxide");

/// Partial pressure of carbon dioxide in outdoor air, atm: about 420 ppm in the early 2020s
/// (from memory). Indoors it is often twice that.
pub const OUTDOOR_CARBON_DIOXIDE: f64 = 420e-6;

/// Exchange of carbon dioxide between bath and air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Air {
    /// No exchange: valid for the hours of a bath.
    #[default]
    Closed,
    /// Equilibrium with air of this partial pressure of CO2, atm: a liquor left standing.
    Open { carbon_dioxide_atm: f64 },
}

/// Dissolved contents of a bath at one temperature. Amounts are moles per litre of liquor at
/// that temperature. Repeated additions add up; a negative amount or NaN adds nothing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(into = "MixMessage", try_from = "MixMessage")]
pub struct Mix {
    constants: Constants,
    air: Air,
    /// mol/L, as if closed to the air.
    contents: Totals,
}

/// A mix between page and worker: its constants follow from the temperature.
#[derive(Clone, Copy, Serialize, Deserialize)]
struct MixMessage {
    celsius: f64,
    air: Air,
    contents: Totals,
}

impl From<Mix> for MixMessage {
    fn from(Mix { constants, air, contents }: Mix) -> Self {
        Self { celsius: constants.celsius, air, contents }
    }
}

impl TryFrom<MixMessage> for Mix {
    type Error = OutOfRange;

    fn try_from(MixMessage { celsius, air, contents }: MixMessage) -> Result<Self, OutOfRange> {
        Ok(Self { constants: Constants::at(celsius)?, air, contents })
    }
}

impl Mix {
    /// Pure water at a temperature in °C.
    ///
    /// # Errors
    /// Outside 5-80 °C.
    pub fn new(celsius: f64) -> Result<Self, OutOfRange> {
        Ok(Self::at(Constants::at(celsius)?))
    }

    /// Pure water at the temperature of `constants`.
    pub fn at(constants: Constants) -> Self {
        Self { constants, air: Air::Closed, contents: Totals::default() }
    }

    /// Adds a reagent.
    #[must_use]
    pub fn with(mut self, reagent: Reagent, amount: MolarConcentration) -> Self {
        reagent.add_to(&mut self.contents, positive(amount));
        self
    }

    /// Bleach: NaOCl with the equimolar NaCl from its manufacture.
    #[must_use]
    pub fn with_bleach(self, hypochlorite: MolarConcentration) -> Self {
        self.with_hypochlorite(hypochlorite).with_salt(hypochlorite)
    }

    /// NaOCl alone.
    #[must_use]
    pub fn with_hypochlorite(mut self, amount: MolarConcentration) -> Self {
        let amount = positive(amount);
        self.contents.sodium += amount;
        self.contents.hypochlorite += amount;
        self
    }

    /// NaCl.
    #[must_use]
    pub fn with_salt(mut self, amount: MolarConcentration) -> Self {
        let amount = positive(amount);
        self.contents.sodium += amount;
        self.contents.chloride += amount;
        self
    }

    /// NaOH.
    #[must_use]
    pub fn with_lye(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::Lye, amount)
    }

    /// Na2CO3.
    #[must_use]
    pub fn with_soda_ash(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::SodaAsh, amount)
    }

    /// NaHCO3.
    #[must_use]
    pub fn with_baking_soda(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::BakingSoda, amount)
    }

    /// Dissolved CO2 (ignored unless [`Air::Closed`]).
    #[must_use]
    pub fn with_carbon_dioxide(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::CarbonDioxide, amount)
    }

    /// H2O2.
    #[must_use]
    pub fn with_peroxide(mut self, amount: MolarConcentration) -> Self {
        self.contents.peroxide += positive(amount);
        self
    }

    /// Sodium percarbonate as moles of Na2CO3·1.5H2O2 (157.01 g/mol).
    #[must_use]
    pub fn with_percarbonate(self, amount: MolarConcentration) -> Self {
        self.with_soda_ash(amount).with_peroxide(amount * 1.5)
    }

    /// Acetic acid.
    #[must_use]
    pub fn with_acetic_acid(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::AceticAcid, amount)
    }

    /// Citric acid.
    #[must_use]
    pub fn with_citric_acid(self, amount: MolarConcentration) -> Self {
        self.with(Reagent::CitricAcid, amount)
    }

    /// Na2SO4, Na2S2O3 or another sodium salt of a divalent anion that takes up no protons
    /// here: counts for sodium and ionic strength only.
    #[must_use]
    pub fn with_sulfate(mut self, amount: MolarConcentration) -> Self {
        let amount = positive(amount);
        self.contents.sodium += 2.0 * amount;
        self.contents.sulfate += amount;
        self
    }

    /// Strong acid with an inert monovalent anion (HCl without its chloride); strong base if
    /// negative. Accounts for a measured pH that the recipe does not explain.
    #[must_use]
    pub fn with_strong_acid(mut self, amount: MolarConcentration) -> Self {
        let amount = in_moles_per_litre(amount);
        if !amount.is_nan() {
            self.contents.add_strong_base(-amount);
        }
        self
    }

    /// The same bath warmed or cooled to a temperature in °C: the same amounts per kilogram of
    /// water.
    ///
    /// # Errors
    /// Outside 5-80 °C.
    pub fn brought_to(&self, celsius: f64) -> Result<Self, OutOfRange> {
        Ok(self.with_constants(Constants::at(celsius)?))
    }

    /// [`Self::brought_to`] the temperature of `constants`.
    #[must_use]
    pub fn with_constants(&self, constants: Constants) -> Self {
        let expansion = constants.kilograms_per_litre / self.constants.kilograms_per_litre;
        Self { constants, air: self.air, contents: self.contents.scaled(expansion) }
    }

    /// The same bath with this exchange of carbon dioxide.
    ///
    /// # Errors
    /// A partial pressure below zero or above one atmosphere.
    pub fn under(mut self, air: Air) -> Result<Self, OutOfRange> {
        if let Air::Open { carbon_dioxide_atm: pressure } = air {
            OutOfRange::check(CARBON_DIOXIDE, QuantityKind::Number, pressure, 0.0, 1.0)?;
        }
        self.air = air;
        Ok(self)
    }

    /// This mix, as `share` of a new one, made up with `added`, mol/L of the new one.
    #[must_use]
    pub fn made_up_with(&self, share: f64, added: &Self) -> Self {
        Self { contents: self.contents.scaled(share).plus(&added.contents), ..*self }
    }

    /// Without hypochlorite and peroxide; their salts stay.
    #[must_use]
    pub fn without_oxidant(mut self) -> Self {
        self.contents.chloride += self.contents.hypochlorite;
        (self.contents.hypochlorite, self.contents.peroxide) = (0.0, 0.0);
        self
    }

    /// Equilibrium constants at the temperature of the mix.
    pub fn constants(&self) -> &Constants {
        &self.constants
    }

    /// Chlorine(+1), mol/L.
    pub fn hypochlorite_moles_per_litre(&self) -> f64 {
        self.contents.hypochlorite
    }

    /// Chloride, mol/L.
    pub fn chloride_moles_per_litre(&self) -> f64 {
        self.contents.chloride
    }

    /// Turns hypochlorite, mol/L, into chloride.
    #[cfg(test)]
    pub(super) fn spend_hypochlorite(&mut self, amount: f64) {
        self.contents.hypochlorite -= amount;
        self.contents.chloride += amount;
    }

    pub(super) fn refuse_two_oxidants(&self) -> Result<(), EquilibriumError> {
        if self.contents.hypochlorite > 0.0 && self.contents.peroxide > 0.0 {
            return Err(EquilibriumError::TwoOxidants);
        }
        Ok(())
    }

    /// Contents per kilogram of water. A litre of liquor is taken to contain as much water as
    /// a litre of pure water (within 1 % for these salts below 0.5 mol/L).
    pub(super) fn totals(&self) -> Totals {
        let open_carbon_dioxide = match self.air {
            Air::Closed => None,
            Air::Open { carbon_dioxide_atm } => {
                Some(self.constants.carbon_dioxide_henry * carbon_dioxide_atm)
            }
        };
        let per_kilogram = self.contents.scaled(1.0 / self.constants.kilograms_per_litre);
        Totals { open_carbon_dioxide, ..per_kilogram }
    }
}

/// Amount in mol/L; 0 if negative or NaN.
fn positive(amount: MolarConcentration) -> f64 {
    in_moles_per_litre(amount).max(0.0)
}
