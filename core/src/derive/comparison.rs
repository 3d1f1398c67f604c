//! Batches side by side: the facts of each, and which of them differ.
//! Not here: their readings over time, which are `run_of_batch`.

use jiff::Timestamp;
use strum::{EnumString, IntoStaticStr, VariantArray};

use super::batch_result::{BatchResult, Cost, last_plan};
use super::proof::Proof;
use super::run_of_batch::{RunOfBatch, RunQuantity, RunTime};
use crate::journal::{Alkali, Antichlor, Batch, BatchState, Body, Book, Oxidant, PlanRecord};
use crate::message::Value;
use crate::quantity::{
    grams, grams_per_litre, in_grams, in_grams_per_litre, in_millilitres, millilitres,
};

/// A fact that batches are compared by, in the order of the job.
#[derive(
    Clone,
    Copy,
    Debug,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    EnumString,
    IntoStaticStr,
    VariantArray,
)]
#[strum(serialize_all = "snake_case")]
pub enum ComparedFact {
    Fibre,
    CookAlkali,
    CookTime,
    CookYield,
    DryFibre,
    Oxidant,
    Product,
    BleachAmount,
    Charge,
    Consistency,
    PlannedTemperature,
    PlannedTime,
    PredictedPh,
    TimeInBath,
    FirstTemperature,
    LastTemperature,
    FirstPh,
    LastPh,
    LastStrip,
    Rinses,
    RinseWater,
    Antichlor,
    LightnessBefore,
    LightnessAfter,
    LightnessGained,
    YellownessAfter,
    BleachYield,
    Proof,
    Cost,
}

impl ComparedFact {
    pub const ALL: &'static [Self] = Self::VARIANTS;

    pub fn key(self) -> &'static str {
        self.into()
    }

    pub fn group(self) -> FactGroup {
        match self {
            fact if fact <= Self::DryFibre => FactGroup::Pulp,
            fact if fact <= Self::PredictedPh => FactGroup::Plan,
            fact if fact <= Self::LastStrip => FactGroup::Bath,
            fact if fact <= Self::Antichlor => FactGroup::Wash,
            _ => FactGroup::Result,
        }
    }
}

/// A part of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum FactGroup {
    Pulp,
    Plan,
    Bath,
    Wash,
    Result,
}

/// The value of a fact.
#[derive(Clone, Debug, PartialEq)]
pub enum FactValue {
    Value(Value),
    Oxidant(Oxidant),
    Alkali(Alkali),
    Antichlor(Antichlor),
    Proof(Proof),
    Cost(Cost),
}

/// One fact of all compared batches, in their order; `None` where it is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparedLine {
    pub fact: ComparedFact,
    pub values: Vec<Option<FactValue>>,
}

impl ComparedLine {
    /// Whether any two batches differ in it, as far as three figures show. What is known of one
    /// batch and not of another differs.
    pub fn differs(&self) -> bool {
        self.values.windows(2).any(|pair| !is_same(pair[0].as_ref(), pair[1].as_ref()))
    }
}

/// All facts that are known of at least one of the batches.
pub fn compare(book: &Book, batches: &[&Batch], now: Timestamp) -> Vec<ComparedLine> {
    let sources: Vec<Source<'_>> = batches.iter().map(|b| Source::of(book, b, now)).collect();
    let line = |fact: &ComparedFact| ComparedLine {
        fact: *fact,
        values: sources.iter().map(|source| source.value(*fact)).collect(),
    };
    let lines = ComparedFact::ALL.iter().map(line);
    lines.filter(|line| line.values.iter().any(Option::is_some)).collect()
}

struct Source<'a> {
    batch: &'a Batch,
    plan: Option<&'a PlanRecord>,
    result: BatchResult,
    run: RunOfBatch,
    minutes: Option<f64>,
}

impl<'a> Source<'a> {
    fn of(book: &Book, batch: &'a Batch, now: Timestamp) -> Self {
        let run = RunOfBatch::of(batch, now);
        Self {
            batch,
            plan: last_plan(batch),
            result: BatchResult::of(book, batch),
            minutes: (!batch.baths.is_empty()).then_some(run.minutes),
            run,
        }
    }

