//! What a bath asks for, and when.

use serde::{Deserialize, Serialize};

/// When to do what in a bath, in minutes from its start. Nothing is cued
/// after the stop.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Schedule {
    /// Stir every so many minutes.
    pub stir_every_min: Option<f64>,
    /// See whether the bath wants warming every so many minutes.
    pub reheat_every_min: Option<f64>,
    /// Read the pH at these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ph_at_min: Vec<f64>,
    /// Dip a strip (chlorine or peroxide, by the bath's oxidant) at these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub strip_at_min: Vec<f64>,
    /// Look at the colour, with a photo, at these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photo_at_min: Vec<f64>,
    /// Stop the bath; none for one that runs until the person says.
    pub stop_at_min: Option<f64>,
}

/// What a cue asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CueKind {
    Stir,
    Reheat,
    Ph,
    Strip,
    Photo,
    Stop,
}

impl CueKind {
    /// The kind as ids, files and locale keys have it: `"stir"`.
    pub fn key(self) -> &'static str {
        match self {
            CueKind::Stir => "stir",
            CueKind::Reheat => "reheat",
            CueKind::Ph => "ph",
            CueKind::Strip => "strip",
            CueKind::Photo => "photo",
            CueKind::Stop => "stop",
        }
    }
}
