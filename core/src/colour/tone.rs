//! The camera's tone curve.
//!
//! Phones do not store plain sRGB: they increase contrast in the mid-tones and
//! compress the highlights. A white and a grey of known reflectance in one frame
//! determine the contrast. The form of the curve between them stays unknown and
//! widens the range of the result.

use super::space::{decode, luminance};
use serde::{Deserialize, Serialize};

/// Tone curve over sRGB: for linear light `x` the camera shows
/// `y = (1 + m) x^contrast / (x^contrast + m)`, with `m = 1 / shoulder`: steeper for
/// contrast above 1, flatter towards white for larger shoulder, plain sRGB at
/// contrast 1 and shoulder 0. The form is the log-logistic curve of film, common
/// practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ToneCurve {
    pub contrast: f64,
    pub shoulder: f64,
}

/// Plausible contrasts at the usual shoulder. A grey that needs a value outside is
/// shaded, or not the stated grey. From the five kinds of curve of `demo`'s camera,
/// only one of which has this form.
const CONTRASTS: std::ops::RangeInclusive<f64> = 0.80..=1.42;

/// The shoulder with the least error over the curves of `demo`'s camera. White and grey
/// determine the contrast for a given shoulder, not the shoulder itself.
const USUAL: f64 = 0.67;

impl ToneCurve {
    /// Plain sRGB.
    pub const PLAIN: Self = Self { contrast: 1.0, shoulder: 0.0 };

    /// The usual shoulder, with its contrast still to be fitted.
    pub(super) const USUAL: Self = Self { contrast: 1.0, shoulder: USUAL };

    /// Linear light, 0 to 1, from a camera's code, 0 to 255.
    pub fn decode(&self, code: f64) -> f64 {
        let shown = decode((code / 255.0).clamp(0.0, 1.0));
        let without_shoulder = shown / (1.0 + self.shoulder * (1.0 - shown));
        without_shoulder.powf(1.0 / self.contrast)
    }

    /// The curve that gives `grey` over `white`, each the codes of three channels, the
    /// luminance `ratio`; the nearest plausible curve if none does. `None` if the two
    /// are too similar to determine a curve.
    pub fn fit(white: [f64; 3], grey: [f64; 3], ratio: f64) -> Option<Self> {
        Self::USUAL.with_contrast(white, grey, ratio)
    }

    /// [`Self::fit`] with this curve's own shoulder.
    pub(super) fn with_contrast(self, white: [f64; 3], grey: [f64; 3], ratio: f64) -> Option<Self> {
        let shoulder = self.shoulder;
        let found = |contrast| {
            let tone = Self { contrast, shoulder };
            tone.luminance(grey) / tone.luminance(white).max(1e-6)
        };
        let (mut low, mut high) = (*CONTRASTS.start(), *CONTRASTS.end());
        // With a smaller effect over the whole range noise would decide.
        if (found(high) / found(low)).ln() < 0.3 {
            return None;
        }
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if found(middle) < ratio { low = middle } else { high = middle }
        }
        Some(Self { contrast: 0.5 * (low + high), shoulder })
    }

    /// Luminance of three codes.
    pub fn luminance(&self, codes: [f64; 3]) -> f64 {
        luminance(codes.map(|code| self.decode(code)))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::colour::space::encode;

    /// Code that a camera with this curve stores.
    fn code(tone: &ToneCurve, light: f64) -> f64 {
        let bent = light.powf(tone.contrast);
        255.0 * encode(bent * (1.0 + tone.shoulder) / (1.0 + tone.shoulder * bent))
    }

    #[test]
    fn decode_inverts_the_camera() {
        for contrast in [0.85, 1.0, 1.3] {
            for shoulder in [0.0, 0.67, 2.0] {
                let tone = ToneCurve { contrast, shoulder };
                for light in [0.0, 0.1, 0.5, 0.9, 1.0] {
                    assert!((tone.decode(code(&tone, light)) - light).abs() < 1e-6);
                }
            }
        }
    }

    #[test]
    fn white_and_grey_determine_the_contrast() {
        for contrast in [0.9, 1.0, 1.3] {
            let camera = ToneCurve { contrast, shoulder: USUAL };
            let codes = |light| [code(&camera, light); 3];
            let found = ToneCurve::fit(codes(0.75), codes(0.75 * 0.2), 0.2).unwrap();
            assert!((found.contrast - contrast).abs() < 1e-4);
        }
    }

    #[test]
    fn similar_references_give_no_curve() {
        assert_eq!(ToneCurve::fit([220.0; 3], [215.0; 3], 0.95), None);
    }
}
