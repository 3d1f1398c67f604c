//! Measured colour of a patch of pulp, with its range.

use super::correction::Correction;
use super::error::ColourError;
use super::kubelka_munk::k_over_s;
use super::patch::PatchStatistics;
use super::quality::{self, limit};
use super::role::PatchRole;
use super::space::{Lab, Xyz};
use super::uncertainty::{self, UncertaintySource, UncertaintyTerm};
use super::whiteness::{self, Whiteness, cie_whiteness, yellowness};
use crate::quantity::{Basis, Estimate};
use palette::color_difference::EuclideanDistance;
use serde::{Deserialize, Serialize};

/// Colour of one patch; a perfect white is 100 and 1.
///
/// Ranges cover about 19 of 20 measurements of the synthetic photographs of
/// `tests/colour`, by cameras that their table of errors was not made with; against real
/// photographs they are held by the same tests.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourMeasurement {
    /// Corrected linear sRGB, where a perfect white is `[1, 1, 1]`.
    pub linear: [f64; 3],
    pub xyz: Xyz,
    pub lab: Lab,
    /// L*, 0 to 100.
    pub lightness: Estimate<f64>,
    /// a*, green to red.
    pub a: Estimate<f64>,
    /// b*, blue to yellow.
    pub b: Estimate<f64>,
    /// C*ab.
    pub chroma: Estimate<f64>,
    /// Degrees; `low` may be below 0 or `high` above 360 where the range crosses red.
    pub hue: Estimate<f64>,
    /// ASTM E313, D65/2°.
    pub yellowness: Estimate<f64>,
    /// Blue channel as a reflectance, 0 to 1: the camera's approximation of the trade's blue
    /// reflectance, not ISO brightness.
    pub blue: Estimate<f64>,
    /// K/S of [`Self::blue`], by Kubelka and Munk.
    pub blue_k_over_s: Estimate<f64>,
    /// `None` outside the validity of the formula.
    pub whiteness: Option<Whiteness>,
    /// CIE whiteness with its range; `None` outside the validity of the formula.
    pub cie_whiteness: Option<Estimate<f64>>,
    /// Half ranges of L*, a*, b* by what this colour does not share with others of the same
    /// camera, light and kind of white.
    pub own: [f64; 3],
    /// Largest contribution to the ranges of L*, a* and b*.
    pub dominant: UncertaintySource,
}

/// Measures `pulp`, a patch of the photo of `correction`.
///
/// # Errors
/// Clipped pixels, or an uneven patch.
pub fn measure(
    correction: &Correction,
    pulp: &PatchStatistics,
) -> Result<ColourMeasurement, ColourError> {
    if let Some(refused) = quality::of_patch(PatchRole::Pulp, pulp, limit::UNEVEN_PULP) {
        return Err(refused);
    }
    let linear = correction.reflectance(pulp);
    let terms = uncertainty::terms(correction, pulp, linear);
    Ok(ColourMeasurement::new(linear, &terms))
}

impl ColourMeasurement {
    /// From a corrected colour and the contributions to its uncertainty.
    fn new(linear: [f64; 3], terms: &[UncertaintyTerm]) -> Self {
        let centre = ColourFigures::of(linear);
        let ranges = Ranges::of(&centre, linear, terms);
        let own: Vec<UncertaintyTerm> = terms.iter().filter(|t| !t.shared).copied().collect();
        let own = Ranges::of(&centre, linear, &own);
        let known = |i: usize| Estimate {
            value: centre.all[i],
            low: centre.all[i] - ranges.down[i].sqrt(),
            high: centre.all[i] + ranges.up[i].sqrt(),
            basis: Basis::Measured,
        };
        let not_below = |least: f64, k: Estimate<f64>| Estimate { low: k.low.max(least), ..k };
        Self {
            linear,
            xyz: centre.xyz,
            lab: centre.lab,
            lightness: known(0),
            a: known(1),
            b: known(2),
            chroma: not_below(0.0, known(3)),
            hue: known(4),
            yellowness: known(5),
            blue: not_below(0.0, known(6)),
            blue_k_over_s: not_below(0.0, known(7)),
            whiteness: cie_whiteness(centre.xyz),
            cie_whiteness: cie_whiteness(centre.xyz).map(|_| known(8)),
            own: [0, 1, 2].map(|i| own.up[i].max(own.down[i]).sqrt()),
            dominant: ranges.dominant,
        }
    }
}

/// The figures that have a range.
struct ColourFigures {
    xyz: Xyz,
    lab: Lab,
    all: [f64; ColourFigures::COUNT],
}

impl ColourFigures {
    const COUNT: usize = 9;
    const HUE: usize = 4;

