//! The entries of a batch, in parts of the job, the latest first in each.

use std::sync::Arc;

use bleachfield_core::{
    derive::cue::is_told_by_act,
    journal::{Batch, Body, TimelineEntry},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    entry::{EntryView, brief},
    form::BatchWriter,
};
use crate::{
    components::icon,
    i18n::{t, t_count, t_with},
    platform::clock,
    route::BatchForm,
};

/// A part of the job that the record folds together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Before,
    Bath,
    Wash,
    /// End tests and sign-off.
    Proof,
    Stored,
}

impl Part {
    const ALL: [Self; 5] = [Self::Before, Self::Bath, Self::Wash, Self::Proof, Self::Stored];

    fn name(self) -> String {
        match self {
            Self::Before => t!("batch-part-before"),
            Self::Bath => t!("batch-part-bath"),
            Self::Wash => t!("batch-part-wash"),
            Self::Proof => t!("batch-part-proof"),
            Self::Stored => t!("batch-part-stored"),
        }
    }

    /// The part that an entry belongs to, after an entry of `self`; and the part after it.
    fn step(self, body: &Body) -> (Self, Self) {
        match body {
            Body::BathStarted(_) => (Self::Bath, Self::Bath),
            Body::BathStopped(_) => (Self::Bath, Self::Wash),
            // The rinses of the cook come before the bath.
            Body::Rinsed(_) | Body::Antichlored(_) | Body::AcidFinished(_)
                if matches!(self, Self::Wash | Self::Proof) =>
            {
                (Self::Wash, Self::Wash)
            }
            Body::EndTest(_) | Body::SignedOff(_)
                if matches!(self, Self::Wash | Self::Proof | Self::Stored) =>
            {
                (Self::Proof, if self == Self::Stored { self } else { Self::Proof })
            }
            Body::Stored(_) | Body::Sheets(_) => (Self::Stored, Self::Stored),
            _ => (self, self),
        }
    }
}

/// The entries of a batch that are shown, each with its part, in their order.
fn with_parts(batch: &Batch, withdrawn_too: bool) -> Vec<(Part, &TimelineEntry)> {
    let mut part = Part::Before;
    let mut parts = Vec::new();
    for entry in &batch.timeline {
        if !(entry.is_visible() || (withdrawn_too && is_withdrawn(entry)))
            || is_told_by_act(batch, entry)
        {
            continue;
        }
        let (of, next) = if entry.is_visible() { part.step(&entry.body) } else { (part, part) };
        parts.push((of, entry));
        part = next;
    }
    parts
}

/// The record in parts that open, the latest part open.
#[component]
pub fn Timeline(
    writer: BatchWriter,
    /// Opens every part, for printing.
    unfold: Trigger,
) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let show_withdrawn = RwSignal::new(false);
    let batch =
        Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned().map(Arc::new)));
    let latest =
        Memo::new(move |_| batch.with(|batch| Some(with_parts(batch.as_ref()?, false).last()?.0)));
    let withdrawn = move || {
        let batch = batch.get();
        batch.iter().flat_map(|b| &b.timeline).filter(|entry| is_withdrawn(entry)).count()
    };
    let parts = Part::ALL.map(|part| {
        let entries = Memo::new(move |_| {
            let all = show_withdrawn.get();
            batch.with(|batch| {
                let parts = batch.as_ref().map(|batch| with_parts(batch, all)).unwrap_or_default();
                let of_part = parts.into_iter().rev().filter(|(of, _)| *of == part);
                with_days(of_part.map(|(_, entry)| entry.clone()))
            })
        });
        part_view(part, entries, batch, writer, latest, unfold)
    });
    view! {
        {parts.collect_view()}
        {move || (withdrawn() > 0).then(|| view! {
            <label class="tick no-print">
                <input type="checkbox" prop:checked=show_withdrawn
                    on:change=move |event| show_withdrawn.set(event_target_checked(&event)) />
                {t_count!("batch-taken_back", withdrawn())}
            </label>
        })}
    }
}

