//! Small things that this phone remembers of itself, in local storage: they
//! are about the phone, not about the studio.

use bleachfield_core::json::{self, Json};
use leptos::prelude::window;
use web_sys::Storage;

/// What was kept under `key`, if anything was and it still makes sense.
pub fn kept<T: Json>(key: &str) -> Option<T> {
    let text = storage()?.get_item(key).ok()??;
    T::from_json(&json::read(text.as_bytes()).ok()?).ok()
}

/// Keeps it. A phone that refuses to (private browsing) forgets it.
pub fn keep(key: &str, value: &dyn Json) {
    if let Some(storage) = storage() {
        let _ = storage.set_item(key, &json::written(&value.to_json()));
    }
}

fn storage() -> Option<Storage> {
    window().local_storage().ok()?
}
