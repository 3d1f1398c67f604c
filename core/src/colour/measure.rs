//! A patch of pulp, measured.

use super::correction::{Correction, VIGNETTE};
use super::kubelka_munk::k_over_s;
use super::patch::Patch;
use super::quality::{self, Place, Rejection, limit};
use super::reference::Light;
use super::space::{Lab, Xyz, decode};
use super::tone::Tone;
use super::whiteness::{self, Whiteness, cie_whiteness, yellowness};
use crate::quantity::{Basis, Known};
use crate::words;
use serde::{Deserialize, Serialize};

/// The colour of one patch, dry-card scale: a perfect white is 100 and 1.
///
/// Ranges cover about 19 readings in 20 on the synthetic photographs of
/// `tests/colour`; they are not a promise about a camera nobody tried.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Corrected linear sRGB, where a perfect white is `[1, 1, 1]`.
    pub linear: [f64; 3],
    pub xyz: Xyz,
    pub lab: Lab,
    /// L*, 0 to 100.
    pub lightness: Known<f64>,
    /// a*, green to red.
    pub a: Known<f64>,
    /// b*, blue to yellow.
    pub b: Known<f64>,
    /// C*ab.
    pub chroma: Known<f64>,
    /// Degrees; `low` may be below 0 or `high` above 360 where the range crosses red.
    pub hue: Known<f64>,
    /// ASTM E313, D65/2°.
    pub yellowness: Known<f64>,
    /// The blue channel as a reflectance, 0 to 1: the camera's nearest thing to the
    /// trade's blue reflectance, and not ISO brightness.
    pub blue: Known<f64>,
    /// K/S of [`Reading::blue`], by Kubelka and Munk.
    pub blue_k_over_s: Known<f64>,
    /// Only where the formula holds.
    pub whiteness: Option<Whiteness>,
    /// CIE whiteness with its range; only where the formula holds.
    pub cie_whiteness: Option<Known<f64>>,
    /// What widens the range of lightness and of yellowness most.
    pub dominant: Doubt,
}

/// Where a reading's uncertainty comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubt {
    /// The pulp itself: texture, shives, noise.
    Pulp,
    /// How the white was read: noise, unevenness.
    White,
    /// How well the white's own reflectance is known.
    WhiteValue,
    /// The camera's contrast curve.
    Tone,
    /// How the light changes across the frame.
    Light,
    /// The camera's eyes are not an observer's, and the light is not D65.
    Camera,
}

words!(Doubt {
    Pulp = "pulp",
    White = "white",
    WhiteValue = "white_value",
    Tone = "tone",
    Light = "light",
    Camera = "camera",
});

impl Doubt {
    /// Key for the words in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Pulp => "colour-doubt-pulp",
            Self::White => "colour-doubt-white",
            Self::WhiteValue => "colour-doubt-white_value",
            Self::Tone => "colour-doubt-tone",
            Self::Light => "colour-doubt-light",
            Self::Camera => "colour-doubt-camera",
        }
    }
}

/// Measures `pulp`, a patch of the same photo that `correction` is of.
pub fn measure(correction: &Correction, pulp: &Patch) -> Result<Reading, Rejection> {
    if let Some(refused) = quality::of_patch(Place::Pulp, pulp, limit::UNEVEN_PULP) {
        return Err(refused);
    }
    let linear = correction.reflectance(pulp);
    let doubts = doubts(correction, pulp, linear);
    Ok(Reading::new(linear, &doubts))
}

/// One cause of uncertainty, as how far it may move each linear channel, in parts
/// of itself, two standard deviations.
type Sway = (Doubt, [f64; 3]);

/// What a camera adds by not being an observer, and the light by not being D65:
/// two standard deviations in parts of red, green and blue, set from the synthetic
/// photographs of `tests/colour` over published lights and three cameras.
fn camera(light: Light) -> [Sway; 3] {
    let [red, green, blue] = match light {
        Light::Daylight => [0.035, 0.02, 0.06],
        Light::Bulb => [0.035, 0.02, 0.06],
        Light::GoodLamp | Light::OtherLamp => [0.05, 0.03, 0.08],
    };
    [[red, 0.0, 0.0], [0.0, green, 0.0], [0.0, 0.0, blue]].map(|parts| (Doubt::Camera, parts))
}

impl Reading {
    /// A reading and its ranges from a corrected colour and what may sway it.
    fn new(linear: [f64; 3], sways: &[Sway]) -> Self {
        let centre = Figures::of(linear);
        let mut up = [0.0; Figures::COUNT];
        let mut down = [0.0; Figures::COUNT];
        let mut weights: Vec<(Doubt, f64)> = Vec::new();
        for (doubt, parts) in sways {
            let mut reach = 0.0_f64;
            for sign in [1.0, -1.0] {
                let moved = Figures::of([0, 1, 2].map(|c| linear[c] * (1.0 + sign * parts[c])));
                for (i, change) in moved.changes_from(&centre).into_iter().enumerate() {
                    let side = if change > 0.0 { &mut up[i] } else { &mut down[i] };
                    *side += change * change;
                }
                let Lab { l, a, b } = moved.lab;
                let distance = (l - centre.lab.l).powi(2)
                    + (a - centre.lab.a).powi(2)
                    + (b - centre.lab.b).powi(2);
                reach = reach.max(distance);
            }
            match weights.iter_mut().find(|(known, _)| known == doubt) {
                Some((_, weight)) => *weight += reach,
                None => weights.push((*doubt, reach)),
            }
        }
        let dominant = weights
            .into_iter()
            .max_by(|one, other| one.1.total_cmp(&other.1))
            .map_or(Doubt::Camera, |(doubt, _)| doubt);
        let known = |i: usize| Known {
            value: centre.all[i],
            low: centre.all[i] - down[i].sqrt(),
            high: centre.all[i] + up[i].sqrt(),
            basis: Basis::Measured,
        };
        let not_below = |least: f64, k: Known<f64>| Known { low: k.low.max(least), ..k };
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
            dominant,
        }
    }
}

