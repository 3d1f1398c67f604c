//! Keeping the screen on while a bath runs, so that its cues can be heard.
//!
//! The Screen Wake Lock API (W3C). A browser lets the lock go whenever the page
//! is hidden, so it is asked for again each time the page comes back. web-sys
//! counts it as unstable, so it is reached by name.

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// How it stands with the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awake {
    /// Nobody asked for it.
    NotWanted,
    /// The screen stays on.
    Kept,
    /// The phone refused, or took the lock back: a low battery does that.
    Refused,
    /// This browser cannot keep a screen on.
    Unable,
}

/// The lock, and whether it is wanted.
#[derive(Clone, Copy)]
pub struct WakeLock {
    awake: RwSignal<Awake>,
    wanted: Signal<bool>,
    held: StoredValue<Option<JsValue>>,
}

impl WakeLock {
    /// Follows `wanted` from now on. Make it once, at the root.
    pub fn follow(wanted: Signal<bool>) -> Self {
        let lock =
            Self { awake: RwSignal::new(Awake::NotWanted), wanted, held: StoredValue::new(None) };
        Effect::new(move |_| if wanted.get() { lock.take() } else { lock.let_go() });
        let returned = window_event_listener_untyped("visibilitychange", move |_| {
            if wanted.get_untracked() && !document().hidden() {
                lock.take();
            }
        });
        drop(returned); // the handle only removes it: it stays as long as the page
        lock
    }

    pub fn awake(self) -> Awake {
        self.awake.get()
    }

    /// Asks for the lock; does nothing where it is held already.
    fn take(self) {
        if self.held.with_value(Option::is_some) {
            return;
        }
        let Some(asked) = ask() else {
            self.awake.set(Awake::Unable);
            return;
        };
        spawn_local(async move {
            match JsFuture::from(asked).await {
                Ok(lock) if self.wanted.get_untracked() => self.keep(lock),
                Ok(lock) => release(&lock),
                // A page that is hidden may not hold it: that is no refusal.
                Err(_) if document().hidden() => {}
                Err(_) => self.awake.set(Awake::Refused),
            }
        });
    }

    fn keep(self, lock: JsValue) {
        if self.held.with_value(Option::is_some) {
            return release(&lock);
        }
        let released = Closure::once_into_js(move || {
            self.held.set_value(None);
            if self.wanted.get_untracked() && !document().hidden() {
                self.awake.set(Awake::Refused);
            }
        });
        let _ = Reflect::set(&lock, &"onrelease".into(), &released);
        self.held.set_value(Some(lock));
        self.awake.set(Awake::Kept);
    }

    fn let_go(self) {
        if let Some(lock) = self.held.try_update_value(Option::take).flatten() {
            release(&lock);
        }
        self.awake.set(Awake::NotWanted);
    }
}

/// `navigator.wakeLock.request("screen")`, where there is such a thing.
fn ask() -> Option<Promise> {
    let locks = Reflect::get(&window().navigator(), &"wakeLock".into()).ok()?;
    let request: Function = Reflect::get(&locks, &"request".into()).ok()?.dyn_into().ok()?;
    request.call1(&locks, &"screen".into()).ok()?.dyn_into().ok()
}

fn release(lock: &JsValue) {
    let release = Reflect::get(lock, &"release".into());
    if let Some(release) = release.ok().and_then(|f| f.dyn_into::<Function>().ok()) {
        let _ = release.call0(lock);
    }
}
