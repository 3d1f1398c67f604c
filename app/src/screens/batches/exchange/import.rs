//! Imports a file: reads and checks it, shows what it would add, and only then writes that,
//! all or nothing.

use std::sync::Arc;

use bleachfield_core::{
    exchange::file::{EntryRecord, ExchangeFile, ImportPreview, preview},
    journal::{ClockSkew, PhotoId},
    message::Message,
};
use leptos::{ev, prelude::*, task::spawn_local};
use web_sys::{DragEvent, File, FileList, HtmlInputElement};

use super::{IncomingFile, incoming};
use crate::{
    components::{Page, icon},
    i18n::{key, render, t, t_count, t_with},
    platform::{clock, demo},
    route::Route,
    screens::demo::OpenDemo,
    state::{AppState, app_state},
    storage::NewPhoto,
    worker,
};

#[derive(Clone)]
enum ImportStage {
    Waiting,
    Reading(String),
    Refused(String, Message),
    Checked(Arc<CheckedFile>),
    /// The demo studio, which is not to be merged into the person's own book.
    Demo(Arc<ExchangeFile>),
    Importing,
    Imported(Arc<CheckedFile>),
}

/// A file that was read, and what it would add to the book.
struct CheckedFile {
    name: String,
    file: ExchangeFile,
    preview: ImportPreview,
    /// Records in it that no version so far could read and that are not here yet.
    unreadable: Vec<EntryRecord>,
}

impl CheckedFile {
    fn nothing_new(&self) -> bool {
        self.preview.nothing_new() && self.unreadable.is_empty()
    }
}

/// `/batches/take`.
#[component]
pub fn ImportFile() -> impl IntoView {
    let studio = app_state();
    let incoming = incoming();
    let stage = RwSignal::new(ImportStage::Waiting);
    // The file that waits when this opens, and those that come while it is open.
    Effect::new(move |_| {
        let Some(IncomingFile { name, file }) = incoming.get() else { return };
        incoming.set(None);
        stage.set(ImportStage::Reading(name.clone()));
        spawn_local(async move {
            let read = match worker::read_exchange_file(&file).await {
                Ok(file) if file.is_demo() && !demo::is_open() => ImportStage::Demo(Arc::new(file)),
                Ok(file) => ImportStage::Checked(Arc::new(checked(studio, name, file).await)),
                Err(error) => ImportStage::Refused(name, error),
            };
            stage.try_set(read);
        });
    });
    view! {
        <Page title=t!("exchange-take-title") back=Route::Batches>
            <div class="stack wide">
                {demo::is_open().then(|| view! { <p class="caution care">{t!("demo-here")}</p> })}
                {move || match stage.get() {
                    ImportStage::Waiting => view! { <FileChoice /> }.into_any(),
                    ImportStage::Reading(name) => view! {
                        <p role="status">{t_with!("exchange-take-reading", &[("name", &name)])}</p>
                    }.into_any(),
                    ImportStage::Refused(name, error) => view! {
                        <section class="caution care" role="alert">
                            <p><b>{t_with!("exchange-take-refused", &[("name", &name)])}</b></p>
                            <p>{render(&error)}</p>
                            <p class="small">{t!("exchange-take-nothing_changed")}</p>
                        </section>
                        <FileChoice />
                    }.into_any(),
                    ImportStage::Checked(file) => view! { <Preview file stage /> }.into_any(),
                    ImportStage::Demo(file) => view! {
                        <section class="card stack">
                            <p>{t!("demo-file")}</p>
                            <OpenDemo file />
                        </section>
                        <button class="button plain" on:click=move |_| stage.set(ImportStage::Waiting)>
                            {t!("exchange-take-leave")}
                        </button>
                    }.into_any(),
                    ImportStage::Importing => view! {
                        <p role="status">{t!("exchange-take-taking_in")}</p>
                    }.into_any(),
                    ImportStage::Imported(file) => view! { <Imported file /> }.into_any(),
                }}
            </div>
        </Page>
    }
}

/// Chooses a file, or takes one that is dropped here.
#[component]
fn FileChoice() -> impl IntoView {
    let incoming = incoming();
    let take_first = move |files: Option<FileList>| {
        let file: Option<File> = files.and_then(|files| files.get(0));
        if let Some(file) = file {
            incoming.set(Some(IncomingFile { name: file.name(), file: file.into() }));
        }
    };
    let chosen = move |event: ev::Event| {
        let input: HtmlInputElement = event_target(&event);
        take_first(input.files());
        // The same file may be chosen again.
        input.set_value("");
    };
    let dropped = move |event: DragEvent| {
        event.prevent_default();
        take_first(event.data_transfer().and_then(|data| data.files()));
    };
    view! {
        <div class="card empty drop" on:dragover=|event| event.prevent_default() on:drop=dropped>
            <icon::Import />
            <p>{t!("exchange-take-what")}</p>
            <label class="button touch file-button">
                {t!("exchange-take-pick")}
                <input type="file" on:change=chosen />
            </label>
            <p class="soft small">{t!("exchange-take-ways")}</p>
        </div>
    }
}

