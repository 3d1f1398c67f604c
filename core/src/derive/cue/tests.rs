#![allow(clippy::unwrap_used)]

use super::*;
use crate::journal::{Oxidant, Schedule, StopReason, Stopped};
use crate::property;
use proptest::prelude::*;

const START: i64 = 1_780_000_000;

pub fn at(second: i64) -> Timestamp {
    Timestamp::from_second(START + second).unwrap()
}

pub fn bath(schedule: Schedule) -> BathView {
    BathView {
        id: Ulid(1),
        batch: Ulid(2),
        entry: Ulid(3),
        oxidant: Oxidant::Hypochlorite,
        started: at(0),
        stopped: None,
        plan: None,
        product: None,
        schedules: vec![(at(0), schedule)],
        answered: BTreeMap::new(),
        last_stirred: None,
        last_reheated: None,
        vessel: None,
    }
}

pub fn hour() -> Schedule {
    Schedule {
        stir_every_min: Some(15.0),
        ph_at_min: vec![10.0, 60.0],
        stop_at_min: Some(60.0),
        ..Schedule::default()
    }
}

fn ids(cues: &[CueState]) -> Vec<&str> {
    cues.iter().map(|c| c.id.as_str()).collect()
}

#[test]
fn an_hour_has_its_cues_in_order_and_no_stir_at_the_stop() {
    let cues = cues(&bath(hour()), at(0));
    assert_eq!(
        ids(&cues),
        ["ph-600", "stir-900", "stir-1800", "stir-2700", "ph-3600", "stop-3600"]
    );
    assert_eq!(cues[0].status, CueStatus::Upcoming(SignedDuration::from_mins(10)));
}

#[test]
fn a_cue_that_fell_due_while_the_phone_slept_is_late_by_its_real_time() {
    let cues = cues(&bath(hour()), at(3630));
    assert_eq!(cues.len(), 6);
    assert_eq!(cues[1].due, at(900));
    assert_eq!(cues[1].status, CueStatus::Late(SignedDuration::from_secs(2730)));
    assert_eq!(cues[5].status, CueStatus::Due(SignedDuration::from_secs(30)));
}

#[test]
fn a_bath_without_a_stop_has_further_cues() {
    let bath = bath(Schedule { stir_every_min: Some(15.0), ..Schedule::default() });
    assert_eq!(ids(&cues(&bath, at(0))), ["stir-900"]);
    assert_eq!(cues(&bath, at(24 * 3600)).len(), 97);
    assert_eq!(next_cue(&bath, at(24 * 3600)).unwrap().due, at(24 * 3600 + 900));
}

#[test]
fn cues_are_upcoming_again_when_the_clock_is_before_the_start() {
    let cues = cues(&bath(hour()), at(-600));
    assert_eq!(cues[0].status, CueStatus::Upcoming(SignedDuration::from_mins(20)));
    let five = SignedDuration::from_secs(5);
    assert_eq!(clock_shift(-five, five), Some(-SignedDuration::from_secs(10)));
    assert_eq!(clock_shift(five, SignedDuration::from_millis(4100)), None);
}

#[test]
fn an_answer_stays_and_other_cues_lapse_at_the_stop() {
    let mut bath = bath(hour());
    bath.answered.insert("stir-900".into(), (CueOutcome::Done, at(950)));
    bath.stopped = Some(Stopped { at: at(2000), why: StopReason::ReachedColour });
    let cues = cues(&bath, at(5000));
    assert_eq!(ids(&cues), ["ph-600", "stir-900", "stir-1800", "stop-3600"]);
    assert_eq!(cues[0].status, CueStatus::Lapsed);
    assert_eq!(cues[1].status, CueStatus::Answered { outcome: CueOutcome::Done, at: at(950) });
    assert!(matches!(cues[3].status, CueStatus::Answered { .. }));
}

#[test]
fn a_changed_schedule_is_in_force_from_its_instant() {
    let mut bath = bath(hour());
    let longer =
        Schedule { stir_every_min: Some(20.0), stop_at_min: Some(90.0), ..Schedule::default() };
    bath.schedules.push((at(2000), longer.clone()));
    // Stirs at 15 and 30 minutes by the first, then 40, 60 and 80 by the second.
    let found = cues(&bath, at(2000));
    assert_eq!(
        ids(&found),
        ["ph-600", "stir-900", "stir-1800", "stir-2400", "stir-3600", "stir-4800", "stop-5400"]
    );
    // A stop set in the past is late, not lost.
    bath.schedules.push((at(3000), Schedule { stop_at_min: Some(20.0), ..longer }));
    let stop = cues(&bath, at(3000)).into_iter().find(|c| c.what == CueKind::Stop).unwrap();
    assert_eq!(stop.status, CueStatus::Late(SignedDuration::from_secs(1800)));
}

