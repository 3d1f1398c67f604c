//! Exports the whole book, or some batches, as one file.

use std::collections::BTreeSet;

use bleachfield_core::{
    exchange::{
        file::{EXTENSION, Header, MIME, json_text_with, photos_of, select},
        table::{CSV_MIME, Table, csv_table},
    },
    journal::{Entry, PhotoId},
    message::Message,
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;
use web_sys::File;

use super::last_export;
use crate::{
    components::{Page, RadioGroup, icon, notify},
    i18n::{format_number, key, render, t, t_count, t_with},
    platform::{
        clock, demo, download, file,
        share::{self, ShareOutcome},
    },
    route::Route,
    screens::batches::facts::batch_name,
    state::{AppState, app_state},
    worker,
};

#[derive(Clone)]
enum ExportStage {
    Choosing,
    Packing,
    Packed(PackedFile),
    Failed(Message),
}

#[derive(Clone)]
struct PackedFile {
    file: File,
    /// The entries as text without photos, for apps that accept no other file.
    text: Option<File>,
    photos: usize,
    /// Photos that the entries refer to and that are not on this device.
    missing: usize,
    /// Photos on this device that cannot be read, and so are not in the file.
    unreadable_photos: usize,
    /// Entries on this device that cannot be read. A file of the whole book has them as they
    /// are stored; of which batch they are is not known.
    unreadable: usize,
    /// The number of entries, if it is the whole book.
    whole: Option<usize>,
}

/// `/batches/send`; `?batch=` chooses one beforehand.
#[component]
pub fn ExportFile(batch: Option<Ulid>) -> impl IntoView {
    let studio = app_state();
    let all = RwSignal::new(batch.is_none());
    let chosen = RwSignal::new(batch.into_iter().collect::<BTreeSet<Ulid>>());
    let stage = RwSignal::new(ExportStage::Choosing);
    // Another choice needs another file.
    Effect::new(move |_| {
        all.track();
        chosen.track();
        stage.set(ExportStage::Choosing);
    });
    let nothing = move || {
        (studio.book(|book| book.is_empty()) && studio.unreadable().is_empty())
            || (!all.get() && chosen.with(BTreeSet::is_empty))
    };
    let pack = move |_| {
        let batches = (!all.get_untracked()).then(|| chosen.get_untracked());
        stage.set(ExportStage::Packing);
        spawn_local(async move {
            let packed = packed(studio, batches).await;
            stage.try_set(packed.map_or_else(ExportStage::Failed, ExportStage::Packed));
        });
    };
    view! {
        <Page title=t!("exchange-send-title") back=Route::Batches>
            <div class="stack wide">
                <p>{t!("exchange-send-what")}</p>
                <p class="soft small">{last_export::last_export_text()}</p>
                <RadioGroup label=t!("exchange-send-which") value=all options=vec![
                    (true, t!("exchange-send-all")),
                    (false, t!("exchange-send-some")),
                ] />
                <Show when=move || { !all.get() }><BatchChoice chosen /></Show>
                {move || match stage.get() {
                    ExportStage::Choosing => view! {
                        <button class="button touch" disabled=nothing on:click=pack>
                            {t!("exchange-send-pack")}
                        </button>
                    }.into_any(),
                    ExportStage::Packing => view! {
                        <p role="status">{t!("exchange-send-packing")}</p>
                    }.into_any(),
                    ExportStage::Packed(packed) => view! { <Packed packed /> }.into_any(),
                    ExportStage::Failed(error) => view! {
                        <p class="field" role="alert"><span class="wrong">{render(&error)}</span></p>
                        <button class="button touch" on:click=pack>{t!("exchange-again")}</button>
                    }.into_any(),
                }}
                <Tables />
            </div>
        </Page>
    }
}

/// Batches and readings as tables for a spreadsheet.
#[component]
fn Tables() -> impl IntoView {
    let studio = app_state();
    let empty = move || studio.book(|book| book.batches.is_empty());
    let save = move |table: Table| {
        let text = studio.book_now(|book| csv_table(table, book, clock::now()));
        let name =
            format!("{}.csv", file_name(&t(&format!("exchange-table-{}", <&str>::from(table)))));
        let saved = download::text(&name, CSV_MIME, &text);
        let name = if saved {
            t_with!("exchange-send-saved", &[("name", &name)])
        } else {
            t!("exchange-send-cannot_save")
        };
        notify(name, None);
    };
    let button = move |table: Table, label: &str| {
        let of: &str = table.into();
        view! {
            <button class="button plain" data-table=of disabled=empty on:click=move |_| save(table)>
                {t(label)}
            </button>
        }
    };
    view! {
        <section class="card stack">
            <h2>{t!("exchange-tables")}</h2>
            <p class="small">{t!("exchange-tables_what")}</p>
            <div class="row even">
                {button(Table::Batches, key!("exchange-table-batches"))}
                {button(Table::Readings, key!("exchange-table-readings"))}
            </div>
        </section>
    }
}

/// The batches with a checkbox each.
#[component]
fn BatchChoice(chosen: RwSignal<BTreeSet<Ulid>>) -> impl IntoView {
    let studio = app_state();
    let batches = move || {
        studio.book(|book| {
            let batches = book.batches_by_change().into_iter();
            batches.map(|batch| (batch.id, batch_name(batch))).collect::<Vec<_>>()
        })
    };
    let checkbox = move |(id, name): (Ulid, String)| {
        let change = move |event| {
            chosen.update(|chosen| {
                if event_target_checked(&event) {
                    chosen.insert(id);
                } else {
                    chosen.remove(&id);
                }
            });
        };
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=move || chosen.with(|c| c.contains(&id))
                    on:change=change />
                {name}
            </label>
        }
    };
    view! { <div class="card">{move || batches().into_iter().map(checkbox).collect_view()}</div> }
}

