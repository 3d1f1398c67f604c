//! Propagation of uncertainty through a function of several inputs.
//!
//! An input may lie anywhere between the ends of its range with equal
//! probability (JCGM 100:2008, GUM, 4.3.7 and 4.3.8). A result's range holds 95 %
//! of what follows: each input is moved to its 2.5 % and 97.5 % points with the
//! others at their values, and the changes of the result add up in quadrature
//! (GUM 5.1.2, with finite differences in place of derivatives, so that an
//! asymmetric range stays asymmetric). A sum of several inputs is nearer to a
//! normal distribution than one of them, so its 95 % are wider than quadrature
//! by up to 19 % ([`widening`]). Inputs count as independent.

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

    /// Without its name.
    pub fn estimate(&self) -> Estimate<f64> {
        let Self { value, low, high, basis, .. } = *self;
        Estimate { value, low, high, basis }
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

/// Evaluates `function` at the inputs' values and near both ends of each range,
/// and returns its `O` results with the ranges that hold 95 %. Calls `function` at
/// most `1 + 2 I` times. A range does not cross zero unless some result did.
///
/// Returns `None` if any result is not finite.
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
        let outside = 0.5 * (1.0 - COVERAGE) * (input.high - input.low);
        let mut at = nominal;
        at[i] = input.low + outside;
        let low = function(&at);
        at[i] = input.high - outside;
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

/// Share of the cases that a result's range holds.
const COVERAGE: f64 = 0.95;

/// Half-width that holds [`COVERAGE`] of a sum of uniform inputs, relative to the
/// quadrature of their own half-widths at that coverage; `squares` and `fourths`
/// are the sums of the 2nd and 4th powers of those. 1 where one input dominates,
/// 1.156 for two equal ones, 1.96 / (0.95 √3) = 1.191 for many. Fitted to the exact
/// distributions of two unequal and of three equal inputs, within 1 % (computed).
fn widening(squares: f64, fourths: f64) -> f64 {
    const MANY: f64 = 1.191;
    if squares <= 0.0 {
        return 1.0;
    }
    let concentration = (fourths / (squares * squares)).clamp(0.0, 1.0);
    MANY - (MANY - 1.0) * concentration.powf(2.4)
}

/// The effects of all inputs on one result.
#[derive(Clone, Copy)]
struct Effects<const I: usize> {
    value: f64,
    /// Sums of squares of the changes down and up.
    down: f64,
    up: f64,
    /// Sums of the fourth powers.
    down_fourths: f64,
    up_fourths: f64,
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
            down_fourths: 0.0,
            up_fourths: 0.0,
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
        self.down_fourths += down.powi(4);
        self.up_fourths += up.powi(4);
        let (least, greatest) = self.extremes.unwrap_or((low, high));
        self.extremes = Some((least.min(low), greatest.max(high)));
        self.affects[input] = true;
        if high - low > self.largest {
            self.largest = high - low;
            self.dominant = input;
        }
    }

    fn combine(self, inputs: &[UncertainInput; I]) -> ComputedEstimate<f64> {
        let down = self.down.sqrt() * widening(self.down, self.down_fourths);
        let up = self.up.sqrt() * widening(self.up, self.up_fourths);
        let (mut low, mut high) = (self.value - down, self.value + up);
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
    fn a_product_has_the_range_of_95_percent_of_its_uniform_inputs() {
        let inputs = [input(A, 10.0, 0.03, Basis::Measured), input(B, 2.0, 0.04, Basis::Label)];
        let [product] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert_eq!(product.value, 20.0);
        // Trapezoid of half-widths 3 and 4 %: (7 - w)² = 8 · 3 · 4 · 0.025.
        let exact = 0.01 * (7.0 - (8.0 * 12.0 * 0.025_f64).sqrt());
        assert!((product.high / 20.0 - 1.0 - exact).abs() < 0.01 * exact);
        assert!((1.0 - product.low / 20.0 - exact).abs() < 0.01 * exact);
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
    fn ranges_of_sums_hold_95_percent() {
        // Of one input, and exactly for two and three: (Σa - w)^n / (2^n n! Πa) = 0.025.
        let one = widening(1.0, 1.0) * COVERAGE;
        assert!((one - 0.95).abs() < 1e-12);
        for other in [0.1_f64, 0.2, 0.5, 0.8, 1.0] {
            let squares = 1.0 + other * other;
            let exact = 1.0 + other - (8.0 * other * 0.025).sqrt();
            let found = COVERAGE * squares.sqrt() * widening(squares, 1.0 + other.powi(4));
            assert!((found / exact - 1.0).abs() < 0.01, "{other}: {found} for {exact}");
        }
        let exact = 3.0 - (48.0_f64 * 0.025).cbrt();
        let found = COVERAGE * 3.0_f64.sqrt() * widening(3.0, 3.0);
        assert!((found / exact - 1.0).abs() < 0.01, "{found} for {exact}");
    }

    #[test]
    fn combined_ranges_do_not_cross_zero() {
        let inputs = [input(A, 1.0, 0.9, Basis::Label), input(B, 1.0, 0.9, Basis::Label)];
        let [result] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert_eq!(result.low, 0.0);
    }

    #[test]
    fn a_result_that_is_not_finite_anywhere_gives_none() {
        let inputs = [input(A, 1.0, 1.0, Basis::Label)];
        assert_eq!(propagate_uncertainty(&inputs, |[a]| [(a - 0.1).sqrt()]), None);
        for beyond in [0.5, 1.5] {
            let inside =
                |x: f64| if (x < 1.0) == (beyond < 1.0) && x != 1.0 { f64::NAN } else { x };
            assert_eq!(propagate_uncertainty(&inputs, |[a]| [inside(*a)]), None, "{beyond}");
        }
    }
}
