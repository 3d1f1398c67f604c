//! The entries of a batch, the latest first.

use std::sync::Arc;

use bleachfield_core::journal::{Batch, Body, TimelineEntry};
use leptos::prelude::*;
use ulid::Ulid;

use super::{entry::EntryView, form::BatchWriter};
use crate::{
    components::icon,
    i18n::{t, t_count, t_with},
    platform::clock,
    route::BatchForm,
};

#[component]
pub fn Timeline(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let show_withdrawn = RwSignal::new(false);
    let batch =
        Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned().map(Arc::new)));
    let entries = move || {
        let (all, batch) = (show_withdrawn.get(), batch.get());
        let timeline = batch.iter().flat_map(|b| &b.timeline);
        let shown = timeline.filter(|entry| entry.is_visible() || (all && is_withdrawn(entry)));
        shown.rev().cloned().collect::<Vec<TimelineEntry>>()
    };
    let withdrawn = move || {
        let batch = batch.get();
        batch.iter().flat_map(|b| &b.timeline).filter(|entry| is_withdrawn(entry)).count()
    };
    view! {
        <ol class="timeline"><For each=entries key=version_key let:entry>
            {batch.get_untracked().map(|batch| view! { <Item entry batch writer /> })}
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

/// Changes whenever the entry is corrected or withdrawn, so that it is rendered again.
fn version_key(entry: &TimelineEntry) -> (Ulid, jiff::Timestamp, Option<Ulid>, Option<Ulid>) {
    (entry.entry.id, entry.at, entry.corrected_by, entry.withdrawn_by)
}

/// Whether it is an event that was withdrawn, not a correction or withdrawal itself.
fn is_withdrawn(entry: &TimelineEntry) -> bool {
    entry.withdrawn_by.is_some()
        && !matches!(entry.entry.body, Body::Withdrawn(_) | Body::Corrected(_))
}

#[component]
fn Item(entry: TimelineEntry, batch: Arc<Batch>, writer: BatchWriter) -> impl IntoView {
    let id = entry.entry.id;
    let withdrawn = entry.withdrawn_by.is_some();
    let kind = entry.body.kind().to_owned();
    let marks = [
        withdrawn.then(|| t!("batch-mark-taken_back")),
        entry.corrected_by.map(|_| t!("batch-mark-corrected")),
    ];
    view! {
        <li class:withdrawn=withdrawn data-kind=kind>
            <div class="row top">
                <div class="grow stack tight">
                    <p class="when">
                        <time>{clock::local(entry.at)}</time>
                        {time_in_zone(&entry).map(|text| view! { " "<span>{text}</span> })}
                        {marks.into_iter().flatten().map(|mark| view! {
                            " "<span class="marked">{mark}</span>
                        }).collect_view()}
                    </p>
                    <EntryView entry batch />
                </div>
                <button class="button bare no-print" on:click=move |_| writer.open(BatchForm::Entry(id))>
                    <icon::More /><span class="visually-hidden">{t!("batch-entry_menu")}</span>
                </button>
            </div>
        </li>
    }
}

/// The time in the zone in which the entry was written, if clocks there differ from here.
fn time_in_zone(entry: &TimelineEntry) -> Option<String> {
    let zone = &entry.entry.zone;
    if zone.is_empty() || *zone == clock::zone() {
        return None;
    }
    let time = clock::local_in(entry.at, zone)?;
    (time != clock::local(entry.at))
        .then(|| t_with!("batch-elsewhere", &[("time", &time), ("zone", zone)]))
}
