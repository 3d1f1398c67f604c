//! All that happened to a batch, the latest first.

use std::sync::Arc;

use crate::markup::prelude::*;
use bleachfield_core::journal::{Batch, Body, TimelineEntry};
use ulid::Ulid;

use super::{
    form::{Form, Writing},
    telling::Telling,
};
use crate::{
    device::clock,
    locale::{counted, word, words},
    part::{Each, icon},
};

/// The timeline of a batch.
#[component]
pub fn Timeline(writing: Writing) -> Markup {
    let Writing { batch: id, studio, .. } = writing;
    let show_withdrawn = RwSignal::new(false);
    let batch = Memo::new(move || studio.book(|book| book.batches.get(&id).cloned().map(Arc::new)));
    let visible_entries = move || {
        let (all, batch) = (show_withdrawn.get(), batch.get());
        let timeline = batch.iter().flat_map(|b| &b.timeline);
        let shown = timeline.filter(|t| t.is_visible() || (all && taken_back(t)));
        shown.rev().cloned().collect::<Vec<TimelineEntry>>()
    };
    let withdrawn = move || {
        let batch = batch.get();
        batch.iter().flat_map(|b| &b.timeline).filter(|t| taken_back(t)).count()
    };
    let lines =
        Signal::derive(move || visible_entries().iter().map(line_key).collect::<Vec<String>>());
    let line = move |key: String| {
        let batch = batch.get_untracked()?;
        let told = batch.timeline.iter().find(|told| line_key(told) == key)?.clone();
        Some(view! { <Line told batch writing /> })
    };
    view! {
        <ol class="timeline"><Each keys=lines each=move |key| line(key).into_any() /></ol>
        {move || (withdrawn() > 0).then(|| view! {
            <label class="tick no-print">
                <input type="checkbox" prop:checked=show_withdrawn
                    on:change=move |event| show_withdrawn.set(event_target_checked(&event)) />
                {counted("batch.taken_back", withdrawn())}
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
fn Line(told: TimelineEntry, batch: Arc<Batch>, writing: Writing) -> Markup {
    let entry = told.entry.id;
    let withdrawn = told.withdrawn_by.is_some();
    let when = clock::local(told.at);
    let kind = told.body.kind().to_owned();
    let elsewhere = elsewhere(&told);
    let marks = [
        withdrawn.then(|| word("batch.mark.taken_back")),
        told.corrected_by.map(|_| word("batch.mark.corrected")),
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
fn More(entry: Ulid, writing: Writing) -> Markup {
    view! {
        <button class="press bare no-print" on:click=move |_| writing.show(Form::Entry(entry))>
            <icon::More /><span class="unseen">{word("batch.entry_menu")}</span>
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
        .then(|| words("batch.elsewhere", &[("time", &there), ("zone", zone)]))
}
