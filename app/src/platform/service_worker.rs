//! Registers the service worker that makes Bleachfield work with no network
//! (public/service_worker.js), and says how far it has come.

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    ServiceWorker as Worker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
};

const SCRIPT: &str = "/service_worker.js";

/// How well this device can do without a network.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Offline {
    /// The files of the app are being fetched for the first time.
    Preparing,
    /// All that is needed is on this device.
    Ready,
    /// As `Ready`, and a newer version is here too, waiting to take over.
    UpdateWaiting,
    /// This browser, or the way the page was opened, has no service workers.
    Unsupported,
    /// The files could not be fetched; what the browser said.
    Failed(String),
}

/// The page's only door to its service worker. Copy it anywhere; create it once,
/// at the root, so that its signals live as long as the page.
#[derive(Clone, Copy)]
pub struct ServiceWorker {
    state: RwSignal<Offline>,
    /// Set when the person asked for the update: the page then starts anew once
    /// the new version has taken over.
    applying: RwSignal<bool>,
    registration: StoredValue<Option<ServiceWorkerRegistration>>,
}

impl ServiceWorker {
    /// Registers the worker, follows it from then on, and puts it in context.
    pub fn provide() -> Self {
        let this = Self {
            state: RwSignal::new(Offline::Preparing),
            applying: RwSignal::new(false),
            registration: StoredValue::new(None),
        };
        match container() {
            Some(container) => spawn_local(async move { this.start(container).await }),
            None => this.state.set(Offline::Unsupported),
        }
        provide_context(this);
        this
    }

    /// The one in context.
    pub fn provided() -> Self {
        expect_context()
    }

    pub fn state(&self) -> Signal<Offline> {
        self.state.into()
    }

    /// Whether to offer the new version now: never while a bath runs, since
    /// starting anew takes the page away from someone in the middle of a step.
    pub fn update_offered(&self, bath_running: impl Into<Signal<bool>>) -> Signal<bool> {
        let (state, bath_running) = (self.state, bath_running.into());
        Signal::derive(move || state.get() == Offline::UpdateWaiting && !bath_running.get())
    }

    /// Lets the waiting version take over; the page starts anew when it has.
    pub fn apply_update(&self) {
        let waiting = self.registration.with_value(|r| r.as_ref().and_then(|r| r.waiting()));
        if let Some(waiting) = waiting {
            self.applying.set(true);
            tell(&waiting, "skip-waiting");
        }
    }

    async fn start(self, container: ServiceWorkerContainer) {
        self.start_anew_when_updated(&container);
        let registered = JsFuture::from(container.register(SCRIPT)).await;
        match registered.and_then(|r| r.dyn_into::<ServiceWorkerRegistration>()) {
            Ok(registration) => self.follow(registration),
            // With no network the worker that is here still serves the page.
            Err(_) if container.controller().is_some() => self.state.set(Offline::Ready),
            Err(error) => self.state.set(Offline::Failed(words(&error))),
        }
    }

    fn start_anew_when_updated(self, container: &ServiceWorkerContainer) {
        let changed = Closure::<dyn Fn()>::new(move || {
            if self.applying.get_untracked() {
                let _ = window().location().reload();
            }
        });
        container.set_oncontrollerchange(Some(changed.as_ref().unchecked_ref()));
        changed.forget(); // lives as long as the page
    }

    fn follow(self, registration: ServiceWorkerRegistration) {
        self.registration.set_value(Some(registration.clone()));
        if registration.waiting().is_some() {
            self.state.set(Offline::UpdateWaiting);
        } else if let Some(active) = registration.active() {
            self.settle(&active);
        }
        if let Some(installing) = registration.installing() {
            self.watch(installing);
        }
        let found = Closure::<dyn Fn()>::new({
            let registration = registration.clone();
            move || {
                if let Some(installing) = registration.installing() {
                    self.watch(installing);
                }
            }
        });
        registration.set_onupdatefound(Some(found.as_ref().unchecked_ref()));
        found.forget();
        look_again_on_return(registration);
    }

    /// Follows a new worker from its first fetch to where it waits or takes over.
    fn watch(self, worker: Worker) {
        let changed = Closure::<dyn Fn()>::new({
            let worker = worker.clone();
            move || self.changed(&worker)
        });
        worker.set_onstatechange(Some(changed.as_ref().unchecked_ref()));
        changed.forget();
        self.changed(&worker); // it may have moved on before we listened
    }

    fn changed(self, worker: &Worker) {
        let active = self.registration.with_value(|r| r.as_ref().and_then(|r| r.active()));
        match worker.state() {
            ServiceWorkerState::Installed if active.is_some() => {
                self.state.set(Offline::UpdateWaiting);
            }
            ServiceWorkerState::Activated => self.settle(worker),
            // It could not fetch everything. A version before it still serves.
            ServiceWorkerState::Redundant if active.is_none() => {
                self.state.set(Offline::Failed(String::new()));
            }
            _ => {}
        }
    }

    /// The worker has what the first screen needs: fetch the rest with no hurry.
    fn settle(self, active: &Worker) {
        tell(active, "fetch-quiet");
        self.state.set(Offline::Ready);
    }
}

/// An installed app is seldom navigated, so it looks for a new version each time
/// the person comes back to it.
fn look_again_on_return(registration: ServiceWorkerRegistration) {
    let returned = window_event_listener_untyped("visibilitychange", move |_| {
        if !document().hidden() && window().navigator().on_line() {
            // It fails when there is no network, and then nothing is lost.
            let _ = registration.update().map(|looked| {
                spawn_local(async move {
                    let _ = JsFuture::from(looked).await;
                });
            });
        }
    });
    drop(returned); // the handle is only for removing it: it stays as long as the page
}

fn container() -> Option<ServiceWorkerContainer> {
    // Absent, not empty, where the page was not opened from a safe origin.
    let navigator = window().navigator();
    let here = js_sys::Reflect::get(&navigator, &"serviceWorker".into()).ok()?;
    here.dyn_into().ok()
}

fn tell(worker: &Worker, what: &str) {
    // A worker that is already gone needs no telling.
    let _ = worker.post_message(&what.into());
}

fn words(error: &JsValue) -> String {
    error.dyn_ref::<js_sys::Error>().map(|e| String::from(e.message())).unwrap_or_default()
}
