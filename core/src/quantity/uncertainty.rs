//! Propagation of uncertainty through a function of several inputs.
//!
//! Each input is moved to either end of its range with the others at their
//! values; the changes of the result add up in quadrature. That is the law of
//! propagation for independent inputs (JCGM 100:2008, GUM, 5.1.2), with finite
//! differences in place of derivatives, so that an asymmetric range stays
//! asymmetric.

use super::{Basis, Estimate};
use crate::message::Field;

/// One uncertain input of a calculation, as a bare number with a name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UncertainInput {
    pub name: Field,
    pub value: f64,
    pub low: f64,
    pub high: f64,
    pub basis: Basis,
}

impl UncertainInput {
    /// From an estimate in the unit that the calculation expects.
    pub fn of(name: Field, estimate: Estimate<f64>) -> Self {
        let Estimate { value, low, high, basis } = estimate;
        Self { name, value, low, high, basis }
    }
}

/// A calculated result with its range, the input that dominates the range, and
/// whether any input that affects it was assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComputedEstimate<Q> {
    pub value: Q,
    pub low: Q,
    pub high: Q,
    /// The input with the largest effect; `None` where none has any.
    pub dominant: Option<Field>,
    /// At least one input that affects the result was not measured.
    pub assumed: bool,
}

impl<Q: Copy> ComputedEstimate<Q> {
    /// A result without a range.
    pub fn exact(value: Q) -> Self {
        Self { value, low: value, high: value, dominant: None, assumed: false }
    }
}

impl<Q> ComputedEstimate<Q> {
    /// Converts value and range; `convert` must be increasing.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> ComputedEstimate<R> {
        ComputedEstimate {
            value: convert(self.value),
            low: convert(self.low),
            high: convert(self.high),
            dominant: self.dominant,
            assumed: self.assumed,
        }
    }

    /// The result as an input of another calculation.
    pub fn estimate(self) -> Estimate<Q> {
        let basis = if self.assumed { Basis::Assumed } else { Basis::Computed };
        Estimate { value: self.value, low: self.low, high: self.high, basis }
    }
}

/// Evaluates `function` at the inputs' values and at both ends of each range,
/// and returns its `O` results with their ranges. Calls `function` at most
/// `1 + 2 I` times. A range does not cross zero unless some result did.
///
/// Returns `None` if any result is not finite, at the inputs' values or at any
/// end of a range.
pub fn propagate_uncertainty<const I: usize, const O: usize>(
    inputs: &[UncertainInput; I],
    function: impl Fn(&[f64; I]) -> [f64; O],
) -> Option<[ComputedEstimate<f64>; O]> {
    let nominal = inputs.map(|input| input.value);
    let value = function(&nominal);
    let mut effects = value.map(Effects::around);
    for (i, input) in inputs.iter().enumerate() {
        if input.low == input.high {
            continue;
        }
        let mut at = nominal;
        at[i] = input.low;
        let low = function(&at);
        at[i] = input.high;
        let high = function(&at);
        // Checked here because `min` and `max` ignore NaN.
        if !low.iter().chain(&high).all(|x| x.is_finite()) {
            return None;
        }
        for (o, effects) in effects.iter_mut().enumerate() {
            effects.add(i, low[o], high[o]);
        }
    }
    let results = effects.map(|effects| effects.combine(inputs));
    let finite = |r: &ComputedEstimate<f64>| [r.low, r.value, r.high].iter().all(|x| x.is_finite());
    results.iter().all(finite).then_some(results)
}

/// The effects of all inputs on one result.
#[derive(Clone, Copy)]
struct Effects<const I: usize> {
    value: f64,
    /// Sums of squares of the changes down and up.
    down: f64,
    up: f64,
    /// Least and greatest result seen, once any input had an effect.
    extremes: Option<(f64, f64)>,
    /// Input with the largest effect, and that effect.
    dominant: usize,
    largest: f64,
    /// Which inputs have an effect.
    affects: [bool; I],
}

