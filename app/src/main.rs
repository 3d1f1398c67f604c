//! Bleachfield on a phone: a thin Leptos shell over `bleachfield-core`.
//!
//! The page and its worker are the same program; which of the two this is shows at start.

mod components;
mod i18n;
mod platform;
mod route;
mod screens;
mod state;
mod storage;
mod worker;

fn main() {
    platform::panic::install_hook();
    if !worker::serve_if_worker() {
        if let Some(root) = leptos::prelude::document().document_element() {
            _ = root.set_attribute("lang", i18n::language());
        }
        leptos::mount::mount_to_body(screens::App);
    }
}
