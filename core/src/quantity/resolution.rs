//! Rounding to the resolution of a scale or a jug, and the error that makes.

use super::{Basis, Estimate, Mass, Volume, grams, in_grams, in_millilitres, millilitres};

/// The step of a scale (g) or a jug (mL).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resolution {
    pub step: f64,
}

/// An amount rounded to what can be measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measurable<Q> {
    pub value: Q,
    pub step: Q,
    /// Rounded / exact - 1: `-0.02` is 2 % too little. 0 where the amount is 0.
    pub error: f64,
}

impl Resolution {
    /// A studio's scales: 0.1 g below 100 g (a pocket scale), 1 g above (a
    /// kitchen scale), 5 g above 5 kg. Common practice, no source.
    pub fn scale(mass: Mass) -> Self {
        let step = match in_grams(mass) {
            x if x < 100.0 => 0.1,
            x if x < 5000.0 => 1.0,
            _ => 5.0,
        };
        Self { step }
    }

    /// A studio's jugs: 0.5 mL below 20 mL (a syringe), 1 mL below 250 mL (a
    /// cylinder), 5 mL below 1 L, 10 mL below 5 L, 100 mL above (a bucket's
    /// marks). Common practice, no source.
    pub fn jug(volume: Volume) -> Self {
        let step = match in_millilitres(volume) {
            x if x < 20.0 => 0.5,
            x if x < 250.0 => 1.0,
            x if x < 1000.0 => 5.0,
            x if x < 5000.0 => 10.0,
            _ => 100.0,
        };
        Self { step }
    }

    /// `value` rounded to the nearest step, and the relative error of that.
    pub fn round(self, value: f64) -> (f64, f64) {
        let rounded = self.multiple(self.steps_in(value));
        let error = if value == 0.0 { 0.0 } else { rounded / value - 1.0 };
        (rounded, error)
    }

    /// `total` rounded and divided into `count` portions of whole steps that
    /// differ by at most one step and add up to it.
    pub fn portions(self, total: f64, count: u32) -> Vec<f64> {
        let count = i64::from(count.max(1));
        let steps = self.steps_in(total);
        (0..count).map(|i| self.multiple(steps * (i + 1) / count - steps * i / count)).collect()
    }

    fn steps_in(self, value: f64) -> i64 {
        (value / self.step).round() as i64
    }

    fn multiple(self, n: i64) -> f64 {
        // 0.1 has no exact double: dividing by 10 is exact where multiplying is not.
        if self.step < 1.0 { n as f64 / (1.0 / self.step).round() } else { n as f64 * self.step }
    }
}

/// A mass rounded to what a studio's scale shows.
pub fn on_scale(mass: Mass) -> Measurable<Mass> {
    let resolution = Resolution::scale(mass);
    let (value, error) = resolution.round(in_grams(mass));
    Measurable { value: grams(value), step: grams(resolution.step), error }
}

/// A volume rounded to what a studio's jug shows.
pub fn in_jug(volume: Volume) -> Measurable<Volume> {
    let resolution = Resolution::jug(volume);
    let (value, error) = resolution.round(in_millilitres(volume));
    Measurable { value: millilitres(value), step: millilitres(resolution.step), error }
}

/// A mass read off a studio's scale: one step either way, or 0.5 % if that is
/// more (common practice, no source).
pub fn weighed(mass: Mass) -> Estimate<Mass> {
    let value = in_grams(mass);
    let off = Resolution::scale(mass).step.max(0.005 * value.abs()).min(value.abs());
    let weighed = Estimate { value, low: value - off, high: value + off, basis: Basis::Measured };
    weighed.map(grams)
}

/// Error of an amount that a person pours or tips in by a jug or a spoon scale, as a part of it
/// (common practice, no source).
const MEASURED_OUT_OFF: f64 = 0.05;

/// An amount that a person poured or tipped in, in its own unit.
pub fn measured_out(value: f64) -> Estimate<f64> {
    Estimate::within(value, MEASURED_OUT_OFF, Basis::Measured)
}

/// Error of a volume of liquor or water that is read off a bucket, as a part of it (own
/// estimate, no source).
const IN_BUCKET_OFF: f64 = 0.1;

/// A volume of liquor or water as a person typed it.
pub fn in_bucket(volume: Volume) -> Estimate<Volume> {
    Estimate::within(volume, IN_BUCKET_OFF, Basis::Measured)
}

/// Below this a kitchen scale (1 g) or letter scale (0.1 g) is too coarse, so a solution is
/// measured instead; g (common practice, no source).
pub const BY_SOLUTION_BELOW: f64 = 0.5;

/// Below this a solution of 1 g/L is less than a millilitre and nothing is measured; g (common
/// practice, no source).
pub const LEAST_DOSE: f64 = 0.001;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn amounts_are_rounded_to_the_resolution_of_their_vessel() {
        for (exact, rounded) in [(64.8, 65.0), (7.3, 7.5), (287.7, 290.0), (1234.0, 1230.0)] {
            let jug = in_millilitres(in_jug(millilitres(exact)).value);
            assert!((jug - rounded).abs() < 1e-9, "{exact} to {jug}");
        }
        assert!((in_grams(on_scale(grams(14.286)).value) - 14.3).abs() < 1e-9);
        let rounded = in_jug(millilitres(64.8));
        assert!((rounded.error - (65.0 / 64.8 - 1.0)).abs() < 1e-12);
        assert_eq!(on_scale(grams(0.0)).error, 0.0);
    }

    #[test]
    fn a_weighing_is_never_negative() {
        assert_eq!(in_grams(weighed(grams(0.04)).low), 0.0);
        assert!((in_grams(weighed(grams(2000.0)).high) - 2010.0).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn portions_add_up_and_differ_by_one_step_at_most(total in 0.0f64..20_000.0, count in 1u32..60) {
            for step in [0.1, 0.5, 1.0, 5.0] {
                let resolution = Resolution { step };
                let portions = resolution.portions(total, count);
                let sum: f64 = portions.iter().sum();
                prop_assert!((sum - resolution.round(total).0).abs() < 1e-6);
                let least = portions.iter().copied().fold(f64::MAX, f64::min);
                let most = portions.iter().copied().fold(0.0, f64::max);
                prop_assert!(most - least < step * 1.000_001);
            }
        }
    }
}
