//! A running bath as its card and forms see it, and how they write to its log.

use bleachfield_core::{
    derive::cue::{self, CueKind, CueState, CueStatus},
    journal::{
        Batch, BathView, Body, CueAnswered, CueOutcome, Oxidant, Stirred, Subject, Withdrawn,
    },
};
use jiff::{SignedDuration, Timestamp};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::latest_readings::LatestReadings;
use crate::{
    components::notify,
    i18n::t,
    state::{AppState, app_state},
};

/// A running bath. Copied freely.
#[derive(Clone, Copy)]
pub struct RunningBath {
    pub state: AppState,
    pub bath: Ulid,
    pub batch: Ulid,
    pub oxidant: Oxidant,
    pub started: Timestamp,
    /// Pending cues, by due time.
    pub pending: Memo<Vec<BathCue>>,
    /// The next upcoming cue.
    pub next: Memo<Option<BathCue>>,
    /// `None` if no stop is planned, or its cue was skipped.
    pub stop_due: Memo<Option<Timestamp>>,
    pub sheets: BathSheets,
    /// Entries are being written.
    pub busy: RwSignal<bool>,
}

/// Which of the bath's bottom sheets are open.
#[derive(Clone, Copy, Default)]
pub struct BathSheets {
    pub reading: RwSignal<bool>,
    pub reheat: RwSignal<bool>,
    pub addition: RwSignal<bool>,
    pub schedule: RwSignal<bool>,
    pub stop: RwSignal<bool>,
}

/// A cue without its status, which changes every second.
#[derive(Clone, Debug, PartialEq)]
pub struct BathCue {
    pub id: String,
    pub what: CueKind,
    pub due: Timestamp,
}

impl RunningBath {
    /// `None` if the book has no such bath.
    pub fn find(bath: Ulid) -> Option<Self> {
        let state = app_state();
        let (batch, oxidant, started) =
            state.book_now(|book| book.bath(bath).map(|b| (b.batch, b.oxidant, b.started)))?;
        let cues = Memo::new(move |_| {
            let now = state.now();
            state.book(|book| book.bath(bath).map(|b| cue::cues(b, now)).unwrap_or_default())
        });
        let bath_cue =
            |cue: &CueState| BathCue { id: cue.id.clone(), what: cue.what, due: cue.due };
        Some(Self {
            state,
            bath,
            batch,
            oxidant,
            started,
            pending: Memo::new(move |_| {
                cues.with(|cues| cues.iter().filter(|c| c.is_pending()).map(bath_cue).collect())
            }),
            next: Memo::new(move |_| {
                cues.with(|cues| {
                    cues.iter().find(|c| matches!(c.status, CueStatus::Upcoming(_))).map(bath_cue)
                })
            }),
            stop_due: Memo::new(move |_| {
                cues.with(|cues| {
                    let stop = cues.iter().find(|c| c.what == CueKind::Stop)?;
                    (!matches!(stop.status, CueStatus::Answered { .. })).then_some(stop.due)
                })
            }),
            sheets: BathSheets::default(),
            busy: RwSignal::new(false),
        })
    }

    /// Tracked.
    pub fn batch_name(self) -> String {
        self.state.book(|book| book.batches.get(&self.batch).map(batch_name).unwrap_or_default())
    }

    /// Time since the start. Tracked: it changes every second.
    pub fn elapsed(self) -> SignedDuration {
        let now = self.state.now();
        self.state.book(|book| book.bath(self.bath).map(|b| b.elapsed(now))).unwrap_or_default()
    }

    pub fn latest_readings(self) -> Memo<LatestReadings> {
        let minutes = Memo::new(move |_| self.elapsed().as_mins());
        Memo::new(move |_| {
            let minutes = minutes.get() as f64;
            self.state.book(|book| LatestReadings::of(book, self.bath).after(minutes))
        })
    }

    /// Reads the bath in the book, untracked.
    pub fn view<T>(self, read: impl FnOnce(&BathView) -> T) -> Option<T> {
        self.state.book_now(|book| book.bath(self.bath).map(read))
    }

    /// Entries that answer all pending cues of a kind by one act: the last is done, those
    /// before it were missed and are skipped.
    pub fn answers(self, what: CueKind) -> Vec<Body> {
        let mut answers = self.skips(what);
        if let Some(Body::CueAnswered(last)) = answers.last_mut() {
            last.outcome = CueOutcome::Done;
        }
        answers
    }

    /// Entries that skip all pending cues of a kind.
    pub fn skips(self, what: CueKind) -> Vec<Body> {
        let pending = self.pending.get_untracked();
        let of_kind = pending.iter().filter(|cue| cue.what == what);
        of_kind.map(|cue| self.answer(&cue.id, CueOutcome::Skipped)).collect()
    }

    /// The entry that answers one cue.
    pub fn answer(self, cue: &str, outcome: CueOutcome) -> Body {
        Body::CueAnswered(CueAnswered { bath: self.bath, cue: cue.to_owned(), outcome })
    }

    /// Writes that the pulp was stirred, and answers the cues for it.
    pub fn write_stirred(self) {
        let mut bodies = vec![Body::Stirred(Stirred { bath: self.bath })];
        bodies.extend(self.answers(CueKind::Stir));
        self.write(bodies, t!("sink-said-stirred"), None);
    }

    /// Writes entries about this bath, all or none. Once they are stored it shows `saved` with
    /// an undo and closes `sheet`; what could not be stored stays in its form.
    pub fn write(self, bodies: Vec<Body>, saved: String, sheet: Option<RwSignal<bool>>) {
        if bodies.is_empty() || self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let about = Subject::Batch(self.batch);
        let state = self.state;
        spawn_local(async move {
            let bodies = bodies.into_iter().map(|body| (about, body)).collect();
            if let Some(entries) = state.write_all(bodies).await {
                notify(saved, Some(undo(state, about, entries)));
                if let Some(sheet) = sheet {
                    let _ = sheet.try_set(false);
                }
            }
            let _ = self.busy.try_set(false);
        });
    }
}

/// Name, else fibre, else "unnamed".
pub fn batch_name(batch: &Batch) -> String {
    [&batch.name, &batch.fibre]
        .into_iter()
        .find(|name| !name.trim().is_empty())
        .cloned()
        .unwrap_or_else(|| t!("sink-nameless"))
}

/// What a cue asks for, in words.
pub fn cue_name(what: CueKind) -> String {
    t(&format!("sink-cue-{}", what.key()))
}

/// Withdraws the entries. Must be created after an `await`, where no reactive owner is current:
/// the notice may outlive the card, which would dispose of the callback.
fn undo(state: AppState, about: Subject, entries: Vec<Ulid>) -> Callback<()> {
    Callback::new(move |()| {
        let withdraw = |entry: &Ulid| {
            (about, Body::Withdrawn(Withdrawn { entry: *entry, why: String::new() }))
        };
        let withdrawn = entries.iter().rev().map(withdraw).collect();
        spawn_local(async move {
            if state.write_all(withdrawn).await.is_some() {
                notify(t!("sink-taken_back"), None);
            }
        });
    })
}
