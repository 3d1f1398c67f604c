//! In: a file is read and checked, what it would add is shown, and only then
//! is it taken in, all of it or nothing.

use std::sync::Arc;

use bleachfield_core::{
    exchange::file::{ExchangeFile, ImportPreview, preview},
    journal::{ClockSkew, PhotoId},
    message::Message,
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::{DragEvent, File, HtmlInputElement};

use super::{IncomingFile, incoming};
use crate::{
    components::{Page, icon},
    i18n::{key, render, t, t_count, t_with},
    platform::clock,
    route::Route,
    state::{AppState, app_state},
    storage::{NewPhoto, PhotoBytes},
    worker,
};

#[derive(Clone)]
enum ImportStage {
    Waiting,
    Reading(String),
    Refused(String, Message),
    SeenFile(Arc<SeenFile>),
    TakingIn,
    Taken(Arc<SeenFile>),
}

/// A file that was read, and what it would do to the book.
struct SeenFile {
    name: String,
    parcel: ExchangeFile,
    preview: ImportPreview,
}

/// `/batches/take`.
#[component]
pub fn ImportFile() -> impl IntoView {
    let studio = app_state();
    let incoming = incoming();
    let stage = RwSignal::new(ImportStage::Waiting);
    // Whatever waits when this opens, and whatever comes while it is open.
    Effect::new(move |_| {
        let Some(IncomingFile { name, file }) = incoming.get() else { return };
        incoming.set(None);
        stage.set(ImportStage::Reading(name.clone()));
        spawn_local(async move {
            let read = match worker::read_exchange_file(&file).await {
                Ok(parcel) => ImportStage::SeenFile(Arc::new(seen(studio, name, parcel).await)),
                Err(refused) => ImportStage::Refused(name, refused),
            };
            stage.try_set(read);
        });
    });
    let took =
        move |file: File| incoming.set(Some(IncomingFile { name: file.name(), file: file.into() }));
    let picked = move |event: leptos::ev::Event| {
        let input: HtmlInputElement = event_target(&event);
        let file = input.files().and_then(|files| files.get(0));
        input.set_value("");
        if let Some(file) = file {
            took(file);
        }
    };
    let dropped = move |event: DragEvent| {
        event.prevent_default();
        let files = event.data_transfer().and_then(|data| data.files());
        if let Some(file) = files.and_then(|files| files.get(0)) {
            took(file);
        }
    };
    let choose = move || {
        view! {
            <div class="card empty drop" on:dragover=|event| event.prevent_default() on:drop=dropped>
                <icon::Take />
                <p>{t!("exchange-take-what")}</p>
                <label class="button touch file-button">
                    {t!("exchange-take-pick")}
                    <input type="file" on:change=picked />
                </label>
                <p class="soft small">{t!("exchange-take-ways")}</p>
            </div>
        }
    };
    view! {
        <Page title=t!("exchange-take-title") back=Route::Batches>
            <div class="stack wide">
                {move || match stage.get() {
                    ImportStage::Waiting => choose().into_any(),
                    ImportStage::Reading(name) => view! {
                        <p role="status">{t_with!("exchange-take-reading", &[("name", &name)])}</p>
                    }.into_any(),
                    ImportStage::Refused(name, refused) => view! {
                        <section class="caution care" role="alert">
                            <p><b>{t_with!("exchange-take-refused", &[("name", &name)])}</b></p>
                            <p>{render(&refused)}</p>
                            <p class="small">{t!("exchange-take-nothing_changed")}</p>
                        </section>
                        {choose()}
                    }.into_any(),
                    ImportStage::SeenFile(seen) => view! { <Look seen stage /> }.into_any(),
                    ImportStage::TakingIn => view! {
                        <p role="status">{t!("exchange-take-taking_in")}</p>
                    }.into_any(),
                    ImportStage::Taken(seen) => view! { <Done seen /> }.into_any(),
                }}
            </div>
        </Page>
    }
}

async fn seen(studio: AppState, name: String, parcel: ExchangeFile) -> SeenFile {
    let here = match studio.store() {
        Some(store) => store.photo_ids().await.unwrap_or_default(),
        None => Default::default(),
    };
    let preview = studio
        .book_now(|book| preview(book, |id: &PhotoId| here.contains(id), &parcel, clock::now()));
    SeenFile { name, parcel, preview }
}

/// What the file would add, and the two ways on.
#[component]
fn Look(seen: Arc<SeenFile>, stage: RwSignal<ImportStage>) -> impl IntoView {
    let studio = app_state();
    let SeenFile { name, parcel, preview } = &*seen;
    let from = studio.book_now(|book| {
        let device = &parcel.header.device;
        book.studio.devices.get(device).cloned().unwrap_or_else(|| device.to_string())
    });
    let written = t_with!(
        "exchange-take-written",
        &[("date", &clock::local(parcel.header.exported_at)), ("device", &from)],
    );
    let list = |key: &str, names: Vec<String>| {
        (!names.is_empty()).then(|| {
            let names = names.into_iter().map(|name| view! { <li>{name}</li> }).collect_view();
            view! { <h3>{t(key)}</h3><ul>{names}</ul> }
        })
    };
    let called = |name: &String| match name.trim() {
        "" => t!("batches-nameless"),
        name => name.to_owned(),
    };
    let new_batches = preview.new_batches.iter().map(|(_, name)| called(name)).collect();
    let grown = preview
        .grown_batches
        .iter()
        .map(|(_, name, count)| {
            format!("{}: {}", called(name), t_count!("exchange-entries", *count))
        })
        .collect();
    let products = preview.new_products.iter().map(|(_, name)| name.clone()).collect();
    let count = |key: &str, n: usize| (n > 0).then(|| view! { <p>{t_count(key, n)}</p> });
    let ahead = match preview.clock {
        ClockSkew::Ahead { by_ms } => Some(t_count!("exchange-ahead", (by_ms / 60_000) as usize)),
        ClockSkew::WithinLimit => None,
    };
    let nothing_new = preview.nothing_new();
    let contents = view! {
        <h2>{name.clone()}</h2>
        <p class="soft">{written}</p>
        {nothing_new.then(|| view! { <p class="good">{t!("exchange-take-nothing_new")}</p> })}
        {list(key!("exchange-take-new_batches"), new_batches)}
        {list(key!("exchange-take-grown"), grown)}
        {list(key!("exchange-take-products"), products)}
        {count(key!("exchange-take-new_entries"), preview.new_entries.len())}
        {count(key!("exchange-photos"), preview.new_photos.len())}
        {count(key!("exchange-take-here"), preview.here)}
        {count(key!("exchange-missing"), preview.missing_photos.len())}
        {count(key!("exchange-take-conflicts"), preview.conflicts.len())}
        {ahead.map(|ahead| view! { <p class="caution care">{ahead}</p> })}
    };
    let take_in = {
        let seen = seen.clone();
        move |_| {
            stage.set(ImportStage::TakingIn);
            let seen = seen.clone();
            spawn_local(async move {
                let kept = take_in(studio, &seen).await;
                let next = if kept.is_some() {
                    ImportStage::Taken(seen)
                } else {
                    ImportStage::SeenFile(seen)
                };
                stage.try_set(next);
            });
        }
    };
    view! {
        <section class="card stack">{contents}</section>
        {(!nothing_new).then(|| view! {
            <button class="button touch" on:click=take_in>{t!("exchange-take-do")}</button>
        })}
        <button class="button plain" on:click=move |_| stage.set(ImportStage::Waiting)>
            {t!("exchange-take-leave")}
        </button>
    }
}

/// Writes it all in one transaction. The store says so itself if it cannot.
async fn take_in(studio: AppState, seen: &SeenFile) -> Option<()> {
    let SeenFile { parcel, preview, .. } = seen;
    let entries = studio.book_now(|book| preview.to_write(book).cloned().collect());
    let photos: Vec<NewPhoto> = preview
        .new_photos
        .iter()
        .filter_map(|id| {
            let file = parcel.photos.get(id)?;
            let photo = PhotoBytes { mime: file.mime.to_owned(), bytes: file.bytes.clone() };
            Some(NewPhoto { id: id.clone(), photo, thumb: None })
        })
        .collect();
    studio.import(entries, &photos).await
}

/// It is in the book.
#[component]
fn Done(seen: Arc<SeenFile>) -> impl IntoView {
    let batches: Vec<_> = seen
        .preview
        .new_batches
        .iter()
        .map(|(id, name)| (*id, name.clone()))
        .chain(seen.preview.grown_batches.iter().map(|(id, name, _)| (*id, name.clone())))
        .collect();
    // One batch: straight to it.
    let only = (batches.len() == 1).then(|| {
        batches
            .into_iter()
            .map(|(id, name)| {
                view! {
                    <a href=Route::batch(id).href() class="button touch">{name}</a>
                }
            })
            .collect_view()
    });
    view! {
        <p class="good" role="status">{t!("exchange-take-done")}</p>
        {only}
        <a href=Route::Batches.href() class="button touch plain">{t!("exchange-take-to_book")}</a>
    }
}
