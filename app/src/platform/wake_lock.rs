//! The screen wake lock: the screen stays on while a bath runs, so that its cues are noticed.
//!
//! Screen Wake Lock API (W3C). A browser releases the lock when the page is hidden; it is
//! requested again when the page is visible. leptos-use has no wake lock, and web-sys only an
//! unstable one.

use leptos::prelude::*;
use leptos_use::use_document_visibility;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Navigator, VisibilityState};

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(extends = Navigator)]
    type LockNavigator;
    #[wasm_bindgen(method, getter, js_name = wakeLock)]
    fn wake_lock(this: &LockNavigator) -> Option<LockManager>;

    type LockManager;
    #[wasm_bindgen(method, catch)]
    async fn request(this: &LockManager, kind: &str) -> Result<JsValue, JsValue>;

    /// `WakeLockSentinel`
    type Sentinel;
    #[wasm_bindgen(method)]
    fn release(this: &Sentinel) -> js_sys::Promise;
    #[wasm_bindgen(method, setter)]
    fn set_onrelease(this: &Sentinel, handler: &JsValue);
}

/// State of the screen wake lock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WakeLockState {
    NotRequested,
    /// The screen stays on.
    Held,
    /// The device refused or took the lock back, for instance at low battery.
    Denied,
    Unsupported,
}

/// The screen wake lock of the page. Copied freely.
#[derive(Clone, Copy)]
pub struct WakeLock {
    state: RwSignal<WakeLockState>,
    wanted: Signal<bool>,
    sentinel: StoredValue<Option<JsValue>>,
}

impl WakeLock {
    /// Holds the lock whenever `wanted` is true and the page visible. Once, at the root.
    pub fn follow(wanted: Signal<bool>) -> Self {
        let lock = Self {
            state: RwSignal::new(WakeLockState::NotRequested),
            wanted,
            sentinel: StoredValue::new(None),
        };
        let visibility = use_document_visibility();
        Effect::new(move |_| match (wanted.get(), visibility.get()) {
            (false, _) => lock.release(),
            (true, VisibilityState::Visible) => lock.request(),
            (true, _) => {}
        });
        lock
    }

    pub fn state(self) -> WakeLockState {
        self.state.get()
    }

    fn request(self) {
        if self.sentinel.with_value(Option::is_some) {
            return;
        }
        let navigator: LockNavigator = window().navigator().unchecked_into();
        let Some(manager) = navigator.wake_lock() else {
            return self.state.set(WakeLockState::Unsupported);
        };
        spawn_local(async move {
            match manager.request("screen").await {
                Ok(sentinel) => self.hold(sentinel.unchecked_into()),
                // Refused because the page is hidden: requested again when it is visible.
                Err(_) if document().hidden() => {}
                Err(_) => self.state.set(WakeLockState::Denied),
            }
        });
    }

    /// Keeps a lock that was granted, unless it is no longer wanted or there is one.
    fn hold(self, sentinel: Sentinel) {
        if !self.wanted.get_untracked() || self.sentinel.with_value(Option::is_some) {
            let _ = sentinel.release();
            return;
        }
        // Not a closure for one call: a browser may tell of one release twice.
        let released = Closure::<dyn Fn()>::new(move || {
            self.sentinel.set_value(None);
            if self.wanted.get_untracked() && !document().hidden() {
                self.state.set(WakeLockState::Denied);
            }
        })
        .into_js_value();
        sentinel.set_onrelease(&released);
        self.sentinel.set_value(Some(sentinel.into()));
        self.state.set(WakeLockState::Held);
    }

    fn release(self) {
        if let Some(sentinel) = self.sentinel.try_update_value(Option::take).flatten() {
            let _ = sentinel.unchecked_into::<Sentinel>().release();
        }
        self.state.set(WakeLockState::NotRequested);
    }
}
