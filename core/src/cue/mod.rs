//! Timers as a pure function of entries and the present instant.
//!
//! A cue is due at an instant: the start of its bath and so many minutes. No
//! counter runs, so nothing is lost while a phone sleeps: whoever asks again
//! later is told everything that fell due meanwhile, and by how much.
//!
//! Cues of one schedule stay when another takes over; see
//! [`BathView::schedules`]. Each has an id that is the same on every device.

mod schedule;

pub use crate::journal::Schedule;
pub use schedule::{CueKind, SHORTEST_EVERY_MIN};

use crate::journal::{BathView, Book, CueOutcome};
use jiff::{SignedDuration, Timestamp};
use std::collections::BTreeMap;
use ulid::Ulid;

/// For how long after its instant a cue counts as due, before it is late:
/// one minute. Common practice, no source.
pub const DUE_FOR: SignedDuration = SignedDuration::from_secs(60);

/// One cue of a bath, as it stands at an instant.
#[derive(Clone, Debug, PartialEq)]
pub struct CueState {
    /// Such as `stir-900`: the kind, and the seconds from the bath's start.
    pub id: String,
    pub bath: Ulid,
    pub batch: Ulid,
    pub what: CueKind,
    /// When it falls, or fell, due.
    pub due: Timestamp,
    pub state: State,
}

/// How a cue stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Not due for this long yet.
    Upcoming(SignedDuration),
    /// Due, since less than [`DUE_FOR`].
    Due(SignedDuration),
    /// Nobody has seen to it for this long since it fell due.
    Late(SignedDuration),
    /// Somebody has, then.
    Answered { outcome: CueOutcome, at: Timestamp },
    /// The bath was stopped before anybody did.
    Lapsed,
}

impl CueState {
    /// Whether it wants somebody now.
    pub fn waits(&self) -> bool {
        matches!(self.state, State::Due(_) | State::Late(_))
    }
}

/// The cues of a bath in the order in which they fall due: all that have
/// fallen due by `now`, and those to come up to the stop. Of a bath without a
/// stop, the next of each kind to come.
pub fn cues(bath: &BathView, now: Timestamp) -> Vec<CueState> {
    instants(bath, now)
        .into_iter()
        .map(|((due, what), id)| CueState {
            state: state(bath, what, &id, due, now),
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
    cues(bath, now).into_iter().find(|c| matches!(c.state, State::Upcoming(_)))
}

/// The cues of all running baths that want somebody now, longest waiting
/// first.
pub fn waiting(book: &Book, now: Timestamp) -> Vec<CueState> {
    let mut waiting: Vec<CueState> = book
        .running()
        .into_iter()
        .flat_map(|bath| cues(bath, now))
        .filter(CueState::waits)
        .collect();
    waiting.sort_unstable_by_key(|c| (c.due, c.what, c.bath));
    waiting
}

/// The next instant at which any running bath's cue falls due: when to look
/// again.
pub fn next_due(book: &Book, now: Timestamp) -> Option<Timestamp> {
    book.running().into_iter().filter_map(|bath| next_cue(bath, now)).map(|c| c.due).min()
}

/// By how much the wall clock was moved while a page watched it, if by more
/// than two seconds: the difference between what the wall clock and a steady
/// clock (the browser's `performance.now`) say has passed. Positive when the
/// wall clock was put forward.
pub fn clock_moved(wall: SignedDuration, steady: SignedDuration) -> Option<SignedDuration> {
    let moved = wall.checked_sub(steady)?;
    (moved.unsigned_abs().as_millis() > 2000).then_some(moved)
}

fn state(bath: &BathView, what: CueKind, id: &str, due: Timestamp, now: Timestamp) -> State {
    if let Some((outcome, at)) = bath.answered.get(id) {
        return State::Answered { outcome: *outcome, at: *at };
    }
    if let Some(stopped) = bath.stopped {
        return match what {
            CueKind::Stop => State::Answered { outcome: CueOutcome::Done, at: stopped.at },
            _ => State::Lapsed,
        };
    }
    let since = now.duration_since(due);
    if since.is_negative() {
        State::Upcoming(due.duration_since(now))
    } else if since < DUE_FOR {
        State::Due(since)
    } else {
        State::Late(since)
    }
}

/// Instants and ids of a bath's cues, in order of instant and kind.
fn instants(bath: &BathView, now: Timestamp) -> BTreeMap<(Timestamp, CueKind), String> {
    let mut found = BTreeMap::new();
    let last = bath.schedules.len().saturating_sub(1);
    for (i, (from, schedule)) in bath.schedules.iter().enumerate() {
        let until = bath.schedules.get(i + 1).map(|(from, _)| *from);
        // The end of what is worth counting out for cues that recur.
        let horizon = until.or(bath.stopped.map(|s| s.at)).unwrap_or(now);
        let horizon_s = horizon.duration_since(bath.started).as_secs();
        for (what, second) in schedule.seconds(horizon_s) {
            let Ok(due) = bath.started.checked_add(SignedDuration::from_secs(second)) else {
                continue;
            };
            let in_force = match what {
                // Only the last word on stopping counts, even when it names
                // an instant that was past by then.
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
