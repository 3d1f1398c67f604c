//! What the page and its worker say to each other.
//!
//! A message is an array: its number, a [`Job`] or [`Answer`] as JSON text, and
//! then the bytes that go with it, which are handed over and not copied.

use bleachfield_core::journal::{
    file::{FileError, Header},
    photo::PhotoError,
};
use bleachfield_core::{choice, record};

/// Work for the worker.
#[derive(Debug)]
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

choice!(Job {
    CleanPhoto = "clean_photo",
    ReadFile = "read_file",
    WriteFile { header, entries, photos } = "write_file",
});

/// What came of it.
#[derive(Debug)]
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

choice!(Answer {
    Ready = "ready",
    Photo(photo) = "photo",
    PhotoRefused(refused) = "photo_refused",
    File(file) = "file",
    Written = "written",
    FileRefused(refused) = "file_refused",
    Unread = "unread",
});

/// A photo without its metadata.
#[derive(Clone, Debug, PartialEq)]
pub struct CleanPhoto {
    pub id: String,
    pub mime: String,
    pub width_px: u32,
    pub height_px: u32,
    pub orientation: u8,
}

record!(CleanPhoto { id, mime, width_px, height_px, orientation });

/// An exchange file, taken apart.
#[derive(Debug)]
pub struct ReadFile {
    pub header: Header,
    pub format: u32,
    /// A JSON array.
    pub entries: String,
    /// The id of each photo.
    pub photos: Vec<String>,
    pub ignored: Vec<String>,
}

record!(ReadFile { header, format, entries, photos, ignored });
