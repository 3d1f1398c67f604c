//! A bath on a dial that runs from its start to its planned stop: the share that has passed, and
//! where its cues stand. Not here: the shape of the dial, which belongs to the app.

use super::{CueKind, CueState, CueStatus};
use crate::journal::CueOutcome;
use jiff::{SignedDuration, Timestamp};

/// A bath on a dial.
#[derive(Clone, Debug, PartialEq)]
pub struct Dial {
    /// The time that the whole dial stands for.
    pub length: SignedDuration,
    /// Whether its end is the planned stop; else it is the next full hour.
    pub ends_at_stop: bool,
    /// The share of it that has passed, 0 to 1.
    pub passed: f64,
    /// In order of their place.
    pub marks: Vec<DialMark>,
}

/// Cues that stand at one place of the dial. The stop has none: it is the end.
#[derive(Clone, Debug, PartialEq)]
pub struct DialMark {
    /// Share of the dial, 0 to 1, of the first of them.
    pub at: f64,
    /// Each once.
    pub kinds: Vec<CueKind>,
    pub state: MarkState,
}

/// What a mark has in common: the most urgent state of its cues.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkState {
    Skipped,
    Done,
    Upcoming,
    Pending,
}

/// Marks closer than this share of the dial are one: own choice, so that they can be told apart
/// at two metres.
const CLOSEST: f64 = 0.015;

impl Dial {
    /// `cues` are those of one bath at `now`; `stop` is its planned stop, `None` if it has none.
    pub fn new(
        started: Timestamp,
        stop: Option<Timestamp>,
        cues: &[CueState],
        now: Timestamp,
    ) -> Self {
        let elapsed = seconds(now.duration_since(started));
        let length = match stop.map(|stop| stop.duration_since(started)) {
            Some(length) if length.is_positive() => length,
            _ => next_full_hour(started, cues, elapsed),
        };
        let share = |second: f64| (second / seconds(length)).clamp(0.0, 1.0);
        let mut marks: Vec<DialMark> = Vec::new();
        for cue in cues.iter().filter(|cue| cue.what != CueKind::Stop) {
            let second = seconds(cue.due.duration_since(started));
            if second > seconds(length) {
                continue;
            }
            let (at, state) = (share(second), MarkState::of(cue.status));
            match marks.last_mut().filter(|last| at - last.at < CLOSEST) {
                Some(last) => {
                    last.state = last.state.max(state);
                    if !last.kinds.contains(&cue.what) {
                        last.kinds.push(cue.what);
                    }
                }
                None => marks.push(DialMark { at, kinds: vec![cue.what], state }),
            }
        }
        Self { length, ends_at_stop: stop.is_some(), passed: share(elapsed), marks }
    }
}

impl MarkState {
    fn of(status: CueStatus) -> Self {
        match status {
            CueStatus::Due(_) | CueStatus::Late(_) => Self::Pending,
            CueStatus::Upcoming(_) => Self::Upcoming,
            CueStatus::Answered { outcome: CueOutcome::Done, .. } => Self::Done,
            CueStatus::Answered { outcome: CueOutcome::Skipped, .. } | CueStatus::Lapsed => {
                Self::Skipped
            }
        }
    }
}

/// The first full hour after the time that has passed and after the next cue.
fn next_full_hour(started: Timestamp, cues: &[CueState], elapsed: f64) -> SignedDuration {
    let next = cues.iter().find(|cue| matches!(cue.status, CueStatus::Upcoming(_)));
    let next = next.map_or(0.0, |cue| seconds(cue.due.duration_since(started)));
    let hours = (elapsed.max(next) / 3600.0).floor() as i64 + 1;
    SignedDuration::from_hours(hours)
}

fn seconds(length: SignedDuration) -> f64 {
    length.as_secs_f64()
}

#[cfg(test)]
mod tests {
    use super::super::tests::{at, bath, hour};
    use super::*;
    use crate::derive::cue::cues;
    use crate::journal::Schedule;

    fn dial(schedule: Schedule, second: i64) -> Dial {
        let stop = schedule.stop_at_min.map(|minutes| at((minutes * 60.0) as i64));
        Dial::new(at(0), stop, &cues(&bath(schedule), at(second)), at(second))
    }

    #[test]
    fn cues_stand_at_their_share_of_the_planned_time() {
        let dial = dial(hour(), 1200);
        assert!(dial.ends_at_stop);
        assert_eq!(dial.length, SignedDuration::from_mins(60));
        assert!((dial.passed - 1.0 / 3.0).abs() < 1e-9);
        let marks: Vec<_> =
            dial.marks.iter().map(|m| (m.at, m.kinds.as_slice(), m.state)).collect();
        assert_eq!(
            marks,
            [
                (600.0 / 3600.0, &[CueKind::Ph][..], MarkState::Pending),
                (0.25, &[CueKind::Stir][..], MarkState::Pending),
                (0.5, &[CueKind::Stir][..], MarkState::Upcoming),
                (0.75, &[CueKind::Stir][..], MarkState::Upcoming),
                (1.0, &[CueKind::Ph][..], MarkState::Upcoming),
            ]
        );
    }

    #[test]
    fn cues_at_one_time_are_one_mark_in_its_most_urgent_state() {
        let schedule = Schedule { strip_at_min: vec![10.0], ..hour() };
        let mut bath = bath(schedule);
        bath.answered.insert("ph-600".into(), (CueOutcome::Done, at(610)));
        let cues = cues(&bath, at(660));
        let dial = Dial::new(at(0), Some(at(3600)), &cues, at(660));
        assert_eq!(dial.marks[0].kinds, [CueKind::Ph, CueKind::Strip]);
        assert_eq!(dial.marks[0].state, MarkState::Pending);
    }

    #[test]
    fn without_a_stop_the_dial_ends_at_the_next_full_hour() {
        let open = Schedule { stir_every_min: Some(50.0), ..Schedule::default() };
        assert_eq!(dial(open.clone(), 0).length, SignedDuration::from_hours(1));
        // The next cue is at 100 min.
        let later = dial(open, 3599);
        assert_eq!(later.length, SignedDuration::from_hours(2));
        assert!(!later.ends_at_stop);
        assert_eq!(later.marks.len(), 2);
    }

    #[test]
    fn past_its_stop_the_dial_is_full_and_before_its_start_empty() {
        assert_eq!(dial(hour(), 100_000).passed, 1.0);
        assert_eq!(dial(hour(), -100).passed, 0.0);
        assert_eq!(dial(hour(), 100_000).length, SignedDuration::from_hours(1));
    }

    #[test]
    fn frequent_cues_do_not_crowd_the_dial() {
        let often =
            Schedule { stir_every_min: Some(1.0), stop_at_min: Some(600.0), ..Schedule::default() };
        let marks = dial(often, 0).marks;
        assert!(marks.len() <= 67, "{}", marks.len());
        assert!(marks.windows(2).all(|pair| pair[1].at - pair[0].at >= CLOSEST));
    }
}
