//! Files and blobs: made from bytes, or fetched from the app's own origin.

use js_sys::{Array, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag, Response};

/// A file of these bytes.
pub fn file(name: &str, mime: &str, bytes: &[u8]) -> Option<File> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    let parts = Array::of1(&Uint8Array::from(bytes));
    File::new_with_u8_array_sequence_and_options(&parts, name, &options).ok()
}

/// A blob of these bytes.
pub fn blob(mime: &str, bytes: &[u8]) -> Option<Blob> {
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let parts = Array::of1(&Uint8Array::from(bytes));
    Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()
}

/// Why a file could not be fetched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FetchError {
    /// The server has no such file.
    Missing,
    /// The server could not be reached, or the answer broke off.
    NoNetwork,
}

/// The file at a path of the app's own origin. HTML does not count: a server may answer every
/// path with the page of the app.
///
/// # Errors
/// [`FetchError`]
pub async fn fetched(path: &str) -> Result<Blob, FetchError> {
    let response = JsFuture::from(window().fetch_with_str(path)).await;
    let response: Response =
        response.and_then(|response| response.dyn_into()).map_err(|_| FetchError::NoNetwork)?;
    let mime = response.headers().get("content-type").ok().flatten().unwrap_or_default();
    if !response.ok() || mime.starts_with("text/html") {
        return Err(FetchError::Missing);
    }
    let blob = response.blob().map_err(|_| FetchError::NoNetwork)?;
    let blob = JsFuture::from(blob).await.and_then(|blob| blob.dyn_into());
    blob.map_err(|_| FetchError::NoNetwork)
}