/// What is in the file; shares or saves it.
#[component]
fn Packed(packed: PackedFile) -> impl IntoView {
    let PackedFile { file, text, photos, missing, unreadable_photos, unreadable, whole } = packed;
    let of_entries = if whole.is_some() {
        key!("exchange-unreadable")
    } else {
        key!("exchange-unreadable_left_out")
    };
    let care = |key: &str, n: usize| {
        (n > 0).then(|| view! { <p class="caution care">{t_count(key, n)}</p> })
    };
    let size = format!("{} MB", format_number(file.size() / 1e6, 2));
    let can_share = share::can_share(&file);
    let text = text.filter(|text| !can_share && share::can_share(text));
    let save = {
        let file = file.clone();
        move |_| {
            if download::file(&file) {
                if let Some(entries) = whole {
                    last_export::record_export(entries);
                }
                notify(t_with!("exchange-send-saved", &[("name", &file.name())]), None);
            } else {
                notify(t!("exchange-send-cannot_save"), None);
            }
        }
    };
    view! {
        <section class="card stack">
            <h2>{file.name()}</h2>
            <p>{t_count!("exchange-photos", photos)}" · "{size}</p>
            {(missing > 0).then(|| view! { <p class="soft">{t_count!("exchange-missing", missing)}</p> })}
            {care(key!("exchange-unreadable_photos"), unreadable_photos)}
            {care(of_entries, unreadable)}
            {can_share.then(|| share_button(file, key!("exchange-send-share"), whole))}
            {text.map(|text| share_button(text, key!("exchange-send-share_text"), None))}
            <button class="button touch plain" on:click=save>{t!("exchange-send-save")}</button>
        </section>
    }
}

/// Shares a file; `whole` is its number of entries, if it is the whole book with photos.
fn share_button(file: File, label: &str, whole: Option<usize>) -> impl IntoView + use<> {
    let share = move |_| {
        let file = file.clone();
        spawn_local(async move {
            match share::share(&file).await {
                ShareOutcome::Done => {
                    if let Some(entries) = whole {
                        last_export::record_export(entries);
                    }
                    notify(t!("exchange-send-shared"), None);
                }
                ShareOutcome::Dismissed => {}
                ShareOutcome::Unsupported => notify(t!("exchange-send-cannot_share"), None),
            }
        });
    };
    view! { <button class="button touch" on:click=share><icon::Export />{t(label)}</button> }
}

/// Packs these batches; `None` stands for the whole book.
async fn packed(studio: AppState, batches: Option<BTreeSet<Ulid>>) -> Result<PackedFile, Message> {
    let (entries, name): (Vec<Entry>, String) = studio.book_now(|book| match &batches {
        None => (book.entries().cloned().collect(), t!("exchange-send-book_name")),
        Some(chosen) => {
            let ids: Vec<Ulid> = chosen.iter().copied().collect();
            let name = match ids[..] {
                [only] => book.batches.get(&only).map(batch_name).unwrap_or_default(),
                _ => t!("exchange-send-some_name"),
            };
            (select(book, &ids).into_iter().cloned().collect(), name)
        }
    });
    let header = Header {
        app: env!("CARGO_PKG_VERSION").to_owned(),
        exported_at: clock::now(),
        device: studio.device(),
        demo: demo::is_open(),
    };
    let mut photos: Vec<(PhotoId, Vec<u8>)> = Vec::new();
    let ids = photos_of(&entries);
    let count = ids.len();
    let mut unreadable_photos = 0;
    for id in ids {
        match studio.read_photo(&id).await {
            Ok(Some(photo)) => photos.push((id, photo.bytes)),
            Ok(None) => {}
            Err(_) => unreadable_photos += 1,
        }
    }
    let unreadable = studio.unreadable_now();
    let records = if batches.is_none() { unreadable.as_slice() } else { &[] };
    let text = json_text_with(&header, &entries, records);
    let found = photos.len();
    let written = worker::write_exchange_file(header, &entries, records.to_vec(), photos);
    let (bytes, left_out) = written.await?;
    let name = file_name(&name);
    let file = file::file(&format!("{name}.{EXTENSION}"), MIME, &bytes);
    Ok(PackedFile {
        file: file.ok_or_else(|| Message::new(key!("refusal-file-not_written")))?,
        text: file::file(&format!("{name}.txt"), "text/plain", text.as_bytes()),
        photos: found - left_out.len(),
        missing: count - found - unreadable_photos,
        unreadable_photos: unreadable_photos + left_out.len(),
        unreadable: unreadable.len(),
        whole: batches.is_none().then_some(entries.len()),
    })
}

/// A name that every file system accepts: letters, digits and dashes, and the date.
fn file_name(name: &str) -> String {
    let mut plain = String::new();
    for c in name.to_lowercase().chars().take(60) {
        if c.is_alphanumeric() {
            plain.push(c);
        } else if !plain.ends_with('-') && !plain.is_empty() {
            plain.push('-');
        }
    }
    format!("{}-{}.bleachfield", plain.trim_end_matches('-'), clock::today())
}
