//! Readings of a running bath, and what they say of a sample.

use super::quantity::ForecastQuantity;
use crate::quantity::Estimate;
use serde::{Deserialize, Serialize};

/// A reading of a running bath.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ForecastReading {
    pub minutes: f64,
    pub of: ForecastQuantity,
    /// In the unit of the quantity; its range holds 95 %.
    pub value: Estimate<f64>,
}

/// Error of the model itself, one standard deviation: a sample that is off by less is not
/// contradicted by an exact reading (own estimates). For the oxidant a share of it.
pub(crate) fn model_error(of: ForecastQuantity) -> f64 {
    match of {
        ForecastQuantity::DryLightness | ForecastQuantity::WetLightness => 0.8,
        ForecastQuantity::OxidantLeft => 0.12,
        ForecastQuantity::DryYellowness => 3.0,
        ForecastQuantity::Ph | ForecastQuantity::CooledPh => 0.12,
        ForecastQuantity::Celsius => 0.4,
        ForecastQuantity::Scissions => 0.3,
        ForecastQuantity::ChainLoss => 0.05,
    }
}

/// Least oxidant that a strip shows, mol/L: below, readings compare as this (about 2 mg/L of
/// available chlorine, own estimate).
const LEAST_OXIDANT: f64 = 3e-5;

impl ForecastReading {
    /// Logarithm of the likelihood of a sample whose quantity is `found`, up to a constant: a
    /// t distribution of [`READING_FREEDOM`] over reading and model error together, so that one
    /// wrong reading does not decide alone.
    pub fn log_likelihood(&self, found: f64) -> f64 {
        let off = self.deviations(found).unwrap_or(0.0);
        -0.5 * (READING_FREEDOM + 1.0) * (off * off / READING_FREEDOM).ln_1p()
    }

    /// Whether a sample is within three deviations; also where the quantity is not known.
    pub(super) fn agrees(&self, found: f64) -> bool {
        self.deviations(found).is_none_or(|off| off.abs() <= 3.0)
    }

    /// How far a sample is off, in standard deviations of reading and model together; `None` where
    /// the quantity is not known.
    fn deviations(&self, found: f64) -> Option<f64> {
        let (off, deviation) = self.comparison(found)?;
        Some(off / deviation.hypot(model_error(self.of)))
    }

    /// How far `found` is above the reading, and the standard deviation of the reading alone;
    /// oxidant compares by the logarithm of the ratio. `None` where the quantity is not known.
    pub(crate) fn comparison(&self, found: f64) -> Option<(f64, f64)> {
        let scale = |value: f64| comparison_scale(self.of, value);
        let Estimate { value, low, high, .. } = self.value;
        let half = 0.5 * (scale(high) - scale(low));
        found.is_finite().then(|| (scale(found) - scale(value), half / 1.96))
    }
}

/// Degrees of freedom of the t distribution of readings (own choice).
pub(crate) const READING_FREEDOM: f64 = 4.0;

/// A quantity as it is compared: of the oxidant the logarithm.
pub(crate) fn comparison_scale(of: ForecastQuantity, value: f64) -> f64 {
    if of == ForecastQuantity::OxidantLeft { value.max(LEAST_OXIDANT).ln() } else { value }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Basis;

    fn reading(of: ForecastQuantity, value: f64, part: f64) -> ForecastReading {
        ForecastReading { minutes: 30.0, of, value: Estimate::within(value, part, Basis::Strip) }
    }

    #[test]
    fn a_sample_near_the_reading_is_likelier() {
        let ph = reading(ForecastQuantity::Ph, 10.0, 0.05);
        assert!(ph.log_likelihood(10.0) > ph.log_likelihood(9.6));
        assert!(ph.log_likelihood(9.6) > ph.log_likelihood(8.0));
        assert!(ph.log_likelihood(4.0) > -20.0, "one reading is never certain");
    }

    #[test]
    fn strips_compare_by_ratio_and_nothing_is_below_the_least() {
        let strip = reading(ForecastQuantity::OxidantLeft, 0.004, 0.5);
        let (half, double) = (strip.log_likelihood(0.002), strip.log_likelihood(0.008));
        assert!((half - double).abs() < 0.6, "{half} {double}");
        let gone = reading(ForecastQuantity::OxidantLeft, 0.0, 0.0);
        assert_eq!(gone.log_likelihood(0.0).to_bits(), gone.log_likelihood(1e-9).to_bits());
        assert!(gone.log_likelihood(0.0) > gone.log_likelihood(0.01) + 3.0);
    }

    #[test]
    fn an_unknown_quantity_says_nothing() {
        let wet = reading(ForecastQuantity::WetLightness, 70.0, 0.02);
        assert_eq!(wet.log_likelihood(f64::NAN), 0.0);
    }
}