    fn value(&self, fact: ComparedFact) -> Option<FactValue> {
        use ComparedFact as F;
        let is_bleached = !self.batch.baths.is_empty();
        let value = match fact {
            F::Oxidant => {
                let of_bath = self.batch.baths.last().map(|bath| bath.oxidant);
                let oxidant = of_bath.or(self.plan.map(|plan| plan.oxidant))?;
                return Some(FactValue::Oxidant(oxidant));
            }
            F::CookAlkali => return self.batch.cook.as_ref()?.alkali.map(FactValue::Alkali),
            F::Antichlor => return self.antichlor().map(FactValue::Antichlor),
            F::Proof => {
                let shown = is_bleached && self.batch.state != BatchState::Running;
                return shown.then(|| FactValue::Proof(Proof::of(self.batch)));
            }
            F::Cost => return self.result.cost.map(FactValue::Cost),
            F::Fibre => text(&self.batch.fibre)?,
            F::CookTime => Value::Minutes(self.batch.cook.as_ref()?.hours?.value * 60.0),
            F::CookYield => Value::Share(self.result.cook_yield?),
            F::DryFibre => Value::Mass(grams(self.result.dry_before_g?)),
            F::Product => text(&self.plan?.product.name)?,
            F::BleachAmount => self.bleach_amount()?,
            F::Charge => Value::Share(self.plan?.charge.value),
            F::Consistency => Value::Share(self.plan?.consistency.value),
            F::PlannedTemperature => Value::Celsius(self.plan?.celsius),
            F::PlannedTime => Value::Minutes(self.plan?.minutes),
            F::PredictedPh => Value::Ph(self.plan?.ph?.value),
            F::TimeInBath => Value::Minutes(self.minutes?.round()),
            F::FirstTemperature => Value::Celsius(self.in_bath(RunQuantity::Temperature).next()?),
            F::LastTemperature => Value::Celsius(self.second_or_later(RunQuantity::Temperature)?),
            F::FirstPh => Value::Ph(self.in_bath(RunQuantity::Ph).next()?),
            F::LastPh => Value::Ph(self.second_or_later(RunQuantity::Ph)?),
            F::LastStrip => {
                let mg_per_l = self.in_bath(RunQuantity::Strip).last()?;
                Value::Concentration(grams_per_litre(mg_per_l / 1000.0))
            }
            F::Rinses => {
                let rinses = self.batch.rinses.len();
                Value::Count((is_bleached || rinses > 0).then_some(rinses as u64)?)
            }
            F::RinseWater => Value::Volume(millilitres(1000.0 * self.rinse_litres()?)),
            F::LightnessBefore => Value::Number(self.result.lightness_first?),
            F::LightnessAfter => Value::Number(self.result.lightness_last?),
            F::LightnessGained => {
                Value::Number(self.result.lightness_last? - self.result.lightness_first?)
            }
            F::YellownessAfter => {
                Value::Number(self.run.of_quantity(RunQuantity::Yellowness).last()?.figure.value)
            }
            F::BleachYield => Value::Share(self.result.bleach_yield?),
        };
        Some(FactValue::Value(value))
    }

    /// Readings while a bath ran.
    fn in_bath(&self, of: RunQuantity) -> impl Iterator<Item = f64> {
        let in_bath = |time: RunTime| matches!(time, RunTime::InBleach(_));
        self.run.of_quantity(of).filter(move |r| in_bath(r.time)).map(|r| r.figure.value)
    }

    fn second_or_later(&self, of: RunQuantity) -> Option<f64> {
        self.in_bath(of).skip(1).last()
    }

    /// What went in at the start of the last bath; before one, what is planned.
    fn bleach_amount(&self) -> Option<Value> {
        let started = self.batch.visible_entries().rev().find_map(|entry| match &entry.body {
            Body::BathStarted(started) => Some(started.product_amount),
            _ => None,
        });
        started.flatten().or(self.plan.map(|plan| plan.product_amount)).map(Value::from)
    }

    fn rinse_litres(&self) -> Option<f64> {
        let litres = self.batch.rinses.iter().map(|rinse| rinse.water_l.value);
        (!self.batch.rinses.is_empty()).then(|| litres.sum())
    }

    fn antichlor(&self) -> Option<Antichlor> {
        self.batch.visible_entries().rev().find_map(|entry| match &entry.body {
            Body::Antichlored(antichlored) => Some(antichlored.reagent),
            _ => None,
        })
    }
}

