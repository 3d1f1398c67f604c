//! Whether this page shows the demo studio or the person's own book.
//!
//! Kept for one tab until it is closed: whoever opens the app anew is in their own book. What a
//! page shows is fixed when it starts; entering and leaving load it again.

use std::cell::OnceCell;

use gloo_storage::{SessionStorage, Storage};
use jiff::{SignedDuration, Timestamp};
use leptos::{ev, prelude::*};
use leptos_use::use_event_listener;

use super::{clock, local_storage};

/// The key in session storage. boot.js reads it too.
const KEY: &str = "bleachfield.demo";

/// The key in local storage of the time of the last entering, until the demo is left.
const ENTERED: &str = "bleachfield.demo_entered";

/// A demo that was entered longer ago is in no open tab, by all odds.
const FORGOTTEN_AFTER: SignedDuration = SignedDuration::from_hours(24);

/// Whether this page shows the demo studio. False in the worker, which has no storage.
pub fn is_open() -> bool {
    thread_local! {
        static IS_OPEN: OnceCell<bool> = const { OnceCell::new() };
    }
    IS_OPEN.with(|is_open| *is_open.get_or_init(is_chosen))
}

/// Shows the demo studio in place of the person's own book: loads the page at `href` anew.
pub fn open(href: &str) {
    if is_available() {
        let _ = SessionStorage::set(KEY, true);
        local_storage::set(ENTERED, &clock::now());
        load(href);
    }
}

/// Shows the person's own book again: loads the page at `href` anew. The database of the demo
/// is to be deleted before.
pub fn close(href: &str) {
    forget();
    if is_available() {
        SessionStorage::delete(KEY);
    }
    load(href);
}

/// Whether a demo was closed with its tab and never left: its database is then to be deleted,
/// and [`forget`] called.
pub fn is_forgotten() -> bool {
    let entered = local_storage::get::<Timestamp>(ENTERED);
    let is_old = |at: Timestamp| clock::now().duration_since(at) > FORGOTTEN_AFTER;
    !is_open() && entered.is_some_and(is_old)
}

/// Removes what the demo studio kept in local storage.
pub fn forget() {
    local_storage::remove_all_of_demo();
    local_storage::remove(ENTERED);
}

/// Loads the page again if the browser brought it back from before the demo was entered or left.
pub fn follow_history() {
    let _ = use_event_listener(window(), ev::pageshow, move |_| {
        if is_chosen() != is_open() {
            let _ = window().location().reload();
        }
    });
}

fn is_chosen() -> bool {
    is_available() && SessionStorage::get(KEY).unwrap_or(false)
}

/// `gloo-storage` panics without a window (worker) and where storage is forbidden.
fn is_available() -> bool {
    let storage = web_sys::window().map(|window| window.session_storage());
    matches!(storage, Some(Ok(Some(_))))
}

/// In place of the present page, so that "back" does not return to it.
fn load(href: &str) {
    let _ = window().location().replace(href);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boot_js_knows_the_key() {
        let script = include_str!("../../../public/boot.js");
        assert!(script.contains(&format!("'{KEY}'")));
    }
}
