//! Decomposition of hypochlorite in a clean, closed, dark bottle.
//!
//! Adam L.C. & Gordon G. (1999), Inorg. Chem. 38:1299, the abstract's equation (read):
//! `log k2 = 0.149 μ + log[2.083e10 T exp(-101 800/RT) exp(-56.5/R)]`, M⁻¹s⁻¹, with
//! `-d[OCl-]/dt = k2 [OCl-]²`. Measured at μ 1-6 M, 15-55 °C, 0.7-3.0 M OCl-, OH- above
//! 0.001 M (pH about 11 and up), without metals. It is the best case: light, air, metals and
//! lower pH add further losses.

use super::substance::{in_moles_per_litre, moles_per_litre};
use crate::message::Field;
use crate::quantity::{OutOfRange, QuantityKind, TEMPERATURE};
use uom::si::f64::MolarConcentration;

pub const AGE: Field = Field("age");
pub const STRENGTH: Field = Field("strength");

const SECONDS_PER_DAY: f64 = 86_400.0;

/// A hypochlorite solution at the start of storage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StoredHypochlorite {
    pub hypochlorite: MolarConcentration,
    /// Free NaOH; [`free_lye`](super::bottle::free_lye) where the label does not give it.
    pub lye: MolarConcentration,
    pub celsius: f64,
}

/// Where the decay law is used outside the measured range. All `false` is best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DecayExtrapolation {
    /// Below 0.7 mol/L: other losses exceed that of the law.
    pub dilute: bool,
    /// Below 15 °C.
    pub cold: bool,
    /// Above 55 °C.
    pub hot: bool,
    /// Less than 0.001 mol/L of lye.
    pub low_in_lye: bool,
}

impl StoredHypochlorite {
    /// Checks the ranges.
    ///
    /// # Errors
    /// Strength above 3 mol/L, lye above 2 mol/L, or a temperature outside 0-100 °C.
    pub fn new(
        hypochlorite: MolarConcentration,
        lye: MolarConcentration,
        celsius: f64,
    ) -> Result<Self, OutOfRange> {
        let number = QuantityKind::Number;
        OutOfRange::check(STRENGTH, number, in_moles_per_litre(hypochlorite), 0.0, 3.0)?;
        OutOfRange::check(STRENGTH, number, in_moles_per_litre(lye), 0.0, 2.0)?;
        OutOfRange::check(TEMPERATURE, QuantityKind::Temperature, celsius, 0.0, 100.0)?;
        Ok(Self { hypochlorite, lye, celsius })
    }

    /// μ, mol/L: hypochlorite, the equimolar salt and the lye. Nearly constant in storage,
    /// since each OCl- becomes Cl- or ClO3-.
    pub fn ionic_strength(&self) -> f64 {
        2.0 * in_moles_per_litre(self.hypochlorite) + in_moles_per_litre(self.lye)
    }

    /// Share of the hypochlorite left after some days, 0 to 1.
    ///
    /// # Errors
    /// An age below zero or above 100 years.
    pub fn left_after(&self, days: f64) -> Result<f64, OutOfRange> {
        self.left_at_rate(days, 1.0)
    }

    /// As [`Self::left_after`], with the rate constant multiplied by `factor`.
    ///
    /// # Errors
    /// As [`Self::left_after`].
    pub fn left_at_rate(&self, days: f64, factor: f64) -> Result<f64, OutOfRange> {
        check_age(days)?;
        let per_day = factor
            * rate_constant(self.celsius, self.ionic_strength())
            * SECONDS_PER_DAY
            * in_moles_per_litre(self.hypochlorite);
        Ok(1.0 / (1.0 + per_day * days))
    }

    /// Strength left after some days.
    ///
    /// # Errors
    /// As [`Self::left_after`].
    pub fn strength_after(&self, days: f64) -> Result<MolarConcentration, OutOfRange> {
        Ok(moles_per_litre(in_moles_per_litre(self.hypochlorite) * self.left_after(days)?))
    }

    /// Days to half strength. The half-life doubles each time the strength halves, so this is
    /// the shortest.
    pub fn half_life_days(&self) -> f64 {
        let per_second = rate_constant(self.celsius, self.ionic_strength())
            * in_moles_per_litre(self.hypochlorite);
        1.0 / (per_second * SECONDS_PER_DAY)
    }

    /// Where the law is extrapolated for this solution.
    pub fn extrapolation(&self) -> DecayExtrapolation {
        DecayExtrapolation {
            dilute: in_moles_per_litre(self.hypochlorite) < 0.7,
            cold: self.celsius < 15.0,
            hot: self.celsius > 55.0,
            low_in_lye: in_moles_per_litre(self.lye) < 0.001,
        }
    }
}

/// Refuses an age below zero or above 100 years.
pub(super) fn check_age(days: f64) -> Result<(), OutOfRange> {
    let (minutes, most) = (days * 1440.0, 100.0 * 365.25 * 1440.0);
    OutOfRange::check(AGE, QuantityKind::Duration, minutes, 0.0, most).map(|_| ())
}

/// k2, M⁻¹s⁻¹, at a temperature in °C and an ionic strength in mol/L.
pub fn rate_constant(celsius: f64, ionic_strength: f64) -> f64 {
    const R: f64 = 8.314;
    let t = celsius + 273.15;
    let at_zero = 2.083e10 * t * (-1.018e5 / (R * t)).exp() * (-56.5 / R).exp();
    at_zero * 10_f64.powf(0.149 * ionic_strength)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn stored(moles: f64, lye: f64, celsius: f64) -> StoredHypochlorite {
        StoredHypochlorite::new(moles_per_litre(moles), moles_per_litre(lye), celsius).unwrap()
    }

    #[test]
    fn second_order_leaves_a_quarter_after_three_half_lives() {
        let liquor = stored(1.0, 0.1, 25.0);
        let half = liquor.half_life_days();
        assert!((liquor.left_after(half).unwrap() - 0.5).abs() < 1e-12);
        assert!((liquor.left_after(3.0 * half).unwrap() - 0.25).abs() < 1e-12);
        assert!(liquor.left_after(-1.0).is_err());
        assert!(liquor.left_after(f64::NAN).is_err());
    }

    #[test]
    fn extrapolation_is_marked() {
        let marks = |moles, lye, celsius| stored(moles, lye, celsius).extrapolation();
        assert_eq!(marks(1.0, 0.1, 25.0), DecayExtrapolation::default());
        assert!(marks(0.02, 0.1, 25.0).dilute);
        assert!(marks(1.0, 0.0, 25.0).low_in_lye);
        assert!(marks(1.0, 0.1, 4.0).cold);
        assert!(marks(1.0, 0.1, 60.0).hot);
    }
}
