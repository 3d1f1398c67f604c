//! Bleachfield on a phone: a thin Leptos shell over `bleachfield-core`.
//!
//! `screen` holds one file or folder per screen, `part` the controls they
//! share, `studio` the state of the whole app, `store` what is kept on disk,
//! `device` what the phone can do, `locale` every word.

mod address;
mod device;
mod later;

mod locale;
mod markup;
mod part;
mod screen;
mod signal;
mod store;
mod studio;
mod worker;

rust_i18n::i18n!("src/locale", fallback = "en");

fn main() {
    console_error_panic_hook::set_once();
    if !worker::serves() {
        leptos::mount::mount_to_body(screen::App);
    }
}
