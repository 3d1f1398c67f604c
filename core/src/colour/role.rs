//! What a marked place in a photo is.

use serde::{Deserialize, Serialize};

/// What a patch of a photo shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, strum::IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum PatchRole {
    White,
    SecondWhite,
    Grey,
    Pulp,
    /// A surface of known colour that teaches the camera.
    Surface,
}

impl PatchRole {
    /// Locale key of its name.
    pub fn key(self) -> &'static str {
        match self {
            Self::White => "colour-place-white",
            Self::SecondWhite => "colour-place-second_white",
            Self::Grey => "colour-place-grey",
            Self::Pulp => "colour-place-pulp",
            Self::Surface => "colour-place-surface",
        }
    }
}
