//! A closed interval of values, without a nominal value or a basis.

use super::{Celsius, ComputedEstimate, Estimate, Ph};
use serde::{Deserialize, Serialize};

/// All values from `low` to `high`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interval<Q> {
    pub low: Q,
    pub high: Q,
}

impl<Q: Copy> Interval<Q> {
    /// One value.
    pub fn exact(value: Q) -> Self {
        Self { low: value, high: value }
    }
}

impl<Q> Interval<Q> {
    /// Converts both ends; `convert` must be increasing.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> Interval<R> {
        Interval { low: convert(self.low), high: convert(self.high) }
    }
}

impl<Q> From<Estimate<Q>> for Interval<Q> {
    fn from(estimate: Estimate<Q>) -> Self {
        Self { low: estimate.low, high: estimate.high }
    }
}

impl<Q> From<ComputedEstimate<Q>> for Interval<Q> {
    fn from(estimate: ComputedEstimate<Q>) -> Self {
        Self { low: estimate.low, high: estimate.high }
    }
}

impl Interval<Ph> {
    /// Cut off at 0 and 14; `None` if an end is not a number.
    pub fn ph(range: impl Into<Interval<f64>>) -> Option<Self> {
        let Interval { low, high } = range.into();
        let end = |ph: f64| Ph::new(ph.clamp(0.0, 14.0)).ok();
        Some(Self { low: end(low)?, high: end(high)? })
    }
}

impl Interval<Celsius> {
    /// Cut off at 0 and 100 °C; `None` if an end is not a number.
    pub fn celsius(range: impl Into<Interval<f64>>) -> Option<Self> {
        let Interval { low, high } = range.into();
        let end = |celsius: f64| Celsius::new(celsius.clamp(0.0, 100.0)).ok();
        Some(Self { low: end(low)?, high: end(high)? })
    }
}
