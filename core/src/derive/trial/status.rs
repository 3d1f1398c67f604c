//! Where each pot of a trial is now, and the one next act.

use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

use crate::{
    bath::BleachAmount,
    journal::{Amount, Batch, BatchState, BathStarted, Body, Book, Figure, PlanRecord, Trial},
    quantity::{Basis, Estimate, grams, in_grams, in_millilitres, millilitres},
    trial::{DoseError, PotDose, PotNeed, SmallDose, TrialDoses, trial_doses},
};

/// A trial as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialStatus {
    pub trial: Trial,
    /// In the order of their starts.
    pub pots: Vec<PotStatus>,
    /// By the plans as they are recorded.
    pub doses: Result<TrialDoses, DoseError>,
}

/// One pot.
#[derive(Clone, Debug, PartialEq)]
pub struct PotStatus {
    pub number: u32,
    pub batch: Ulid,
    /// The entry with its plan.
    pub plan: Ulid,
    pub record: PlanRecord,
    /// Pots of one bleach have one number.
    pub of_bleach: usize,
    pub stage: PotStage,
}

/// Where a pot is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PotStage {
    /// `None` until the first pot has started.
    Waiting {
        due: Option<Timestamp>,
    },
    Running {
        bath: Ulid,
        started: Timestamp,
        due: Timestamp,
    },
    Stopped {
        minutes: f64,
    },
    Abandoned,
}

/// What is done to a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PotAct {
    Start,
    Stop,
}

/// The next act of a trial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialAct {
    /// Place in [`TrialStatus::pots`].
    pub pot: usize,
    pub act: PotAct,
    /// `None` for the very first start.
    pub due: Option<Timestamp>,
}

impl TrialStatus {
    /// `None` if the book has no such trial. Pots without a plan, as in a part of a file, are
    /// left out.
    pub fn of(book: &Book, trial: Ulid) -> Option<Self> {
        let trial = book.trials.get(&trial)?.clone();
        let mut bleaches: Vec<(Option<Ulid>, crate::journal::Oxidant)> = Vec::new();
        let mut pots = Vec::with_capacity(trial.pots.len());
        for pot in &trial.pots {
            let Some((batch, plan, record)) = book
                .batches
                .get(&pot.batch)
                .and_then(|batch| plan_of(batch).map(|(id, plan)| (batch, id, plan)))
            else {
                continue;
            };
            let key = (record.product.shelf, record.oxidant);
            let of_bleach = bleaches.iter().position(|one| *one == key).unwrap_or_else(|| {
                bleaches.push(key);
                bleaches.len() - 1
            });
            let (number, stage) = (pot.number, stage(batch, record));
            let record = record.clone();
            pots.push(PotStatus { number, batch: batch.id, plan, record, of_bleach, stage });
        }
        let mut status =
            Self { trial, pots, doses: Ok(TrialDoses { stocks: vec![], pots: vec![] }) };
        status.set_due();
        let needs: Vec<PotNeed> = status.pots.iter().map(need).collect();
        status.doses = trial_doses(&needs);
        Some(status)
    }

    /// A pot that has not started is due as long after each earlier start as was planned: a late
    /// start moves those after it.
    fn set_due(&mut self) {
        let planned: Vec<f64> = self
            .pots
            .iter()
            .map(|pot| {
                let all = &self.trial.pots;
                all.iter().find(|one| one.batch == pot.batch).map_or(0.0, |one| one.starts_at_min)
            })
            .collect();
        let starts: Vec<(usize, Timestamp)> = self
            .pots
            .iter()
            .enumerate()
            .filter_map(|(nth, pot)| match pot.stage {
                PotStage::Running { started, .. } => Some((nth, started)),
                _ => None,
            })
            .collect();
        for (nth, pot) in self.pots.iter_mut().enumerate() {
            if let PotStage::Waiting { due } = &mut pot.stage {
                *due = starts
                    .iter()
                    .map(|(other, at)| *at + minutes(planned[nth] - planned[*other]))
                    .max();
            }
        }
    }

