//! Perceived colour difference.

use super::measure::ColourMeasurement;
use super::space::Lab;
use crate::quantity::{Basis, Estimate};
use palette::color_difference::Ciede2000;

/// CIEDE2000 with kL = kC = kH = 1. About 1 is a just noticeable difference side
/// by side.
///
/// CIE 142 (2001), as implemented by the crate `palette`, which reproduces all 34
/// pairs of Sharma, Wu and Dalal (2005), Color Research and Application 30(1), to
/// their four printed decimals, in both orders.
pub fn delta_e00(one: Lab, other: Lab) -> f64 {
    one.inner().difference(other.inner())
}

/// CIEDE2000 between a measurement and an exact colour, such as a target, with the range from
/// that of the measurement.
pub fn to_target(reading: &ColourMeasurement, target: Lab) -> Estimate<f64> {
    from_figures(figures(reading), target)
}

/// [`to_target`] from L*, a* and b*.
pub fn from_figures(lab: [Estimate<f64>; 3], target: Lab) -> Estimate<f64> {
    difference(values(lab), target, halves(lab))
}

/// CIEDE2000 between measurements of two photos, from L*, a* and b*.
pub fn between_figures(one: [Estimate<f64>; 3], other: [Estimate<f64>; 3]) -> Estimate<f64> {
    difference(values(one), values(other), combined_halves(one, other))
}

/// CIEDE2000 between two measurements, from one photo or two.
///
/// In one photo most errors are common to both (white, tone, light), so a third of each
/// range counts; between photos all of it. The third is from the pairs of the synthetic
/// photographs in `tests/colour`.
pub fn between(
    one: &ColourMeasurement,
    other: &ColourMeasurement,
    same_photo: bool,
) -> Estimate<f64> {
    let part = if same_photo { 1.0 / 3.0 } else { 1.0 };
    let halves = combined_halves(figures(one), figures(other)).map(|half| part * half);
    difference(one.lab, other.lab, halves)
}

fn figures(reading: &ColourMeasurement) -> [Estimate<f64>; 3] {
    [reading.lightness, reading.a, reading.b]
}

fn values(lab: [Estimate<f64>; 3]) -> Lab {
    let [l, a, b] = lab.map(|figure| figure.value);
    Lab { l, a, b }
}

fn combined_halves(one: [Estimate<f64>; 3], other: [Estimate<f64>; 3]) -> [f64; 3] {
    let (one, other) = (halves(one), halves(other));
    [0, 1, 2].map(|i| one[i].hypot(other[i]))
}

/// Half ranges of L*, a*, b*.
fn halves(lab: [Estimate<f64>; 3]) -> [f64; 3] {
    lab.map(|figure| 0.5 * (figure.high - figure.low))
}

/// The difference; its range from each coordinate of the first moved by its half range, added
/// in quadrature.
fn difference(from: Lab, to: Lab, halves: [f64; 3]) -> Estimate<f64> {
    let value = delta_e00(from, to);
    let (mut up, mut down) = (0.0, 0.0);
    for (i, half) in halves.into_iter().enumerate() {
        let moved = |by: f64| {
            let mut lab = [from.l, from.a, from.b];
            lab[i] += by;
            delta_e00(Lab { l: lab[0], a: lab[1], b: lab[2] }, to) - value
        };
        let (one, other) = (moved(half), moved(-half));
        up += one.max(other).max(0.0).powi(2);
        down += one.min(other).min(0.0).powi(2);
    }
    Estimate {
        value,
        low: (value - down.sqrt()).max(0.0),
        high: value + up.sqrt(),
        basis: Basis::Computed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lab((l, a, b): (f64, f64, f64)) -> Lab {
        Lab { l, a, b }
    }

    /// Computed with colour-science 0.4.7, for colours of pulps.
    #[test]
    fn ciede2000_of_pulps() {
        for (one, other, expected) in [
            ((90.0, 0.0, 8.0), (92.0, 0.0, 5.0), 2.632),
            ((85.0, 1.0, 15.0), (90.0, 0.0, 8.0), 5.736),
            ((70.0, 3.0, 22.0), (85.0, 1.0, 14.0), 11.669),
            ((92.0, 0.0, 5.0), (91.5, 0.2, 6.5), 1.261),
        ] {
            let found = delta_e00(lab(one), lab(other));
            assert!((found - expected).abs() < 0.001, "{found} is not {expected}");
        }
    }
}
