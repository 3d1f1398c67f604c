//! The share sheet of the device.

use js_sys::Array;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{DomException, File, ShareData};

/// Result of sharing a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShareOutcome {
    Done,
    /// The person closed the sheet.
    Dismissed,
    /// This browser cannot share such a file.
    Unsupported,
}

/// Whether this browser can share the file.
pub fn can_share(file: &File) -> bool {
    let navigator = window().navigator();
    JsValue::from_str("canShare").js_in(&navigator) && navigator.can_share_with_data(&data(file))
}

/// Opens the share sheet with a file. Only within the handler of a press (transient activation).
pub async fn share(file: &File) -> ShareOutcome {
    if !can_share(file) {
        return ShareOutcome::Unsupported;
    }
    let shared = window().navigator().share_with_data(&data(file));
    match JsFuture::from(shared).await {
        Ok(_) => ShareOutcome::Done,
        Err(error) => match error.dyn_ref::<DomException>().map(DomException::name) {
            Some(name) if name == "AbortError" => ShareOutcome::Dismissed,
            _ => ShareOutcome::Unsupported,
        },
    }
}

fn data(file: &File) -> ShareData {
    let data = ShareData::new();
    data.set_files(&Array::of1(file));
    data
}
