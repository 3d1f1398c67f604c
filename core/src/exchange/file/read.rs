//! Reading an exchange file, within limits and without trusting what it states about itself.

use super::archive::Reader;
use super::contents::{JSON_NAME, PHOTOS};
use super::{
    EntryRecord, ExchangeFile, FORMAT, FileError, Header, PhotoFile, decode_all, migrated,
    photos_of,
};
use crate::exchange::photo::{ImageFormat, id_of};
use crate::journal::{Entry, PhotoId, merge};
use serde::Deserialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// Size limits of an exchange file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The file itself.
    pub packed_bytes: u64,
    /// All its contents together, counted while unpacking.
    pub unpacked_bytes: u64,
    /// The JSON alone, unpacked.
    pub json_bytes: u64,
    /// Files in the archive.
    pub files: usize,
}

impl Default for Limits {
    /// What a phone's browser can hold in memory twice: 512 MiB in all, 64 MiB
    /// of it text, 5000 files. Common practice, no source.
    fn default() -> Self {
        const MIB: u64 = 1024 * 1024;
        Self {
            packed_bytes: 512 * MIB,
            unpacked_bytes: 512 * MIB,
            json_bytes: 64 * MIB,
            files: 5000,
        }
    }
}

/// Reads and checks a whole file. Entries are decoded once; a file with any
/// error is refused as a whole.
///
/// # Errors
/// The first [`FileError`] found.
pub fn read(bytes: &[u8], limits: Limits) -> Result<ExchangeFile, FileError> {
    if bytes.len() as u64 > limits.packed_bytes {
        return Err(FileError::TooLarge { most_bytes: limits.packed_bytes });
    }
    // Some editors prefix text with a byte-order mark.
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match text.iter().find(|b| !b.is_ascii_whitespace()) {
        Some(b'{') if text.len() as u64 > limits.json_bytes => {
            Err(FileError::TooLarge { most_bytes: limits.json_bytes })
        }
        Some(b'{') => decode(text),
        _ if bytes.starts_with(b"PK\x03\x04") => unpack(bytes, limits),
        _ => Err(FileError::NotOurs),
    }
}

fn unpack(bytes: &[u8], limits: Limits) -> Result<ExchangeFile, FileError> {
    let mut archive = Reader::new(bytes, limits.files)?;
    let names = archive.names();
    if let Some((name, _)) = names.iter().find(|(name, _)| leaves_archive(name)) {
        return Err(FileError::OddName { name: name.clone() });
    }
    let json = names.iter().find(|(name, _)| name == JSON_NAME).ok_or(FileError::NotOurs)?;

    let mut left = limits.unpacked_bytes;
    let text = archive.unpack(json.1, JSON_NAME, limits.json_bytes.min(left), limits.json_bytes)?;
    left -= text.len() as u64;
    let mut file = decode(&text)?;
    drop(text);
    let wanted = photos_of(&file.entries);

    for (name, index) in names.into_iter().filter(|(name, _)| name != JSON_NAME) {
        let Some(id) = photo_id(&name).filter(|id| wanted.contains(id)) else {
            file.ignored.push(name);
            continue;
        };
        let bytes = archive.unpack(index, &name, left, limits.unpacked_bytes)?;
        left -= bytes.len() as u64;
        let Ok(format) = ImageFormat::of(&bytes) else {
            return Err(FileError::Damaged { part: name });
        };
        if id_of(&bytes) != id {
            return Err(FileError::WrongPhoto { name });
        }
        file.photos.insert(id, PhotoFile { mime: format.mime(), bytes });
    }
    Ok(file)
}

/// Whether a name would be written outside the folder of the archive.
fn leaves_archive(name: &str) -> bool {
    name.starts_with('/')
        || name.contains(['\\', '\0', ':'])
        || name.split('/').any(|part| part == "..")
}

/// The id in `photos/<id>.<extension>`.
fn photo_id(name: &str) -> Option<PhotoId> {
    let (id, extension) = name.strip_prefix(PHOTOS)?.split_once('.')?;
    if !matches!(extension, "jpg" | "png" | "webp") {
        return None;
    }
    PhotoId::try_from(id.to_owned()).ok()
}

/// Decodes the JSON of a file; its photos are empty.
fn decode(text: &[u8]) -> Result<ExchangeFile, FileError> {
    let damaged = |part: String| FileError::Damaged { part };
    let mut document: Value =
        serde_json::from_slice(text).map_err(|_| damaged(JSON_NAME.to_owned()))?;
    // The number first: a newer format may differ in everything else.
    let format = document.get("format").and_then(Value::as_u64).ok_or(FileError::NotOurs)?;
    let app = document.get("app").and_then(Value::as_str).unwrap_or_default().to_owned();
    let format = u32::try_from(format).unwrap_or(u32::MAX);
    if format > FORMAT {
        return Err(FileError::Newer { format, app });
    }
    let Some(Value::Array(list)) = document.get_mut("entries").map(Value::take) else {
        return Err(FileError::NotOurs);
    };
    let header = Header::deserialize(&document).map_err(|_| damaged(JSON_NAME.to_owned()))?;
    let entries = list.into_iter().enumerate().map(|(i, json)| {
        let entry = migrated(json, format).and_then(|json| Entry::from_json(json).ok());
        entry.ok_or_else(|| damaged(format!("{JSON_NAME}, entries[{i}]")))
    });
    let mut entries = entries.collect::<Result<Vec<_>, _>>()?;
    let records = match document.get_mut("unreadable").map(Value::take) {
        Some(records) => Vec::<EntryRecord>::deserialize(records)
            .map_err(|_| damaged(format!("{JSON_NAME}, unreadable")))?,
        None => Vec::new(),
    };
    let (readable, unreadable) = decode_all(records);
    entries.extend(readable);
    let merged = merge(entries, []);
    if let Some(conflict) = merged.conflicts.first() {
        return Err(damaged(format!("{JSON_NAME}, {}", conflict.id)));
    }
    Ok(ExchangeFile {
        header,
        format,
        entries: merged.entries,
        unreadable,
        photos: BTreeMap::new(),
        ignored: Vec::new(),
    })
}
