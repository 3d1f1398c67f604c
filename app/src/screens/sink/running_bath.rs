//! A running bath as its view and forms see it, and how they write to its log.

use bleachfield_core::{
    derive::cue::{self, CueAct, CueKind, CueState, CueStatus, Dial, PendingAct},
    journal::{
        Batch, BathStopped, BathView, Body, CueAnswered, CueOutcome, Oxidant, Stirred, StopReason,
        Subject, Withdrawn,
    },
};
use jiff::{SignedDuration, Timestamp};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{
    latest_readings::LatestReadings,
    sheets::{BathSheets, SheetKind},
};
use crate::{
    components::notify,
    i18n::t,
    state::{AppState, app_state},
    storage::NewPhoto,
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
    /// What is pending, by the act that answers it, the most urgent first.
    pub acts: Memo<Vec<PendingAct>>,
    /// What is to be done next, and when it falls due.
    pub next: Memo<Option<(Vec<CueAct>, Timestamp)>>,
    pub dial: Memo<Dial>,
    /// `None` if no stop is planned, or its cue was skipped.
    pub stop_due: Memo<Option<Timestamp>>,
    pub sheets: BathSheets,
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
        let stop_due = Memo::new(move |_| {
            cues.with(|cues| {
                let stop = cues.iter().find(|c| c.what == CueKind::Stop)?;
                (!matches!(stop.status, CueStatus::Answered { .. })).then_some(stop.due)
            })
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
            acts: Memo::new(move |_| cues.with(|cues| cue::pending_acts(cues))),
            next: Memo::new(move |_| cues.with(|cues| next_acts(cues))),
            dial: Memo::new(move |_| {
                let now = state.now();
                cues.with(|cues| Dial::new(started, stop_due.get(), cues, now))
            }),
            stop_due,
            sheets: expect_context(),
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

    /// Entries that skip all pending cues of an act.
    pub fn skips_act(self, act: CueAct) -> Vec<Body> {
        self.pending_kinds(act).into_iter().flat_map(|kind| self.skips(kind)).collect()
    }

    fn pending_kinds(self, act: CueAct) -> Vec<CueKind> {
        let acts = self.acts.get_untracked();
        acts.into_iter().find(|known| known.act == act).map_or_else(Vec::new, |known| known.kinds)
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
        self.write(bodies, t!("sink-said-stirred"));
    }

    /// Writes entries about this bath, all or none. Once they are stored it shows `saved` with
    /// an undo and closes the open sheet; what could not be stored stays in its form.
    pub fn write(self, bodies: Vec<Body>, saved: String) {
        self.write_then(bodies, Vec::new(), move |running, entries| {
            running.notify_saved(saved, entries);
            running.sheets.close_saved();
        });
    }

    /// As [`Self::write`], with photos that the entries refer to.
    pub fn write_with(self, bodies: Vec<Body>, photos: Vec<NewPhoto>, saved: String) {
        self.write_then(bodies, photos, move |running, entries| {
            running.notify_saved(saved, entries);
            running.sheets.close_saved();
        });
    }

    /// Stops the bath now, and asks for the reason after that: the instant counts.
    pub fn stop_now(self) {
        let (why, note) = (StopReason::Other, String::new());
        let stopped = Body::BathStopped(BathStopped { bath: self.bath, why, note });
        self.write_then(vec![stopped], Vec::new(), |running, entries| {
            if let Some(entry) = entries.last() {
                running.sheets.open(running.bath, SheetKind::StopReason(*entry));
            }
            running.notify_saved(t!("sink-said-stopped"), entries);
        });
    }

    fn notify_saved(self, saved: String, entries: Vec<Ulid>) {
        notify(saved, Some(undo(self.state, Subject::Batch(self.batch), entries)));
    }

    /// Withdraws an entry about this bath, and closes the open sheet.
    pub fn withdraw(self, entry: Ulid) {
        let withdrawn = Body::Withdrawn(Withdrawn { entry, why: String::new() });
        self.write_then(vec![withdrawn], Vec::new(), |running, _| {
            notify(t!("sink-taken_back"), None);
            running.sheets.close();
        });
    }

    fn write_then(
        self,
        bodies: Vec<Body>,
        photos: Vec<NewPhoto>,
        then: impl FnOnce(Self, Vec<Ulid>) + 'static,
    ) {
        let busy = self.sheets.busy;
        if bodies.is_empty() || busy.get_untracked() {
            return;
        }
        busy.set(true);
        let about = Subject::Batch(self.batch);
        spawn_local(async move {
            let bodies = bodies.into_iter().map(|body| (about, body)).collect();
            if let Some(entries) = self.state.write_with(bodies, &photos).await {
                then(self, entries);
            }
            let _ = busy.try_set(false);
        });
    }
}

/// What the next upcoming cue asks for, with all that falls due at the same time.
fn next_acts(cues: &[CueState]) -> Option<(Vec<CueAct>, Timestamp)> {
    let upcoming = || cues.iter().filter(|cue| matches!(cue.status, CueStatus::Upcoming(_)));
    let due = upcoming().next()?.due;
    let mut acts: Vec<CueAct> =
        upcoming().filter(|cue| cue.due == due).map(|cue| cue.what.act()).collect();
    acts.sort_unstable();
    acts.dedup();
    Some((acts, due))
}

/// Rounded up to whole minutes; in the last minute, and once it is over, unchanged.
pub fn up_to_minute(left: SignedDuration) -> SignedDuration {
    if left < SignedDuration::from_mins(1) {
        return left;
    }
    SignedDuration::from_mins((left.as_secs() + 59) / 60)
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

/// "Stir", "Check" or "Stop".
pub fn act_name(act: CueAct) -> String {
    t(&format!("sink-act-{}", <&str>::from(act)))
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
