//! A value with its range and the kind of evidence that it rests on.

use serde::{Deserialize, Serialize};

/// Origin of a value, best evidence first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// Weighed, titrated, read off an instrument.
    Measured,
    /// Read off a colour strip: a coarse measurement.
    Strip,
    /// This studio's own earlier value.
    OwnRecord,
    /// Printed on the product.
    Label,
    /// Calculated from other values.
    Computed,
    /// Not measured. Marked as assumed wherever it is shown.
    Assumed,
}

/// A value, the range that the true value lies in, and its origin.
///
/// `low <= value <= high`, all in the same unit as `value`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate<Q> {
    pub value: Q,
    pub low: Q,
    pub high: Q,
    pub basis: Basis,
}

impl<Q: Copy> Estimate<Q> {
    /// A value taken as exact, such as a target that a person chose.
    pub fn exact(value: Q, basis: Basis) -> Self {
        Self { value, low: value, high: value, basis }
    }
}

impl<Q: Copy + std::ops::Mul<f64, Output = Q>> Estimate<Q> {
    /// A value that may be off by `part` of itself either way: `0.05` is ±5 %.
    pub fn within(value: Q, part: f64, basis: Basis) -> Self {
        Self { value, low: value * (1.0 - part), high: value * (1.0 + part), basis }
    }
}

impl Estimate<f64> {
    /// A value that may be off by `off` either way, in its own unit; its range is never negative.
    pub fn plus_minus(value: f64, off: f64, basis: Basis) -> Self {
        Self { value, low: (value - off).max(0.0).min(value), high: value + off, basis }
    }
}

impl<Q> Estimate<Q> {
    /// Converts value and range; `convert` must be increasing.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> Estimate<R> {
        Estimate {
            value: convert(self.value),
            low: convert(self.low),
            high: convert(self.high),
            basis: self.basis,
        }
    }
}
