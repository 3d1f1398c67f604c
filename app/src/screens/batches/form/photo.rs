//! A photo of the pulp.

use bleachfield_core::{
    journal::{Body, Photo, PulpState},
    message::Message,
};
use leptos::prelude::*;
use leptos::{html, task::spawn_local};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlInputElement, ImageBitmap, Url};

use super::{BatchWriter, FieldError, Save};
use crate::{
    components::{RadioGroup, TextField, icon},
    i18n::{format_number, key, t, t_with},
    platform::preferences::preferences_context,
    route::{ColourPurpose, Route},
    screens::{batches::telling::name_of, lazy},
    storage::{NewPhoto, PhotoBytes},
    worker::{self, PreparedPhoto},
};

/// What every browser can show. Named one by one, they make iPhones hand over
/// a JPEG in place of their own format.
const ACCEPTED: &str = "image/jpeg,image/png,image/webp";

#[component]
pub fn PhotoForm(writing: BatchWriter) -> impl IntoView {
    let ready = RwSignal::new(None::<PreparedPhoto>);
    // A picture that can be kept, small, until the picture itself is ready.
    let small = RwSignal::new(None::<ImageBitmap>);
    // Pressed to be kept as soon as it is; and then measured or not.
    let wanted = RwSignal::new(None::<bool>);
    let working = RwSignal::new(false);
    let problem = RwSignal::new(None::<Message>);
    let pulp = RwSignal::new(PulpState::Wet);
    let caption = RwSignal::new(String::new());
    // Counts what was chosen, so that a picture that was given up for another is dropped.
    let chosen = StoredValue::new(0_u32);
    let size = preferences_context().get_untracked().photo;
    // What a photo needs, and the screen after it, are fetched while it is being taken.
    worker::start();
    spawn_local(async {
        let _ = lazy::colour().await;
    });
    let keep = move |then_measure: bool| {
        let Some(got) = ready.get_untracked() else {
            if small.get_untracked().is_some() {
                wanted.set(Some(then_measure));
            } else {
                problem.set(Some(Message::new(key!("refusal-photo-wanted"))));
            }
            return;
        };
        let id = got.clean.id;
        let body = Body::Photo(Photo {
            photo: id.clone(),
            mime: got.clean.mime,
            width_px: got.clean.width_px,
            height_px: got.clean.height_px,
            bytes: got.photo.bytes.len() as u64,
            orientation: got.clean.orientation,
            pulp: pulp.get_untracked(),
            bath: writing.running(),
            caption: caption.get_untracked().trim().to_owned(),
        });
        let then = then_measure.then(|| Route::ColourMeasure {
            batch: writing.batch,
            photo: id.clone(),
            purpose: ColourPurpose::Swatch,
        });
        writing.save_photo(body, NewPhoto { id, photo: got.photo, thumb: got.thumb }, then);
    };
    let take = move |event: leptos::ev::Event| {
        let input: HtmlInputElement = event_target(&event);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        // The same picture may be chosen again after a refusal.
        input.set_value("");
        let number = chosen.get_value().wrapping_add(1);
        chosen.set_value(number);
        let current = move || chosen.try_get_value() == Some(number);
        working.set(true);
        problem.set(None);
        wanted.set(None);
        ready.set(None);
        small.set(None);
        spawn_local(async move {
            let shown = move |picture| {
                if current() {
                    small.set(Some(picture));
                }
            };
            let got = worker::prepare_photo(file.unchecked_ref(), size, shown).await;
            if !current() {
                return;
            }
            working.set(false);
            match got {
                Ok(got) => {
                    let wanted = wanted.get_untracked();
                    // Nobody looks at a form that is about to close.
                    if wanted.is_none() {
                        small.set(None);
                    }
                    ready.set(Some(got));
                    if let Some(then_measure) = wanted {
                        keep(then_measure);
                    }
                }
                Err(refused) => {
                    small.set(None);
                    wanted.set(None);
                    problem.set(Some(refused));
                }
            }
        });
    };
    let run = Callback::new(move |()| keep(false));
    view! {
        <div class="stack">
            <div class="row even">
                <Source label=t!("form-photo-camera") camera=true take=Callback::new(take) />
                <Source label=t!("form-photo-pick") camera=false take=Callback::new(take) />
            </div>
            <p role="status">{move || working.get().then(|| t!("form-photo-working"))}</p>
            <FieldError problem=problem.into() />
            {move || match small.get() {
                Some(small) => Some(view! { <Preview picture=small /> }.into_any()),
                None => ready.get().map(|ready| view! { <Look ready /> }.into_any()),
            }}
            <RadioGroup label=t!("form-photo-state") value=pulp
                options=[PulpState::Wet, PulpState::Pressed, PulpState::Dried]
                    .map(|p| (p, name_of("form-photo-pulp", p))).to_vec() />
            <TextField label=t!("form-photo-caption") text=caption />
            <button class="button soft" type="button" on:click=move |_| keep(true)>
                {t!("swatch-measure-after_photo")}
            </button>
            <Save writing run />
        </div>
    }
}

/// Where a picture comes from: the camera at once, or the phone's album. Both
/// are offered, for a phone that opens the camera hides the album.
#[component]
fn Source(label: String, camera: bool, take: Callback<leptos::ev::Event>) -> impl IntoView {
    view! {
        <label class="button soft file-button">
            {camera.then(|| view! { <icon::Camera /> })}
            {label}
            <input type="file" accept=ACCEPTED capture=camera.then_some("environment")
                on:change=move |event| take.run(event) />
        </label>
    }
}

/// The picture as it will be kept.
#[component]
fn Look(ready: PreparedPhoto) -> impl IntoView {
    let size = format!("{} MB", format_number(ready.photo.bytes.len() as f64 / 1e6, 2));
    let told = t_with!(
        "form-photo-ready",
        &[
            ("width", &ready.clean.width_px.to_string()),
            ("height", &ready.clean.height_px.to_string()),
            ("size", &size),
        ],
    );
    let done =
        if ready.smaller { key!("form-photo-made_smaller") } else { key!("form-photo-stripped") };
    view! {
        <Shown picture=ready.photo />
        <p class="small soft">{told}" · "{t(done)}</p>
    }
}

/// The picture as it comes from the decoder.
#[component]
fn Preview(picture: ImageBitmap) -> impl IntoView {
    let board = NodeRef::<html::Canvas>::new();
    let (width, height) = (picture.width().to_string(), picture.height().to_string());
    Effect::new(move |_| {
        let pen = board.get().and_then(|board| board.get_context("2d").ok().flatten());
        if let Some(pen) = pen.and_then(|pen| pen.dyn_into::<CanvasRenderingContext2d>().ok()) {
            let _ = pen.draw_image_with_image_bitmap(&picture, 0.0, 0.0);
        }
    });
    view! {
        <canvas class="picture" role="img" aria-label=t!("form-photo-title")
            width=width height=height node_ref=board></canvas>
    }
}

#[component]
fn Shown(picture: PhotoBytes) -> impl IntoView {
    let address = picture.to_blob().and_then(|blob| Url::create_object_url_with_blob(&blob).ok());
    on_cleanup({
        let address = address.clone();
        move || {
            if let Some(address) = address {
                let _ = Url::revoke_object_url(&address);
            }
        }
    });
    view! { <img class="picture" src=address alt=t!("form-photo-title") /> }
}
