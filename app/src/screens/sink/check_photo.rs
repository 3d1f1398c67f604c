//! The photo of a check: chosen or taken, prepared by the worker, saved with the readings.

use bleachfield_core::{
    journal::{Body, Photo, PulpState},
    message::Message,
};
use leptos::{ev, prelude::*, task::spawn_local};
use ulid::Ulid;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

use crate::{
    components::{ChoiceError, icon},
    i18n::{format_number, t, t_with},
    platform::preferences::preferences_context,
    storage::NewPhoto,
    worker::{self, PreparedPhoto},
};

/// Copied freely.
#[derive(Clone, Copy)]
pub struct CheckPhoto {
    prepared: RwSignal<Option<PreparedPhoto>>,
    preparing: RwSignal<bool>,
    problem: RwSignal<Option<Message>>,
    /// Run once the photo is prepared.
    then: StoredValue<Option<Callback<()>>>,
    /// Number of the file that was chosen last; what comes of earlier ones is dropped.
    last_chosen: StoredValue<u32>,
}

impl CheckPhoto {
    pub fn new() -> Self {
        Self {
            prepared: RwSignal::new(None),
            preparing: RwSignal::new(false),
            problem: RwSignal::new(None),
            then: StoredValue::new(None),
            last_chosen: StoredValue::new(0),
        }
    }

    /// No photo was chosen. Tracked.
    pub fn is_empty(self) -> bool {
        !self.preparing.get() && self.prepared.with(Option::is_none)
    }

    pub fn is_ready(self) -> bool {
        !self.preparing.get_untracked()
    }

    /// Runs `then` once the photo is prepared.
    pub fn when_ready(self, then: Callback<()>) {
        self.then.set_value(Some(then));
    }

    /// The entry and the bytes; pulp in a running bath is wet.
    pub fn entry(self, bath: Ulid) -> Option<(Body, NewPhoto)> {
        let PreparedPhoto { clean, photo, thumb, .. } = self.prepared.get_untracked()?;
        let id = clean.id;
        let body = Body::Photo(Photo {
            photo: id.clone(),
            mime: clean.mime,
            width_px: clean.width_px,
            height_px: clean.height_px,
            bytes: photo.bytes.len() as u64,
            orientation: clean.orientation,
            pulp: PulpState::Wet,
            bath: Some(bath),
            caption: String::new(),
        });
        Some((body, NewPhoto { id, photo, thumb }))
    }

    /// Prepares the file of an `<input type="file">`.
    fn choose(self, event: &ev::Event) {
        let input: HtmlInputElement = event_target(event);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        // The same file may be chosen again after a refusal.
        input.set_value("");
        let number = self.last_chosen.get_value().wrapping_add(1);
        self.last_chosen.set_value(number);
        self.preparing.set(true);
        self.problem.set(None);
        self.prepared.set(None);
        self.then.set_value(None);
        let size = preferences_context().get_untracked().photo;
        spawn_local(async move {
            let result = worker::prepare_photo(file.unchecked_ref(), size, |_| {}).await;
            if self.last_chosen.try_get_value() == Some(number) {
                self.finish(result);
            }
        });
    }

    fn finish(self, result: Result<PreparedPhoto, Message>) {
        self.preparing.set(false);
        let then = self.then.try_update_value(Option::take).flatten();
        match result {
            Ok(photo) => {
                self.prepared.set(Some(photo));
                if let Some(then) = then {
                    then.run(());
                }
            }
            Err(error) => self.problem.set(Some(error)),
        }
    }
}

/// Takes a photo by camera or from the album. A phone that opens the camera hides the album, so
/// both are offered.
#[component]
pub fn PhotoPart(photo: CheckPhoto) -> impl IntoView {
    worker::start();
    let button = move |label: String, camera: bool| {
        view! {
            <label class="button soft touch file-button">
                {camera.then(|| view! { <icon::Camera /> })}
                {label}
                <input type="file" accept=worker::ACCEPTED_PHOTOS capture=camera.then_some("environment")
                    on:change=move |event| photo.choose(&event) />
            </label>
        }
    };
    let said = move || {
        if photo.preparing.get() {
            return Some(t!("sink-check-photo_working"));
        }
        photo.prepared.with(|prepared| {
            let size = prepared.as_ref()?.photo.bytes.len() as f64 / 1e6;
            let size = format!("{} MB", format_number(size, 2));
            Some(t_with!("sink-check-photo_ready", &[("size", &size)]))
        })
    };
    view! {
        <div class="row even">
            {button(t!("sink-check-photo"), true)}
            {button(t!("sink-check-photo_pick"), false)}
        </div>
        <p role="status" class="small">{said}</p>
        <ChoiceError problem=photo.problem.into() />
    }
}
