//! Out: the whole book, or some batches, as one file.

use std::collections::BTreeSet;

use bleachfield_core::{
    exchange::file::{EXTENSION, Header, MIME, json_text, photos_of, select},
    journal::{Entry, PhotoId},
    message::Message,
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;
use web_sys::File;

use super::sent;
use crate::{
    components::{Page, RadioGroup, icon, notify},
    i18n::{format_number, key, render, t, t_count, t_with},
    platform::{
        clock, download, file,
        share::{self, ShareOutcome},
    },
    route::Route,
    state::{AppState, app_state},
    worker,
};

/// A file that is ready to go.
#[derive(Clone)]
struct PackedFile {
    file: File,
    /// The same without photos, as text, for channels that take nothing else.
    text: Option<File>,
    photos: usize,
    /// Photos that the entries name and that are not on this phone.
    missing: usize,
    /// Entries in it, if it is the whole book.
    whole: Option<usize>,
}

#[derive(Clone)]
enum ExportStage {
    Choosing,
    Packing,
    PackedFile(PackedFile),
    Refused(Message),
}

/// `/batches/send`; `?batch=` chooses one beforehand.
#[component]
pub fn SendFile(asked: Option<Ulid>) -> impl IntoView {
    let studio = app_state();
    let all = RwSignal::new(asked.is_none());
    let chosen = RwSignal::new(asked.into_iter().collect::<BTreeSet<Ulid>>());
    let stage = RwSignal::new(ExportStage::Choosing);
    // Another choice makes another file.
    Effect::new(move |_| {
        let _ = (all.get(), chosen.get());
        stage.set(ExportStage::Choosing);
    });
    let nothing = move || {
        studio.book(|book| book.is_empty()) || (!all.get() && chosen.with(BTreeSet::is_empty))
    };
    let pack = move |_| {
        let batches = (!all.get_untracked()).then(|| chosen.get_untracked());
        stage.set(ExportStage::Packing);
        spawn_local(async move {
            let packed = packed(studio, batches).await;
            stage.try_set(packed.map_or_else(ExportStage::Refused, ExportStage::PackedFile));
        });
    };
    view! {
        <Page title=t!("exchange-send-title") back=Route::Batches>
            <div class="stack wide">
                <p>{t!("exchange-send-what")}</p>
                <p class="soft small">{sent::last_sent()}</p>
                <RadioGroup label=t!("exchange-send-which") value=all options=vec![
                    (true, t!("exchange-send-all")),
                    (false, t!("exchange-send-some")),
                ] />
                <Show when=move || { !all.get() }><Pick chosen /></Show>
                {move || match stage.get() {
                    ExportStage::Choosing => view! {
                        <button class="button touch" disabled=nothing on:click=pack>
                            {t!("exchange-send-pack")}
                        </button>
                    }.into_any(),
                    ExportStage::Packing => view! {
                        <p role="status">{t!("exchange-send-packing")}</p>
                    }.into_any(),
                    ExportStage::PackedFile(packed) => view! { <Ready packed /> }.into_any(),
                    ExportStage::Refused(refused) => view! {
                        <p class="field" role="alert"><span class="wrong">{render(&refused)}</span></p>
                        <button class="button touch" on:click=pack>{t!("exchange-again")}</button>
                    }.into_any(),
                }}
            </div>
        </Page>
    }
}

/// The batches, to be ticked.
#[component]
fn Pick(chosen: RwSignal<BTreeSet<Ulid>>) -> impl IntoView {
    let studio = app_state();
    let batches = move || {
        studio.book(|book| {
            book.batches_by_change()
                .into_iter()
                .map(|b| (b.id, crate::screens::batches::called(b)))
                .collect::<Vec<_>>()
        })
    };
    let tick = move |(id, name): (Ulid, String)| {
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=move || chosen.with(|c| c.contains(&id))
                    on:change=move |event| chosen.update(|chosen| {
                        if event_target_checked(&event) {
                            chosen.insert(id);
                        } else {
                            chosen.remove(&id);
                        }
                    }) />
                {name}
            </label>
        }
    };
    view! { <div class="card">{move || batches().into_iter().map(tick).collect_view()}</div> }
}

/// What is in the file, and the ways out for it.
#[component]
fn Ready(packed: PackedFile) -> impl IntoView {
    let PackedFile { file, text, photos, missing, whole } = packed;
    let size = format!("{} MB", format_number(file.size() / 1e6, 2));
    let went = move || {
        if let Some(entries) = whole {
            sent::whole_book_sent(entries);
        }
    };
    let shares = share::can_share(&file);
    let text = text.filter(|text| !shares && share::can_share(text));
    let share_press = move |file: File, words: &str, whole_file: bool| {
        let press = move |_| {
            let file = file.clone();
            spawn_local(async move {
                match share::share(&file).await {
                    ShareOutcome::Done => {
                        if whole_file {
                            went();
                        }
                        notify(t!("exchange-send-shared"), None);
                    }
                    ShareOutcome::Dismissed => {}
                    ShareOutcome::Unsupported => notify(t!("exchange-send-cannot_share"), None),
                }
            });
        };
        view! { <button class="button touch" on:click=press><icon::Send />{t(words)}</button> }
    };
    let save = {
        let file = file.clone();
        move |_| {
            if download::file(&file) {
                went();
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
            {shares.then(|| share_press(file.clone(), key!("exchange-send-share"), true))}
            {text.map(|text| share_press(text, key!("exchange-send-share_text"), false))}
            <button class="button touch plain" on:click=save>{t!("exchange-send-save")}</button>
        </section>
    }
}

/// Packs the batches, or the whole book.
async fn packed(studio: AppState, batches: Option<BTreeSet<Ulid>>) -> Result<PackedFile, Message> {
    let (entries, name): (Vec<Entry>, String) = studio.book_now(|book| match &batches {
        None => (book.entries().cloned().collect(), t!("exchange-send-book_name")),
        Some(chosen) => {
            let ids: Vec<Ulid> = chosen.iter().copied().collect();
            let entries = select(book, &ids).into_iter().cloned().collect();
            let first = ids.first().and_then(|id| book.batches.get(id));
            let name = first.map(crate::screens::batches::called).unwrap_or_default();
            (entries, if ids.len() == 1 { name } else { t!("exchange-send-some_name") })
        }
    });
    let header = Header {
        app: env!("CARGO_PKG_VERSION").to_owned(),
        exported_at: clock::now(),
        device: studio.device(),
    };
    let mut photos: Vec<(PhotoId, Vec<u8>)> = Vec::new();
    let named = photos_of(&entries);
    let count = named.len();
    for id in named {
        if let Some(photo) = studio.photo(&id).await {
            photos.push((id, photo.bytes));
        }
    }
    let there = photos.len();
    let text = json_text(&header, &entries);
    let bytes = worker::write_exchange_file(header, &entries, photos).await?;
    let name = file_name(&name);
    let file = file::file(&format!("{name}.{EXTENSION}"), MIME, &bytes);
    Ok(PackedFile {
        file: file.ok_or_else(|| Message::new(key!("refusal-file-not_written")))?,
        text: file::file(&format!("{name}.txt"), "text/plain", text.as_bytes()),
        photos: there,
        missing: count - there,
        whole: batches.is_none().then_some(entries.len()),
    })
}

/// A name that every file system takes: letters, digits and dashes, and the day.
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
