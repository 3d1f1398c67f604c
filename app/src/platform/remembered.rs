//! Small things that this phone remembers of itself, in local storage: they
//! are about the phone, not about the studio.

use leptos::prelude::window;
use serde::{Serialize, de::DeserializeOwned};
use web_sys::Storage;

/// What was kept under `key`, if anything was and it still makes sense.
pub fn kept<T: DeserializeOwned>(key: &str) -> Option<T> {
    let text = storage()?.get_item(key).ok()??;
    serde_json::from_str(&text).ok()
}

/// Keeps it. A phone that refuses to (private browsing) forgets it.
pub fn keep(key: &str, value: &impl Serialize) {
    if let (Some(storage), Ok(text)) = (storage(), serde_json::to_string(value)) {
        let _ = storage.set_item(key, &text);
    }
}

fn storage() -> Option<Storage> {
    window().local_storage().ok()?
}
