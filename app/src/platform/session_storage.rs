//! What was typed in this tab, until it is closed, in session storage as JSON. The demo studio
//! has its own.

use gloo_storage::{SessionStorage, Storage};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::local_storage::here;

/// The value under `key`; `None` if there is none, or it cannot be decoded.
pub fn get<T: DeserializeOwned>(key: &str) -> Option<T> {
    if is_available() { SessionStorage::get(here(key)).ok() } else { None }
}

/// Stores a value. Where storage is forbidden or full, it is lost with the screen.
pub fn set(key: &str, value: &impl Serialize) {
    if is_available() {
        let _ = SessionStorage::set(here(key), value);
    }
}

/// `gloo-storage` panics where storage is forbidden.
fn is_available() -> bool {
    let storage = web_sys::window().map(|window| window.session_storage());
    matches!(storage, Some(Ok(Some(_))))
}
