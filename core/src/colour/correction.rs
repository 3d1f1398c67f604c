//! Correction of a photo's codes to reflectances, from the references in it.

use super::camera::taught::TaughtCamera;
use super::camera::{CameraErrors, at};
use super::error::ColourError;
use super::patch::PatchStatistics;
use super::quality;
use super::reference::References;
use super::reference_patches::ReferencePatches;
use super::space::{Lab, encode, luminance};
use super::tone::ToneCurve;
use serde::{Deserialize, Serialize};

/// Conversion of one photo's codes into reflectances.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    pub patches: ReferencePatches,
    pub references: References,
    pub tone: ToneCurve,
    /// Tone curves by the ends of the grey's range.
    pub other_tones: Vec<ToneCurve>,
    /// Whether a grey determined the tone curve; otherwise it is that of the taught camera, or
    /// plain sRGB.
    pub tone_is_measured: bool,
    /// What is known of the camera that took the photo.
    pub camera: Option<TaughtCamera>,
}

impl Correction {
    /// The correction.
    ///
    /// # Errors
    /// All reasons against it, most severe first.
    pub fn new(
        patches: &ReferencePatches,
        references: &References,
    ) -> Result<Self, Vec<ColourError>> {
        Self::with_camera(patches, references, None)
    }

    /// [`Self::new`] for a photo of a camera that was taught in this kind of light.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn with_camera(
        patches: &ReferencePatches,
        references: &References,
        camera: Option<TaughtCamera>,
    ) -> Result<Self, Vec<ColourError>> {
        let mut refused = quality::of_references(patches, references);
        let usual = camera.map_or(ToneCurve::USUAL, |camera| camera.tone);
        let fitted = fitted_tones(patches, references, usual);
        let tone_is_measured = fitted.is_some();
        let assumed = camera.map_or(ToneCurve::PLAIN, |camera| camera.tone);
        let (tone, other_tones) = fitted.unwrap_or_else(|| (assumed, Vec::new()));
        let correction = Self {
            patches: *patches,
            references: *references,
            tone,
            other_tones,
            tone_is_measured,
            camera,
        };
        if let (Some(grey), Some(surface)) = (&patches.grey, &references.grey) {
            refused.extend(quality::of_grey(
                Lab::from_linear(correction.reflectance(grey)),
                Lab::from_linear(surface.values()),
            ));
        }
        if refused.is_empty() { Ok(correction) } else { Err(refused) }
    }

    /// Reflectance of each channel of a patch, 0 to 1.
    pub fn reflectance(&self, patch: &PatchStatistics) -> [f64; 3] {
        self.reflectance_by(&self.tone, patch)
    }

    /// [`Self::reflectance`] with another tone curve.
    pub fn reflectance_by(&self, tone: &ToneCurve, patch: &PatchStatistics) -> [f64; 3] {
        let light = self.light(tone, patch.area.centre());
        let found = [0, 1, 2].map(|c| tone.decode(patch.median[c]) / light[c]);
        self.camera.map_or(found, |camera| camera.true_colour(found))
    }

    /// Errors of the camera at a corrected colour, relative to each linear channel, one standard
    /// deviation: those common to all colours of the photo, and each channel's rest.
    pub(super) fn camera_errors(&self, linear: [f64; 3]) -> (Vec<[f64; 3]>, [f64; 3]) {
        if let Some(camera) = &self.camera {
            let part = if self.tone_is_measured { GREY_CONTRAST } else { TAUGHT_CONTRAST };
            let mode = at(&TaughtCamera::contrast_mode(part), linear);
            let glare = linear.map(|v| GLARE * (1.0 / v.max(0.02) - 1.0 / 0.90));
            return (vec![mode, glare, local_tone(linear)], camera.rest);
        }
        let errors = CameraErrors::unknown(self.references.light, self.tone_is_measured);
        (errors.at(linear).chain([local_tone(linear)]).collect(), errors.rest)
    }

    /// Linear light of a perfect white at `place`.
    pub(super) fn light(&self, tone: &ToneCurve, place: [f64; 2]) -> [f64; 3] {
        let white = self.references.white.values();
        let lit = white_at(&self.patches, place, |code| tone.decode(code));
        [0, 1, 2].map(|c| lit[c].max(1e-4) / white[c])
    }
}

/// Standard deviation of the contrast of a taught camera from photo to photo, relative: with a
/// grey in the frame, and without one. Own estimates, over the taught cameras of
/// `tests/colour`.
const GREY_CONTRAST: f64 = 0.01;
const TAUGHT_CONTRAST: f64 = 0.03;
/// What a phone's mapping of tones by place does to a colour, relative, one standard deviation:
/// nothing to white, more to what is darker.
fn local_tone(linear: [f64; 3]) -> [f64; 3] {
    [LOCAL_TONE * (1.0 - luminance(linear)).clamp(0.0, 1.0); 3]
}

/// Of black. Own estimate, so that colours of the cameras held out in `tests/colour` are within
/// their ranges; of these mappings nothing is published.
const LOCAL_TONE: f64 = 0.1;
/// Standard deviation of a photo's glare, as a share of a perfect white. Own estimate.
const GLARE: f64 = 0.008;

