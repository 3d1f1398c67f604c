//! Writing an exchange file.

use super::contents::{JSON_NAME, PHOTOS};
use super::{EntryRecord, FORMAT, FileError, Header, archive};
use crate::exchange::photo::ImageFormat;
use crate::journal::{Entry, PhotoId, merge};
use serde::Serialize;

/// The JSON of an exchange file.
#[derive(Serialize)]
struct Document<'a> {
    #[serde(flatten)]
    header: &'a Header,
    format: u32,
    entries: Vec<Entry>,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    unreadable: &'a [EntryRecord],
}

/// An exchange file of these entries and photos. Equal contents give equal
/// bytes, in whatever order they are passed.
///
/// # Errors
/// [`FileError::Damaged`] for a photo that is no JPEG, PNG or WebP, or if the
/// archive becomes larger than an archive can be.
pub fn write<'a, B: AsRef<[u8]>>(
    header: &Header,
    entries: impl IntoIterator<Item = &'a Entry>,
    photos: impl IntoIterator<Item = (PhotoId, B)>,
) -> Result<Vec<u8>, FileError> {
    write_with(header, entries, &[], photos)
}

/// As [`write`], with stored entries that this version cannot read.
///
/// # Errors
/// As [`write`].
pub fn write_with<'a, B: AsRef<[u8]>>(
    header: &Header,
    entries: impl IntoIterator<Item = &'a Entry>,
    unreadable: &[EntryRecord],
    photos: impl IntoIterator<Item = (PhotoId, B)>,
) -> Result<Vec<u8>, FileError> {
    let mut photos: Vec<(PhotoId, B)> = photos.into_iter().collect();
    photos.sort_unstable_by(|a, b| a.0.cmp(&b.0));
    photos.dedup_by(|a, b| a.0 == b.0);

    let text = json_text_with(header, entries, unreadable);
    let mut files = vec![(JSON_NAME.to_owned(), text.as_bytes())];
    for (id, bytes) in &photos {
        let bytes = bytes.as_ref();
        let format =
            ImageFormat::of(bytes).map_err(|_| FileError::Damaged { part: id.to_string() })?;
        files.push((format!("{PHOTOS}{id}.{}", format.extension()), bytes));
    }
    archive::write(files)
}

/// The JSON of an exchange file; by itself a file without photos.
pub fn json_text<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    json_text_with(header, entries, &[])
}

/// As [`json_text`], with stored entries that this version cannot read.
pub fn json_text_with<'a>(
    header: &Header,
    entries: impl IntoIterator<Item = &'a Entry>,
    unreadable: &[EntryRecord],
) -> String {
    let entries = merge(entries.into_iter().cloned(), []).entries;
    let mut unreadable = unreadable.to_vec();
    unreadable.sort_unstable_by(|a, b| (&a.id, &a.text).cmp(&(&b.id, &b.text)));
    let document = Document { header, format: FORMAT, entries, unreadable: &unreadable };
    // Encoding cannot fail: all keys are strings.
    let mut document = serde_json::to_value(document).unwrap_or_default();
    document.sort_all_objects();
    format!("{document:#}\n")
}
