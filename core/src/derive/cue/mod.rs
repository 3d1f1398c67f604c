//! Cues of a bath: a pure function of its entries and an instant.
//! Not here: timers, sounds and notifications, which belong to the app.
//!
//! A cue is due at an instant: the start of its bath plus a number of minutes.
//! No counter runs, so nothing is lost while a phone sleeps: the next call
//! returns every cue that fell due meanwhile, and how long ago.
//!
//! Cues of one schedule stay when another takes over; see
//! [`BathView::schedules`]. Each has an id that is the same on every device.

mod answered;
mod dial;
mod occurrence;

pub use answered::is_told_by_act;
pub use dial::{Dial, DialMark, MarkState};
pub use occurrence::{CueAct, CueKind};

use crate::journal::{BathView, Book, CueOutcome};
use jiff::{SignedDuration, Timestamp};
use std::collections::BTreeMap;
use ulid::Ulid;

/// How long after its instant a cue counts as due before it is late: one
/// minute. Common practice, no source.
pub const DUE_FOR: SignedDuration = SignedDuration::from_secs(60);

/// For how long an overdue stop sounds again each minute: a forgotten bath goes on weakening
/// the fibre. Common practice, no source.
pub const STOP_REPEATED_FOR: SignedDuration = SignedDuration::from_mins(10);

/// One cue of a bath at an instant.
#[derive(Clone, Debug, PartialEq)]
pub struct CueState {
    /// Kind and seconds from the bath's start, such as `stir-900`.
    pub id: String,
    pub bath: Ulid,
    pub batch: Ulid,
    pub what: CueKind,
    /// When it falls, or fell, due.
    pub due: Timestamp,
    pub status: CueStatus,
}

/// The status of a cue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CueStatus {
    /// Time until it falls due.
    Upcoming(SignedDuration),
    /// Due for less than [`DUE_FOR`].
    Due(SignedDuration),
    /// Not answered; time since it fell due.
    Late(SignedDuration),
    Answered {
        outcome: CueOutcome,
        at: Timestamp,
    },
    /// Not answered before the bath was stopped.
    Lapsed,
}

impl CueState {
    /// Whether it asks for action now.
    pub fn is_pending(&self) -> bool {
        matches!(self.status, CueStatus::Due(_) | CueStatus::Late(_))
    }
}

/// The pending cues of a bath that one act answers.
#[derive(Clone, Debug, PartialEq)]
pub struct PendingAct {
    pub act: CueAct,
    /// Each once, in the order in which they are done.
    pub kinds: Vec<CueKind>,
    /// When the latest of them fell due.
    pub due: Timestamp,
}

/// The pending cues among those of one bath, by the act that answers them: the most urgent first.
pub fn pending_acts(cues: &[CueState]) -> Vec<PendingAct> {
    let mut acts: Vec<PendingAct> = Vec::new();
    for CueState { what, due, .. } in cues.iter().filter(|cue| cue.is_pending()) {
        match acts.iter_mut().find(|known| known.act == what.act()) {
            Some(known) => {
                known.due = known.due.max(*due);
                if !known.kinds.contains(what) {
                    known.kinds.push(*what);
                }
            }
            None => {
                acts.push(PendingAct { act: what.act(), kinds: vec![*what], due: *due });
            }
        }
    }
    acts.iter_mut().for_each(|act| act.kinds.sort_unstable());
    acts.sort_unstable_by_key(|act| act.act);
    acts
}

/// The cues of a bath in the order in which they fall due: all that have
/// fallen due by `now`, and those to come up to the stop. Of a bath without a
/// stop, the next of each recurring kind.
pub fn cues(bath: &BathView, now: Timestamp) -> Vec<CueState> {
    instants(bath, now)
        .into_iter()
        .map(|((due, what), id)| CueState {
            status: status(bath, what, &id, due, now),
            id,
            bath: bath.id,
            batch: bath.batch,
            what,
            due,
        })
        .collect()
}

/// The first cue of a bath that is still to come.
pub fn next_cue(bath: &BathView, now: Timestamp) -> Option<CueState> {
    cues(bath, now).into_iter().find(|c| matches!(c.status, CueStatus::Upcoming(_)))
}

/// The pending cues of all running baths, longest waiting first.
pub fn pending_cues(book: &Book, now: Timestamp) -> Vec<CueState> {
    let mut pending: Vec<CueState> = book
        .running()
        .into_iter()
        .flat_map(|bath| cues(bath, now))
        .filter(CueState::is_pending)
        .collect();
    pending.sort_unstable_by_key(|c| (c.due, c.what, c.bath));
    pending
}

/// By how much the wall clock was moved while a page watched it, if by more
/// than two seconds: elapsed wall-clock time less elapsed time by a steady
/// clock (the browser's `performance.now`). Positive when the wall clock was
/// put forward.
pub fn clock_shift(wall: SignedDuration, steady: SignedDuration) -> Option<SignedDuration> {
    let moved = wall.checked_sub(steady)?;
    (moved.unsigned_abs().as_millis() > 2000).then_some(moved)
}

fn status(bath: &BathView, what: CueKind, id: &str, due: Timestamp, now: Timestamp) -> CueStatus {
    if let Some((outcome, at)) = bath.answered.get(id) {
        return CueStatus::Answered { outcome: *outcome, at: *at };
    }
    if let Some(stopped) = bath.stopped {
        return match what {
            CueKind::Stop => CueStatus::Answered { outcome: CueOutcome::Done, at: stopped.at },
            _ => CueStatus::Lapsed,
        };
    }
    let since = now.duration_since(due);
    if since.is_negative() {
        CueStatus::Upcoming(due.duration_since(now))
    } else if since < DUE_FOR {
        CueStatus::Due(since)
    } else {
        CueStatus::Late(since)
    }
}

/// Instants and ids of a bath's cues, in order of instant and kind.
fn instants(bath: &BathView, now: Timestamp) -> BTreeMap<(Timestamp, CueKind), String> {
    let mut found = BTreeMap::new();
    let last = bath.schedules.len().saturating_sub(1);
    for (i, (from, schedule)) in bath.schedules.iter().enumerate() {
        let until = bath.schedules.get(i + 1).map(|(from, _)| *from);
        // Recurring cues are listed up to here.
        let horizon = until.or(bath.stopped.map(|s| s.at)).unwrap_or(now);
        let horizon_s = horizon.duration_since(bath.started).as_secs();
        for (what, second) in occurrence::occurrences(schedule, horizon_s) {
            let Ok(due) = bath.started.checked_add(SignedDuration::from_secs(second)) else {
                continue;
            };
            let in_force = match what {
                // Only the last schedule decides the stop, even one that was
                // past when it was set.
                CueKind::Stop => i == last,
                _ => (i == 0 || due >= *from) && until.is_none_or(|until| due < until),
            };
            let before_stop = bath.stopped.is_none_or(|s| due <= s.at || what == CueKind::Stop);
            if in_force && before_stop {
                found.insert((due, what), format!("{}-{second}", what.key()));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests;
