//! Notifications of the system, for a page that is open but not visible. No alarm clock: they
//! appear only while the device lets the page run.
//!
//! Phones show only those of a service worker's registration; leptos-use makes the other kind.

use leptos::prelude::window;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Notification, NotificationOptions, ServiceWorkerRegistration};

use super::{base, demo, service_worker};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotificationPermission {
    Granted,
    /// Not asked yet. To be asked within the handler of a press.
    NotAsked,
    /// Only the settings of the browser change that.
    Denied,
    /// An iPhone has them only for apps on the home screen.
    Unsupported,
}

pub fn permission() -> NotificationPermission {
    let there = JsValue::from_str("Notification").js_in(&window());
    if !there || service_worker::container().is_none() {
        return NotificationPermission::Unsupported;
    }
    match Notification::permission() {
        web_sys::NotificationPermission::Granted => NotificationPermission::Granted,
        web_sys::NotificationPermission::Denied => NotificationPermission::Denied,
        _ => NotificationPermission::NotAsked,
    }
}

/// Asks the person, through the browser. Only within the handler of a press.
pub async fn request_permission() -> NotificationPermission {
    if let Ok(answer) = Notification::request_permission() {
        let _ = JsFuture::from(answer).await;
    }
    permission()
}

/// Shows a notification if permitted. It replaces one with the same `tag`. The demo studio
/// shows none: whoever looks elsewhere would take it for a bath of their own.
pub fn show(title: &str, body: &str, tag: &str) {
    if demo::is_open() || permission() != NotificationPermission::Granted {
        return;
    }
    let options = NotificationOptions::new();
    options.set_body(body);
    options.set_tag(tag);
    options.set_renotify(true);
    options.set_require_interaction(true);
    options.set_icon(&base::of_file("icon/bleachfield-192.png"));
    let title = title.to_owned();
    spawn_local(async move {
        let Some(container) = service_worker::container() else { return };
        let found = JsFuture::from(container.get_registration()).await;
        let registration = found.and_then(|r| r.dyn_into::<ServiceWorkerRegistration>());
        let shown = registration.and_then(|r| r.show_notification_with_options(&title, &options));
        if let Ok(shown) = shown {
            let _ = JsFuture::from(shown).await;
        }
    });
}
