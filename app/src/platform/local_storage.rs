//! Small values about this device, not about the book, in local storage as JSON.

use gloo_storage::{LocalStorage, Storage};
use serde::Serialize;
use serde::de::DeserializeOwned;

/// The value under `key`; `None` if there is none, or it cannot be decoded.
pub fn get<T: DeserializeOwned>(key: &str) -> Option<T> {
    if is_available() { LocalStorage::get(key).ok() } else { None }
}

/// Stores a value. Where storage is forbidden or full, it is lost with the page.
pub fn set(key: &str, value: &impl Serialize) {
    if is_available() {
        let _ = LocalStorage::set(key, value);
    }
}

/// Removes the value under `key`.
pub fn remove(key: &str) {
    if is_available() {
        LocalStorage::delete(key);
    }
}

/// `gloo-storage` panics without a window (worker) and where storage is forbidden.
fn is_available() -> bool {
    let storage = web_sys::window().map(|window| window.local_storage());
    matches!(storage, Some(Ok(Some(_))))
}
