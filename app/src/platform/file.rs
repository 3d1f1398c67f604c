//! Files that the app makes, and files that are served with it.

use js_sys::{Array, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File, FilePropertyBag, Response};

/// A file of these bytes.
pub fn file(name: &str, mime: &str, bytes: &[u8]) -> Option<File> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    let parts = Array::of1(&Uint8Array::from(bytes));
    File::new_with_u8_array_sequence_and_options(&parts, name, &options).ok()
}

/// Bytes as the browser passes them around.
pub fn blob(bytes: &[u8]) -> Option<Blob> {
    Blob::new_with_u8_array_sequence(&Array::of1(&Uint8Array::from(bytes))).ok()
}

/// The file served at this address of our own. An app that answers every address
/// with its page does not count.
pub async fn fetched(address: &str) -> Option<Blob> {
    let answer = window().fetch_with_str(address);
    let response: Response = JsFuture::from(answer).await.ok()?.dyn_into().ok()?;
    let kind = response.headers().get("content-type").ok().flatten().unwrap_or_default();
    if !response.ok() || kind.starts_with("text/html") {
        return None;
    }
    JsFuture::from(response.blob().ok()?).await.ok()?.dyn_into().ok()
}
