//! Vibration. Not on an iPhone.

use js_sys::Array;
use leptos::prelude::window;
use wasm_bindgen::JsValue;

pub fn is_supported() -> bool {
    JsValue::from_str("vibrate").js_in(&window().navigator())
}

/// Vibrates and pauses in turn, in milliseconds. Does nothing where it is not supported, or
/// before the page was first touched.
pub fn vibrate(pattern: &[u32]) {
    if is_supported() {
        let pattern: Array = pattern.iter().map(|ms| JsValue::from(*ms)).collect();
        window().navigator().vibrate_with_pattern(&pattern);
    }
}
