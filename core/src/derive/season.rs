//! A season's baths together: what went in against what came of it, and what a kilogram took.
//! Not here: batches side by side, which is `comparison`. Pots of trials have their own page.

use std::collections::BTreeMap;

use strum::{IntoStaticStr, VariantArray};
use ulid::Ulid;

use super::batch_result::{BatchResult, last_plan};
use super::find::folded_name;
use crate::journal::{Amount, Batch, Body, Book, PlanRecord};
use crate::message::Value;
use crate::quantity::{grams, millilitres};

/// A batch whose bath is over.
#[derive(Clone, Debug, PartialEq)]
pub struct SeasonBatch {
    pub batch: Ulid,
    pub fibre: String,
    /// Active substance on dry fibre, as a share, of the last bath's plan.
    pub charge: Option<f64>,
    /// Minutes of the last bath.
    pub minutes: f64,
    /// Planned temperature of the last bath, °C.
    pub celsius: Option<f64>,
    /// Difference of L*, last less first reading.
    pub lightness_gained: Option<f64>,
    /// Stored over fibre before the first bath, as a share.
    pub kept: Option<f64>,
    pub per_kg: PerKilogram,
}

/// What a kilogram of dry pulp took: of the stored pulp where it was weighed, else of the fibre
/// before the bath.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PerKilogram {
    /// Active substance of all baths by their plans, g.
    pub active_g: Option<f64>,
    /// Water of baths and rinses, L.
    pub water_l: Option<f64>,
    /// In the person's own money; of what has a price.
    pub cost: Option<f64>,
}

/// What batches are put together by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr, VariantArray)]
#[strum(serialize_all = "snake_case")]
pub enum SeasonBy {
    Charge,
    Time,
    Temperature,
    Fibre,
}

/// What came of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr, VariantArray)]
#[strum(serialize_all = "snake_case")]
pub enum SeasonResult {
    LightnessGained,
    Kept,
}

/// Batches that are alike in one respect.
#[derive(Clone, Debug, PartialEq)]
pub struct SeasonMark {
    /// Of the group: its middle, or the fibre.
    pub group: Value,
    /// Place on the axis; of a fibre its number in order.
    pub place: f64,
    /// The batches behind it; never 0.
    pub count: usize,
    pub mean: f64,
    pub lowest: f64,
    pub highest: f64,
}

/// Widths of the groups (own choice: about what a kitchen scale, clock and thermometer can
/// repeat).
const CHARGE_STEP: f64 = 0.005;
const MINUTES_STEP: f64 = 30.0;
const CELSIUS_STEP: f64 = 5.0;

/// The batches whose last bath was stopped, in the order of their ids.
pub fn season(book: &Book) -> Vec<SeasonBatch> {
    let pots: Vec<Ulid> =
        book.trials.values().flat_map(|trial| trial.pots.iter().map(|pot| pot.batch)).collect();
    let batches = book.batches.values().filter(|batch| !pots.contains(&batch.id));
    batches.filter_map(|batch| SeasonBatch::of(book, batch)).collect()
}

impl SeasonBatch {
    fn of(book: &Book, batch: &Batch) -> Option<Self> {
        let bath = batch.baths.last()?;
        let stopped = bath.stopped?;
        let plan = last_plan(batch);
        let result = BatchResult::of(book, batch);
        Some(Self {
            batch: batch.id,
            fibre: batch.fibre.trim().to_owned(),
            charge: plan.map(|plan| plan.charge.value),
            minutes: bath.elapsed(stopped.at).as_secs_f64() / 60.0,
            celsius: plan.map(|plan| plan.celsius),
            lightness_gained: Option::zip(result.lightness_first, result.lightness_last)
                .map(|(first, last)| last - first),
            kept: result.bleach_yield,
            per_kg: per_kilogram(batch, &result),
        })
    }

    fn result(&self, of: SeasonResult) -> Option<f64> {
        match of {
            SeasonResult::LightnessGained => self.lightness_gained,
            SeasonResult::Kept => self.kept,
        }
    }

    /// Its group: a number for the order, and the middle of the group or the fibre.
    fn group(&self, by: SeasonBy) -> Option<(GroupKey, Value)> {
        let step = |value: f64, step: f64| {
            let nth = (value / step).round();
            (GroupKey::Nth(nth as i64), nth * step)
        };
        Some(match by {
            SeasonBy::Charge => {
                let (key, middle) = step(self.charge?, CHARGE_STEP);
                (key, Value::Share(middle))
            }
            SeasonBy::Time => {
                let (key, middle) = step(self.minutes, MINUTES_STEP);
                (key, Value::Minutes(middle))
            }
            SeasonBy::Temperature => {
                let (key, middle) = step(self.celsius?, CELSIUS_STEP);
                (key, Value::Celsius(middle))
            }
            SeasonBy::Fibre => {
                let name = folded_name(&self.fibre);
                if name.is_empty() {
                    return None;
                }
                (GroupKey::Name(name), Value::Text(self.fibre.clone()))
            }
        })
    }
}

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum GroupKey {
    Nth(i64),
    Name(String),
}

