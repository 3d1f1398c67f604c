//! A patch of pulp, measured.

use super::correction::Correction;
use super::patch::Patch;
use super::quality::Rejection;
use super::space::{Lab, Xyz};
use super::whiteness::Whiteness;
use crate::quantity::Known;
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

impl Doubt {
    /// Key for the words in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Pulp => "colour.doubt.pulp",
            Self::White => "colour.doubt.white",
            Self::WhiteValue => "colour.doubt.white_value",
            Self::Tone => "colour.doubt.tone",
            Self::Light => "colour.doubt.light",
            Self::Camera => "colour.doubt.camera",
        }
    }
}

/// Measures `pulp`, a patch of the same photo that `correction` is of.
pub fn measure(correction: &Correction, pulp: &Patch) -> Result<Reading, Rejection> {
    let _ = (correction, pulp);
    Err(Rejection::NoReference)
}
