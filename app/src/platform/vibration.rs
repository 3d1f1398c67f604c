//! Vibration. Not on an iPhone.

use js_sys::{Array, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsValue;

pub fn is_supported() -> bool {
    JsValue::from_str("vibrate").js_in(&window().navigator())
}

/// Vibrates and pauses in turn, in milliseconds. Does nothing where it is not supported, or
/// before the page was first touched.
pub fn vibrate(pattern: &[u32]) {
    if is_supported() && !is_untouched() {
        let pattern: Array = pattern.iter().map(|ms| JsValue::from(*ms)).collect();
        window().navigator().vibrate_with_pattern(&pattern);
    }
}

/// Whether the browser says that the page was not touched yet: it would refuse, with an error in
/// the console.
fn is_untouched() -> bool {
    let get = |of: &JsValue, name: &str| Reflect::get(of, &name.into()).ok();
    let activation = get(&window().navigator(), "userActivation").filter(JsValue::is_object);
    activation.and_then(|it| get(&it, "hasBeenActive")?.as_bool()) == Some(false)
}