/// One part, the latest entry first; nothing while it has none.
fn part_view(
    part: Part,
    entries: Memo<Vec<DatedEntry>>,
    batch: Memo<Option<Arc<Batch>>>,
    writer: BatchWriter,
    latest: Memo<Option<Part>>,
    unfold: Trigger,
) -> AnyView {
    let open = RwSignal::new(false);
    // With the first entry of a part that part opens, and the one before it closes.
    Effect::new(move |_| open.set(latest.get() == Some(part)));
    Effect::new(move |before: Option<()>| {
        unfold.track();
        if before.is_some() {
            open.set(true);
        }
    });
    let count = move || entries.with(Vec::len);
    view! {
        <Show when=move || { count() > 0 }>
            <details class="more part" prop:open=open
                on:toggle=move |event| open.set(event_target::<web_sys::HtmlDetailsElement>(&event).open())>
                <summary>
                    {part.name()}" "
                    <span class="soft small">{move || t_count!("batch-part_entries", count())}</span>
                </summary>
                <div class="inside">
                    <ol class="timeline"><For each=move || entries.get() key=version_key let:dated>
                        {batch.get_untracked().map(|batch| view! { <Item dated batch writer /> })}
                    </For></ol>
                </div>
            </details>
        </Show>
    }
    .into_any()
}

/// An entry, with its day where the line above it has another.
#[derive(Clone, PartialEq)]
struct DatedEntry {
    day: Option<String>,
    entry: TimelineEntry,
}

fn with_days(entries: impl Iterator<Item = TimelineEntry>) -> Vec<DatedEntry> {
    let mut last = String::new();
    let dated = entries.map(|entry| {
        let day = clock::local_date(entry.at);
        let is_new = day != last;
        last.clone_from(&day);
        DatedEntry { day: is_new.then_some(day), entry }
    });
    dated.collect()
}

type VersionKey = (Option<String>, Ulid, jiff::Timestamp, Option<Ulid>, Option<Ulid>);

/// Changes whenever the entry is corrected or withdrawn, so that it is rendered again.
fn version_key(DatedEntry { day, entry }: &DatedEntry) -> VersionKey {
    (day.clone(), entry.entry.id, entry.at, entry.corrected_by, entry.withdrawn_by)
}

/// Whether it is an event that was withdrawn, not a correction or withdrawal itself.
fn is_withdrawn(entry: &TimelineEntry) -> bool {
    entry.withdrawn_by.is_some()
        && !matches!(entry.entry.body, Body::Withdrawn(_) | Body::Corrected(_))
}

/// One line: time, what it was, its first figures. It opens its details.
#[component]
fn Item(dated: DatedEntry, batch: Arc<Batch>, writer: BatchWriter) -> impl IntoView {
    let DatedEntry { day, entry } = dated;
    let id = entry.entry.id;
    let withdrawn = entry.withdrawn_by.is_some();
    let kind = entry.body.kind().to_owned();
    let marks = [
        withdrawn.then(|| t!("batch-mark-taken_back")),
        entry.corrected_by.map(|_| t!("batch-mark-corrected")),
    ];
    let (title, brief) = brief(&entry, &batch);
    let zone = time_in_zone(&entry);
    let time = clock::local_time(entry.at);
    let open = RwSignal::new(false);
    let details = StoredValue::new((entry, batch));
    view! {
        <li class:withdrawn=withdrawn data-kind=kind>
            {day.map(|day| view! { <p class="day">{day}</p> })}
            <div class="entry-line">
                <details on:toggle=move |event| {
                    open.set(event_target::<web_sys::HtmlDetailsElement>(&event).open());
                }>
                    <summary>
                        <time>{time}</time>
                        <span class="grow">
                            <strong>{title}</strong>
                            {(!brief.is_empty()).then(|| view! { " "<span class="brief">{brief}</span> })}
                            {marks.into_iter().flatten().map(|mark| view! {
                                " "<span class="marked">{mark}</span>
                            }).collect_view()}
                        </span>
                    </summary>
                    <div class="stack tight">
                        {zone.map(|text| view! { <p class="when">{text}</p> })}
                        {move || open.get().then(|| {
                            let (entry, batch) = details.get_value();
                            view! { <EntryView entry batch /> }
                        })}
                    </div>
                </details>
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
