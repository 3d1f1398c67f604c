//! Records as IndexedDB holds them.
//!
//! An entry is `{id, format, text}`, its text the JSON of the exchange file:
//! kept as text, since a JavaScript number would not give `1.0` back as it
//! was. A picture is `{mime, bytes}`, bytes in a `Uint8Array`: blobs in
//! IndexedDB have been lost by WebKit more than once.

use super::{PhotoBytes, StoreError};
use bleachfield_core::journal::Entry;
use bleachfield_core::journal::file::{FORMAT, migrated};
use bleachfield_core::json;
use js_sys::{Object, Reflect, Uint8Array};
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
        let json = json::read(member("text").as_string()?.as_bytes()).ok()?;
        Entry::from_json(migrated(json, format as u32)?).ok()
    };
    read().ok_or_else(|| member("id").as_string().unwrap_or_default())
}

/// The record of a picture.
pub(super) fn photo_record(photo: &PhotoBytes) -> Result<JsValue, StoreError> {
    record(&[
        ("mime", JsValue::from_str(&photo.mime)),
        ("bytes", Uint8Array::from(photo.bytes.as_slice()).into()),
    ])
}

/// The picture of a record.
pub(super) fn photo_of(record: &JsValue) -> Result<PhotoBytes, StoreError> {
    let member = |name: &str| {
        Reflect::get(record, &JsValue::from_str(name)).map_err(|_| StoreError::Corrupt)
    };
    let bytes = member("bytes")?.dyn_into::<Uint8Array>().map_err(|_| StoreError::Corrupt)?;
    Ok(PhotoBytes {
        mime: member("mime")?.as_string().ok_or(StoreError::Corrupt)?,
        bytes: bytes.to_vec(),
    })
}

fn record(members: &[(&str, JsValue)]) -> Result<JsValue, StoreError> {
    let object = Object::new();
    for (name, value) in members {
        Reflect::set(&object, &JsValue::from_str(name), value).map_err(|_| StoreError::Corrupt)?;
    }
    Ok(object.into())
}
