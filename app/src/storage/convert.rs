//! Records as IndexedDB holds them.
//!
//! An entry is `{id, format, text}`, its text the JSON of the exchange file:
//! kept as text, since a JavaScript number would not give `1.0` back as it
//! was. A picture is `{mime, bytes}`, bytes in a `Uint8Array`: blobs in
//! IndexedDB have been lost by WebKit more than once. A photo of middling size
//! lies in pieces: Chromium makes of any larger value a file of its own, and
//! waits for the disk four times instead of once. Its record is then
//! `{mime, bytes, pieces}` with the first of the bytes; the rest, so many times
//! a `Uint8Array`, has the keys `[ID, 1]`, `[ID, 2]` and on.

use super::{PhotoBytes, StoreError};
use bleachfield_core::exchange::file::{FORMAT, migrated};
use bleachfield_core::journal::{Entry, PhotoId};
use idb::KeyRange;
use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};

/// The record of an entry.
pub(super) fn entry_record(entry: &Entry) -> Result<JsValue, StoreError> {
    record(&[
        ("id", JsValue::from_str(&entry.id.to_string())),
        ("format", JsValue::from_f64(f64::from(FORMAT))),
        ("text", JsValue::from_str(&entry.to_text())),
    ])
}

/// The entry of a record; its id, as far as there is one, if it is none.
pub(super) fn entry_of(record: &JsValue) -> Result<Entry, String> {
    let member =
        |name: &str| Reflect::get(record, &JsValue::from_str(name)).unwrap_or(JsValue::UNDEFINED);
    let read = || {
        let format = member("format").as_f64()?;
        let json = serde_json::from_str(&member("text").as_string()?).ok()?;
        Entry::from_json(migrated(json, format as u32)?).ok()
    };
    read().ok_or_else(|| member("id").as_string().unwrap_or_default())
}

/// Bytes in a piece: with what the browser adds, just under 64 KiB.
const PIECE: usize = 60 << 10;

/// Photos of more pieces are better off as files.
const MOST_PIECES: usize = 10;

/// The records of a picture, with their keys.
pub(super) fn photo_records(
    id: &PhotoId,
    photo: &PhotoBytes,
) -> Result<Vec<(JsValue, JsValue)>, StoreError> {
    let whole = photo.bytes.len() > PIECE * MOST_PIECES;
    let (first, rest) = photo.bytes.split_at(match whole {
        true => photo.bytes.len(),
        false => PIECE.min(photo.bytes.len()),
    });
    let mut members =
        vec![("mime", JsValue::from_str(&photo.mime)), ("bytes", Uint8Array::from(first).into())];
    if !rest.is_empty() {
        members.push(("pieces", JsValue::from_f64(rest.chunks(PIECE).len() as f64)));
    }
    let key = JsValue::from_str(id.as_str());
    let mut records = vec![(key.clone(), record(&members)?)];
    for (piece, nth) in rest.chunks(PIECE).zip(1..) {
        let key = Array::of2(&key, &JsValue::from_f64(f64::from(nth)));
        records.push((key.into(), Uint8Array::from(piece).into()));
    }
    Ok(records)
}

/// The picture of a record, or the first part of it, and how many pieces follow.
pub(super) fn photo_of(record: &JsValue) -> Result<(PhotoBytes, u32), StoreError> {
    let member = |name: &str| {
        Reflect::get(record, &JsValue::from_str(name)).map_err(|_| StoreError::Corrupt)
    };
    let bytes = member("bytes")?.dyn_into::<Uint8Array>().map_err(|_| StoreError::Corrupt)?;
    let mime = member("mime")?.as_string().ok_or(StoreError::Corrupt)?;
    let pieces = member("pieces")?.as_f64().unwrap_or_default() as u32;
    Ok((PhotoBytes { mime, bytes: bytes.to_vec() }, pieces))
}

/// Where the pieces of a photo lie.
pub(super) fn pieces(id: &PhotoId) -> Result<KeyRange, StoreError> {
    let to = |nth: f64| Array::of2(&JsValue::from_str(id.as_str()), &JsValue::from_f64(nth));
    Ok(KeyRange::bound(&to(0.0), &to(f64::INFINITY), None, None)?)
}

/// Puts the pieces, all there are, after the first part.
pub(super) fn join(
    photo: &mut PhotoBytes,
    count: u32,
    pieces: &[JsValue],
) -> Result<(), StoreError> {
    if pieces.len() != count as usize {
        return Err(StoreError::Corrupt);
    }
    for piece in pieces {
        let piece = piece.dyn_ref::<Uint8Array>().ok_or(StoreError::Corrupt)?;
        photo.bytes.extend(piece.to_vec());
    }
    Ok(())
}

fn record(members: &[(&str, JsValue)]) -> Result<JsValue, StoreError> {
    let object = Object::new();
    for (name, value) in members {
        Reflect::set(&object, &JsValue::from_str(name), value).map_err(|_| StoreError::Corrupt)?;
    }
    Ok(object.into())
}
