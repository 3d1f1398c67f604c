//! The camera's contrast curve.
//!
//! A phone does not store plain sRGB: it bends the scale, steeper in the middle and
//! flatter towards white, to please. A white and a grey of known reflectance in one
//! frame tell how strongly. What they cannot tell is the curve's exact form between
//! them; that stays in the range of the result.

use super::space::decode;
use serde::{Deserialize, Serialize};

/// A contrast curve laid over sRGB: of linear light `x` the camera is taken to show
/// `y = (1 + m) x^contrast / (x^contrast + m)`, with `m = 1 / shoulder`: steeper for
/// a contrast above 1, flatter towards white for more shoulder, plain sRGB at
/// contrast 1 and shoulder 0. The form is the log-logistic curve of film, common
/// practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tone {
    pub contrast: f64,
    pub shoulder: f64,
}

/// Contrasts that a camera may plausibly have at the usual shoulder. A grey that
/// asks for more is not explained by a tone curve: it is shaded, or another grey than
/// was said. From the five kinds of curve of `demo`'s camera, only one of which has
/// this form.
const CONTRASTS: std::ops::RangeInclusive<f64> = 0.80..=1.42;

/// Shoulders from none to strong, and the one in the middle that errs least over
/// the curves of `demo`'s camera. White and grey fix the contrast, given the
/// shoulder; the shoulder itself they cannot tell.
const NONE: f64 = 0.0;
const USUAL: f64 = 0.67;
const STRONG: f64 = 2.0;

impl Tone {
    pub const PLAIN: Self = Self { contrast: 1.0, shoulder: NONE };

    /// Curves that a camera may have of which nothing is known: with and without
    /// contrast, with and without shoulder.
    pub(super) const UNKNOWN: [Self; 2] =
        [Self { contrast: 1.35, shoulder: USUAL }, Self { contrast: 1.0, shoulder: STRONG }];

    /// A camera's code, 0 to 255, to linear light, 0 to 1.
    pub fn decode(&self, code: f64) -> f64 {
        let shown = decode((code / 255.0).clamp(0.0, 1.0));
        let unrolled = shown / (1.0 + self.shoulder * (1.0 - shown));
        unrolled.powf(1.0 / self.contrast)
    }

    /// The tone under which `grey` over `white`, each the codes of three channels,
    /// comes out at `ratio` in luminance. The nearest plausible tone if none does;
    /// `None` if the two lie so close that their ratio says nothing of the curve.
    pub fn fit(white: [f64; 3], grey: [f64; 3], ratio: f64) -> Option<Self> {
        Self::fit_with(USUAL, &CONTRASTS, white, grey, ratio)
    }

    /// The same with no shoulder and with a strong one: how the true curve may
    /// differ and still meet white and grey.
    pub(super) fn fit_others(white: [f64; 3], grey: [f64; 3], ratio: f64) -> Option<[Self; 2]> {
        let wide = 0.5..=2.0;
        let fit = |shoulder| Self::fit_with(shoulder, &wide, white, grey, ratio);
        Some([fit(NONE)?, fit(STRONG)?])
    }

    fn fit_with(
        shoulder: f64,
        contrasts: &std::ops::RangeInclusive<f64>,
        white: [f64; 3],
        grey: [f64; 3],
        ratio: f64,
    ) -> Option<Self> {
        let found = |contrast| {
            let tone = Self { contrast, shoulder };
            tone.luminance(grey) / tone.luminance(white).max(1e-6)
        };
        let (mut low, mut high) = (*contrasts.start(), *contrasts.end());
        // Less than this over the whole range, and noise would choose the curve.
        if (found(high) / found(low)).ln() < 0.3 {
            return None;
        }
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if found(middle) < ratio { low = middle } else { high = middle }
        }
        Some(Self { contrast: 0.5 * (low + high), shoulder })
    }

    /// Luminance of a code triple, by the weights of IEC 61966-2-1.
    pub fn luminance(&self, codes: [f64; 3]) -> f64 {
        let [r, g, b] = codes.map(|code| self.decode(code));
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::colour::space::encode;

    /// What a camera of that tone would store.
    fn code(tone: &Tone, light: f64) -> f64 {
        let bent = light.powf(tone.contrast);
        255.0 * encode(bent * (1.0 + tone.shoulder) / (1.0 + tone.shoulder * bent))
    }

    #[test]
    fn bends_back() {
        for contrast in [0.85, 1.0, 1.3] {
            for shoulder in [0.0, 0.67, 2.0] {
                let tone = Tone { contrast, shoulder };
                for light in [0.0, 0.1, 0.5, 0.9, 1.0] {
                    assert!((tone.decode(code(&tone, light)) - light).abs() < 1e-6);
                }
            }
        }
    }

    #[test]
    fn a_grey_and_a_white_give_the_contrast() {
        for contrast in [0.9, 1.0, 1.3] {
            let camera = Tone { contrast, shoulder: USUAL };
            let codes = |light| [code(&camera, light); 3];
            let found = Tone::fit(codes(0.75), codes(0.75 * 0.2), 0.2).unwrap();
            assert!((found.contrast - contrast).abs() < 1e-4);
        }
    }

    #[test]
    fn two_whites_give_no_curve() {
        assert_eq!(Tone::fit([220.0; 3], [215.0; 3], 0.95), None);
    }
}
