//! A photo of the pulp.

use bleachfield_core::{
    journal::{Body, Photo, PulpState},
    message::Message,
};
use leptos::{ev, html, prelude::*, task::spawn_local};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlInputElement, ImageBitmap, Url};

use super::{BatchWriter, SaveButton, trimmed};
use crate::{
    components::{ChoiceError, RadioGroup, TextField, icon},
    i18n::{format_number, key, t, t_with},
    platform::preferences::{PhotoSize, preferences_context},
    route::{ColourPurpose, Route},
    screens::{batches::entry::name_of, lazy},
    storage::{NewPhoto, PhotoBytes},
    worker::{self, PreparedPhoto},
};

#[component]
pub fn PhotoForm(writer: BatchWriter) -> impl IntoView {
    let draft = PhotoDraft::new(writer);
    // What a photo needs, and the screen after it, are loaded while it is being taken.
    worker::start();
    spawn_local(async {
        let _ = lazy::colour().await;
    });
    let states = [PulpState::Wet, PulpState::Pressed, PulpState::Dried];
    let states = states.map(|state| (Some(state), name_of("form-photo-pulp", state))).to_vec();
    view! {
        <div class="stack">
            <div class="row even">
                <FileButton label=t!("form-photo-camera") camera=true draft />
                <FileButton label=t!("form-photo-pick") camera=false draft />
            </div>
            <p role="status">{move || draft.preparing.get().then(|| t!("form-photo-working"))}</p>
            <ChoiceError problem=draft.problem.into() />
            {move || match draft.preview.get() {
                Some(bitmap) => Some(view! { <Preview bitmap /> }.into_any()),
                None => draft.prepared.get().map(|photo| view! { <Prepared photo /> }.into_any()),
            }}
            <RadioGroup label=t!("form-photo-state") value=draft.pulp options=states />
            <ChoiceError problem=Signal::derive(move || draft.no_state()) />
            <TextField label=t!("form-photo-caption") text=draft.caption />
            <button class="button soft" type="button" on:click=move |_| draft.save(true)>
                {t!("swatch-measure-after_photo")}
            </button>
            <SaveButton writer run=Callback::new(move |()| draft.save(false)) />
        </div>
    }
}

/// The photo that was chosen. Copied freely.
#[derive(Clone, Copy)]
struct PhotoDraft {
    writer: BatchWriter,
    size: PhotoSize,
    prepared: RwSignal<Option<PreparedPhoto>>,
    /// A small copy, shown until the photo is prepared.
    preview: RwSignal<Option<ImageBitmap>>,
    /// Save was pressed before the photo was prepared: save then, and measure or not.
    save_when_prepared: RwSignal<Option<bool>>,
    preparing: RwSignal<bool>,
    problem: RwSignal<Option<Message>>,
    /// Pulp in a running bath is wet; of other pulp the person says it.
    pulp: RwSignal<Option<PulpState>>,
    tried: RwSignal<bool>,
    caption: RwSignal<String>,
    /// Number of the file that was chosen last; what comes of earlier ones is dropped.
    last_chosen: StoredValue<u32>,
}

impl PhotoDraft {
    fn new(writer: BatchWriter) -> Self {
        Self {
            writer,
            size: preferences_context().get_untracked().photo,
            prepared: RwSignal::new(None),
            preview: RwSignal::new(None),
            save_when_prepared: RwSignal::new(None),
            preparing: RwSignal::new(false),
            problem: RwSignal::new(None),
            pulp: RwSignal::new(writer.running_bath().map(|_| PulpState::Wet)),
            tried: RwSignal::new(false),
            caption: RwSignal::new(String::new()),
            last_chosen: StoredValue::new(0),
        }
    }

    /// Saves the photo, now or once it is prepared; then opens its measurement if `measure`.
    fn save(self, measure: bool) {
        self.tried.set(true);
        let Some(pulp) = self.pulp.get_untracked() else { return };
        let Some(PreparedPhoto { clean, photo, thumb, .. }) = self.prepared.get_untracked() else {
            if self.preview.get_untracked().is_some() {
                self.save_when_prepared.set(Some(measure));
            } else {
                self.problem.set(Some(Message::new(key!("refusal-photo-wanted"))));
            }
            return;
        };
        let id = clean.id;
        let body = Body::Photo(Photo {
            photo: id.clone(),
            mime: clean.mime,
            width_px: clean.width_px,
            height_px: clean.height_px,
            bytes: photo.bytes.len() as u64,
            orientation: clean.orientation,
            pulp,
            bath: self.writer.running_bath(),
            caption: trimmed(self.caption),
        });
        let next = measure.then(|| Route::ColourMeasure {
            batch: self.writer.batch,
            photo: id.clone(),
            purpose: ColourPurpose::Swatch,
        });
        self.writer.save_photo(body, NewPhoto { id, photo, thumb }, next);
    }

