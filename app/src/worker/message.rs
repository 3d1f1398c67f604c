//! What the page and its worker say to each other.
//!
//! A message is an array: its number, a [`Job`] or [`Answer`] as JSON text, and
//! then the bytes that go with it, which are handed over and not copied.

use bleachfield_core::colour::{
    ColourError, PatchRole, reference::Light, uncertainty::UncertaintySource,
};
use bleachfield_core::exchange::{ExchangeError, file::Header, photo::Cleaned};
use bleachfield_core::journal::{ColourReading, Entry, Figure, PhotoId};
use serde::{Deserialize, Serialize};

/// Work for the worker.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Job {
    /// Take everything but the picture out of a photo. With it: the file.
    CleanPhoto,
    /// Get a photo ready to be kept: clean, smaller if its long side is much more than that
    /// many pixels, with a small copy, and looked at. With it: the file. As soon as it is
    /// sure that it can be kept, message `shown` is [`Answer::Shown`]; and after the answer,
    /// if it was looked at, message `measured` is its colour by the marks as proposed and
    /// the rest as is `likely` to be asked.
    TakePhoto { long_side: Option<u32>, shown: u32, measured: u32, likely: ColourAsked },
    /// Read an exchange file. With it: the file.
    ReadFile,
    /// Write an exchange file. With it: each photo's bytes, in this order.
    WriteFile {
        header: Header,
        entries: Vec<Entry>,
        /// The photos' ids.
        photos: Vec<PhotoId>,
    },
    /// Look at a photo, and keep its pixels for [`Job::Colour`]. With it: the file.
    Look { photo: String },
    /// The same for pixels that the page had to decode itself. With it: RGBA.
    LookAt { photo: String, width: u32, height: u32 },
    /// Measure colours in the photo last looked at.
    Colour(ColourAsked),
}

/// What came of it.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// The worker has started (message 0, sent unasked).
    Ready,
    /// With it: the clean bytes.
    Photo(CleanPhoto),
    /// With it: a photo that is being got ready, small, as a bitmap.
    Shown,
    /// With it: the clean bytes, and those of the small copy if there is one.
    Taken {
        photo: CleanPhoto,
        smaller: bool,
        looked: Option<Looked>,
    },
    Refused(ExchangeError),
    /// With it: each photo's bytes, in the order named.
    File(ReadFile),
    /// With it: the file.
    Written,
    Looked(Looked),
    /// The browser cannot decode it.
    Unseen,
    /// The worker has no canvas here: the page must decode.
    NoCanvas,
    Colour(Box<ColourFound>),
    /// Another photo was looked at since, or none.
    NotHeld,
    /// The message made no sense: page and worker are not of one version.
    Unread,
}

/// A photo without its metadata.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CleanPhoto {
    pub id: String,
    pub mime: String,
    pub width_px: u32,
    pub height_px: u32,
    pub orientation: u8,
}

impl CleanPhoto {
    pub fn of(photo: &Cleaned, id: PhotoId) -> Self {
        Self {
            id: id.into(),
            mime: photo.mime.into(),
            width_px: photo.width_px,
            height_px: photo.height_px,
            orientation: photo.orientation,
        }
    }
}

/// An exchange file, taken apart.
#[derive(Debug, Serialize, Deserialize)]
pub struct ReadFile {
    pub header: Header,
    pub format: u32,
    pub entries: Vec<Entry>,
    /// The id of each photo.
    pub photos: Vec<PhotoId>,
    pub ignored: Vec<String>,
}

/// A square marked on a photo: its middle in shares of the width and of the height,
/// half its side as a share of the width. As in a journal's `Patch`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    pub place: PatchRole,
    pub x: f64,
    pub y: f64,
    pub radius: f64,
}

/// What the worker saw in a photo at the size that it measures at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Looked {
    pub width: u32,
    pub height: u32,
    /// Where things may be.
    pub proposed: Vec<Mark>,
}

/// What is to be measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourAsked {
    pub photo: String,
    /// Up to two of pulp; of any other place one.
    pub marks: Vec<Mark>,
    /// CIELAB of the person's own white card; plain copy paper without.
    pub white: Option<[f64; 3]>,
    /// CIELAB of the person's own grey card; the usual 18 % without.
    pub grey: Option<[f64; 3]>,
    pub light: Light,
}

impl ColourAsked {
    /// The same of another photo, by the marks that are proposed in it.
    pub fn of(&self, photo: &str, looked: &Looked) -> Self {
        Self { photo: photo.to_owned(), marks: looked.proposed.clone(), ..*self }
    }
}

/// What came of it: readings, or all that speaks against one, gravest first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourFound {
    /// One for each mark of pulp.
    pub readings: Vec<ColourReading>,
    /// What widens the first reading's range most.
    pub doubt: Option<UncertaintySource>,
    /// CIEDE2000 between the two.
    pub between: Option<Figure>,
    pub refused: Vec<ColourError>,
}
