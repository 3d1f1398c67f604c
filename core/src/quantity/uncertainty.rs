//! Propagation of uncertainty through a function of several inputs.
//!
//! An input is as likely below its value as above it, and anywhere on either side
//! with equal probability (JCGM 100:2008, GUM, 4.3.7 and 4.3.8, which divides an
//! asymmetric range at its value too). A result's range holds 95 %
//! of what follows: each input is moved to its 2.5 % and 97.5 % points with the
//! others at their values, and the changes of the result weigh the inputs in
//! quadrature (GUM 5.1.2, with finite differences in place of derivatives, so that
//! an asymmetric range stays asymmetric). An end of the result's range is the result
//! where all inputs move together, each by its share of the quadrature: the design
//! point of first-order reliability analysis. Where the function is linear this is
//! quadrature itself; where it is not, inputs that act on each other are counted so. A
//! sum of several inputs is nearer to a normal distribution than one of them, so its
//! 95 % are wider than quadrature by up to 19 % ([`widening`]). Inputs count as
//! independent.

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

/// Evaluates `function` at the inputs' values, near both ends of each range and at the design
/// points, and returns its `O` results with the ranges that hold 95 %. Calls `function` at most
/// `1 + 2 I + 2 O` times. Both ends of a range are results of
/// `function`.
///
/// Returns `None` if any result is not finite.
pub fn propagate_uncertainty<const I: usize, const O: usize>(
    inputs: &[UncertainInput; I],
    function: impl Fn(&[f64; I]) -> [f64; O],
) -> Option<[ComputedEstimate<f64>; O]> {
    let nominal = inputs.map(|input| input.value);
    let mut effects = function(&nominal).map(Effects::around);
    for (i, input) in inputs.iter().enumerate() {
        if input.low == input.high {
            continue;
        }
        let mut results = [[0.0; O]; 2];
        for (end, results) in [input.low, input.high].into_iter().zip(&mut results) {
            let mut at = nominal;
            at[i] = input.value + COVERAGE * (end - input.value);
            *results = function(&at);
            for (effects, result) in effects.iter_mut().zip(*results) {
                effects.add(i, end - input.value, result);
            }
        }
        // Checked here because `min` and `max` ignore NaN.
        if !results.as_flattened().iter().all(|result| result.is_finite()) {
            return None;
        }
    }
    let mut results = effects.map(|effects| effects.combine(inputs));
    for (o, (effects, result)) in effects.iter().zip(&mut results).enumerate() {
        let at = |side: &Side<I>| function(&side.design_point(inputs))[o];
        if effects.down.is_of_several() {
            result.low = at(&effects.down).min(effects.down.extreme);
        }
        if effects.up.is_of_several() {
            result.high = at(&effects.up).max(effects.up.extreme);
        }
    }
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
    down: Side<I>,
    up: Side<I>,
}

/// The effects that move a result one way.
#[derive(Clone, Copy)]
struct Side<const I: usize> {
    /// Change of the result by each input, zero or above.
    changes: [f64; I],
    /// Change of the input that makes it: from its value to an end of its range.
    moves: [f64; I],
    /// The result farthest this way.
    extreme: f64,
}

impl<const I: usize> Effects<I> {
    fn around(value: f64) -> Self {
        let side = Side { changes: [0.0; I], moves: [0.0; I], extreme: value };
        Self { value, down: side, up: side }
    }

    /// Adds the result near the end of the range of input `i` that is `to_end` from its value.
    fn add(&mut self, i: usize, to_end: f64, result: f64) {
        let change = result - self.value;
        // A few ulps of rounding noise are not an effect.
        if change.abs() <= 1e-12 * self.value.abs() {
            return;
        }
        let side = if change < 0.0 { &mut self.down } else { &mut self.up };
        if change.abs() > side.changes[i] {
            side.changes[i] = change.abs();
            side.moves[i] = to_end;
        }
        if change.abs() > (side.extreme - self.value).abs() {
            side.extreme = result;
        }
    }

    /// The result, with the ends that single inputs give.
    fn combine(&self, inputs: &[UncertainInput; I]) -> ComputedEstimate<f64> {
        let width = |i: usize| self.down.changes[i] + self.up.changes[i];
        let affecting = || (0..I).filter(|&i| width(i) > 0.0);
        let dominant = affecting().max_by(|&a, &b| width(a).total_cmp(&width(b)));
        ComputedEstimate {
            value: self.value,
            low: self.down.extreme,
            high: self.up.extreme,
            dominant: dominant.map(|i| inputs[i].name),
            assumed: affecting().any(|i| inputs[i].basis == Basis::Assumed),
        }
    }
}

impl<const I: usize> Side<I> {
    fn is_of_several(&self) -> bool {
        self.changes.iter().filter(|change| **change > 0.0).count() > 1
    }

    /// The likeliest of the inputs that leave 2.5 % beyond: each moves by its share of the
    /// quadrature.
    fn design_point(&self, inputs: &[UncertainInput; I]) -> [f64; I] {
        let power = |n: i32| self.changes.iter().map(|change| change.powi(n)).sum::<f64>();
        let (squares, fourths) = (power(2), power(4));
        let step = COVERAGE * widening(squares, fourths) / squares.sqrt();
        std::array::from_fn(|i| {
            let share = (step * self.changes[i]).min(1.0);
            inputs[i].value + share * self.moves[i]
        })
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
    fn a_sum_has_the_range_of_95_percent_of_its_uniform_inputs() {
        let inputs = [input(A, 10.0, 0.03, Basis::Measured), input(B, 2.0, 0.04, Basis::Label)];
        let [sum] = propagate_uncertainty(&inputs, |[a, b]| [a + 5.0 * b]).unwrap();
        assert_eq!(sum.value, 20.0);
        // Trapezoid of half-widths 0.3 and 0.4: (0.7 - w)² = 8 · 0.3 · 0.4 · 0.025.
        let exact = 0.7 - (8.0 * 0.12 * 0.025_f64).sqrt();
        assert!((sum.high - 20.0 - exact).abs() < 0.01 * exact);
        assert!((20.0 - sum.low - exact).abs() < 0.01 * exact);
        assert_eq!(sum.dominant, Some(B));
        assert!(!sum.assumed);
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
    fn ends_of_a_range_are_results_of_the_function() {
        let inputs = [input(A, 1.0, 0.9, Basis::Label), input(B, 1.0, 0.9, Basis::Label)];
        let [product] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert!(0.0 < product.low && product.low < 0.145, "{product:?}");
        // Each alone raises it by a whole unit; together they add up inside the logarithm.
        let inputs = [A, B].map(|name| {
            UncertainInput::of(name, Estimate { high: 20.0, ..Estimate::exact(1.0, Basis::Label) })
        });
        let [sum] = propagate_uncertainty(&inputs, |[a, b]| [(a + b).log10()]).unwrap();
        assert!(sum.high > 20.05_f64.log10() && sum.high < 40.0_f64.log10(), "{sum:?}");
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
