//! Panics: shown in place of the page (public/boot.js), written to the console, and the first one
//! of a page kept for the Help screen.
//!
//! After a panic the program is gone, since it is built with `panic = "abort"`. Only the hook
//! runs before that, in the release build too.

use std::panic;
use std::sync::atomic::{AtomicBool, Ordering};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CustomEvent, CustomEventInit, DedicatedWorkerGlobalScope};

use super::{clock, local_storage};

/// boot.js writes it too, for a trap without a panic.
const KEY: &str = "bleachfield.last_panic";

/// The event of the window that boot.js listens for; its detail is the text of the panic.
const EVENT: &str = "bleachfield:panic";

/// The event of an element into which boot.js then puts the running baths that were kept.
const RUNNING_EVENT: &str = "bleachfield:running";

/// The last panic of the page on this device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastPanic {
    pub at: Timestamp,
    /// Version of the app.
    pub version: String,
    /// Source location and message.
    pub text: String,
}

/// Before the text of a panic, in a message of the worker to its page.
const WORKER_PANIC: &str = "bleachfield:worker-panic ";

/// Installs the panic hook. The worker has no page and no storage: it sends the text to its page.
pub fn install_hook() {
    static PANICKED: AtomicBool = AtomicBool::new(false);
    panic::set_hook(Box::new(|panic| {
        // Handlers may still run in what is left of the program, and panic as well: the first
        // panic is the one that tells why. One in this hook ends the program at once.
        if !PANICKED.swap(true, Ordering::Relaxed) {
            let text = panic.to_string();
            match worker_scope() {
                Some(scope) => {
                    let message = JsValue::from_str(&format!("{WORKER_PANIC}{text}"));
                    let _ = scope.post_message(&message);
                }
                None => {
                    show(&text);
                    keep(text);
                }
            }
        }
        console_error_panic_hook::hook(panic);
    }));
}

/// The text of a panic, if this is such a message of the worker.
pub fn of_worker(message: &JsValue) -> Option<String> {
    message.as_string()?.strip_prefix(WORKER_PANIC).map(str::to_owned)
}

/// Keeps the text of a panic for Help.
pub fn keep(text: String) {
    let version = env!("CARGO_PKG_VERSION").to_owned();
    local_storage::set(KEY, &LastPanic { at: clock::now(), version, text });
}

fn worker_scope() -> Option<DedicatedWorkerGlobalScope> {
    js_sys::global().dyn_into().ok()
}

/// The last panic, if there was one.
pub fn last() -> Option<LastPanic> {
    local_storage::get(KEY)
}

/// Shows the running baths that were kept for a stop, with their clocks, within `place`: for a
/// program that runs and has no book.
pub fn show_running_baths(place: &web_sys::Element) {
    let bubbling = CustomEventInit::new();
    bubbling.set_bubbles(true);
    if let Ok(event) = CustomEvent::new_with_event_init_dict(RUNNING_EVENT, &bubbling) {
        let _ = place.dispatch_event(&event);
    }
}

/// Shows the panic at once: an error further on would hide it. Nothing here can panic, and an
/// exception in a listener does not reach the sender of its event.
fn show(text: &str) {
    let Some(window) = web_sys::window() else { return };
    let detail = CustomEventInit::new();
    detail.set_detail(&JsValue::from_str(text));
    if let Ok(event) = CustomEvent::new_with_event_init_dict(EVENT, &detail) {
        let _ = window.dispatch_event(&event);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boot_js_listens_under_the_same_names() {
        let script = include_str!("../../../public/boot.js");
        for name in [KEY, EVENT, RUNNING_EVENT] {
            assert!(script.contains(&format!("'{name}'")), "{name}");
        }
    }
}