async fn checked(studio: AppState, name: String, file: ExchangeFile) -> CheckedFile {
    let mut stored = match studio.store() {
        Some(store) => store.photo_ids().await.unwrap_or_default(),
        None => Default::default(),
    };
    // A photo that cannot be read here is replaced by that of the file, whose bytes were checked.
    for id in file.photos.keys() {
        if stored.contains(id) && studio.read_photo(id).await.is_err() {
            stored.remove(id);
        }
    }
    let has_photo = |id: &PhotoId| stored.contains(id);
    let preview = studio.book_now(|book| preview(book, has_photo, &file, clock::now()));
    let here = studio.unreadable_now();
    let is_here = |record: &EntryRecord| {
        let entry = record.id.parse().ok();
        here.iter().any(|other| other.id == record.id)
            || studio.book_now(|book| entry.is_some_and(|id| book.entry(id).is_some()))
    };
    let unreadable = file.unreadable.iter().filter(|record| !is_here(record)).cloned().collect();
    CheckedFile { name, file, preview, unreadable }
}

/// What the file would add; imports it or not.
#[component]
fn Preview(file: Arc<CheckedFile>, stage: RwSignal<ImportStage>) -> impl IntoView {
    let studio = app_state();
    let contents = contents(studio, &file);
    let nothing_new = file.nothing_new();
    let import = move |_| {
        stage.set(ImportStage::Importing);
        let file = file.clone();
        spawn_local(async move {
            let next = match import(studio, &file).await {
                Some(()) => ImportStage::Imported(file),
                None => ImportStage::Checked(file),
            };
            stage.try_set(next);
        });
    };
    view! {
        <section class="card stack">{contents}</section>
        {(!nothing_new).then(|| view! {
            <button class="button touch" on:click=import>{t!("exchange-take-do")}</button>
        })}
        <button class="button plain" on:click=move |_| stage.set(ImportStage::Waiting)>
            {t!("exchange-take-leave")}
        </button>
    }
}

fn contents(studio: AppState, checked: &CheckedFile) -> impl IntoView + use<> {
    let CheckedFile { name, file, preview, unreadable } = checked;
    let device = &file.header.device;
    let device = studio
        .book_now(|book| book.studio.devices.get(device).cloned())
        .unwrap_or_else(|| device.to_string());
    let written = t_with!(
        "exchange-take-written",
        &[("date", &clock::local(file.header.exported_at)), ("device", &device)],
    );
    let list = |key: &str, names: Vec<String>| {
        (!names.is_empty()).then(|| {
            let names = names.into_iter().map(|name| view! { <li>{name}</li> }).collect_view();
            view! { <h3>{t(key)}</h3><ul>{names}</ul> }
        })
    };
    let batch_name = |name: &str| match name.trim() {
        "" => t!("batches-nameless"),
        name => name.to_owned(),
    };
    let new_batches = preview.new_batches.iter().map(|(_, name)| batch_name(name)).collect();
    let grown = preview.grown_batches.iter().map(|(_, name, count)| {
        format!("{}: {}", batch_name(name), t_count!("exchange-entries", *count))
    });
    let products = preview.new_products.iter().map(|(_, name)| name.clone()).collect();
    let count = |key: &str, n: usize| (n > 0).then(|| view! { <p>{t_count(key, n)}</p> });
    let clock_ahead = match preview.clock {
        ClockSkew::Ahead { by_ms } => Some(t_count!("exchange-ahead", (by_ms / 60_000) as usize)),
        ClockSkew::WithinLimit => None,
    };
    view! {
        <h2>{name.clone()}</h2>
        <p class="soft">{written}</p>
        {checked.nothing_new().then(|| view! { <p class="good">{t!("exchange-take-nothing_new")}</p> })}
        {list(key!("exchange-take-new_batches"), new_batches)}
        {list(key!("exchange-take-grown"), grown.collect())}
        {list(key!("exchange-take-products"), products)}
        {count(key!("exchange-take-new_entries"), preview.new_entries.len())}
        {count(key!("exchange-photos"), preview.new_photos.len())}
        {count(key!("exchange-take-here"), preview.here)}
        {count(key!("exchange-missing"), preview.missing_photos.len())}
        {count(key!("exchange-take-conflicts"), preview.conflicts.len())}
        {count(key!("exchange-take-unreadable"), unreadable.len())}
        {clock_ahead.map(|text| view! { <p class="caution care">{text}</p> })}
    }
}

/// Writes everything in one transaction. `None` if it was not written; the person has been
/// told.
async fn import(studio: AppState, checked: &CheckedFile) -> Option<()> {
    let CheckedFile { file, preview, unreadable, .. } = checked;
    let entries = studio.book_now(|book| preview.to_write(book).cloned().collect());
    let photos = preview
        .new_photos
        .iter()
        .filter_map(|id| Some(NewPhoto::of_file(id, file.photos.get(id)?)));
    studio.import(entries, unreadable.clone(), &photos.collect::<Vec<_>>()).await
}

/// Says that it is done, with a link to the batch if it is one.
#[component]
fn Imported(file: Arc<CheckedFile>) -> impl IntoView {
    let ImportPreview { new_batches, grown_batches, .. } = &file.preview;
    let new = new_batches.iter().map(|(id, name)| (*id, name));
    let batches: Vec<_> =
        new.chain(grown_batches.iter().map(|(id, name, _)| (*id, name))).collect();
    let only = match batches[..] {
        [(id, name)] => Some(view! {
            <a href=Route::batch(id).href() class="button touch">{name.clone()}</a>
        }),
        _ => None,
    };
    view! {
        <p class="good" role="status">{t!("exchange-take-done")}</p>
        {only}
        <a href=Route::Batches.href() class="button touch plain">{t!("exchange-take-to_book")}</a>
    }
}