    /// That the state of the pulp was not chosen, once the photo was to be saved.
    fn no_state(self) -> Option<Message> {
        let missing = self.tried.get() && self.pulp.get().is_none();
        missing.then(|| Message::new(key!("refusal-not_chosen")))
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
        self.save_when_prepared.set(None);
        self.prepared.set(None);
        self.preview.set(None);
        let is_current = move || self.last_chosen.try_get_value() == Some(number);
        let show_preview = move |bitmap| {
            if is_current() {
                self.preview.set(Some(bitmap));
            }
        };
        spawn_local(async move {
            let result = worker::prepare_photo(file.unchecked_ref(), self.size, show_preview).await;
            if is_current() {
                self.finish(result);
            }
        });
    }

    fn finish(self, result: Result<PreparedPhoto, Message>) {
        self.preparing.set(false);
        match result {
            Ok(photo) => {
                let save = self.save_when_prepared.get_untracked();
                // A form that is about to close keeps its preview.
                if save.is_none() {
                    self.preview.set(None);
                }
                self.prepared.set(Some(photo));
                if let Some(measure) = save {
                    self.save(measure);
                }
            }
            Err(error) => {
                self.preview.set(None);
                self.save_when_prepared.set(None);
                self.problem.set(Some(error));
            }
        }
    }
}

/// Takes a photo by camera or from the album. A phone that opens the camera hides the album,
/// so both are offered.
#[component]
fn FileButton(label: String, camera: bool, draft: PhotoDraft) -> impl IntoView {
    view! {
        <label class="button soft file-button">
            {camera.then(|| view! { <icon::Camera /> })}
            {label}
            <input type="file" accept=worker::ACCEPTED_PHOTOS capture=camera.then_some("environment")
                on:change=move |event| draft.choose(&event) />
        </label>
    }
}

/// The photo as it will be stored.
#[component]
fn Prepared(photo: PreparedPhoto) -> impl IntoView {
    let size = format!("{} MB", format_number(photo.photo.bytes.len() as f64 / 1e6, 2));
    let properties = t_with!(
        "form-photo-ready",
        &[
            ("width", &photo.clean.width_px.to_string()),
            ("height", &photo.clean.height_px.to_string()),
            ("size", &size),
        ],
    );
    let done =
        if photo.smaller { key!("form-photo-made_smaller") } else { key!("form-photo-stripped") };
    view! {
        <Image photo=photo.photo />
        <p class="small soft">{properties}" · "{t(done)}</p>
    }
}

/// The photo as it comes from the decoder.
#[component]
fn Preview(bitmap: ImageBitmap) -> impl IntoView {
    let canvas = NodeRef::<html::Canvas>::new();
    let (width, height) = (bitmap.width().to_string(), bitmap.height().to_string());
    Effect::new(move |_| {
        let context = canvas.get().and_then(|canvas| canvas.get_context("2d").ok().flatten());
        let context = context.and_then(|c| c.dyn_into::<CanvasRenderingContext2d>().ok());
        if let Some(context) = context {
            let _ = context.draw_image_with_image_bitmap(&bitmap, 0.0, 0.0);
        }
    });
    view! {
        <canvas class="picture" role="img" aria-label=t!("form-photo-title")
            width=width height=height node_ref=canvas></canvas>
    }
}

#[component]
fn Image(photo: PhotoBytes) -> impl IntoView {
    let url = photo.to_blob().and_then(|blob| Url::create_object_url_with_blob(&blob).ok());
    on_cleanup({
        let url = url.clone();
        move || {
            if let Some(url) = url {
                let _ = Url::revoke_object_url(&url);
            }
        }
    });
    view! { <img class="picture" src=url alt=t!("form-photo-title") /> }
}
