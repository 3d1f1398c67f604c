//! A photo that is measured and not kept: taken or chosen, and analysed.

use bleachfield_core::message::Message;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use web_sys::{Blob, HtmlInputElement};

use crate::{
    components::icon,
    i18n::{render, t},
    platform::{object_url::ObjectUrl, random},
    worker::{self, PhotoAnalysis},
};

/// The photo of a screen; copies share their signals.
#[derive(Clone, Copy)]
pub struct PassingPhoto {
    /// Names it to the worker.
    id: StoredValue<String>,
    file: StoredValue<Option<Blob>>,
    url: RwSignal<Option<ObjectUrl>>,
    pub analysis: RwSignal<Option<Result<PhotoAnalysis, Message>>>,
    working: RwSignal<bool>,
    /// Instant at which it was chosen, ms.
    pub taken_ms: RwSignal<Option<f64>>,
}

impl PassingPhoto {
    pub fn new() -> Self {
        // What a photo needs is loaded while it is being taken.
        worker::start();
        Self {
            id: StoredValue::new(String::new()),
            file: StoredValue::new(None),
            url: RwSignal::new(None),
            analysis: RwSignal::new(None),
            working: RwSignal::new(false),
            taken_ms: RwSignal::new(None),
        }
    }

    pub fn id(self) -> String {
        self.id.get_value()
    }

    pub fn file(self) -> Option<Blob> {
        self.file.get_value()
    }

    /// Its address; empty until it is chosen.
    pub fn src(self) -> Signal<String> {
        Signal::derive(move || {
            self.url.with(|url| url.as_ref().map(ObjectUrl::to_string).unwrap_or_default())
        })
    }

    /// Two buttons: the camera, and the album.
    pub fn buttons(self) -> AnyView {
        view! {
            <div class="row even">
                {self.button(t!("form-photo-camera"), true)}
                {self.button(t!("form-photo-pick"), false)}
            </div>
            <p role="status">{move || self.working.get().then(|| t!("swatch-measure-looking"))}</p>
            {move || match self.analysis.get() {
                Some(Err(why)) => Some(view! {
                    <section class="caution care" role="alert"><p>{render(&why)}</p></section>
                }),
                _ => None,
            }}
        }
        .into_any()
    }

    fn button(self, label: String, camera: bool) -> AnyView {
        view! {
            <label class="button soft file-button">
                {camera.then(|| view! { <icon::Camera /> })}
                {label}
                <input type="file" accept=worker::ACCEPTED_PHOTOS
                    capture=camera.then_some("environment")
                    on:change=move |event| self.choose(&event) />
            </label>
        }
        .into_any()
    }

    fn choose(self, event: &ev::Event) {
        let input: HtmlInputElement = event_target(event);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        // The same file may be chosen again after a refusal.
        input.set_value("");
        self.show(file.unchecked_into());
    }

    /// Takes a photo in place of the one before.
    pub fn show(self, file: Blob) {
        let id = format!("passing-{:x}", random::bits());
        self.id.set_value(id.clone());
        self.working.set(true);
        self.analysis.set(None);
        self.taken_ms.set(Some(js_sys::Date::now()));
        self.url.set(ObjectUrl::new(&file));
        self.file.set_value(Some(file.clone()));
        spawn_local(async move {
            let analysis = worker::analyse(&id, &file).await;
            if self.id.try_get_value().as_deref() == Some(id.as_str()) {
                self.working.set(false);
                self.analysis.set(Some(analysis));
            }
        });
    }
}
