//! The choice of a photo: taken by camera or from the album, and prepared by the worker for the
//! store. The forms that it stands in save it.

use bleachfield_core::{
    journal::{Photo, PulpState},
    message::Message,
};
use leptos::{ev, prelude::*, task::spawn_local};
use ulid::Ulid;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, ImageBitmap};

use crate::{
    components::icon,
    platform::preferences::preferences_context,
    storage::NewPhoto,
    worker::{self, PreparedPhoto},
};

/// Copied freely.
#[derive(Clone, Copy)]
pub struct PhotoChoice {
    pub prepared: RwSignal<Option<PreparedPhoto>>,
    /// A small copy, shown until the photo is prepared; a form that is about to close keeps it.
    pub preview: RwSignal<Option<ImageBitmap>>,
    pub preparing: RwSignal<bool>,
    pub problem: RwSignal<Option<Message>>,
    /// Run once the photo is prepared.
    then: StoredValue<Option<Callback<()>>>,
    /// Number of the file that was chosen last; what comes of earlier ones is dropped.
    last_chosen: StoredValue<u32>,
}

impl PhotoChoice {
    pub fn new() -> Self {
        Self {
            prepared: RwSignal::new(None),
            preview: RwSignal::new(None),
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

    /// No photo is being prepared.
    pub fn is_ready(self) -> bool {
        !self.preparing.get_untracked()
    }

    /// Runs `then` once the photo is prepared, unless it is refused or another is chosen.
    pub fn when_ready(self, then: Callback<()>) {
        self.then.set_value(Some(then));
    }

    /// The entry and the bytes of the prepared photo.
    pub fn entry(
        self,
        pulp: PulpState,
        bath: Option<Ulid>,
        caption: String,
    ) -> Option<(Photo, NewPhoto)> {
        let PreparedPhoto { clean, photo, thumb, .. } = self.prepared.get_untracked()?;
        let id = clean.id;
        let entry = Photo {
            photo: id.clone(),
            mime: clean.mime,
            width_px: clean.width_px,
            height_px: clean.height_px,
            bytes: photo.bytes.len() as u64,
            orientation: clean.orientation,
            pulp,
            bath,
            caption,
        };
        Some((entry, NewPhoto { id, photo, thumb }))
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
        self.preview.set(None);
        self.then.set_value(None);
        let is_current = move || self.last_chosen.try_get_value() == Some(number);
        let show_preview = move |bitmap| {
            if is_current() {
                self.preview.set(Some(bitmap));
            }
        };
        let size = preferences_context().get_untracked().photo;
        spawn_local(async move {
            let result = worker::prepare_photo(file.unchecked_ref(), size, show_preview).await;
            if is_current() {
                self.finish(result);
            }
        });
    }

    fn finish(self, result: Result<PreparedPhoto, Message>) {
        self.preparing.set(false);
        let then = self.then.try_update_value(Option::take).flatten();
        if then.is_none() || result.is_err() {
            self.preview.set(None);
        }
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

/// The two ways to choose. A phone that opens the camera hides the album, so both are offered.
#[component]
pub fn PhotoButtons(
    photo: PhotoChoice,
    camera: String,
    pick: String,
    class: &'static str,
) -> impl IntoView {
    // What a photo needs is loaded while it is being taken.
    worker::start();
    let button = move |label: String, by_camera: bool| {
        view! {
            <label class=class>
                {by_camera.then(|| view! { <icon::Camera /> })}
                {label}
                <input type="file" accept=worker::ACCEPTED_PHOTOS
                    capture=by_camera.then_some("environment")
                    on:change=move |event| photo.choose(&event) />
            </label>
        }
    };
    view! { <div class="row even">{button(camera, true)}{button(pick, false)}</div> }
}
