//! Small values about this device, not about the book, in local storage as JSON.
//!
//! In the demo studio each key has a value of its own, but for those that do not depend on the
//! book.

use std::borrow::Cow;

use gloo_storage::{LocalStorage, Storage};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::demo;

/// Ends the keys of the demo studio.
const OF_DEMO: &str = ".demo";

/// Keys that the demo studio shares with the person's own book.
const SHARED: [&str; 4] = [
    "bleachfield.preferences",
    "bleachfield.units",
    "bleachfield.last_panic",
    "bleachfield.demo_entered",
];

/// The value under `key`; `None` if there is none, or it cannot be decoded.
pub fn get<T: DeserializeOwned>(key: &str) -> Option<T> {
    if is_available() { LocalStorage::get(here(key)).ok() } else { None }
}

/// Stores a value. Where storage is forbidden or full, it is lost with the page.
pub fn set(key: &str, value: &impl Serialize) {
    if is_available() {
        let _ = LocalStorage::set(here(key), value);
    }
}

/// Removes a value.
pub fn remove(key: &str) {
    if is_available() {
        LocalStorage::delete(here(key));
    }
}

/// Removes what the demo studio stored.
pub fn remove_all_of_demo() {
    if !is_available() {
        return;
    }
    let storage = LocalStorage::raw();
    let keys = (0..LocalStorage::length()).filter_map(|nth| storage.key(nth).ok().flatten());
    for key in keys.filter(|key| key.ends_with(OF_DEMO)).collect::<Vec<_>>() {
        LocalStorage::delete(key);
    }
}

/// The key under which this page keeps it: the demo studio has one of its own.
pub(super) fn here(key: &str) -> Cow<'_, str> {
    if demo::is_open() { in_demo(key) } else { key.into() }
}

fn in_demo(key: &str) -> Cow<'_, str> {
    if SHARED.contains(&key) { key.into() } else { format!("{key}{OF_DEMO}").into() }
}

/// `gloo-storage` panics without a window (worker) and where storage is forbidden.
fn is_available() -> bool {
    let storage = web_sys::window().map(|window| window.local_storage());
    matches!(storage, Some(Ok(Some(_))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_does_not_depend_on_the_book_is_shared_with_the_demo() {
        assert_eq!(in_demo("bleachfield.preferences"), "bleachfield.preferences");
        assert_eq!(in_demo("bleachfield.sent"), "bleachfield.sent.demo");
        assert_eq!(in_demo("bleachfield.if_stopped"), "bleachfield.if_stopped.demo");
    }
}