/// Reading of the white at `place`: between two whites the light is interpolated
/// geometrically, beyond them it is constant; the lens darkens the corners by
/// [`VIGNETTE`](super::reference_patches::VIGNETTE).
fn white_at(patches: &ReferencePatches, place: [f64; 2], decode: impl Fn(f64) -> f64) -> [f64; 3] {
    let here = patches.vignette(place);
    let level = |patch: &PatchStatistics| {
        let lens = here / patches.vignette(patch.area.centre());
        patch.median.map(|code| decode(code).max(1e-4) * lens)
    };
    let first = level(&patches.white);
    let Some(second) = &patches.second_white else {
        return first;
    };
    let (from, to) = (patches.white.area.centre(), second.area.centre());
    let along = [to[0] - from[0], to[1] - from[1]];
    let length = along[0] * along[0] + along[1] * along[1];
    if length <= 0.0 {
        return first;
    }
    let reach = (place[0] - from[0]) * along[0] + (place[1] - from[1]) * along[1];
    let part = (reach / length).clamp(0.0, 1.0);
    let second = level(second);
    [0, 1, 2].map(|c| first[c] * (second[c] / first[c]).powf(part))
}

/// Tone curve by white and grey, and those by the ends of the grey's range; `None` without a
/// usable grey.
fn fitted_tones(
    patches: &ReferencePatches,
    references: &References,
    usual: ToneCurve,
) -> Option<(ToneCurve, Vec<ToneCurve>)> {
    let (grey, surface) = (patches.grey.as_ref()?, references.grey.as_ref()?);
    let white = white_codes_at(patches, grey.area.centre());
    let over_white =
        |reflectance: [f64; 3]| luminance(reflectance) / luminance(references.white.values());
    let fit = |reflectance| usual.with_contrast(white, grey.median, over_white(reflectance));
    let tone = fit(surface.values())?;
    let ends = [surface.reflectance.map(|k| k.low), surface.reflectance.map(|k| k.high)];
    Some((tone, ends.into_iter().filter_map(fit).collect()))
}

/// Codes of the white at a place, interpolated as plain sRGB.
fn white_codes_at(patches: &ReferencePatches, place: [f64; 2]) -> [f64; 3] {
    white_at(patches, place, |code| ToneCurve::PLAIN.decode(code))
        .map(|light| 255.0 * encode(light))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
pub(super) mod tests {
    use super::*;
    use crate::colour::photo::Area;
    use crate::colour::reference::{Light, Surface};

    pub fn patch(x: u32, median: [f64; 3]) -> PatchStatistics {
        PatchStatistics {
            area: Area { x, y: 100, width: 80, height: 80 },
            median,
            spread: [2.0; 3],
            clipped_high: 0.0,
            clipped_low: 0.0,
            unevenness: 0.01,
            pixels: 6400,
        }
    }

    /// A white card of 90 % that reads `white`, without a grey.
    pub fn correction(white: [f64; 3]) -> Correction {
        let patches = ReferencePatches {
            white: patch(100, white),
            second_white: None,
            grey: None,
            edge: Some(0.003),
            width: 1200,
            height: 900,
        };
        let references =
            References { white: Surface::card(0.90), grey: None, light: Light::Daylight };
        Correction::new(&patches, &references).unwrap()
    }

    /// Computed with colour-science 0.4.7: the white 235, 235, 230 of 0.90.
    #[test]
    fn reflectance_by_a_card_without_a_grey() {
        let correction = correction([235.0, 235.0, 230.0]);
        // Pulp at the place of the white: the same light and lens.
        let found = correction.reflectance(&patch(100, [200.0, 190.0, 160.0]));
        for (found, expected) in found.iter().zip([0.625_71, 0.557_83, 0.399_82]) {
            assert!((found - expected).abs() < 1e-4, "{found} is not {expected}");
        }
        assert!(!correction.tone_is_measured);
    }

    #[test]
    fn light_is_interpolated_between_two_whites() {
        let mut patches = correction([220.0; 3]).patches;
        patches.second_white = Some(patch(500, [200.0; 3]));
        // A photo so large that the vignette is negligible.
        patches.width = 1_000_000;
        patches.height = 1_000_000;
        let middle = white_at(&patches, [340.0, 140.0], |code| code);
        assert!((middle[0] - (220.0_f64 * 200.0).sqrt()).abs() < 1e-2);
        let beyond = white_at(&patches, [900.0, 140.0], |code| code);
        assert!((beyond[0] - 200.0).abs() < 1e-1);
    }

    #[test]
    fn a_shaded_grey_is_refused() {
        let mut patches = correction([220.0; 3]).patches;
        let references =
            References { grey: Some(Surface::grey_card()), ..correction([220.0; 3]).references };
        patches.grey = Some(patch(300, [107.0; 3]));
        assert!(Correction::new(&patches, &references).is_ok());
        patches.grey = Some(patch(300, [60.0; 3]));
        let refused = Correction::new(&patches, &references).unwrap_err();
        assert!(matches!(refused[..], [ColourError::GreyOff { .. }]), "{refused:?}");
    }
}
