//! Writing an exchange file.

use super::archive::Writer;
use super::{FORMAT, FileError, Header, JSON_NAME, PHOTOS};
use crate::exchange::photo::Kind;
use crate::journal::{Entry, PhotoId, merge};
use crate::json::{Json, Value, written_out};

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
    photos.sort_unstable_by(|a, b| a.0.cmp(&b.0));
    photos.dedup_by(|a, b| a.0 == b.0);

    // Photos do not get smaller, and text beside photos does not matter.
    let mut archive = Writer::default();
    let damaged = |part: String| FileError::Damaged { part };
    let text = json(header, entries);
    archive.put(JSON_NAME, text.as_bytes()).ok_or_else(|| damaged(JSON_NAME.to_owned()))?;
    drop(text);
    for (id, bytes) in &photos {
        let bytes = bytes.as_ref();
        let kind = Kind::of(bytes).map_err(|_| damaged(id.to_string()))?;
        let name = format!("{PHOTOS}{id}.{}", kind.ending());
        archive.put(&name, bytes).ok_or_else(|| damaged(name))?;
    }
    archive.finish().ok_or_else(|| damaged(String::new()))
}

/// The JSON of an exchange file: by itself, a file without photos.
pub fn json<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    let entries = merge(entries.into_iter().cloned(), []).entries;
    let entries = Value::Array(entries.iter().map(Entry::to_json).collect());
    let mut whole = header.to_json();
    whole["format"] = Value::from(FORMAT);
    whole["entries"] = entries;
    whole.sort_all_objects();
    written_out(&whole) + "\n"
}
