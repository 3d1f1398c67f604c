//! Installation of the app on the home screen, where the browser offers it.
//!
//! `beforeinstallprompt` (Chromium) is not in web-sys. It comes before the program listens, so
//! public/boot.js keeps it.

use js_sys::{Function, Promise, Reflect};
use leptos::{ev, prelude::*};
use leptos_use::{use_event_listener, use_media_query};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// The event that boot.js keeps, in the window.
const KEPT: &str = "bleachfieldInstall";

/// The event by which boot.js tells that it has kept one.
const INSTALLABLE: &str = "bleachfield:installable";

/// How the app gets onto the home screen here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InstallWay {
    /// It runs from there already.
    Installed,
    /// The browser asks, on [`prompt`].
    Prompt,
    /// By hand, from the share menu: iPhone and iPad.
    ShareMenu,
    /// By hand, from the browser's menu, where it has that.
    BrowserMenu,
}

/// The way here; changes when the browser offers it and when it is done.
pub fn use_install() -> Signal<InstallWay> {
    let standalone = use_media_query("(display-mode: standalone)");
    let offered = RwSignal::new(kept().is_some());
    let event = ev::Custom::<ev::CustomEvent>::new;
    let _ = use_event_listener(window(), event(INSTALLABLE), move |_| {
        offered.set(kept().is_some());
    });
    let _ = use_event_listener(window(), event("appinstalled"), move |_| {
        forget();
        offered.set(false);
    });
    let in_safari = Reflect::get(&window().navigator(), &"standalone".into()).ok();
    Signal::derive(move || match in_safari.as_ref().and_then(JsValue::as_bool) {
        Some(true) => InstallWay::Installed,
        _ if standalone.get() => InstallWay::Installed,
        _ if offered.get() => InstallWay::Prompt,
        Some(false) => InstallWay::ShareMenu,
        None => InstallWay::BrowserMenu,
    })
}

/// Lets the browser ask. Only within the handler of a press, and once for each event kept.
pub async fn prompt() {
    let Some(event) = kept() else { return };
    forget();
    let asked = Reflect::get(&event, &"prompt".into()).and_then(|prompt| {
        let prompt: Function = prompt.dyn_into()?;
        prompt.call0(&event)?.dyn_into::<Promise>()
    });
    if let Ok(asked) = asked {
        // The answer changes nothing here: `appinstalled` tells.
        let _ = JsFuture::from(asked).await;
    }
}

fn kept() -> Option<JsValue> {
    let event = Reflect::get(&window(), &KEPT.into()).ok()?;
    event.is_object().then_some(event)
}

fn forget() {
    let _ = Reflect::set(&window(), &KEPT.into(), &JsValue::UNDEFINED);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boot_js_keeps_the_event_under_the_same_names() {
        let script = include_str!("../../../public/boot.js");
        assert!(script.contains(&format!("window.{KEPT} =")));
        assert!(script.contains(&format!("'{INSTALLABLE}'")));
    }
}
