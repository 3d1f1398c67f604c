//! Bleachfield on a phone: a thin Leptos shell over `bleachfield-core`.
//!
//! `screens` holds one file or folder per screen, `components` the controls they share, `state`
//! the state of the whole app, `storage` what is kept on disk, `platform` what the browser can
//! do, `i18n` the messages.

mod components;
mod i18n;
mod platform;
mod route;
mod screens;
mod state;
mod storage;
mod worker;

fn main() {
    console_error_panic_hook::set_once();
    if !worker::serves() {
        if let Some(root) = leptos::prelude::document().document_element() {
            _ = root.set_attribute("lang", i18n::language());
        }
        leptos::mount::mount_to_body(screens::App);
    }
}