    /// The next act: a stop that is due before anything else, then what is due first.
    pub fn next_act(&self, now: Timestamp) -> Option<TrialAct> {
        let acts = self.pots.iter().enumerate().filter_map(|(pot, status)| match status.stage {
            PotStage::Waiting { due } => Some(TrialAct { pot, act: PotAct::Start, due }),
            PotStage::Running { due, .. } => {
                Some(TrialAct { pot, act: PotAct::Stop, due: Some(due) })
            }
            _ => None,
        });
        let acts: Vec<TrialAct> = acts.collect();
        let overdue = acts
            .iter()
            .filter(|one| one.act == PotAct::Stop && one.due.is_some_and(|due| due <= now))
            .min_by_key(|one| one.due);
        let next = acts.iter().min_by_key(|one| (one.due, one.pot));
        overdue.or(next).copied()
    }

    pub fn has_started(&self) -> bool {
        self.pots.iter().any(|pot| !matches!(pot.stage, PotStage::Waiting { .. }))
    }

    /// Whether every pot was stopped or abandoned.
    pub fn is_over(&self) -> bool {
        self.pots
            .iter()
            .all(|pot| matches!(pot.stage, PotStage::Stopped { .. } | PotStage::Abandoned))
    }

    /// What goes into a pot; `None` where the doses cannot be measured.
    pub fn dose(&self, pot: usize) -> Option<&PotDose> {
        self.doses.as_ref().ok()?.pots.get(pot)
    }

    /// The entry that starts a pot: with the amounts of the dose table, which nobody measured.
    pub fn started(&self, pot: usize, bath: Ulid) -> Option<BathStarted> {
        let status = self.pots.get(pot)?;
        let dose = self.dose(pot);
        let as_planned = |value: f64, rests_on: Basis| -> Figure {
            Estimate::exact(value, rests_on.max(Basis::Computed))
        };
        let record = &status.record;
        let basis = record.product_amount.figure().basis;
        let amount = dose.map(|dose| match dose.holds {
            BleachAmount::Bottle(volume) => {
                Amount::VolumeMl(as_planned(in_millilitres(volume), basis))
            }
            BleachAmount::Powder(mass) => Amount::MassG(as_planned(in_grams(mass), basis)),
        });
        let water = record.water_to_add_ml;
        Some(BathStarted {
            bath,
            plan: Some(status.plan),
            oxidant: record.oxidant,
            product: record.product.shelf,
            product_amount: amount,
            water_added_ml: Some(as_planned(water.value, water.basis)),
            celsius: None,
            schedule: record.schedule.clone(),
        })
    }
}

/// The last plan of a pot.
fn plan_of(batch: &Batch) -> Option<(Ulid, &PlanRecord)> {
    batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Planned(plan) => Some((entry.entry.id, &**plan)),
        _ => None,
    })
}

fn stage(batch: &Batch, record: &PlanRecord) -> PotStage {
    if batch.state == BatchState::Abandoned {
        return PotStage::Abandoned;
    }
    let Some(bath) = batch.baths.last() else { return PotStage::Waiting { due: None } };
    match bath.stopped {
        Some(stopped) => {
            let ran = stopped.at.duration_since(bath.started).as_secs_f64() / 60.0;
            PotStage::Stopped { minutes: ran.max(0.0) }
        }
        None => {
            let stop = bath.schedule().and_then(|schedule| schedule.stop_at_min);
            let due = bath.started + minutes(stop.unwrap_or(record.minutes));
            PotStage::Running { bath: bath.id, started: bath.started, due }
        }
    }
}

fn minutes(minutes: f64) -> SignedDuration {
    SignedDuration::from_secs_f64((60.0 * minutes).clamp(-1e7, 1e7))
}

fn need(pot: &PotStatus) -> PotNeed {
    let record = &pot.record;
    PotNeed {
        of_bleach: pot.of_bleach,
        dose: match record.product_amount {
            Amount::VolumeMl(ml) => BleachAmount::Bottle(millilitres(ml.value)),
            Amount::MassG(g) => BleachAmount::Powder(grams(g.value)),
        },
        soda_ash: record.soda_ash_g.map(|g| grams(g.value)),
        water: millilitres(record.water_to_add_ml.value),
    }
}

impl PotDose {
    /// Whether something of it comes from a stock solution.
    pub fn needs_stock(&self) -> bool {
        let is_stock = |dose: SmallDose| matches!(dose, SmallDose::Stock(_));
        is_stock(self.bleach) || self.soda_ash.is_some_and(is_stock)
    }
}