fn text(text: &str) -> Option<Value> {
    let text = text.trim();
    (!text.is_empty()).then(|| Value::Text(text.to_owned()))
}

fn is_same(one: Option<&FactValue>, other: Option<&FactValue>) -> bool {
    match (one, other) {
        (Some(FactValue::Value(one)), Some(FactValue::Value(other))) => {
            match (number(one), number(other)) {
                (Some(one), Some(other)) => is_close(one, other),
                _ => one == other,
            }
        }
        (Some(FactValue::Cost(one)), Some(FactValue::Cost(other))) => {
            is_close(one.known, other.known) && one.is_complete == other.is_complete
        }
        (one, other) => one == other,
    }
}

/// Half of the last of three figures.
fn is_close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 5e-3 * one.abs().max(other.abs())
}

/// `None` for a text. A pH is shown with one place.
fn number(value: &Value) -> Option<f64> {
    Some(match value {
        Value::Mass(mass) => in_grams(*mass),
        Value::Volume(volume) => in_millilitres(*volume),
        Value::Concentration(c) => in_grams_per_litre(*c),
        Value::Ph(ph) => (ph * 10.0).round(),
        Value::Share(n) | Value::Celsius(n) | Value::Minutes(n) | Value::Number(n) => *n,
        Value::Count(_) | Value::Density(_) | Value::Days(_) | Value::Text(_) | Value::Word(_) => {
            return None;
        }
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use ulid::Ulid;

    use super::*;
    use crate::derive::sample::{book_of, rinse, weighed};
    use crate::journal::sample::bath_started;
    use crate::journal::{BatchStarted, Subject};

    fn started(id: u128, fibre: &str) -> (Subject, Body) {
        let started = BatchStarted { fibre: fibre.into(), ..BatchStarted::default() };
        (Subject::Batch(Ulid(id)), Body::BatchStarted(started))
    }

    fn about(id: u128, body: Body) -> (Subject, Body) {
        (Subject::Batch(Ulid(id)), body)
    }

    #[test]
    fn what_differs_is_told_from_what_is_equal() {
        let book = book_of([
            started(1, "iris leaf"),
            started(2, " iris leaf"),
            about(1, weighed()),
            about(2, weighed()),
            about(1, Body::BathStarted(bath_started(Ulid(5), Oxidant::Hypochlorite))),
            about(2, Body::BathStarted(bath_started(Ulid(6), Oxidant::Percarbonate))),
            about(1, rinse(5.0, None, None)),
            about(1, rinse(5.0, None, None)),
        ]);
        let batches: Vec<&Batch> = book.batches.values().collect();
        let lines = compare(&book, &batches, batches[0].changed);
        let line = |fact| lines.iter().find(|line| line.fact == fact).unwrap();
        assert!(!line(ComparedFact::Fibre).differs());
        assert!(!line(ComparedFact::DryFibre).differs());
        assert!(line(ComparedFact::Oxidant).differs());
        // Ten litres of rinse water against nothing known.
        assert_eq!(line(ComparedFact::RinseWater).values[1], None);
        assert!(line(ComparedFact::RinseWater).differs());
        assert!(lines.iter().all(|line| line.fact != ComparedFact::Cost));
    }

    #[test]
    fn figures_that_read_the_same_are_the_same() {
        let share = |n: f64| Some(FactValue::Value(Value::Share(n)));
        assert!(is_same(share(0.0200).as_ref(), share(0.02004).as_ref()));
        assert!(!is_same(share(0.020).as_ref(), share(0.021).as_ref()));
        assert!(!is_same(share(0.020).as_ref(), None));
        let ph = |n: f64| Some(FactValue::Value(Value::Ph(n)));
        assert!(is_same(ph(9.98).as_ref(), ph(10.02).as_ref()));
        assert!(!is_same(ph(9.9).as_ref(), ph(10.0).as_ref()));
    }

    #[test]
    fn groups_follow_the_order_of_the_job() {
        let groups: Vec<FactGroup> = ComparedFact::ALL.iter().map(|fact| fact.group()).collect();
        assert!(groups.is_sorted());
        assert_eq!(ComparedFact::PredictedPh.group(), FactGroup::Plan);
        assert_eq!(ComparedFact::LightnessBefore.group(), FactGroup::Result);
    }
}
