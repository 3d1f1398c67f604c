//! A running bath as its card and sheets hold it, and how they write about it.

use bleachfield_core::{
    derive::cue::{self, CueKind, CueStatus},
    journal::{BathView, Body, CueAnswered, CueOutcome, Oxidant, Subject, Withdrawn},
};
use jiff::Timestamp;
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use crate::{
    components::notify,
    i18n::t,
    state::{AppState, app_state},
};

/// A running bath. Copied freely.
#[derive(Clone, Copy)]
pub struct RunningBath {
    pub studio: AppState,
    pub bath: Ulid,
    pub batch: Ulid,
    pub oxidant: Oxidant,
    pub started: Timestamp,
    /// Cues that want somebody, in the order in which they fell due.
    pub waiting: Memo<Vec<PendingCue>>,
    /// The first cue to come.
    pub next: Memo<Option<PendingCue>>,
    /// When it is to be stopped; none if nobody said, or somebody said to let
    /// it run on.
    pub stop_due: Memo<Option<Timestamp>>,
    /// Something is on its way to disk.
    pub busy: RwSignal<bool>,
}

/// A cue, less what changes from second to second.
#[derive(Clone, Debug, PartialEq)]
pub struct PendingCue {
    pub id: String,
    pub what: CueKind,
    pub due: Timestamp,
}

impl RunningBath {
    /// The bath, if it is in the book.
    pub fn find(bath: Ulid) -> Option<Self> {
        let studio = app_state();
        let (batch, oxidant, started) =
            studio.book_now(|book| book.bath(bath).map(|b| (b.batch, b.oxidant, b.started)))?;
        let cues = Memo::new(move |_| {
            let now = studio.now();
            studio.book(|book| book.bath(bath).map(|b| cue::cues(b, now)).unwrap_or_default())
        });
        let first =
            |cue: &cue::CueState| PendingCue { id: cue.id.clone(), what: cue.what, due: cue.due };
        Some(Self {
            studio,
            bath,
            batch,
            oxidant,
            started,
            waiting: Memo::new(move |_| {
                cues.with(|cues| cues.iter().filter(|c| c.is_pending()).map(first).collect())
            }),
            next: Memo::new(move |_| {
                cues.with(|cues| {
                    cues.iter().find(|c| matches!(c.status, CueStatus::Upcoming(_))).map(first)
                })
            }),
            stop_due: Memo::new(move |_| {
                cues.with(|cues| {
                    let stop = cues.iter().find(|c| c.what == CueKind::Stop)?;
                    (!matches!(stop.status, CueStatus::Answered { .. })).then_some(stop.due)
                })
            }),
            busy: RwSignal::new(false),
        })
    }

    /// What the batch is called. Follows the book.
    pub fn name(self) -> String {
        self.studio.book(|book| book.batches.get(&self.batch).map(called).unwrap_or_default())
    }

    /// The bath as it is in the book now, not followed.
    pub fn view<T>(self, read: impl FnOnce(&BathView) -> T) -> Option<T> {
        self.studio.book_now(|book| book.bath(self.bath).map(read))
    }

    /// The answers to what waits of a kind, now that it was done: the latest
    /// was seen to, those before it were missed.
    pub fn answers(self, what: CueKind) -> Vec<Body> {
        let waiting = self.waiting.get_untracked();
        let mut of_kind: Vec<&PendingCue> = waiting.iter().filter(|w| w.what == what).collect();
        let last = of_kind.pop();
        let missed = of_kind.into_iter().map(|w| self.answer(&w.id, CueOutcome::Skipped));
        missed.chain(last.map(|w| self.answer(&w.id, CueOutcome::Done))).collect()
    }

    /// All that waits of a kind, skipped.
    pub fn skips(self, what: CueKind) -> Vec<Body> {
        let waiting = self.waiting.get_untracked();
        let of_kind = waiting.iter().filter(|w| w.what == what);
        of_kind.map(|w| self.answer(&w.id, CueOutcome::Skipped)).collect()
    }

    /// The answer to one cue.
    pub fn answer(self, cue: &str, outcome: CueOutcome) -> Body {
        Body::CueAnswered(CueAnswered { bath: self.bath, cue: cue.to_owned(), outcome })
    }

    /// Writes what belongs together about this bath, says so once it is on
    /// disk, and offers to take it back. Closes `sheet` then, and not before:
    /// what could not be saved stays where it was typed.
    pub fn write(self, bodies: Vec<Body>, said: String, sheet: Option<RwSignal<bool>>) {
        if bodies.is_empty() || self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let about = Subject::Batch(self.batch);
        let studio = self.studio;
        spawn_local(async move {
            let written = bodies.into_iter().map(|body| (about, body)).collect();
            if let Some(entries) = studio.write_all(written).await {
                notify(said, Some(take_back(studio, about, entries)));
                if let Some(sheet) = sheet {
                    let _ = sheet.try_set(false);
                }
            }
            let _ = self.busy.try_set(false);
        });
    }
}

/// What a batch is called: its name, else its fibre, else that it has none.
pub fn called(batch: &bleachfield_core::journal::Batch) -> String {
    [&batch.name, &batch.fibre]
        .into_iter()
        .find(|name| !name.trim().is_empty())
        .cloned()
        .unwrap_or_else(|| t!("sink-nameless"))
}

/// Withdraws the entries: that is how undo is written. To be made after an
/// `await`, where no owner is at hand that would drop it with the card: the
/// notice may outlive the screen.
fn take_back(studio: AppState, about: Subject, entries: Vec<Ulid>) -> Callback<()> {
    Callback::new(move |()| {
        let withdrawn = entries
            .iter()
            .rev()
            .map(|entry| (about, Body::Withdrawn(Withdrawn { entry: *entry, why: String::new() })));
        let withdrawn = withdrawn.collect();
        spawn_local(async move {
            if studio.write_all(withdrawn).await.is_some() {
                notify(t!("sink-taken_back"), None);
            }
        });
    })
}
