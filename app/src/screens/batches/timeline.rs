//! All that happened to a batch, the latest first.

use std::sync::Arc;

use bleachfield_core::journal::{Batch, Body, TimelineEntry};
use leptos::prelude::*;
use ulid::Ulid;

use super::{form::BatchWriter, telling::Telling};
use crate::{
    components::icon,
    i18n::{t, t_count, t_with},
    platform::clock,
    route::BatchForm,
};

/// The timeline of a batch.
#[component]
pub fn Timeline(writing: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writing;
    let show_withdrawn = RwSignal::new(false);
    let batch =
        Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned().map(Arc::new)));
    let told = move || {
        let (all, batch) = (show_withdrawn.get(), batch.get());
        let timeline = batch.iter().flat_map(|b| &b.timeline);
        let shown = timeline.filter(|t| t.is_visible() || (all && taken_back(t)));
        shown.rev().cloned().collect::<Vec<TimelineEntry>>()
    };
    let withdrawn = move || {
        let batch = batch.get();
        batch.iter().flat_map(|b| &b.timeline).filter(|t| taken_back(t)).count()
    };
    view! {
        <ol class="timeline"><For each=told key=line_key let:entry>
            {batch.get_untracked().map(|batch| view! { <Line told=entry batch writing /> })}
        </For></ol>
        {move || (withdrawn() > 0).then(|| view! {
            <label class="tick no-print">
                <input type="checkbox" prop:checked=show_withdrawn
                    on:change=move |event| show_withdrawn.set(event_target_checked(&event)) />
                {t_count!("batch-taken_back", withdrawn())}
            </label>
        })}
    }
}

/// What tells one state of a line from another.
fn line_key(told: &TimelineEntry) -> String {
    let by = |id: Option<Ulid>| id.map(|id| id.to_string()).unwrap_or_default();
    let (corrected, withdrawn) = (by(told.corrected_by), by(told.withdrawn_by));
    format!("{} {} {corrected} {withdrawn}", told.entry.id, told.at)
}

/// One entry.
#[component]
fn Line(told: TimelineEntry, batch: Arc<Batch>, writing: BatchWriter) -> impl IntoView {
    let entry = told.entry.id;
    let withdrawn = told.withdrawn_by.is_some();
    let when = clock::local(told.at);
    let kind = told.body.kind().to_owned();
    let elsewhere = elsewhere(&told);
    let marks = [
        withdrawn.then(|| t!("batch-mark-taken_back")),
        told.corrected_by.map(|_| t!("batch-mark-corrected")),
    ];
    view! {
        <li class:withdrawn=withdrawn data-kind=kind>
            <div class="row top">
                <div class="grow stack tight">
                    <p class="when">
                        <time>{when}</time>
                        {elsewhere.map(|text| view! { " "<span>{text}</span> })}
                        {marks.into_iter().flatten().map(|mark| view! {
                            " "<span class="marked">{mark}</span>
                        }).collect_view()}
                    </p>
                    <Telling told batch />
                </div>
                <More entry writing />
            </div>
        </li>
    }
}

/// Opens the entry's menu.
#[component]
fn More(entry: Ulid, writing: BatchWriter) -> impl IntoView {
    view! {
        <button class="button bare no-print" on:click=move |_| writing.show(BatchForm::Entry(entry))>
            <icon::More /><span class="visually-hidden">{t!("batch-entry_menu")}</span>
        </button>
    }
}

/// Something that was told once and was taken back.
fn taken_back(told: &TimelineEntry) -> bool {
    told.withdrawn_by.is_some()
        && !matches!(told.entry.body, Body::Withdrawn(_) | Body::Corrected(_))
}

/// The time as it was where it was written, if clocks there show another than here.
fn elsewhere(told: &TimelineEntry) -> Option<String> {
    let zone = &told.entry.zone;
    if zone.is_empty() || *zone == clock::zone() {
        return None;
    }
    let there = clock::local_in(told.at, zone)?;
    (there != clock::local(told.at))
        .then(|| t_with!("batch-elsewhere", &[("time", &there), ("zone", zone)]))
}
