//! How far an answer may be off, and which input is to blame.
//!
//! Each input is moved to either end of its range with the others at their
//! values, and the movements of the answer add up in quadrature: the law of
//! propagation for independent inputs (JCGM 100:2008, GUM, 5.1.2), with the
//! real function in place of its slope, so that a lopsided range stays
//! lopsided.

use super::{Basis, Estimate};
use crate::message::Field;

/// One uncertain input of a sum, as a bare number with a name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UncertainInput {
    pub name: Field,
    pub value: f64,
    pub low: f64,
    pub high: f64,
    pub basis: Basis,
}

impl UncertainInput {
    /// From a known value whose unit the caller has taken off.
    pub fn of(name: Field, known: Estimate<f64>) -> Self {
        Self { name, value: known.value, low: known.low, high: known.high, basis: known.basis }
    }
}

/// An answer with its range, the input that dominates the range, and whether
/// any input that moves it was assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComputedEstimate<Q> {
    pub value: Q,
    pub low: Q,
    pub high: Q,
    /// The input that moves the answer most; `None` where none moves it.
    pub dominant: Option<Field>,
    /// Nobody measured one of the inputs that this rests on.
    pub assumed: bool,
}

impl<Q: Copy> ComputedEstimate<Q> {
    /// A figure without a range.
    pub fn exact(value: Q) -> Self {
        Self { value, low: value, high: value, dominant: None, assumed: false }
    }
}

impl<Q> ComputedEstimate<Q> {
    /// The same figure in another unit or form; `convert` must be increasing.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> ComputedEstimate<R> {
        ComputedEstimate {
            value: convert(self.value),
            low: convert(self.low),
            high: convert(self.high),
            dominant: self.dominant,
            assumed: self.assumed,
        }
    }

    /// As an input to another sum.
    pub fn estimate(self) -> Estimate<Q> {
        let basis = if self.assumed { Basis::Assumed } else { Basis::Computed };
        Estimate { value: self.value, low: self.low, high: self.high, basis }
    }
}

/// Runs `sums` at the inputs' values and at each end of each range, and returns
/// its `O` answers with their ranges. `sums` is called at most `1 + 2 I` times.
/// A range does not cross zero unless some call's answer did.
///
/// Returns `None` if an answer is anything but finite, at the inputs' values or
/// at any end.
pub fn propagate_uncertainty<const I: usize, const O: usize>(
    inputs: &[UncertainInput; I],
    sums: impl Fn(&[f64; I]) -> [f64; O],
) -> Option<[ComputedEstimate<f64>; O]> {
    let mut at = [0.0; I];
    for (x, input) in at.iter_mut().zip(inputs) {
        *x = input.value;
    }
    let middle = sums(&at);
    let mut figures = middle.map(|value| Trace { value, ..Trace::default() });
    for i in 0..I {
        let input = &inputs[i];
        if input.low == input.high {
            at[i] = input.value;
            continue;
        }
        let mut ends = [middle; 2];
        for (end, x) in ends.iter_mut().zip([input.low, input.high]) {
            at[i] = x;
            *end = sums(&at);
        }
        at[i] = input.value;
        for (o, figure) in figures.iter_mut().enumerate() {
            figure.moved(i, ends[0][o], ends[1][o]);
        }
    }
    let done = figures.map(|figure| figure.figure(inputs));
    done.iter()
        .all(|f| f.low.is_finite() && f.high.is_finite() && f.value.is_finite())
        .then_some(done)
}

#[derive(Clone, Copy, Default)]
struct Trace {
    value: f64,
    /// Sums of squares of the movements down and up.
    down: f64,
    up: f64,
    least: f64,
    greatest: f64,
    moved: bool,
    most: f64,
    dominant: usize,
    /// Bit per input that moves this answer.
    movers: u64,
}

impl Trace {
    fn moved(&mut self, input: usize, a: f64, b: f64) {
        let (low, high) = (a.min(b).min(self.value), a.max(b).max(self.value));
        let (down, up) = (self.value - low, high - self.value);
        // Rounding noise of a few ulps is not a movement.
        if high - low <= 1e-12 * self.value.abs() {
            return;
        }
        self.down += down * down;
        self.up += up * up;
        self.least = if self.moved { self.least.min(low) } else { low };
        self.greatest = if self.moved { self.greatest.max(high) } else { high };
        self.moved = true;
        self.movers |= 1u64.checked_shl(input as u32).unwrap_or(0);
        if high - low > self.most {
            self.most = high - low;
            self.dominant = input;
        }
    }

    fn figure(self, inputs: &[UncertainInput]) -> ComputedEstimate<f64> {
        let mut low = self.value - self.down.sqrt();
        let mut high = self.value + self.up.sqrt();
        if self.moved && self.least >= 0.0 {
            low = low.max(0.0);
        }
        if self.moved && self.greatest <= 0.0 {
            high = high.min(0.0);
        }
        let assumed = inputs
            .iter()
            .enumerate()
            .any(|(i, input)| input.basis == Basis::Assumed && self.movers >> i & 1 == 1);
        let dominant = self.moved.then(|| inputs[self.dominant].name);
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
    fn only_an_input_that_matters_marks_an_answer_assumed() {
        let inputs = [input(A, 10.0, 0.1, Basis::Assumed), input(B, 2.0, 0.1, Basis::Label)];
        let [first, second] = propagate_uncertainty(&inputs, |[a, b]| [*a, *b]).unwrap();
        assert!(first.assumed && first.estimate().basis == Basis::Assumed);
        assert!(!second.assumed);
    }

    #[test]
    fn an_exact_answer_has_no_range_and_no_culprit() {
        let inputs = [input(A, 10.0, 0.0, Basis::Label)];
        let [figure] = propagate_uncertainty(&inputs, |[a]| [a + 1.0]).unwrap();
        assert_eq!((figure.low, figure.value, figure.high), (11.0, 11.0, 11.0));
        assert_eq!(figure.dominant, None);
    }

    #[test]
    fn ranges_do_not_cross_zero_by_adding_up() {
        let inputs = [input(A, 1.0, 0.8, Basis::Label), input(B, 1.0, 0.8, Basis::Label)];
        let [figure] = propagate_uncertainty(&inputs, |[a, b]| [a * b]).unwrap();
        assert_eq!(figure.low, 0.0);
    }

    #[test]
    fn a_sum_that_breaks_anywhere_gives_nothing() {
        let inputs = [input(A, 1.0, 1.0, Basis::Label)];
        assert_eq!(propagate_uncertainty(&inputs, |[a]| [1.0 / a]), None);
    }
}
