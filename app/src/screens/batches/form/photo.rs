//! A photo of the pulp.

use bleachfield_core::{
    journal::{Body, PulpState},
    message::Message,
};
use leptos::{html, prelude::*, task::spawn_local};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, ImageBitmap, Url};

use super::{BatchWriter, SaveButton, trimmed};
use crate::{
    components::{ChoiceError, RadioGroup, TextField},
    i18n::{format_number, key, t, t_with},
    route::{ColourPurpose, Route},
    screens::{
        batches::entry::name_of,
        lazy,
        photo_choice::{PhotoButtons, PhotoChoice},
    },
    storage::PhotoBytes,
    worker::PreparedPhoto,
};

#[component]
pub fn PhotoForm(writer: BatchWriter) -> impl IntoView {
    let draft = PhotoDraft::new(writer);
    let photo = draft.photo;
    // The screen after it is loaded while it is being taken.
    spawn_local(async {
        let _ = lazy::colour().await;
    });
    let states = [PulpState::Wet, PulpState::Pressed, PulpState::Dried];
    let states = states.map(|state| (Some(state), name_of("form-photo-pulp", state))).to_vec();
    view! {
        <div class="stack">
            <PhotoButtons photo camera=t!("form-photo-camera") pick=t!("form-photo-pick")
                class="button soft file-button" />
            <p role="status">{move || photo.preparing.get().then(|| t!("form-photo-working"))}</p>
            <ChoiceError problem=photo.problem.into() />
            {move || match photo.preview.get() {
                Some(bitmap) => Some(view! { <Preview bitmap /> }.into_any()),
                None => photo.prepared.get().map(|photo| view! { <Prepared photo /> }.into_any()),
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

/// The photo and what is said of it. Copied freely.
#[derive(Clone, Copy)]
struct PhotoDraft {
    writer: BatchWriter,
    photo: PhotoChoice,
    /// Pulp in a running bath is wet; of other pulp the person says it.
    pulp: RwSignal<Option<PulpState>>,
    tried: RwSignal<bool>,
    caption: RwSignal<String>,
}

impl PhotoDraft {
    fn new(writer: BatchWriter) -> Self {
        Self {
            writer,
            photo: PhotoChoice::new(),
            pulp: RwSignal::new(writer.running_bath().map(|_| PulpState::Wet)),
            tried: RwSignal::new(false),
            caption: RwSignal::new(String::new()),
        }
    }

    /// Saves the photo, now or once it is prepared; then opens its measurement if `measure`.
    fn save(self, measure: bool) {
        self.tried.set(true);
        let Some(pulp) = self.pulp.get_untracked() else { return };
        if !self.photo.is_ready() {
            return self.photo.when_ready(Callback::new(move |()| self.save(measure)));
        }
        let caption = trimmed(self.caption);
        let Some((entry, photo)) = self.photo.entry(pulp, self.writer.running_bath(), caption)
        else {
            self.photo.problem.set(Some(Message::new(key!("refusal-photo-wanted"))));
            return;
        };
        let next = measure.then(|| Route::ColourMeasure {
            batch: self.writer.batch,
            photo: entry.photo.clone(),
            purpose: ColourPurpose::Swatch,
        });
        self.writer.save_photo(Body::Photo(entry), photo, next);
    }

    /// That the state of the pulp was not chosen, once the photo was to be saved.
    fn no_state(self) -> Option<Message> {
        let missing = self.tried.get() && self.pulp.get().is_none();
        missing.then(|| Message::new(key!("refusal-not_chosen")))
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
