//! Reading an exchange file: trust nothing that it says about itself.

use super::archive::Reader;
use super::{
    ExchangeFile, FORMAT, FileError, Header, JSON_NAME, PHOTOS, PhotoFile, migrated, photos_of,
};
use crate::exchange::photo::{Kind, id_of};
use crate::journal::{Entry, PhotoId, merge};
use crate::json::{self, Json};
use serde_json::Value;
use std::collections::BTreeMap;

/// How much a file may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The file as it comes.
    pub packed_bytes: u64,
    /// Everything in it together, counted while unpacking.
    pub unpacked_bytes: u64,
    /// The JSON alone, unpacked.
    pub json_bytes: u64,
    /// Files within it.
    pub files: usize,
}

impl Default for Limits {
    /// What a phone's browser can hold in memory twice over: 512 MiB in all,
    /// 64 MiB of it text, 5000 files. Common practice, no source.
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

/// Reads and checks a whole file; all of it is sound, or none is taken.
///
/// # Errors
/// A [`FileError`] that says what is wrong.
pub fn read(bytes: &[u8], limits: Limits) -> Result<ExchangeFile, FileError> {
    if bytes.len() as u64 > limits.packed_bytes {
        return Err(FileError::TooLarge { most_bytes: limits.packed_bytes });
    }
    // Some editors put a byte-order mark before text.
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match text.iter().find(|b| !b.is_ascii_whitespace()) {
        Some(b'{') if text.len() as u64 > limits.json_bytes => {
            Err(FileError::TooLarge { most_bytes: limits.json_bytes })
        }
        Some(b'{') => parse(text),
        _ if bytes.starts_with(b"PK\x03\x04") => unpack(bytes, limits),
        _ => Err(FileError::NotOurs),
    }
}

fn unpack(bytes: &[u8], limits: Limits) -> Result<ExchangeFile, FileError> {
    let archive = Reader::new(bytes)?;
    let files = archive.files(limits.files)?;
    let mut text = None;
    for file in &files {
        let name = file.name();
        if reaches_out(&name) {
            return Err(FileError::OddName { name });
        }
        if name == JSON_NAME {
            text = Some(file);
        }
    }
    let text = text.ok_or(FileError::NotOurs)?;

    let mut left = limits.unpacked_bytes;
    let text = archive.take(text, limits.json_bytes.min(left), limits.json_bytes)?;
    left -= text.len() as u64;
    let mut parcel = parse(&text)?;
    drop(text);
    let wanted = photos_of(&parcel.entries);

    for file in &files {
        let name = file.name();
        if name == JSON_NAME {
            continue;
        }
        let Some(id) = photo_name(&name).filter(|id| wanted.contains(id)) else {
            parcel.ignored.push(name);
            continue;
        };
        let bytes = archive.take(file, left, limits.unpacked_bytes)?;
        left -= bytes.len() as u64;
        let Ok(kind) = Kind::of(&bytes) else { return Err(FileError::Damaged { part: name }) };
        if id_of(&bytes) != id {
            return Err(FileError::WrongPhoto { name });
        }
        parcel.photos.insert(id, PhotoFile { mime: kind.mime(), bytes });
    }
    Ok(parcel)
}

/// Whether a name is meant to land somewhere else than within the archive.
fn reaches_out(name: &str) -> bool {
    name.starts_with('/')
        || name.contains(['\\', '\0', ':'])
        || name.split('/').any(|part| part == "..")
}

/// The id out of `photos/<id>.<ending>`.
fn photo_name(name: &str) -> Option<PhotoId> {
    let (id, ending) = name.strip_prefix(PHOTOS)?.split_once('.')?;
    if !matches!(ending, "jpg" | "png" | "webp") {
        return None;
    }
    PhotoId::try_from(id.to_owned()).ok()
}

/// A file's JSON, without photos.
fn parse(text: &[u8]) -> Result<ExchangeFile, FileError> {
    let damaged = || FileError::Damaged { part: JSON_NAME.to_owned() };
    let mut whole: Value = json::read(text).map_err(|_| damaged())?;
    // The number first: a newer format may have changed all the rest.
    let format = whole.get("format").and_then(Value::as_u64).ok_or(FileError::NotOurs)?;
    let app = whole.get("app").and_then(Value::as_str).unwrap_or_default().to_owned();
    let format = u32::try_from(format).unwrap_or(u32::MAX);
    if format > FORMAT {
        return Err(FileError::Newer { format, app });
    }
    let Some(Value::Array(list)) = whole.get_mut("entries").map(Value::take) else {
        return Err(FileError::NotOurs);
    };
    let header = Header::from_json(&whole).map_err(|_| damaged())?;
    let mut entries = Vec::with_capacity(list.len());
    for (i, json) in list.into_iter().enumerate() {
        let entry = migrated(json, format).and_then(|json| Entry::from_json(json).ok());
        entries
            .push(entry.ok_or_else(|| FileError::Damaged {
                part: format!("{JSON_NAME}, entries[{i}]"),
            })?);
    }
    let merged = merge(entries, []);
    if let Some(conflict) = merged.conflicts.first() {
        return Err(FileError::Damaged { part: format!("{JSON_NAME}, {}", conflict.id) });
    }
    Ok(ExchangeFile {
        header,
        format,
        entries: merged.entries,
        photos: BTreeMap::new(),
        ignored: Vec::new(),
    })
}
