//! The exchange file: entries and photos in one, to carry to another phone or
//! to keep safe.
//!
//! It is a ZIP archive (PKWARE APPNOTE 6.3) that any computer opens:
//!
//! * `bleachfield.json`, first: the [`Header`] and the entries, indented for
//!   reading, in the journal's order, members sorted by name;
//! * `photos/<sha256>.jpg` (or `.png`, `.webp`), sorted by name.
//!
//! The JSON alone, without the archive around it, is a file too: one without
//! photos, for channels that let only text through. Times inside the archive
//! are all 1980-01-01, so that equal contents are equal bytes.
//!
//! Format numbers only rise. A later version opens every earlier format; an
//! earlier version refuses a later one, in words. New kinds of entry and new
//! members need no new format: they are kept unread (see
//! [`super::Body::Unknown`]).

mod archive;
mod migrate;
mod preview;
mod read;
mod select;
mod write;

pub use migrate::{FORMAT, migrated};
pub use preview::{Preview, preview};
pub use read::{Limits, read};
pub use select::{photos_of, select};
pub use write::{json, write};

use super::{Device, Entry, PhotoId};
use crate::message::{Message, Value};
use crate::{choice, record};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// The ending of an exchange file's name, without the dot: a plain ZIP, so
/// that every phone knows what to do with it.
pub const ENDING: &str = "zip";

/// The media type of an exchange file.
pub const MIME: &str = "application/zip";

/// What a file says about itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Header {
    /// Version of the app that wrote it.
    pub app: String,
    pub exported_at: Timestamp,
    /// The device that wrote it.
    pub device: Device,
}

record!(Header { app, exported_at, device });

/// What a file held: read, checked, and not yet put anywhere.
#[derive(Clone, Debug, PartialEq)]
pub struct Parcel {
    pub header: Header,
    /// The format that it was written in, before migration.
    pub format: u32,
    /// In the journal's order, each id once.
    pub entries: Vec<Entry>,
    /// Photos that the entries name, with bytes that match their ids.
    pub photos: BTreeMap<PhotoId, PhotoFile>,
    /// Names of files within it that mean nothing to this version.
    pub ignored: Vec<String>,
}

/// A photo within a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoFile {
    pub mime: &'static str,
    pub bytes: Vec<u8>,
}

/// A file that cannot be taken in. Nothing of it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileError {
    /// Neither our archive nor our JSON.
    NotOurs,
    /// Ours, but cut short or altered.
    Damaged {
        /// Which part, as named within the file; empty for the whole.
        part: String,
    },
    /// More than a file may be, packed or unpacked.
    TooLarge { most_bytes: u64 },
    /// More files within it than a file may hold.
    TooMany { most: usize },
    /// Written by a newer version.
    Newer { format: u32, app: String },
    /// A photo whose bytes do not match its name.
    WrongPhoto { name: String },
    /// A name that reaches outside the archive: somebody means harm.
    OddName { name: String },
}

choice!(FileError {
    NotOurs = "not_ours",
    Damaged { part } = "damaged",
    TooLarge { most_bytes } = "too_large",
    TooMany { most } = "too_many",
    Newer { format, app } = "newer",
    WrongPhoto { name } = "wrong_photo",
    OddName { name } = "odd_name",
});

impl FileError {
    /// What to say.
    pub fn message(&self) -> Message {
        let text = |t: &String| Value::Text(t.clone());
        match self {
            FileError::NotOurs => Message::new("refusal-file-not_ours"),
            FileError::Damaged { part } => {
                Message::new("refusal-file-damaged").with("part", text(part))
            }
            FileError::TooLarge { most_bytes } => Message::new("refusal-file-too_large")
                .with("most", Value::Count(most_bytes / (1024 * 1024))),
            FileError::TooMany { most } => {
                Message::new("refusal-file-too_many").with("most", Value::Count(*most as u64))
            }
            FileError::Newer { format, app } => Message::new("refusal-file-newer")
                .with("format", Value::Count(u64::from(*format)))
                .with("known", Value::Count(u64::from(FORMAT)))
                .with("app", text(app)),
            FileError::WrongPhoto { name } => {
                Message::new("refusal-file-wrong_photo").with("name", text(name))
            }
            FileError::OddName { name } => {
                Message::new("refusal-file-odd_name").with("name", text(name))
            }
        }
    }
}

/// Name of the JSON within the archive.
const JSON_NAME: &str = "bleachfield.json";

/// Folder of the photos within the archive.
const PHOTOS: &str = "photos/";

#[cfg(test)]
mod tests;