impl<const I: usize> Effects<I> {
    fn around(value: f64) -> Self {
        Self {
            value,
            down: 0.0,
            up: 0.0,
            extremes: None,
            dominant: 0,
            largest: 0.0,
            affects: [false; I],
        }
    }

    /// Adds the results at both ends of the range of `input`.
    fn add(&mut self, input: usize, a: f64, b: f64) {
        let (low, high) = (a.min(b).min(self.value), a.max(b).max(self.value));
        let (down, up) = (self.value - low, high - self.value);
        // A few ulps of rounding noise are not an effect.
        if high - low <= 1e-12 * self.value.abs() {
            return;
        }
        self.down += down * down;
        self.up += up * up;
        let (least, greatest) = self.extremes.unwrap_or((low, high));
        self.extremes = Some((least.min(low), greatest.max(high)));
        self.affects[input] = true;
        if high - low > self.largest {
            self.largest = high - low;
            self.dominant = input;
        }
    }

    fn combine(self, inputs: &[UncertainInput; I]) -> ComputedEstimate<f64> {
        let mut low = self.value - self.down.sqrt();
        let mut high = self.value + self.up.sqrt();
        if self.extremes.is_some_and(|(least, _)| least >= 0.0) {
            low = low.max(0.0);
        }
        if self.extremes.is_some_and(|(_, greatest)| greatest <= 0.0) {
            high = high.min(0.0);
        }
        let assumed = inputs
            .iter()
            .zip(self.affects)
            .any(|(input, affects)| affects && input.basis == Basis::Assumed);
        let dominant = self.extremes.map(|_| inputs[self.dominant].name);
        ComputedEstimate { value: self.value, low, high, dominant, assumed }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const A: Field = Field("a");
    const B: Field = Field("b");

    fn input(name: Field, value: f64, part: f64, basis: Basis) -> UncertainInput {
        UncertainInput::of(name, Estimate::within(value, part, basis))
    }

    #[test]
    fn a_product_adds_relative_ranges_in_quadrature() {
        let inputs = [input(A, 10.0, 0.03, Basis::Measured), input(B, 2.0, 0.04, Basis::Label)];
        let [product] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert_eq!(product.value, 20.0);
        assert!((product.high / 20.0 - 1.05).abs() < 1e-12);
        assert!((product.low / 20.0 - 0.95).abs() < 1e-12);
        assert_eq!(product.dominant, Some(B));
        assert!(!product.assumed);
    }

    #[test]
    fn only_an_input_with_an_effect_marks_a_result_assumed() {
        let inputs = [input(A, 10.0, 0.1, Basis::Assumed), input(B, 2.0, 0.1, Basis::Label)];
        let [first, second] = propagate_uncertainty(&inputs, |[a, b]| [*a, *b]).unwrap();
        assert!(first.assumed && first.estimate().basis == Basis::Assumed);
        assert!(!second.assumed);
    }

    #[test]
    fn an_exact_result_has_no_range_and_no_dominant_input() {
        let inputs = [input(A, 10.0, 0.0, Basis::Label)];
        let [result] = propagate_uncertainty(&inputs, |[a]| [a + 1.0]).unwrap();
        assert_eq!((result.low, result.value, result.high), (11.0, 11.0, 11.0));
        assert_eq!(result.dominant, None);
    }

    #[test]
    fn combined_ranges_do_not_cross_zero() {
        let inputs = [input(A, 1.0, 0.8, Basis::Label), input(B, 1.0, 0.8, Basis::Label)];
        let [result] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert_eq!(result.low, 0.0);
    }

    #[test]
    fn a_result_that_is_not_finite_anywhere_gives_none() {
        let inputs = [input(A, 1.0, 1.0, Basis::Label)];
        assert_eq!(propagate_uncertainty(&inputs, |[a]| [1.0 / a]), None);
        for beyond in [0.5, 1.5] {
            let inside =
                |x: f64| if (x < 1.0) == (beyond < 1.0) && x != 1.0 { f64::NAN } else { x };
            assert_eq!(propagate_uncertainty(&inputs, |[a]| [inside(*a)]), None, "{beyond}");
        }
    }
}
