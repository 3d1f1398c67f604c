//! Registration of the service worker that makes the app work offline
//! (public/service_worker.js), and its progress.
//!
//! Not by leptos-use: that panics where there are no service workers, and tells neither a
//! first installation from an update nor why one failed.

use leptos::{ev, prelude::*};
use leptos_use::use_event_listener;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    ServiceWorker as Worker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
};

use super::base;

/// In the folder of the app, which is so its scope.
const SCRIPT: &str = "service_worker.js";

/// How far the app works offline on this device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Offline {
    /// The files of the app are being fetched for the first time.
    Preparing,
    Ready,
    /// As `Ready`, and a newer version is installed and waits to take over.
    UpdateWaiting,
    /// No service workers, in this browser or at this address.
    Unsupported,
    /// The files could not be fetched; the message of the browser.
    Failed(String),
}

/// The service worker of the page. Copied freely; provided once, at the root.
#[derive(Clone, Copy)]
pub struct ServiceWorker {
    state: RwSignal<Offline>,
    /// The person asked for the update: the page reloads when the new version controls it.
    updating: RwSignal<bool>,
    registration: StoredValue<Option<ServiceWorkerRegistration>>,
}

impl ServiceWorker {
    /// Registers the worker, follows it, and provides the context.
    pub fn provide() -> Self {
        let this = Self {
            state: RwSignal::new(Offline::Preparing),
            updating: RwSignal::new(false),
            registration: StoredValue::new(None),
        };
        match container() {
            Some(container) => spawn_local(async move { this.start(container).await }),
            None => this.state.set(Offline::Unsupported),
        }
        this.check_for_update_on_return();
        provide_context(this);
        this
    }

    /// The service worker, from context.
    pub fn provided() -> Self {
        expect_context()
    }

    pub fn state(&self) -> Signal<Offline> {
        self.state.into()
    }

    /// Whether to offer the update: never while a bath runs, since it reloads the page.
    pub fn update_offered(&self, bath_running: impl Into<Signal<bool>>) -> Signal<bool> {
        let (state, bath_running) = (self.state, bath_running.into());
        Signal::derive(move || state.get() == Offline::UpdateWaiting && !bath_running.get())
    }

    /// Activates the waiting version; the page then reloads.
    pub fn apply_update(&self) {
        let waiting = self.registration.with_value(|r| r.as_ref().and_then(|r| r.waiting()));
        if let Some(waiting) = waiting {
            self.updating.set(true);
            post(&waiting, "skip-waiting");
        }
    }

    async fn start(self, container: ServiceWorkerContainer) {
        self.reload_after_update(&container);
        let registered = JsFuture::from(container.register(&base::of_file(SCRIPT))).await;
        match registered.and_then(|r| r.dyn_into::<ServiceWorkerRegistration>()) {
            Ok(registration) => self.follow(registration),
            // Offline, and the installed worker serves the page.
            Err(_) if container.controller().is_some() => self.state.set(Offline::Ready),
            Err(error) => self.state.set(Offline::Failed(message_of(&error))),
        }
    }

    fn reload_after_update(self, container: &ServiceWorkerContainer) {
        let changed = Closure::<dyn Fn()>::new(move || {
            if self.updating.get_untracked() {
                let _ = window().location().reload();
            }
        });
        container.set_oncontrollerchange(Some(changed.as_ref().unchecked_ref()));
        changed.forget(); // lives as long as the page
    }

    fn follow(self, registration: ServiceWorkerRegistration) {
        self.registration.set_value(Some(registration.clone()));
        match (registration.waiting(), registration.active()) {
            (Some(_), Some(_)) => self.state.set(Offline::UpdateWaiting),
            // The first one, between installation and activation: not an update.
            (Some(first), None) => self.follow_installation(first),
            (None, Some(active)) => self.ready(&active),
            (None, None) => {}
        }
        if let Some(installing) = registration.installing() {
            self.follow_installation(installing);
        }
        let found = Closure::<dyn Fn()>::new({
            let registration = registration.clone();
            move || {
                if let Some(installing) = registration.installing() {
                    self.follow_installation(installing);
                }
            }
        });
        registration.set_onupdatefound(Some(found.as_ref().unchecked_ref()));
        found.forget(); // lives as long as the page
    }

    fn follow_installation(self, worker: Worker) {
        let changed = Closure::<dyn Fn()>::new({
            let worker = worker.clone();
            move || self.changed(&worker)
        });
        worker.set_onstatechange(Some(changed.as_ref().unchecked_ref()));
        changed.forget(); // lives as long as the page
        self.changed(&worker); // the state may have changed before this listened
    }

    fn changed(self, worker: &Worker) {
        let active = self.registration.with_value(|r| r.as_ref().and_then(|r| r.active()));
        match worker.state() {
            ServiceWorkerState::Installed if active.is_some() => {
                self.state.set(Offline::UpdateWaiting);
            }
            ServiceWorkerState::Activated => self.ready(worker),
            // Some file could not be fetched, and no earlier version serves the page.
            ServiceWorkerState::Redundant if active.is_none() => {
                self.state.set(Offline::Failed(String::new()));
            }
            _ => {}
        }
    }

    /// The first screen works offline: the worker fetches the rest in the background.
    fn ready(self, active: &Worker) {
        post(active, "fetch-quiet");
        self.state.set(Offline::Ready);
    }

    /// An installed app is seldom navigated: it checks whenever the person returns to it.
    fn check_for_update_on_return(self) {
        let _ = use_event_listener(document(), ev::visibilitychange, move |_| {
            if document().hidden() || !window().navigator().on_line() {
                return;
            }
            let registration = self.registration.get_value();
            if let Some(checked) = registration.and_then(|r| r.update().ok()) {
                spawn_local(async move {
                    // Without a network it fails, and the next return checks again.
                    let _ = JsFuture::from(checked).await;
                });
            }
        });
    }
}

/// Missing outside secure contexts and in some browsers' private windows.
pub fn container() -> Option<ServiceWorkerContainer> {
    let navigator = window().navigator();
    JsValue::from_str("serviceWorker").js_in(&navigator).then(|| navigator.service_worker())
}

fn post(worker: &Worker, message: &str) {
    // Fails only if the worker is gone; nothing is to be done then.
    let _ = worker.post_message(&message.into());
}

fn message_of(error: &JsValue) -> String {
    error.dyn_ref::<js_sys::Error>().map(|e| String::from(e.message())).unwrap_or_default()
}
