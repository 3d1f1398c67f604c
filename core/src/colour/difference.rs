//! Perceived colour difference.

use super::camera::CameraErrors;
use super::correction::Correction;
use super::measure::ColourMeasurement;
use super::patch::PatchStatistics;
use super::reference::Surface;
use super::space::Lab;
use super::uncertainty::{terms, white_value};
use crate::quantity::{Basis, Estimate};
use palette::color_difference::Ciede2000;
use serde::{Deserialize, Serialize};

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

/// Difference of a colour from another: the other minus the one, and their CIEDE2000.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourDifference {
    pub lightness: Estimate<f64>,
    pub a: Estimate<f64>,
    pub b: Estimate<f64>,
    pub delta_e00: Estimate<f64>,
}

/// Difference between two patches of one photo. What is common to both, such as the camera and
/// the white, changes both at once and cancels in part.
pub fn in_one_photo(
    correction: &Correction,
    one: &PatchStatistics,
    other: &PatchStatistics,
) -> ColourDifference {
    let linear = [one, other].map(|patch| correction.reflectance(patch));
    let [first, second] =
        [(one, linear[0]), (other, linear[1])].map(|(p, l)| terms(correction, p, l));
    let mut pair = Pair::new(linear);
    for (one, other) in first.iter().zip(&second) {
        if one.shared {
            pair.move_both(one.relative, other.relative);
        } else {
            pair.move_both(one.relative, [0.0; 3]);
            pair.move_both([0.0; 3], other.relative);
        }
    }
    pair.difference()
}

/// Difference between colours of two photos by one unknown camera in one kind of light, with
/// white of the same kind. `own` are the half ranges of L*, a*, b* that they do not share.
pub fn in_one_series(
    [one, other]: [Lab; 2],
    own: [[f64; 3]; 2],
    errors: &CameraErrors,
) -> ColourDifference {
    let linear = [one, other].map(|lab| lab.to_xyz().to_linear());
    let mut pair = Pair::new(linear);
    for (one, other) in errors.at(linear[0]).zip(errors.at(linear[1])) {
        pair.move_both(one.map(|v| 2.0 * v), other.map(|v| 2.0 * v));
    }
    for term in white_value(&Surface::copy_paper()) {
        pair.move_both(term.relative, term.relative);
    }
    pair.add_own(own);
    pair.difference()
}

/// Difference between unrelated colours, from L*, a* and b* of each.
pub fn unrelated(one: [Estimate<f64>; 3], other: [Estimate<f64>; 3]) -> ColourDifference {
    let mut pair = Pair::new([one, other].map(|lab| values(lab).to_xyz().to_linear()));
    pair.add_own([halves(one), halves(other)]);
    pair.difference()
}

/// Two colours, and how far their difference moves.
struct Pair {
    linear: [[f64; 3]; 2],
    centre: [f64; 4],
    up: [f64; 4],
    down: [f64; 4],
}

impl Pair {
    fn new(linear: [[f64; 3]; 2]) -> Self {
        let centre = differences(linear.map(Lab::from_linear));
        Self { linear, centre, up: [0.0; 4], down: [0.0; 4] }
    }

    /// Adds one cause, by the relative changes of both colours, in both directions.
    fn move_both(&mut self, one: [f64; 3], other: [f64; 3]) {
        for sign in [1.0, -1.0] {
            let moved = |linear: [f64; 3], by: [f64; 3]| {
                Lab::from_linear([0, 1, 2].map(|c| linear[c] * (1.0 + sign * by[c])))
            };
            self.add([moved(self.linear[0], one), moved(self.linear[1], other)]);
        }
    }

    /// Adds half ranges of L*, a*, b* of each colour alone.
    fn add_own(&mut self, own: [[f64; 3]; 2]) {
        let labs = self.linear.map(Lab::from_linear);
        for (which, halves) in own.into_iter().enumerate() {
            for (axis, half) in halves.into_iter().enumerate() {
                for by in [half, -half] {
                    let mut moved = labs;
                    let lab = &mut moved[which];
                    *[&mut lab.l, &mut lab.a, &mut lab.b][axis] += by;
                    self.add(moved);
                }
            }
        }
    }

    fn add(&mut self, moved: [Lab; 2]) {
        let moved = differences(moved);
        for (i, moved) in moved.into_iter().enumerate() {
            let change = moved - self.centre[i];
            let side = if change > 0.0 { &mut self.up[i] } else { &mut self.down[i] };
            *side += change * change;
        }
    }

    fn difference(&self) -> ColourDifference {
        let figure = |i: usize| Estimate {
            value: self.centre[i],
            low: self.centre[i] - self.down[i].sqrt(),
            high: self.centre[i] + self.up[i].sqrt(),
            basis: Basis::Computed,
        };
        let delta_e00 = figure(3);
        ColourDifference {
            lightness: figure(0),
            a: figure(1),
            b: figure(2),
            delta_e00: Estimate { low: delta_e00.low.max(0.0), ..delta_e00 },
        }
    }
}

fn differences([one, other]: [Lab; 2]) -> [f64; 4] {
    [other.l - one.l, other.a - one.a, other.b - one.b, delta_e00(one, other)]
}

fn figures(reading: &ColourMeasurement) -> [Estimate<f64>; 3] {
    [reading.lightness, reading.a, reading.b]
}

fn values(lab: [Estimate<f64>; 3]) -> Lab {
    let [l, a, b] = lab.map(|figure| figure.value);
    Lab { l, a, b }
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
