//! The references of a photo as read from its pixels.

use super::error::ColourError;
use super::patch::{PatchStatistics, read};
use super::photo::{Area, PhotoPixels};
use super::role::PatchRole;
use super::sharpness::edge_width;
use serde::{Deserialize, Serialize};

/// Marked places of the references in a photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    pub white: Option<Area>,
    /// A second place of the same white, as far from the first as possible.
    pub second_white: Option<Area>,
    pub grey: Option<Area>,
}

/// The references as read from a photo. Small enough to store, so that better values of a card
/// can be applied later.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReferencePatches {
    pub white: PatchStatistics,
    pub second_white: Option<PatchStatistics>,
    pub grey: Option<PatchStatistics>,
    /// Width of the sharp edges as a share of the long side; `None` without strong edges.
    pub edge: Option<f64>,
    /// Size of the photo, pixels.
    pub width: u32,
    pub height: u32,
}

impl ReferencePatches {
    /// Reads the marked places and the sharpness.
    ///
    /// # Errors
    /// No white marked, or a mark that [`read`] refuses.
    pub fn read(photo: &PhotoPixels, marks: &Marks) -> Result<Self, ColourError> {
        let white = marks.white.ok_or(ColourError::NoReference)?;
        let optional = |area: Option<Area>, role| area.map(|a| read(photo, a, role)).transpose();
        Ok(Self {
            white: read(photo, white, PatchRole::White)?,
            second_white: optional(marks.second_white, PatchRole::SecondWhite)?,
            grey: optional(marks.grey, PatchRole::Grey)?,
            edge: edge_width(photo),
            width: photo.width(),
            height: photo.height(),
        })
    }

    /// Transmission of the lens at a place relative to the centre, by [`VIGNETTE`].
    pub(super) fn vignette(&self, place: [f64; 2]) -> f64 {
        1.0 - VIGNETTE * self.off_centre(place)
    }

    /// Squared distance of a place from the centre of the photo: 0 there, 1 in a corner.
    pub(super) fn off_centre(&self, place: [f64; 2]) -> f64 {
        let (x, y) = (f64::from(self.width) / 2.0, f64::from(self.height) / 2.0);
        ((place[0] - x).powi(2) + (place[1] - y).powi(2)) / (x * x + y * y).max(1.0)
    }
}

/// Darkening of a phone's corners after its own correction: 0 to 16 %, taken as the mean;
/// common practice, no source.
pub(super) const VIGNETTE: f64 = 0.08;
