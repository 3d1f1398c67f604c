//! The records of IndexedDB. Their shapes are a stored format: members are added, never changed.
//!
//! Entries: key is the ULID, value `{id, format, text}`; `text` is the JSON of the exchange
//! file, since a JavaScript number would not keep `1.0` as written.
//!
//! Photos and thumbs: key is the SHA-256, value `{mime, bytes}` with a `Uint8Array`, since
//! WebKit has lost blobs in IndexedDB more than once. Earlier builds wrote photos of medium
//! size in pieces of less than 64 KiB: `{mime, bytes, pieces}` with the first of the bytes,
//! and the following `Uint8Array`s under the keys `[ID, 1]` to `[ID, pieces]`.

use bleachfield_core::exchange::file::{EntryRecord, UNKNOWN_FORMAT};
use bleachfield_core::journal::PhotoId;
use js_sys::{Array, JSON, JsString, Uint8Array};
use rexie::KeyRange;
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};

use super::{PhotoBytes, StoreError};

#[derive(Serialize, Deserialize)]
struct PhotoRecord {
    mime: String,
    #[serde(with = "serde_wasm_bindgen::preserve")]
    bytes: Uint8Array,
    /// Pieces stored under keys of their own.
    #[serde(default, skip_serializing)]
    pieces: u32,
}

/// The record of an entry, from its key and value. Where the value has another shape, or the
/// browser cannot return it (`None`), the record holds what there is of it.
pub(super) fn entry_record(key: &JsValue, value: Option<JsValue>) -> EntryRecord {
    let odd = |text| {
        let id = key.as_string().unwrap_or_else(|| as_json(key));
        EntryRecord { id, format: UNKNOWN_FORMAT, text }
    };
    let Some(value) = value else { return odd(String::new()) };
    serde_wasm_bindgen::from_value(value.clone()).unwrap_or_else(|_| odd(as_json(&value)))
}

/// The key and value of an entry in IndexedDB.
pub(super) fn encode_entry(record: &EntryRecord) -> Result<(JsValue, JsValue), StoreError> {
    let value = serde_wasm_bindgen::to_value(record).map_err(|_| StoreError::Corrupt)?;
    Ok((JsValue::from_str(&record.id), value))
}

/// A stored value as JSON, bytes as their hexadecimal digits; in the browser's own words where
/// JSON has none.
pub(super) fn as_json(value: &JsValue) -> String {
    let digits = |bytes: Uint8Array| -> String {
        bytes.to_vec().iter().map(|byte| format!("{byte:02x}")).collect()
    };
    let mut replace = |_: JsString, member: JsValue| {
        Ok(Some(match member.dyn_into::<Uint8Array>() {
            Ok(bytes) => JsValue::from_str(&digits(bytes)),
            Err(other) => other,
        }))
    };
    let text = JSON::stringify_with_replacer_func(value, &mut replace, None);
    text.ok().and_then(|text| text.as_string()).unwrap_or_else(|| format!("{value:?}"))
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
