//! A trial from set-up to result, in a book.

#![allow(clippy::unwrap_used)]

use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

use super::*;
use crate::{
    bath::{Bleach, Bottle, LabelBasis, Powder, PowderBasis},
    chemistry::Residual,
    journal::{
        Batch, BatchStarted, BathStopped, Body, Book, ColourReading, DeviceId, DrynessFrom,
        EntryWriter, NewEntry, ProductUsed, PulpState, StopReason, Subject, Weighed, ulid_at,
    },
    quantity::{Basis, Estimate, grams, share},
};

const PARENT: Ulid = Ulid(7);

fn now() -> Timestamp {
    Timestamp::from_second(1_777_800_000).unwrap()
}

fn after(minutes: f64) -> Timestamp {
    now() + SignedDuration::from_secs_f64(60.0 * minutes)
}

fn trial_bleach(bleach: Bleach, charges: [f64; 3]) -> TrialBleach {
    TrialBleach {
        bleach,
        used: ProductUsed::typed(&bleach),
        charges: charges.to_vec(),
        celsius: vec![38.0],
        minutes: vec![30.0, 60.0],
    }
}

fn setup() -> TrialSetup {
    let bottle = Bleach::Hypochlorite(Bottle::labelled(5.0, LabelBasis::NaoclByMass));
    TrialSetup {
        bleaches: vec![trial_bleach(bottle, [0.01, 0.02, 0.03])],
        pots: 6,
        seed: 3,
        pot: grams(30.0),
        dryness: Estimate { value: 0.2, low: 0.18, high: 0.22, basis: Basis::OwnRecord }.map(share),
        consistency: 0.05,
        apart: 3.0,
        residual: Residual::None,
        expressed_water: None,
    }
}

fn weighed() -> Weighed {
    Weighed {
        wet_mass_g: Estimate::exact(1000.0, Basis::Measured),
        dryness: Estimate { value: 0.2, low: 0.18, high: 0.22, basis: Basis::OwnRecord },
        how: DrynessFrom::OwnFigure,
        sample: None,
    }
}

/// A book under way.
struct Day {
    book: Book,
    writer: EntryWriter,
    made: u128,
}

impl Day {
    fn new() -> Self {
        let writer = EntryWriter::new(DeviceId::new("k7m2").unwrap(), None);
        let mut day = Self { book: Book::default(), writer, made: 0 };
        let started = BatchStarted { fibre: "iris".into(), ..BatchStarted::default() };
        day.write(now(), Subject::Batch(PARENT), Body::BatchStarted(started));
        day
    }

    fn fresh(&mut self) -> Ulid {
        self.made += 1;
        ulid_at(now(), self.made)
    }

    fn write(&mut self, at: Timestamp, about: Subject, body: Body) {
        self.made += 1;
        let entry = self.writer.write(at, self.made, "UTC", about, body).unwrap();
        self.book.add([entry]);
    }

    fn keep(&mut self, draft: &TrialDraft) -> Ulid {
        let parent = self.book.batches[&PARENT].clone();
        let mut made = self.made;
        let fresh = || {
            made += 1;
            ulid_at(now(), made)
        };
        let (trial, entries) =
            draft.entries(&parent, &weighed(), |number| format!("pot {number}"), fresh);
        self.made += 1000;
        let entries: Vec<NewEntry> = entries;
        self.book.add(self.writer.write_all(now(), "UTC", entries).unwrap());
        trial
    }

    fn status(&self, trial: Ulid) -> TrialStatus {
        TrialStatus::of(&self.book, trial).unwrap()
    }

    fn act(&mut self, trial: Ulid, at: Timestamp) -> (u32, PotAct) {
        let status = self.status(trial);
        let next = status.next_act(at).unwrap();
        let pot = &status.pots[next.pot];
        let about = Subject::Batch(pot.batch);
        match next.act {
            PotAct::Start => {
                let bath = self.fresh();
                let started = status.started(next.pot, bath).unwrap();
                self.write(at, about, Body::BathStarted(started));
            }
            PotAct::Stop => {
                let PotStage::Running { bath, .. } = pot.stage else { panic!("{pot:?}") };
                let why = StopReason::TimeUp;
                self.write(
                    at,
                    about,
                    Body::BathStopped(BathStopped { bath, why, note: String::new() }),
                );
            }
        }
        (pot.number, next.act)
    }
}

fn reading(l: f64) -> ColourReading {
    let exact = |value| Estimate::exact(value, Basis::Measured);
    ColourReading {
        photo: None,
        bath: None,
        pulp: PulpState::Dried,
        lightness: Estimate { value: l, low: l - 0.5, high: l + 0.5, basis: Basis::Measured },
        a: exact(1.0),
        b: exact(12.0),
        yellowness: None,
        blue_index: None,
        reference: "meter".into(),
        patches: Vec::new(),
        measures: Default::default(),
        remarks: Vec::new(),
        ageing: None,
        earlier: None,
        light: None,
        camera: None,
    }
}

