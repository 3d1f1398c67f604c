//! The exchange file: entries and photos in one file, to carry to another phone or to keep safe.
//! Reading, writing, selecting and previewing have a file each.
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
//! Entries that the writing version could not read are in the JSON as it had them stored, as
//! `unreadable`: a list of [`EntryRecord`]s, left out if there are none. A version that can read
//! one takes it as an entry; any other stores it again as it is.
//!
//! Format numbers only rise. A later version opens every earlier format; an
//! earlier version refuses a later one. New kinds of entry and new members
//! need no new format: they are kept as unknown (see
//! [`Body::Unknown`](crate::journal::Body::Unknown)).

mod archive;
mod contents;
mod demo;
mod error;
mod migrate;
mod preview;
mod read;
mod record;
mod select;
mod write;

pub use contents::{EXTENSION, ExchangeFile, Header, MIME, PhotoFile};
pub use demo::DEMO_DEVICES;
pub use error::FileError;
pub use migrate::{FORMAT, migrated};
pub use preview::{ImportPreview, preview};
pub use read::{Limits, read};
pub use record::{EntryRecord, UNKNOWN_FORMAT, decode_all};
pub use select::{photos_of, select};
pub use write::{json_text, json_text_with, write, write_with};

#[cfg(test)]
mod tests;