    fn of(linear: [f64; 3]) -> Self {
        let xyz = Xyz::from_linear(linear);
        let lab = Lab::from_xyz(xyz);
        // Outside 0 to 1 there is no K/S; that of the nearest reflectance keeps the range whole.
        let blue = linear[2].clamp(1e-3, 1.0);
        let all = [
            lab.l,
            lab.a,
            lab.b,
            lab.chroma(),
            lab.hue_degrees(),
            yellowness(xyz).unwrap_or(0.0),
            linear[2],
            k_over_s(blue).unwrap_or(0.0),
            whiteness::formula(xyz).map_or(0.0, |found| found.whiteness),
        ];
        Self { xyz, lab, all }
    }

    fn changes_from(&self, centre: &Self) -> [f64; Self::COUNT] {
        std::array::from_fn(|i| {
            let change = self.all[i] - centre.all[i];
            if i == Self::HUE { (change + 180.0).rem_euclid(360.0) - 180.0 } else { change }
        })
    }

    /// Squared distance in CIELAB.
    fn distance_squared(&self, other: &Self) -> f64 {
        self.lab.inner().distance_squared(other.lab.inner())
    }
}

/// Sums of squares of the changes of each figure.
struct Ranges {
    up: [f64; ColourFigures::COUNT],
    down: [f64; ColourFigures::COUNT],
    dominant: UncertaintySource,
}

impl Ranges {
    fn of(centre: &ColourFigures, linear: [f64; 3], terms: &[UncertaintyTerm]) -> Self {
        let mut up = [0.0; ColourFigures::COUNT];
        let mut down = [0.0; ColourFigures::COUNT];
        let mut weights: Vec<(UncertaintySource, f64)> = Vec::new();
        for UncertaintyTerm { source, relative, .. } in terms {
            let mut reach = 0.0_f64;
            for sign in [1.0, -1.0] {
                let moved =
                    ColourFigures::of([0, 1, 2].map(|c| linear[c] * (1.0 + sign * relative[c])));
                for (i, change) in moved.changes_from(centre).into_iter().enumerate() {
                    let side = if change > 0.0 { &mut up[i] } else { &mut down[i] };
                    *side += change * change;
                }
                reach = reach.max(moved.distance_squared(centre));
            }
            match weights.iter_mut().find(|(known, _)| known == source) {
                Some((_, weight)) => *weight += reach,
                None => weights.push((*source, reach)),
            }
        }
        let dominant = weights
            .into_iter()
            .max_by(|one, other| one.1.total_cmp(&other.1))
            .map_or(UncertaintySource::Camera, |(source, _)| source);
        Self { up, down, dominant }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
pub(super) mod tests {
    use super::*;
    use crate::colour::correction::tests::{correction, patch};
    use crate::colour::reference::References;

    /// A warm colour of about this reflectance.
    pub fn measurement(level: f64) -> ColourMeasurement {
        let source = UncertaintySource::Camera;
        let terms = uncertainty::each_channel(source, [0.035, 0.02, 0.06]);
        ColourMeasurement::new([level, 0.9 * level, 0.7 * level], &terms)
    }

    /// Computed with colour-science 0.4.7.
    #[test]
    fn colour_by_a_white_card() {
        let found = measure(&correction([235.0, 235.0, 230.0]), &patch(100, [200.0, 190.0, 160.0]))
            .unwrap();
        let near = |one: f64, other: f64| assert!((one - other).abs() < 0.02, "{one} {other}");
        near(found.lab.l, 79.66);
        near(found.lab.a, -0.88);
        near(found.lab.b, 15.02);
        near(found.yellowness.value, 29.96);
        near(found.blue_k_over_s.value, 0.4505);
        assert_eq!(found.whiteness, None);
        for known in [found.lightness, found.a, found.b, found.chroma, found.hue, found.blue] {
            assert!(known.low < known.value && known.value < known.high);
        }
    }

    #[test]
    fn an_uncertain_white_widens_the_range() {
        let pulp = patch(400, [200.0, 190.0, 160.0]);
        let card = correction([235.0, 235.0, 230.0]);
        let mut paper = card.clone();
        paper.references = References::copy_paper();
        let width = |c: &Correction| {
            let lightness = measure(c, &pulp).unwrap().lightness;
            lightness.high - lightness.low
        };
        assert!(width(&paper) > width(&card));
    }

    #[test]
    fn clipped_pulp_is_refused() {
        let mut pulp = patch(400, [240.0, 230.0, 200.0]);
        pulp.clipped_high = 0.2;
        assert_eq!(
            measure(&correction([235.0; 3]), &pulp),
            Err(ColourError::Clipped { place: PatchRole::Pulp, share: 0.2 })
        );
    }
}
