//! Panics: written to the console, and the last one kept for the Help screen.

use std::panic;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{clock, local_storage};

const KEY: &str = "bleachfield.last_panic";

/// The last panic of the page on this device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastPanic {
    pub at: Timestamp,
    /// Version of the app.
    pub version: String,
    /// Source location and message.
    pub text: String,
}

/// Installs the panic hook. A panic in the worker goes to the console alone.
pub fn install_hook() {
    panic::set_hook(Box::new(|panic| {
        console_error_panic_hook::hook(panic);
        let version = env!("CARGO_PKG_VERSION").to_owned();
        let last = LastPanic { at: clock::now(), version, text: panic.to_string() };
        local_storage::set(KEY, &last);
    }));
}

/// The last panic, if there was one.
pub fn last() -> Option<LastPanic> {
    local_storage::get(KEY)
}
