//! The records of IndexedDB. Their shapes are a stored format: members are added, never changed.
//!
//! Entries: key is the ULID, value `{id, format, text}`; `text` is the JSON of the exchange
//! file, since a JavaScript number would not keep `1.0` as written.
//!
//! Photos and thumbs: key is the SHA-256, value `{mime, bytes}` with a `Uint8Array`, since
//! WebKit has lost blobs in IndexedDB more than once. Earlier builds wrote photos of medium
//! size in pieces of less than 64 KiB: `{mime, bytes, pieces}` with the first of the bytes,
//! and the following `Uint8Array`s under the keys `[ID, 1]` to `[ID, pieces]`.

use bleachfield_core::exchange::file::{FORMAT, migrated};
use bleachfield_core::journal::{Entry, PhotoId};
use js_sys::{Array, Uint8Array};
use rexie::KeyRange;
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};

use super::{PhotoBytes, StoreError};

/// An entry as it is stored. The caller of `append` encodes it, so that the encoder of entries is
/// in the lazy pieces that write, not in the first.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct EntryRecord {
    id: String,
    format: u32,
    text: String,
}

#[derive(Serialize, Deserialize)]
struct PhotoRecord {
    mime: String,
    #[serde(with = "serde_wasm_bindgen::preserve")]
    bytes: Uint8Array,
    /// Pieces stored under keys of their own.
    #[serde(default, skip_serializing)]
    pieces: u32,
}

/// # Errors
/// The id of a record that cannot be decoded; empty if it has none.
pub(super) fn decode_entry(record: JsValue) -> Result<Entry, String> {
    let record: EntryRecord = serde_wasm_bindgen::from_value(record).map_err(|_| String::new())?;
    record.decode()
}

impl EntryRecord {
    pub fn of(entry: &Entry) -> Self {
        Self { id: entry.id.to_string(), format: FORMAT, text: entry.to_text() }
    }

    pub(super) fn id(&self) -> &str {
        &self.id
    }

    /// Its key and value in IndexedDB.
    pub(super) fn encode(&self) -> Result<(JsValue, JsValue), StoreError> {
        let value = serde_wasm_bindgen::to_value(self).map_err(|_| StoreError::Corrupt)?;
        Ok((JsValue::from_str(&self.id), value))
    }

    /// # Errors
    /// The id of a record that cannot be decoded.
    pub(super) fn decode(&self) -> Result<Entry, String> {
        let json = serde_json::from_str(&self.text).ok();
        let entry = json.and_then(|json| Entry::from_json(migrated(json, self.format)?).ok());
        entry.ok_or_else(|| self.id.clone())
    }
}

/// The key of a photo and its record.
pub(super) fn encode_photo(
    id: &PhotoId,
    photo: &PhotoBytes,
) -> Result<(JsValue, JsValue), StoreError> {
    let bytes = Uint8Array::from(photo.bytes.as_slice());
    let record = PhotoRecord { mime: photo.mime.clone(), bytes, pieces: 0 };
    let value = serde_wasm_bindgen::to_value(&record).map_err(|_| StoreError::Corrupt)?;
    Ok((photo_key(id), value))
}

/// The photo, or its beginning and the number of pieces that follow.
pub(super) fn decode_photo(record: JsValue) -> Result<(PhotoBytes, u32), StoreError> {
    let PhotoRecord { mime, bytes, pieces } =
        serde_wasm_bindgen::from_value(record).map_err(|_| StoreError::Corrupt)?;
    Ok((PhotoBytes { mime, bytes: bytes.to_vec() }, pieces))
}

pub(super) fn photo_key(id: &PhotoId) -> JsValue {
    JsValue::from_str(id.as_str())
}

/// The keys of all pieces of a photo.
pub(super) fn piece_keys(id: &PhotoId) -> Result<KeyRange, StoreError> {
    let key = |number: f64| Array::of2(&photo_key(id), &JsValue::from_f64(number));
    KeyRange::bound(&key(0.0), &key(f64::INFINITY), None, None).map_err(|_| StoreError::Corrupt)
}

/// Appends the pieces to the beginning of a photo.
///
/// # Errors
/// [`StoreError::Corrupt`] if a piece is missing or is not bytes.
pub(super) fn join(
    mut photo: PhotoBytes,
    count: u32,
    pieces: &[JsValue],
) -> Result<PhotoBytes, StoreError> {
    if pieces.len() != count as usize {
        return Err(StoreError::Corrupt);
    }
    for piece in pieces {
        let piece = piece.dyn_ref::<Uint8Array>().ok_or(StoreError::Corrupt)?;
        photo.bytes.extend(piece.to_vec());
    }
    Ok(photo)
}
