//! Bleachfield on a phone: a thin Leptos shell over `bleachfield-core`.
//!
//! `screen` holds one file or folder per screen, `part` the controls they
//! share, `studio` the state of the whole app, `store` what is kept on disk,
//! `device` what the phone can do, `locale` every word.

mod components;
mod i18n;
mod platform;
mod route;
mod screens;
mod state;
mod storage;
mod worker;

rust_i18n::i18n!("locale", fallback = "en");

fn main() {
    platform::panic::install_hook();
    if !worker::serve_if_worker() {
        leptos::mount::mount_to_body(screens::App);
    }
}