/// The figures that get a range.
struct Figures {
    xyz: Xyz,
    lab: Lab,
    all: [f64; Figures::COUNT],
}

impl Figures {
    const COUNT: usize = 9;
    const HUE: usize = 4;

    fn of(linear: [f64; 3]) -> Self {
        let xyz = Xyz::from_linear(linear);
        let lab = Lab::from_xyz(xyz);
        // A reflectance of nothing or of more than everything has no K/S; the
        // nearest that has one stands in, so that the range stays whole.
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
        let mut changes = [0.0; Self::COUNT];
        for (i, change) in changes.iter_mut().enumerate() {
            *change = self.all[i] - centre.all[i];
            if i == Self::HUE {
                *change = (*change + 180.0).rem_euclid(360.0) - 180.0;
            }
        }
        changes
    }
}

/// Everything that may sway the reading of `pulp`.
fn doubts(correction: &Correction, pulp: &Patch, linear: [f64; 3]) -> Vec<Sway> {
    let mut sways = camera(correction.references.light).to_vec();
    sways.push((Doubt::Pulp, [pulp.unevenness / 4.0; 3]));
    sways.push((Doubt::White, [correction.patches.white.unevenness / 4.0; 3]));
    sways.extend(noise(Doubt::Pulp, pulp));
    sways.extend(noise(Doubt::White, &correction.patches.white));
    sways.extend(white_value(correction));
    let against = |other: [f64; 3]| [0, 1, 2].map(|c| other[c] / linear[c].max(1e-4) - 1.0);
    for tone in &correction.other_tones {
        // The others lie in pairs on either side, and each counts both ways.
        let parts = against(correction.reflectance_by(tone, pulp)).map(|part| part * HALF_SQUARED);
        sways.push((Doubt::Tone, parts));
    }
    sways.push((Doubt::Light, [light(correction, pulp); 3]));
    sways
}

/// A half, in a sum of squares.
const HALF_SQUARED: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Two standard errors of the medians, channel by channel.
fn noise(doubt: Doubt, patch: &Patch) -> [Sway; 3] {
    [0, 1, 2].map(|c| {
        let error = 1.2533 * patch.spread[c] / f64::from(patch.pixels.max(1)).sqrt();
        let code = patch.median[c] / 255.0;
        let part = decode((code + 2.0 * error / 255.0).min(1.0)) / decode(code).max(1e-4) - 1.0;
        let mut parts = [0.0; 3];
        parts[c] = part;
        (doubt, parts)
    })
}

/// How far the white's own reflectance may sway a reading: all channels together by
/// what they share, and each alone by the rest and by a quarter of the shared part,
/// since no white is quite neutral.
fn white_value(correction: &Correction) -> Vec<Sway> {
    let halves = correction
        .references
        .white
        .reflectance
        .map(|known| 0.5 * (known.high - known.low) / known.value.max(1e-4));
    let shared = halves.into_iter().fold(f64::MAX, f64::min);
    let mut sways = vec![(Doubt::WhiteValue, [shared; 3])];
    for c in 0..3 {
        let mut parts = [0.0; 3];
        parts[c] = halves[c] - shared + 0.25 * shared;
        sways.push((Doubt::WhiteValue, parts));
    }
    sways
}

/// How much the light at the pulp may differ from what the whites say, in parts: as
/// much again of vignette as was taken out or none; for one white 15 % for a whole
/// frame between it and the pulp, for two a fifth of what lies between them; and
/// 1.5 %. Common practice, no source.
fn light(correction: &Correction, pulp: &Patch) -> f64 {
    let patches = &correction.patches;
    let (at_pulp, at_white) = (pulp.area.centre(), patches.white.area.centre());
    let lens = VIGNETTE * (patches.off_centre(at_pulp) - patches.off_centre(at_white));
    let lamp = match &patches.second_white {
        None => {
            let apart = (at_white[0] - at_pulp[0]).hypot(at_white[1] - at_pulp[1]);
            0.15 * (apart / f64::from(patches.width.max(patches.height).max(1))).min(1.0)
        }
        Some(second) => {
            let level = |patch: &Patch| Tone::PLAIN.luminance(patch.median).max(1e-4);
            0.2 * (level(&patches.white) / level(second)).ln().abs()
        }
    };
    (lens * lens + lamp * lamp + 0.015 * 0.015).sqrt()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
pub(super) mod tests {
    use super::*;
    use crate::colour::correction::tests::{correction, patch};

    /// A reading of about that much reflected light, warm.
    pub fn reading(level: f64) -> Reading {
        Reading::new([level, 0.9 * level, 0.7 * level], &camera(Light::Daylight))
    }

    /// Worked with colour-science 0.4.7.
    #[test]
    fn a_worked_card() {
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
    fn a_doubtful_white_widens_the_range() {
        let pulp = patch(400, [200.0, 190.0, 160.0]);
        let card = correction([235.0, 235.0, 230.0]);
        let mut paper = card.clone();
        paper.references = crate::colour::reference::References::copy_paper();
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
            Err(Rejection::Clipped { place: Place::Pulp, share: 0.2 })
        );
    }
}
