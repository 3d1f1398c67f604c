//! What the page and its worker say to each other.
//!
//! A message is an array: its number, a [`Job`] or [`Answer`] as JSON text, and
//! then the bytes that go with it, which are handed over and not copied.

use bleachfield_core::journal::{
    file::{FileError, Header},
    photo::PhotoError,
};
use serde::{Deserialize, Serialize};

/// Work for the worker.
#[derive(Debug, Serialize, Deserialize)]
pub enum Job {
    /// Take everything but the picture out of a photo. With it: the file.
    CleanPhoto,
    /// Read an exchange file. With it: the file.
    ReadFile,
    /// Write an exchange file. With it: each photo's bytes, in this order.
    WriteFile {
        header: Header,
        /// A JSON array.
        entries: String,
        /// The photos' ids.
        photos: Vec<String>,
    },
}

/// What came of it.
#[derive(Debug, Serialize, Deserialize)]
pub enum Answer {
    /// The worker has started; message 0, sent unasked.
    Ready,
    /// With it: the clean bytes.
    Photo(CleanPhoto),
    PhotoRefused(PhotoError),
    /// With it: each photo's bytes, in the order named.
    File(ReadFile),
    /// With it: the file.
    Written,
    FileRefused(FileError),
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

/// An exchange file, taken apart.
#[derive(Debug, Serialize, Deserialize)]
pub struct ReadFile {
    pub header: Header,
    pub format: u32,
    /// A JSON array.
    pub entries: String,
    /// Id and media type of each photo.
    pub photos: Vec<(String, String)>,
    pub ignored: Vec<String>,
}
