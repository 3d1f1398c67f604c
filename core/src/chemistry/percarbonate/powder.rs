//! Content of a percarbonate powder, and what it releases.

use crate::chemistry::substance::{HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE};
use crate::message::Field;
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, OutOfRange, QuantityKind, Volume, in_grams,
    millilitres,
};
use uom::si::f64::MolarConcentration;

/// Active oxygen of the pure substance, by mass: 15.29 %.
pub const PURE_ACTIVE_OXYGEN: f64 = 1.5 * 15.999 / 157.010;
/// H2O2 of the pure substance, by mass: 32.50 %.
pub const PURE_PEROXIDE: f64 = 1.5 * 34.0147 / 157.010;

pub const ACTIVE_OXYGEN: Field = Field("active_oxygen");
pub const POWDER: Field = Field("percarbonate");

/// A powder by its content of percarbonate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PercarbonatePowder {
    /// Pure percarbonate, as a share of the powder's mass (0 to 1).
    pub share: Estimate<f64>,
}

impl PercarbonatePowder {
    /// From active oxygen, share by mass (0.135 for 13.5 %): label, data sheet or titration.
    ///
    /// # Errors
    /// Below zero, above the pure substance, or a range not in order.
    pub fn from_active_oxygen(share: Estimate<f64>) -> Result<Self, OutOfRange> {
        Self::of(share.map(|oxygen| oxygen / PURE_ACTIVE_OXYGEN))
    }

    /// From the equivalent H2O2, share by mass.
    ///
    /// # Errors
    /// As [`Self::from_active_oxygen`].
    pub fn from_peroxide(share: Estimate<f64>) -> Result<Self, OutOfRange> {
        Self::of(share.map(|peroxide| peroxide / PURE_PEROXIDE))
    }

    /// From the share of percarbonate itself, such as the range in a safety data sheet.
    ///
    /// # Errors
    /// As [`Self::from_active_oxygen`].
    pub fn of(share: Estimate<f64>) -> Result<Self, OutOfRange> {
        // Titrations of pure powder may exceed it by 2 %.
        let check =
            |given, min, max| OutOfRange::check(POWDER, QuantityKind::Share, given, min, max);
        check(share.low, 0.0, 1.02)?;
        check(share.high, share.low, 1.02)?;
        check(share.value, share.low, share.high)?;
        Ok(Self { share })
    }

    /// A powder without a figure: 30 % percarbonate, 15 to 95 %. Laundry boosters hold 15 to
    /// 70 %, powder sold as percarbonate is below 95 % by its safety data sheet (ranges from
    /// memory).
    pub fn unknown() -> Self {
        Self { share: Estimate { value: 0.30, low: 0.15, high: 0.95, basis: Basis::Assumed } }
    }

    /// Active oxygen, share by mass.
    pub fn active_oxygen(&self) -> Estimate<f64> {
        self.share.map(|share| share * PURE_ACTIVE_OXYGEN)
    }

    /// H2O2 released, share of the powder's mass.
    pub fn peroxide(&self) -> Estimate<f64> {
        self.share.map(|share| share * PURE_PEROXIDE)
    }

    /// What this concentration of powder releases.
    pub fn released(&self, powder: MassConcentration) -> Released {
        let molar = |share: f64| SODIUM_PERCARBONATE.molar(powder * share);
        Released {
            percarbonate: self.share.map(molar),
            peroxide: self
                .share
                .map(|share| HYDROGEN_PEROXIDE.mass_concentration(molar(share) * 1.5)),
            soda_ash: self.share.map(|share| SODIUM_CARBONATE.mass_concentration(molar(share))),
        }
    }

    /// Oxygen from complete decomposition, at a temperature in °C and one atmosphere: half a
    /// mole per H2O2, 117 L per kg of the pure substance at 25 °C.
    pub fn oxygen(&self, powder: Mass, celsius: f64) -> Estimate<Volume> {
        /// L·atm/(mol·K).
        const GAS: f64 = 0.082_057;
        self.share.map(|share| {
            let moles = in_grams(powder) * share * 0.75 / SODIUM_PERCARBONATE.grams_per_mole;
            millilitres(1000.0 * moles * GAS * (celsius + 273.15))
        })
    }
}

/// What a powder releases per litre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Released {
    /// As Na2CO3·1.5H2O2, for [`Mix::with_percarbonate`](crate::chemistry::equilibrium::Mix).
    pub percarbonate: Estimate<MolarConcentration>,
    pub peroxide: Estimate<MassConcentration>,
    /// From the percarbonate alone, without soda ash as a filler.
    pub soda_ash: Estimate<MassConcentration>,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::grams;

    #[test]
    fn content_above_the_pure_substance_is_an_error() {
        let known = |share| Estimate::exact(share, Basis::Label);
        assert!(PercarbonatePowder::of(known(1.5)).is_err());
        assert!(PercarbonatePowder::from_active_oxygen(known(0.17)).is_err());
        assert!(PercarbonatePowder::from_peroxide(known(-0.1)).is_err());
        assert!(PercarbonatePowder::from_active_oxygen(known(0.135)).is_ok());
    }

    #[test]
    fn powder_without_a_figure_is_assumed_over_all_that_is_sold() {
        let unknown = PercarbonatePowder::unknown();
        assert!(unknown.share.low <= 0.15 && unknown.share.high >= 0.95);
        assert_eq!(unknown.share.basis, Basis::Assumed);
        let gas = unknown.oxygen(grams(100.0), 25.0);
        assert!(gas.low < gas.value && gas.value < gas.high);
    }
}
