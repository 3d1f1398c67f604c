//! Sources of uncertainty of a measured colour, and their size.

use super::correction::Correction;
use super::patch::PatchStatistics;
use super::reference::Surface;
use super::reference_patches::VIGNETTE;
use super::space::{decode, extremes};
use super::tone::ToneCurve;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// Where the uncertainty of a measured colour comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-doubt-", serialize_all = "snake_case")]
pub enum UncertaintySource {
    /// Texture, shives and noise of the pulp.
    Pulp,
    /// Noise and unevenness of the white.
    White,
    /// Uncertainty of the white's reflectance.
    WhiteValue,
    /// The camera's tone curve.
    Tone,
    /// Variation of the light across the frame.
    Light,
    /// What the camera does to colours, and the difference between the light and D65.
    Camera,
}

impl UncertaintySource {
    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// One independent contribution to the uncertainty.
#[derive(Clone, Copy, Debug)]
pub(super) struct UncertaintyTerm {
    pub source: UncertaintySource,
    /// Relative change of each linear channel, two standard deviations.
    pub relative: [f64; 3],
    /// Common to all colours of a photo: the same cause, though not always the same change.
    pub shared: bool,
}

/// All contributions to the uncertainty of `pulp`, whose corrected colour is `linear`. For
/// patches of one correction the shared ones are the same causes in the same order.
pub(super) fn terms(
    correction: &Correction,
    pulp: &PatchStatistics,
    linear: [f64; 3],
) -> Vec<UncertaintyTerm> {
    use UncertaintySource::{Camera, Light, Pulp, Tone, White};
    let white = &correction.patches.white;
    let own = |source, relative| UncertaintyTerm { source, relative, shared: false };
    let shared = |source, relative| UncertaintyTerm { source, relative, shared: true };
    let (modes, rest) = correction.camera_errors(linear);
    let mut terms: Vec<UncertaintyTerm> =
        modes.into_iter().map(|mode| shared(Camera, mode.map(|v| 2.0 * v))).collect();
    terms.extend(each_channel(Camera, rest.map(|v| 2.0 * v)));
    terms.push(own(Pulp, [pulp.unevenness / 4.0; 3]));
    terms.push(shared(White, [white.unevenness / 4.0; 3]));
    terms.extend(noise(Pulp, pulp));
    terms.extend(noise(White, white).map(as_shared));
    terms.extend(white_value(&correction.references.white).map(as_shared));
    let against = |other: [f64; 3]| [0, 1, 2].map(|c| other[c] / linear[c].max(1e-4) - 1.0);
    for tone in &correction.other_tones {
        // The alternatives are pairs, one on either side, and each counts in both directions.
        let other = against(correction.reflectance_by(tone, pulp));
        terms.push(shared(Tone, other.map(|part| part * HALF_SQUARED)));
    }
    terms.push(own(Light, [light(correction, pulp); 3]));
    terms
}

fn as_shared(term: UncertaintyTerm) -> UncertaintyTerm {
    UncertaintyTerm { shared: true, ..term }
}

/// Factor of one half in a sum of squares.
const HALF_SQUARED: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Two standard errors of the median of each channel.
fn noise(source: UncertaintySource, patch: &PatchStatistics) -> [UncertaintyTerm; 3] {
    let relative = [0, 1, 2].map(|c| {
        let error = 1.2533 * patch.spread[c] / f64::from(patch.pixels.max(1)).sqrt();
        let code = patch.median[c] / 255.0;
        decode((code + 2.0 * error / 255.0).min(1.0)) / decode(code).max(1e-4) - 1.0
    });
    each_channel(source, relative)
}

/// Uncertainty of the white's reflectance: all channels together by their common part, and each
/// alone by the rest plus a quarter of the common part, since no white is exactly neutral.
pub(super) fn white_value(white: &Surface) -> [UncertaintyTerm; 4] {
    let source = UncertaintySource::WhiteValue;
    let halves =
        white.reflectance.map(|known| 0.5 * (known.high - known.low) / known.value.max(1e-4));
    let (common, _) = extremes(halves);
    let all = UncertaintyTerm { source, relative: [common; 3], shared: false };
    let [red, green, blue] = each_channel(source, halves.map(|half| half - common + 0.25 * common));
    [all, red, green, blue]
}

/// A term for each channel alone: the channels are independent.
pub(super) fn each_channel(source: UncertaintySource, relative: [f64; 3]) -> [UncertaintyTerm; 3] {
    let [red, green, blue] = relative;
    [[red, 0.0, 0.0], [0.0, green, 0.0], [0.0, 0.0, blue]].map(|relative| UncertaintyTerm {
        source,
        relative,
        shared: false,
    })
}

/// Relative error of the light at the pulp: the whole vignette correction; with one white 15 %
/// per frame length between it and the pulp, with two a fifth of the difference between them;
/// and 1.5 %. Common practice, no source.
fn light(correction: &Correction, pulp: &PatchStatistics) -> f64 {
    let patches = &correction.patches;
    let (at_pulp, at_white) = (pulp.area.centre(), patches.white.area.centre());
    let lens = VIGNETTE * (patches.off_centre(at_pulp) - patches.off_centre(at_white));
    let lamp = match &patches.second_white {
        None => {
            let apart = (at_white[0] - at_pulp[0]).hypot(at_white[1] - at_pulp[1]);
            0.15 * (apart / f64::from(patches.width.max(patches.height).max(1))).min(1.0)
        }
        Some(second) => {
            let level =
                |patch: &PatchStatistics| ToneCurve::PLAIN.luminance(patch.median).max(1e-4);
            0.2 * (level(&patches.white) / level(second)).ln().abs()
        }
    };
    (lens * lens + lamp * lamp + 0.015 * 0.015).sqrt()
}
