//! The exchange file: entries and photos in one file, to carry to another phone or to keep safe.
//! Here are its contents and errors; reading, writing and previewing have files of their own.
//!
//! It is a ZIP archive (PKWARE APPNOTE 6.3) that any computer opens:
//!
//! * `bleachfield.json`, first: the [`Header`] and the entries, indented, in
//!   the journal's order, members sorted by name;
//! * `photos/<sha256>.jpg` (or `.png`, `.webp`), sorted by name.
//!
//! The JSON alone, without an archive, is a file too: one without photos, for
//! channels that carry only text. All times in the archive are 1980-01-01, so
//! that equal contents are equal bytes.
//!
//! Format numbers only rise. A later version opens every earlier format; an
//! earlier version refuses a later one. New kinds of entry and new members
//! need no new format: they are kept as unknown (see
//! [`Body::Unknown`](crate::journal::Body::Unknown)).

mod archive;
mod error;
mod migrate;
mod preview;
mod read;
mod select;
mod write;

pub use error::FileError;
pub use migrate::{FORMAT, migrated};
pub use preview::{ImportPreview, preview};
pub use read::{Limits, read};
pub use select::{photos_of, select};
pub use write::{json_text, write};

use crate::journal::{DeviceId, Entry, PhotoId};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Extension of an exchange file's name: a plain ZIP, which every phone can
/// handle.
pub const EXTENSION: &str = "zip";

/// Media type of an exchange file.
pub const MIME: &str = "application/zip";

/// Metadata of an exchange file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Header {
    /// Version of the app that wrote it.
    pub app: String,
    pub exported_at: Timestamp,
    /// The device that wrote it.
    pub device: DeviceId,
}

/// The contents of an exchange file, read and checked.
#[derive(Clone, Debug, PartialEq)]
pub struct ExchangeFile {
    pub header: Header,
    /// The format that it was written in, before migration.
    pub format: u32,
    /// In the journal's order, each id once.
    pub entries: Vec<Entry>,
    /// Photos that the entries refer to, with bytes that match their ids.
    pub photos: BTreeMap<PhotoId, PhotoFile>,
    /// Names of files in the archive that were not used.
    pub ignored: Vec<String>,
}

/// A photo in an exchange file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoFile {
    pub mime: &'static str,
    pub bytes: Vec<u8>,
}

/// Name of the JSON in the archive.
const JSON_NAME: &str = "bleachfield.json";

/// Folder of the photos in the archive.
const PHOTOS: &str = "photos/";

#[cfg(test)]
mod tests;
