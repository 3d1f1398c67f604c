//! The contents of an exchange file.

use super::EntryRecord;
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
    /// From the invented demo studio: not to be merged into a person's book.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub demo: bool,
}

/// The contents of an exchange file, read and checked.
#[derive(Clone, Debug, PartialEq)]
pub struct ExchangeFile {
    pub header: Header,
    /// The format that it was written in, before migration.
    pub format: u32,
    /// In the journal's order, each id once.
    pub entries: Vec<Entry>,
    /// Entries that neither the version that wrote the file nor this one can read.
    pub unreadable: Vec<EntryRecord>,
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
pub(super) const JSON_NAME: &str = "bleachfield.json";

/// Folder of the photos in the archive.
pub(super) const PHOTOS: &str = "photos/";