/// The groups in order, each with the batches of which both are known.
pub fn marks(batches: &[SeasonBatch], by: SeasonBy, of: SeasonResult) -> Vec<SeasonMark> {
    let mut groups: BTreeMap<GroupKey, (Value, Vec<f64>)> = BTreeMap::new();
    for batch in batches {
        if let (Some((key, group)), Some(result)) = (batch.group(by), batch.result(of)) {
            groups.entry(key).or_insert_with(|| (group, Vec::new())).1.push(result);
        }
    }
    let mark = |(nth, (group, results)): (usize, (Value, Vec<f64>))| SeasonMark {
        place: match &group {
            Value::Share(middle) | Value::Minutes(middle) | Value::Celsius(middle) => *middle,
            _ => nth as f64,
        },
        group,
        count: results.len(),
        mean: results.iter().sum::<f64>() / results.len() as f64,
        lowest: results.iter().copied().fold(f64::INFINITY, f64::min),
        highest: results.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    };
    groups.into_values().enumerate().map(mark).collect()
}

fn per_kilogram(batch: &Batch, result: &BatchResult) -> PerKilogram {
    let kg = result.dry_after_g.or(result.dry_before_g).filter(|g| *g > 0.0).map(|g| g / 1000.0);
    let Some(kg) = kg else { return PerKilogram::default() };
    let plans = batch.baths.iter().map(|bath| {
        let id = bath.plan?;
        batch.visible_entries().find_map(|entry| match &entry.body {
            Body::Planned(plan) if entry.entry.id == id => Some(&**plan),
            _ => None,
        })
    });
    // Not known unless every bath had a plan.
    let active: Option<f64> = plans
        .map(|plan: Option<&PlanRecord>| plan.map(|p| p.charge.value * p.dry_fibre_g.value))
        .sum();
    let bath_water: Option<f64> = batch
        .visible_entries()
        .filter_map(|entry| match &entry.body {
            Body::BathStarted(started) => Some(started.water_added_ml.map(|ml| ml.value / 1000.0)),
            Body::Added(added) if added.what == crate::journal::Additive::Water => {
                Some(match added.amount {
                    Amount::VolumeMl(ml) => Some(ml.value / 1000.0),
                    Amount::MassG(g) => Some(g.value / 1000.0),
                })
            }
            _ => None,
        })
        .sum();
    let rinses: f64 = batch.rinses.iter().map(|rinse| rinse.water_l.value).sum();
    PerKilogram {
        active_g: active.map(|g| g / kg),
        water_l: bath_water.map(|litres| (litres + rinses) / kg),
        cost: result.cost.map(|cost| cost.known / kg),
    }
}

/// Means over the batches of which each is known, with how many those are.
pub fn mean_per_kilogram(batches: &[SeasonBatch]) -> [(Option<Value>, usize); 3] {
    let mean = |of: fn(&PerKilogram) -> Option<f64>, value: fn(f64) -> Value| {
        let known: Vec<f64> = batches.iter().filter_map(|batch| of(&batch.per_kg)).collect();
        let mean = known.iter().sum::<f64>() / known.len() as f64;
        (mean.is_finite().then(|| value(mean)), known.len())
    };
    [
        mean(|per| per.active_g, |g| Value::Mass(grams(g))),
        mean(|per| per.water_l, |litres| Value::Volume(millilitres(litres * 1000.0))),
        mean(|per| per.cost, Value::Number),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn batch(fibre: &str, charge: f64, gained: Option<f64>) -> SeasonBatch {
        SeasonBatch {
            batch: Ulid(1),
            fibre: fibre.into(),
            charge: Some(charge),
            minutes: 61.0,
            celsius: None,
            lightness_gained: gained,
            kept: None,
            per_kg: PerKilogram { active_g: gained, water_l: None, cost: None },
        }
    }

    #[test]
    fn like_batches_are_one_mark_with_their_number() {
        let all = [
            batch("Iris", 0.0199, Some(12.0)),
            batch("iris ", 0.0201, Some(16.0)),
            batch("flax", 0.04, Some(20.0)),
            batch("flax", 0.04, None),
        ];
        let gained = SeasonResult::LightnessGained;
        let by_charge = marks(&all, SeasonBy::Charge, gained);
        assert_eq!(by_charge.len(), 2);
        let first = &by_charge[0];
        assert_eq!((first.count, first.mean, first.lowest, first.highest), (2, 14.0, 12.0, 16.0));
        assert!((first.place - 0.02).abs() < 1e-12);
        // What is not known counts for nothing.
        assert_eq!(by_charge[1].count, 1);
        let by_fibre = marks(&all, SeasonBy::Fibre, gained);
        let names: Vec<&Value> = by_fibre.iter().map(|mark| &mark.group).collect();
        assert_eq!(names, [&Value::Text("flax".into()), &Value::Text("Iris".into())]);
        assert!(marks(&all, SeasonBy::Temperature, gained).is_empty());
        assert_eq!(marks(&all, SeasonBy::Time, gained)[0].group, Value::Minutes(60.0));
        assert!(marks(&all, SeasonBy::Charge, SeasonResult::Kept).is_empty());
    }

    #[test]
    fn means_say_how_many_are_behind_them() {
        let all =
            [batch("a", 0.02, Some(10.0)), batch("a", 0.02, Some(30.0)), batch("b", 0.02, None)];
        let [active, water, _] = mean_per_kilogram(&all);
        assert_eq!(active, (Some(Value::Mass(grams(20.0))), 2));
        assert_eq!(water, (None, 0));
    }
}