#[test]
fn a_draft_plans_doses_and_staggers_every_pot() {
    let draft = TrialDraft::new(&setup()).unwrap();
    assert_eq!(draft.pots.len(), 6);
    assert_eq!(draft.doses.pots.len(), 6);
    // 30 g of pulp at 20 %: 1 % of 6 g is 0.06 g of chlorine, 1.2 mL: from a stock solution.
    assert_eq!(draft.doses.stocks.len(), 1);
    let [chlorine, peroxide] = draft.active();
    assert!((chlorine - 2.0 * (0.06 + 0.12 + 0.18)).abs() < 0.02 && peroxide == 0.0, "{chlorine}");
    assert!(draft.pots.iter().all(|pot| pot.record.schedule.stir_every_min.is_none()));
    assert!(draft.minutes() >= 60.0);
    // Cautions once.
    let mut ids: Vec<_> = draft.cautions.iter().map(|caution| caution.id).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all);
}

#[test]
fn what_cannot_be_made_is_refused_with_a_message() {
    let refused = |setup: TrialSetup| TrialDraft::new(&setup).unwrap_err().message().key;
    assert_eq!(refused(TrialSetup { bleaches: vec![], ..setup() }), "refusal-trial_no_bleach");
    assert_eq!(refused(TrialSetup { pots: 3, ..setup() }), "refusal-trial_pots");
    assert_eq!(refused(TrialSetup { pot: grams(0.5), ..setup() }), "refusal-trial_too_small");
    let mut hot = setup();
    hot.bleaches[0].celsius = vec![80.0];
    assert!(TrialDraft::new(&hot).is_err(), "a dangerous pot is no trial");
    let left = TrialSetup { residual: Residual::Peroxide, ..setup() };
    assert!(TrialDraft::new(&left).is_err());
}

#[test]
fn two_bleaches_share_the_pots_evenly() {
    let powder = Bleach::Percarbonate(Powder::labelled(share(0.3), PowderBasis::Peroxide));
    let mut two = TrialSetup { pots: 8, ..setup() };
    two.bleaches
        .push(TrialBleach { celsius: vec![45.0], ..trial_bleach(powder, [0.01, 0.02, 0.03]) });
    let draft = TrialDraft::new(&two).unwrap();
    assert_eq!(draft.pots.iter().filter(|pot| pot.of_bleach == 1).count(), 4);
}

#[test]
fn a_trial_is_run_through_its_next_acts_and_read() {
    let mut day = Day::new();
    let draft = TrialDraft::new(&setup()).unwrap();
    let trial = day.keep(&draft);
    let status = day.status(trial);
    assert_eq!(status.pots.len(), 6);
    assert_eq!(status.doses.as_ref().unwrap(), &draft.doses, "the record gives the same doses");
    assert!(!status.has_started() && !status.is_over());
    assert_eq!(day.book.trials_of(PARENT).len(), 1);
    let pot = status.pots[2].batch;
    assert_eq!(day.book.trial_of_pot(pot).unwrap().1, status.pots[2].number);

    // Every act at its time, the second pot two minutes late.
    let first = status.next_act(now()).unwrap();
    assert_eq!((first.pot, first.act, first.due), (0, PotAct::Start, None));
    day.act(trial, now());
    let second = day.status(trial).next_act(after(1.0)).unwrap();
    assert_eq!((second.act, second.due), (PotAct::Start, Some(after(3.0))));
    day.act(trial, after(5.0));
    let third = day.status(trial).next_act(after(5.0)).unwrap();
    assert_eq!(third.due, Some(after(8.0)), "a late start moves those after it");
    let mut acts = vec![];
    while let Some(next) = day.status(trial).next_act(after(8.0)) {
        let at = next.due.unwrap();
        acts.push((at, day.act(trial, at)));
    }
    assert_eq!(acts.len(), 10);
    assert!(acts.windows(2).all(|pair| pair[1].0 > pair[0].0));
    assert!(day.status(trial).is_over());

    // L* by charge and time.
    let status = day.status(trial);
    for pot in &status.pots {
        let l = 70.0 + 400.0 * pot.record.charge.value + 0.05 * pot.record.minutes;
        let about = Subject::Batch(pot.batch);
        day.write(after(200.0), about, Body::ColourReading(Box::new(reading(l))));
    }
    let result = TrialResult::of(&day.book, &day.status(trial));
    assert_eq!(result.pulp, PulpState::Dried);
    let response = result.response.unwrap();
    let (effect, low, high) = response.effect(1).unwrap();
    assert!(low < 8.0 && 8.0 < high && (effect - 8.0).abs() < 0.3, "{effect}");
    let best = &result.pots[result.best.unwrap()];
    assert!((best.charge - 0.03).abs() < 1e-3 && (best.minutes - 60.0).abs() < 0.1);
}

#[test]
fn a_stop_that_is_overdue_comes_before_a_start() {
    let mut day = Day::new();
    let trial = day.keep(&TrialDraft::new(&setup()).unwrap());
    day.act(trial, now());
    let (number, act) = day.act(trial, after(300.0));
    assert_eq!((number, act), (1, PotAct::Stop));
}

#[test]
fn withdrawing_the_trial_leaves_the_pots_as_batches() {
    let mut day = Day::new();
    let trial = day.keep(&TrialDraft::new(&setup()).unwrap());
    let entry = day.book.entries().find(|e| matches!(e.body, Body::TrialDesigned(_))).unwrap().id;
    let withdrawn = crate::journal::Withdrawn { entry, why: String::new() };
    day.write(after(1.0), Subject::Batch(PARENT), Body::Withdrawn(withdrawn));
    assert!(TrialStatus::of(&day.book, trial).is_none());
    assert_eq!(day.book.batches.len(), 7);
    let _: &Batch = &day.book.batches[&PARENT];
}
