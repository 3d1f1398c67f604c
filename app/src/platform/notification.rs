//! A notice from the phone itself, for a page that is open but out of sight.
//!
//! Only the service worker's registration may show one on a phone, and only
//! while the phone lets the page run: it is no alarm clock.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    Notification, NotificationOptions, NotificationPermission, ServiceWorkerRegistration,
};

/// Whether we may.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    Yes,
    /// Not asked yet. Ask only when the person presses a button for it.
    NotAsked,
    /// The person said no; only the browser's own settings change that.
    No,
    /// This browser has none; an iPhone has them only on the home screen.
    Unable,
}

pub fn allowed() -> Allowed {
    let there = Reflect::get(&window(), &"Notification".into());
    if !there.is_ok_and(|n| n.is_function()) || container().is_none() {
        return Allowed::Unable;
    }
    match Notification::permission() {
        NotificationPermission::Granted => Allowed::Yes,
        NotificationPermission::Denied => Allowed::No,
        _ => Allowed::NotAsked,
    }
}

/// Asks the person, through the browser. Call it from a press only.
pub async fn ask() -> Allowed {
    if let Ok(asked) = Notification::request_permission() {
        let _ = JsFuture::from(asked).await;
    }
    allowed()
}

/// Shows a notice, if that is allowed. One with the same `tag` is replaced.
pub fn show(title: &str, body: &str, tag: &str) {
    if allowed() != Allowed::Yes {
        return;
    }
    let options = NotificationOptions::new();
    options.set_body(body);
    options.set_tag(tag);
    options.set_renotify(true);
    options.set_require_interaction(true);
    options.set_icon("/icon/bleachfield-192.png");
    let title = title.to_owned();
    spawn_local(async move {
        let Some(container) = container() else { return };
        let found = JsFuture::from(container.get_registration()).await;
        let registration = found.and_then(|r| r.dyn_into::<ServiceWorkerRegistration>());
        if let Ok(shown) =
            registration.and_then(|r| r.show_notification_with_options(&title, &options))
        {
            let _ = JsFuture::from(shown).await;
        }
    });
}

/// Absent where the page was not opened from a safe origin.
fn container() -> Option<web_sys::ServiceWorkerContainer> {
    Reflect::get(&window().navigator(), &"serviceWorker".into()).ok()?.dyn_into().ok()
}
