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

/// Strengths that keep the curve rising everywhere.
pub const STRENGTHS: std::ops::RangeInclusive<f64> = -0.9..=0.9;

impl Tone {
    pub const PLAIN: Self = Self { strength: 0.0 };

    /// A camera's code, 0 to 255, to linear light, 0 to 1.
    pub fn decode(&self, code: f64) -> f64 {
        decode(self.unbend((code / 255.0).clamp(0.0, 1.0)))
    }

    fn bend(&self, plain: f64) -> f64 {
        (1.0 - self.strength) * plain + self.strength * plain * plain * (3.0 - 2.0 * plain)
    }

    /// Undoes [`Tone::bend`] by bisection: it rises, and 30 halvings are exact
    /// enough for any eye.
    fn unbend(&self, code: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if self.bend(middle) < code { low = middle } else { high = middle }
        }
        0.5 * (low + high)
    }
}
