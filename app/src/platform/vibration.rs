//! Shaking the phone, where it can be shaken: not on an iPhone.

use js_sys::{Array, Function, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};

/// Whether this browser can shake the phone at all.
pub fn able() -> bool {
    shaker().is_some()
}

/// Shakes for the first, rests for the second, and so on, in milliseconds.
/// Does nothing where the phone cannot, or before the page was ever touched.
pub fn shake(pattern: &[u32]) {
    if let Some(shaker) = shaker() {
        let pattern: Array = pattern.iter().map(|ms| JsValue::from(*ms)).collect();
        let _ = shaker.call1(&window().navigator(), &pattern);
    }
}

fn shaker() -> Option<Function> {
    Reflect::get(&window().navigator(), &"vibrate".into()).ok()?.dyn_into().ok()
}