#[test]
fn pending_cues_of_one_act_are_one() {
    let schedule = Schedule { strip_at_min: vec![20.0, 60.0], photo_at_min: vec![20.0], ..hour() };
    let bath = bath(schedule);
    assert_eq!(pending_acts(&cues(&bath, at(500))), []);
    let acts = pending_acts(&cues(&bath, at(1800)));
    let check = PendingAct {
        act: CueAct::Check,
        kinds: vec![CueKind::Ph, CueKind::Strip, CueKind::Photo],
        due: at(1200),
    };
    let stir = PendingAct { act: CueAct::Stir, kinds: vec![CueKind::Stir], due: at(1800) };
    assert_eq!(acts, [stir, check]);
    // The stop is the first.
    assert_eq!(pending_acts(&cues(&bath, at(3600)))[0].act, CueAct::Stop);
}

#[test]
fn an_impossible_schedule_is_refused_beside_its_field() {
    for (schedule, field) in [
        (Schedule { stir_every_min: Some(0.0), ..hour() }, "stir_every"),
        (Schedule { stir_every_min: Some(f64::NAN), ..hour() }, "stir_every"),
        (Schedule { reheat_every_min: Some(-5.0), ..hour() }, "reheat_every"),
        (Schedule { ph_at_min: vec![10.0, f64::INFINITY], ..hour() }, "ph_at"),
        (Schedule { stop_at_min: Some(0.0), ..hour() }, "stop_at"),
    ] {
        assert_eq!(schedule.check().unwrap_err().message().field.unwrap().0, field);
        // And never a panic or an endless list.
        assert!(cues(&bath(schedule), at(100_000_000)).len() < 100_000);
    }
    assert_eq!(hour().check(), Ok(()));
}

/// Seldom and frequent calls report the same: whatever was pending in one
/// call is there, with the same instant, in every later one.
#[test]
fn no_cue_is_lost_between_calls() {
    let calls = prop::collection::vec(0i64..200_000, 2..8);
    property::check((schedule(), calls), 100, |(schedule, mut calls)| {
        let bath = bath(schedule);
        calls.sort_unstable();
        let mut tested = false;
        for pair in calls.windows(2) {
            let before = cues(&bath, at(pair[0]));
            let after = cues(&bath, at(pair[1]));
            for cue in before.iter().filter(|cue| cue.is_pending()) {
                tested = true;
                let same = after.iter().find(|c| c.id == cue.id).unwrap();
                prop_assert_eq!(same.due, cue.due);
                prop_assert!(same.is_pending());
            }
            // The cue announced as next has come, or is still next.
            if let Some(next) = next_cue(&bath, at(pair[0])) {
                prop_assert!(after.iter().any(|c| c.id == next.id && c.due == next.due));
            }
        }
        Ok(tested)
    });
}

#[test]
fn the_status_depends_on_instants_alone() {
    property::check((schedule(), -10_000i64..200_000), 150, |(schedule, second)| {
        let now = at(second);
        let cues = cues(&bath(schedule), now);
        prop_assert!(cues.windows(2).all(|w| (w[0].due, w[0].what) < (w[1].due, w[1].what)));
        for cue in &cues {
            match cue.status {
                CueStatus::Upcoming(left) => prop_assert_eq!(now + left, cue.due),
                CueStatus::Due(since) => prop_assert!(since < DUE_FOR && cue.due + since == now),
                CueStatus::Late(by) => prop_assert!(by >= DUE_FOR && cue.due + by == now),
                CueStatus::Answered { .. } | CueStatus::Lapsed => prop_assert!(false),
            }
        }
        Ok(!cues.is_empty())
    });
}

fn schedule() -> impl Strategy<Value = Schedule> {
    let minutes = || prop::collection::vec(0.1f64..2000.0, 0..4);
    (
        prop::option::of(0.5f64..200.0),
        prop::option::of(5.0f64..200.0),
        minutes(),
        minutes(),
        prop::option::of(1.0f64..2000.0),
    )
        .prop_map(
            |(stir_every_min, reheat_every_min, ph_at_min, strip_at_min, stop_at_min)| Schedule {
                stir_every_min,
                reheat_every_min,
                ph_at_min,
                strip_at_min,
                photo_at_min: Vec::new(),
                stop_at_min,
            },
        )
}
