//! The camera's contrast curve.
//!
//! A phone does not store plain sRGB: it bends the scale, steeper in the middle and
//! flatter towards white, to please. A white and a grey of known reflectance in one
//! frame tell how strongly. What they cannot tell is the curve's exact form between
//! them; that stays in the range of the result.

use super::space::decode;
use serde::{Deserialize, Serialize};

/// A contrast curve of one parameter laid over sRGB.
///
/// On codes from 0 to 1 the camera is taken to do
/// `code = (1 - strength) * plain + strength * plain² (3 - 2 plain)`: plain sRGB at
/// strength 0, steeper in the middle above it, flatter below. The form is common
/// practice for contrast controls, no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tone {
    pub strength: f64,
}

/// Strengths that a camera may plausibly have. A grey that asks for more is not
/// explained by a tone curve: it is shaded, or another grey than was said. From the
/// curves that the synthetic camera of `demo` carries.
pub const STRENGTHS: std::ops::RangeInclusive<f64> = -0.35..=0.65;

impl Tone {
    pub const PLAIN: Self = Self { strength: 0.0 };

    /// A camera's code, 0 to 255, to linear light, 0 to 1.
    pub fn decode(&self, code: f64) -> f64 {
        decode(self.unbend((code / 255.0).clamp(0.0, 1.0)))
    }

    /// The tone under which `grey` over `white`, each the codes of three channels,
    /// comes out at `ratio` in luminance. The nearest plausible tone if none does;
    /// `None` if the two lie so that their ratio says nothing of the curve.
    pub fn fit(white: [f64; 3], grey: [f64; 3], ratio: f64) -> Option<Self> {
        let found =
            |strength| Self { strength }.luminance(grey) / Self { strength }.luminance(white);
        let (mut low, mut high) = (*STRENGTHS.start(), *STRENGTHS.end());
        // Less than this over the whole range, and noise would choose the curve.
        if (found(high) / found(low)).ln() < 0.15 {
            return None;
        }
        for _ in 0..24 {
            let middle = 0.5 * (low + high);
            if found(middle) < ratio { low = middle } else { high = middle }
        }
        Some(Self { strength: 0.5 * (low + high) })
    }

    /// Luminance of a code triple, by the weights of IEC 61966-2-1.
    pub fn luminance(&self, codes: [f64; 3]) -> f64 {
        let [r, g, b] = codes.map(|code| self.decode(code));
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    fn bend(&self, plain: f64) -> f64 {
        (1.0 - self.strength) * plain + self.strength * plain * plain * (3.0 - 2.0 * plain)
    }

    /// Undoes [`Tone::bend`] by bisection: it rises, and 30 halvings are exact
    /// enough for any eye.
    fn unbend(&self, code: f64) -> f64 {
        if self.strength == 0.0 {
            return code;
        }
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if self.bend(middle) < code { low = middle } else { high = middle }
        }
        0.5 * (low + high)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::colour::space::encode;

    #[test]
    fn bends_back() {
        for strength in [-0.3, 0.0, 0.25, 0.6] {
            let tone = Tone { strength };
            for plain in [0.0, 0.1, 0.5, 0.9, 1.0] {
                assert!((tone.unbend(tone.bend(plain)) - plain).abs() < 1e-8);
            }
        }
    }

    #[test]
    fn a_grey_and_a_white_give_the_curve() {
        for strength in [-0.2, 0.1, 0.5] {
            let camera = Tone { strength };
            let code = |light: f64| [255.0 * camera.bend(encode(light)); 3];
            let found = Tone::fit(code(0.75), code(0.75 * 0.2), 0.2).unwrap();
            assert!((found.strength - strength).abs() < 1e-4);
        }
    }

    #[test]
    fn two_whites_give_no_curve() {
        assert_eq!(Tone::fit([220.0; 3], [215.0; 3], 0.95), None);
    }
}
