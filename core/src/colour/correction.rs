//! From the references in a frame to a correction for everything else in it.

use super::patch::{Area, Patch, Photo, read};
use super::quality::{self, Place, Rejection};
use super::reference::References;
use super::space::{Lab, encode};
use super::tone::Tone;
use serde::{Deserialize, Serialize};

/// Where a person marked the references in a photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    pub white: Option<Area>,
    /// A second place of the same white, as far from the first as the frame allows.
    pub second_white: Option<Area>,
    pub grey: Option<Area>,
}

/// The references as read from a photo. Small enough to store with the reading, so
/// that a better value for the card can be applied years later.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReferencePatches {
    pub white: Patch,
    pub second_white: Option<Patch>,
    pub grey: Option<Patch>,
    /// Width of the photo's sharp edges as a share of its long side, if it has any.
    pub edge: Option<f64>,
    /// Size of the photo, in pixels.
    pub width: u32,
    pub height: u32,
}

impl ReferencePatches {
    /// Reads the marked places and the photo's sharpness.
    pub fn read(photo: &Photo, marks: &Marks) -> Result<Self, Rejection> {
        let white = marks.white.ok_or(Rejection::NoReference)?;
        let optional = |area: Option<Area>, place| area.map(|a| read(photo, a, place)).transpose();
        Ok(Self {
            white: read(photo, white, Place::White)?,
            second_white: optional(marks.second_white, Place::SecondWhite)?,
            grey: optional(marks.grey, Place::Grey)?,
            edge: super::sharpness::edge_width(photo),
            width: photo.width(),
            height: photo.height(),
        })
    }
}

impl ReferencePatches {
    /// What part of the light the lens lets through to a place, by [`VIGNETTE`].
    fn vignette(&self, place: [f64; 2]) -> f64 {
        1.0 - VIGNETTE * self.off_centre(place)
    }

    /// Squared distance of a place from the photo's middle: 0 there, 1 in a corner.
    pub(super) fn off_centre(&self, place: [f64; 2]) -> f64 {
        let (x, y) = (f64::from(self.width) / 2.0, f64::from(self.height) / 2.0);
        ((place[0] - x).powi(2) + (place[1] - y).powi(2)) / (x * x + y * y).max(1.0)
    }
}

/// What turns codes of one photo into reflectances.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    pub patches: ReferencePatches,
    pub references: References,
    pub tone: Tone,
    /// Other curves that the camera may have and still show the references so.
    pub other_tones: Vec<Tone>,
    /// Whether a grey fixed the tone curve; otherwise plain sRGB is assumed.
    pub tone_is_measured: bool,
}

impl Correction {
    /// The correction, or every reason against one, gravest first.
    pub fn new(
        patches: &ReferencePatches,
        references: &References,
    ) -> Result<Self, Vec<Rejection>> {
        let mut refused = quality::of_references(patches, references);
        let (tone, other_tones, tone_is_measured) = tone_of(patches, references);
        let correction = Self {
            patches: *patches,
            references: *references,
            tone,
            other_tones,
            tone_is_measured,
        };
        if let (Some(grey), Some(surface)) = (&patches.grey, &references.grey) {
            refused.extend(quality::of_grey(
                Lab::from_linear(correction.reflectance(grey)),
                Lab::from_linear(surface.values()),
            ));
        }
        if refused.is_empty() { Ok(correction) } else { Err(refused) }
    }

    /// Reflectance of each channel of a patch, 0 to 1, by the tone curve.
    pub fn reflectance(&self, patch: &Patch) -> [f64; 3] {
        self.reflectance_by(&self.tone, patch)
    }

    /// The same under another tone curve.
    pub fn reflectance_by(&self, tone: &Tone, patch: &Patch) -> [f64; 3] {
        let light = self.light(tone, patch.area.centre());
        [0, 1, 2].map(|c| tone.decode(patch.median[c]) / light[c])
    }

    /// What a perfect white would send at `place`, linear.
    pub(super) fn light(&self, tone: &Tone, place: [f64; 2]) -> [f64; 3] {
        let white = self.references.white.values();
        let lit = white_at(&self.patches, place, |code| tone.decode(code));
        [0, 1, 2].map(|c| lit[c].max(1e-4) / white[c])
    }
}

/// The white as it would be read at `place`: where there are two, the light is taken
/// to change evenly, by factors, from one to the other, and no further; and the lens
/// to darken the corners by [`VIGNETTE`].
fn white_at(patches: &ReferencePatches, place: [f64; 2], decode: impl Fn(f64) -> f64) -> [f64; 3] {
    let here = patches.vignette(place);
    let level = |patch: &Patch| {
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

/// How much darker than the middle a phone's corners still are after its own
/// correction: 0 to 16 %, taken as the middle of that; common practice, no source.
pub(super) const VIGNETTE: f64 = 0.08;

/// A camera's curve with a grey in the frame, and without.
fn tone_of(patches: &ReferencePatches, references: &References) -> (Tone, Vec<Tone>, bool) {
    let unknown = (Tone::PLAIN, Tone::UNKNOWN.to_vec(), false);
    let (Some(grey), Some(surface)) = (&patches.grey, &references.grey) else {
        return unknown;
    };
    let white = white_codes_at(patches, grey.area.centre());
    let over_white =
        |reflectance: [f64; 3]| luminance(reflectance) / luminance(references.white.values());
    let ratio = over_white(surface.values());
    let Some(tone) = Tone::fit(white, grey.median, ratio) else {
        return unknown;
    };
    let mut others = Vec::from(Tone::fit_others(white, grey.median, ratio).unwrap_or([tone; 2]));
    let ends = [surface.reflectance.map(|k| k.low), surface.reflectance.map(|k| k.high)];
    others.extend(ends.iter().filter_map(|end| Tone::fit(white, grey.median, over_white(*end))));
    (tone, others, true)
}

/// The white's codes at a place, interpolated in plain light.
fn white_codes_at(patches: &ReferencePatches, place: [f64; 2]) -> [f64; 3] {
    white_at(patches, place, |code| Tone::PLAIN.decode(code)).map(|light| 255.0 * encode(light))
}

fn luminance([r, g, b]: [f64; 3]) -> f64 {
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
pub(super) mod tests {
    use super::*;
    use crate::colour::reference::{Light, Surface};

    pub fn patch(x: u32, median: [f64; 3]) -> Patch {
        Patch {
            area: Area { x, y: 100, width: 80, height: 80 },
            median,
            spread: [2.0; 3],
            clipped_high: 0.0,
            clipped_low: 0.0,
            unevenness: 0.01,
            pixels: 6400,
        }
    }

    /// A white card of 90 % read as `white`, and no grey.
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

    /// Worked with colour-science 0.4.7: the white 235, 235, 230 of 0.90.
    #[test]
    fn a_card_without_a_grey() {
        let correction = correction([235.0, 235.0, 230.0]);
        // Pulp where the white was, so that light and lens are the same.
        let found = correction.reflectance(&patch(100, [200.0, 190.0, 160.0]));
        for (found, expected) in found.iter().zip([0.625_71, 0.557_83, 0.399_82]) {
            assert!((found - expected).abs() < 1e-4, "{found} is not {expected}");
        }
        assert!(!correction.tone_is_measured);
    }

    #[test]
    fn light_between_two_whites() {
        let mut patches = correction([220.0; 3]).patches;
        patches.second_white = Some(patch(500, [200.0; 3]));
        // A photo so large that the marks lie in its middle: no vignette.
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
        assert!(matches!(refused[..], [Rejection::GreyOff { .. }]), "{refused:?}");
    }
}
