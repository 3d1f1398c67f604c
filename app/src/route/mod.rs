//! Which address the page stands at, and the way to another one.
//!
//! Links are plain `<a href="/…">`: a press on one inside the app changes the
//! address without leaving the page, and so does the phone's own "back".

pub mod lazy;

use std::cell::Cell;

use leptos::ev;
use leptos::prelude::*;
use ulid::Ulid;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, MouseEvent};

/// The path and what is asked after it, as `/batch/01J…?do=photo`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Address {
    path: String,
    query: String,
}

thread_local! {
    /// The one address of the page. One may leave for another after waiting for
    /// the store, where no context can be asked for.
    static HERE: Cell<Option<RwSignal<Address>>> = const { Cell::new(None) };
}

/// Begins to follow links and the phone's own "back"; once, for the whole app.
pub fn provide() {
    let here = RwSignal::new(Address::of_page());
    HERE.set(Some(here));
    let _ = window_event_listener(ev::popstate, move |_| here.set(Address::of_page()));
    let _ = window_event_listener(ev::click, |press| {
        if let Some(to) = link_pressed(&press) {
            press.prevent_default();
            go(&to);
        }
    });
}

/// Where the page stands, followed: what reads it runs again when it changes.
pub fn here() -> Address {
    HERE.get().map(|here| here.get()).unwrap_or_default()
}

/// Where the page stands, not followed.
pub fn here_now() -> Address {
    HERE.get().map(|here| here.get_untracked()).unwrap_or_default()
}

/// Opens the address once more.
pub fn again() {
    if let Some(here) = HERE.get() {
        here.notify();
    }
}

/// Goes to an address of the app, such as `/batch/01J…`.
pub fn go(to: &str) {
    let history = window().history();
    if history.is_ok_and(|h| h.push_state_with_url(&JsValue::NULL, "", Some(to)).is_ok()) {
        window().scroll_to_with_x_and_y(0.0, 0.0);
        if let Some(here) = HERE.get() {
            here.set(Address::of_page());
        }
    }
}

impl Address {
    /// As it is written, such as `/batch/01J…?do=photo`.
    pub fn of(to: &str) -> Self {
        let (path, query) = to.split_at(to.find('?').unwrap_or(to.len()));
        Self { path: path.into(), query: query.into() }
    }

    fn of_page() -> Self {
        let at = window().location();
        Self { path: at.pathname().unwrap_or_default(), query: at.search().unwrap_or_default() }
    }

    /// The path without the slashes round it, part by part.
    pub fn parts(&self) -> Vec<&str> {
        self.path.trim_matches('/').split('/').collect()
    }

    /// The id that is the path's second part, as in `/batch/01J…/plan`.
    pub fn id(&self) -> Option<Ulid> {
        self.parts().get(1).and_then(|part| part.parse().ok())
    }

    /// What `?name=…` asks for. Values are ids and words of ours: nothing in them is escaped.
    pub fn asked(&self, name: &str) -> Option<String> {
        let pairs = self.query.trim_start_matches('?').split('&');
        pairs
            .filter_map(|pair| pair.split_once('='))
            .find(|(key, _)| *key == name)
            .map(|(_, value)| value.into())
    }
}

/// The address that a press asks for, if it is a plain press on a link inside the app.
fn link_pressed(press: &MouseEvent) -> Option<String> {
    let elsewhere = press.ctrl_key() || press.meta_key() || press.shift_key() || press.alt_key();
    if press.default_prevented() || press.button() != 0 || elsewhere {
        return None;
    }
    let link = press.target()?.dyn_into::<Element>().ok()?.closest("a[href]").ok()??;
    let kept = !link.has_attribute("download") && !link.has_attribute("target");
    link.get_attribute("href").filter(|to| kept && to.starts_with('/'))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(path: &str, query: &str) -> Address {
        Address { path: path.into(), query: query.into() }
    }

    #[test]
    fn paths_come_apart_at_their_slashes() {
        assert_eq!(at("/", "").parts(), [""]);
        assert_eq!(at("/shelf/new/", "").parts(), ["shelf", "new"]);
    }

    #[test]
    fn it_is_the_same_written_and_gone_to() {
        assert_eq!(Address::of("/batch/x?do=photo"), at("/batch/x", "?do=photo"));
        assert_eq!(Address::of("/sink"), at("/sink", ""));
    }

    #[test]
    fn the_second_part_is_an_id_or_is_none() {
        let id = Ulid::from(7_u128);
        assert_eq!(at(&format!("/batch/{id}/plan"), "").id(), Some(id));
        assert_eq!(at("/shelf/new", "").id(), None);
        assert_eq!(at("/sink", "").id(), None);
    }

    #[test]
    fn what_is_asked_is_found_by_its_name() {
        let here = at("/batch/x", "?from=sink&do=photo");
        assert_eq!(here.asked("do").as_deref(), Some("photo"));
        assert_eq!(here.asked("photo"), None);
        assert_eq!(at("/", "").asked("do"), None);
    }
}
