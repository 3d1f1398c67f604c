//! Writing an exchange file.

use super::{FORMAT, FileError, Header, JSON_NAME, PHOTOS};
use crate::journal::photo::Kind;
use crate::journal::{Entry, PhotoId, merge};
use crate::json::{Json, Value};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// An exchange file of these entries and photos. Equal contents give equal
/// bytes, in whatever order they come.
///
/// # Errors
/// [`FileError::Damaged`] for a photo that is no JPEG, PNG or WebP, or if the
/// archive comes to more than an archive can be.
pub fn write<'a, B: AsRef<[u8]>>(
    header: &Header,
    entries: impl IntoIterator<Item = &'a Entry>,
    photos: impl IntoIterator<Item = (PhotoId, B)>,
) -> Result<Vec<u8>, FileError> {
    let mut photos: Vec<(PhotoId, B)> = photos.into_iter().collect();
    photos.sort_by(|a, b| a.0.cmp(&b.0));
    photos.dedup_by(|a, b| a.0 == b.0);

    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let mut put = |name: &str, bytes: &[u8]| {
        // Photos do not get smaller, and text beside photos does not matter.
        let options = SimpleFileOptions::default()
            .compression_method(CompressionMethod::Stored)
            .last_modified_time(DateTime::default());
        archive
            .start_file(name, options)
            .and_then(|()| Ok(archive.write_all(bytes)?))
            .map_err(|_| FileError::Damaged { part: name.to_owned() })
    };
    put(JSON_NAME, json(header, entries).as_bytes())?;
    for (id, bytes) in &photos {
        let kind =
            Kind::of(bytes.as_ref()).map_err(|_| FileError::Damaged { part: id.to_string() })?;
        put(&format!("{PHOTOS}{id}.{}", kind.ending()), bytes.as_ref())?;
    }
    match archive.finish() {
        Ok(cursor) => Ok(cursor.into_inner()),
        Err(_) => Err(FileError::Damaged { part: String::new() }),
    }
}

/// The JSON of an exchange file: by itself, a file without photos.
pub fn json<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    let entries = merge(entries.into_iter().cloned(), []).entries;
    let entries = Value::Array(entries.iter().map(Entry::to_json).collect());
    let mut whole = header.to_json();
    whole["format"] = Value::from(FORMAT);
    whole["entries"] = entries;
    whole.sort_all_objects();
    format!("{whole:#}\n")
}
