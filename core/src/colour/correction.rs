//! From the references in a frame to a correction for everything else in it.

use super::patch::{Area, Patch, Photo, read};
use super::quality::{Place, Rejection};
use super::reference::References;
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
        })
    }
}

/// What turns codes of one photo into reflectances.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    pub patches: ReferencePatches,
    pub references: References,
    pub tone: Tone,
    /// The tone curve may be as weak or as strong as these.
    pub tone_range: [Tone; 2],
    /// Whether a grey fixed the tone curve; otherwise plain sRGB is assumed.
    pub tone_is_measured: bool,
}

impl Correction {
    /// The correction, or every reason against one, gravest first.
    pub fn new(
        patches: &ReferencePatches,
        references: &References,
    ) -> Result<Self, Vec<Rejection>> {
        let _ = (patches, references);
        Err(vec![Rejection::NoReference])
    }
}
