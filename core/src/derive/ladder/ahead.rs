//! How many rinses are still ahead, from the last readings and the rinses since.
//! Not here: the calculation of a wash, which is `pulp::wash`.

use crate::chemistry::water::TAP_CELSIUS;
use crate::derive::wash_record::{ph, strip};
use crate::derive::{WashRecord, wash_efficiency};
use crate::journal::{Active, Batch, Body, Book, PlanRecord, ReadingOf, TimelineEntry};
use crate::pulp::wash::{
    Efficiency, OwnTargets, PulpLiquor, RinsePlan, RinseTiming, TapWater, Targets, Wash,
    WashReadings,
};
use crate::quantity::{Basis, Estimate, MassConcentration, Volume, grams_per_litre, millilitres};

/// The rinses that are still needed, as predicted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RinsesAhead {
    /// `None` where the pulp was not weighed, nothing is known of its liquor, or no number of
    /// rinses is enough.
    pub count: Option<u32>,
    /// The most by the ranges of the readings; `None` above the limit of a plan.
    pub most: Option<u32>,
    /// Water for each.
    pub each: Option<Volume>,
    /// The bath was not read: it counts as fresh as it was planned.
    pub assumed: bool,
}

/// What a bucket holds that nobody told of: 10 L (common practice, no source).
const BUCKET_ML: f64 = 10_000.0;

/// The highest washing exponent that `pulp::wash` accepts.
const MOST_EFFICIENT: f64 = 2.0;

impl RinsesAhead {
    /// `since` are the visible entries from the start of the bath.
    pub(super) fn of(
        book: &Book,
        batch: &Batch,
        since: &[&TimelineEntry],
        record: &WashRecord,
    ) -> Self {
        let plan = plan_of_bath(batch);
        let last = since.iter().rev().find_map(|entry| match &entry.body {
            Body::Rinsed(rinse) => Some(millilitres(rinse.water_l.value * 1000.0)),
            _ => None,
        });
        // The water of the last rinse stands, also where no number can be predicted.
        let Some(job) = Job::new(book, record, plan, since) else {
            return Self { each: last, ..Self::default() };
        };
        let planned = match last {
            Some(each) => job.wash.rinses_of(each),
            None => job.wash.least_water(millilitres(BUCKET_ML)),
        };
        let fallback = Self { each: last, assumed: job.assumed, ..Self::default() };
        planned.map_or(fallback, |RinsePlan { rinses, most, each, .. }| Self {
            count: Some(rinses),
            most,
            each: Some(each),
            assumed: job.assumed,
        })
    }
}

/// The wash from here on.
struct Job {
    wash: Wash,
    assumed: bool,
}

impl Job {
    /// `None` while the pulp or the liquor is unknown.
    fn new(
        book: &Book,
        record: &WashRecord,
        plan: Option<&PlanRecord>,
        since: &[&TimelineEntry],
    ) -> Option<Self> {
        let pulp = record.pulp?;
        let (start_oxidant, start_ph) = (fresh_oxidant(plan), plan.and_then(|plan| plan.ph));
        let mut readings = record.readings;
        let read = last_read(since);
        let assumed = !read.oxidant && start_oxidant.is_some();
        if readings.oxidant.is_none() && !read.spent {
            readings.oxidant = start_oxidant;
        }
        readings.ph = readings.ph.or_else(|| start_ph.map(ph));
        let mut efficiency =
            wash_efficiency(book, TAP_CELSIUS).unwrap_or_else(|_| Efficiency::assumed());
        // Few pairs that disagree have a range beyond what a wash accepts.
        efficiency.exponent.high = efficiency.exponent.high.min(MOST_EFFICIENT);
        let timing = RinseTiming::default();
        let own = OwnTargets::default();
        let wash = readings.wash(pulp, own, efficiency, timing, TAP_CELSIUS).ok()?;
        let start = WashReadings { oxidant: start_oxidant, ph: start_ph.map(ph), ..readings };
        let liquor = liquor_now(&wash, &start, since)?;
        let known = liquor.oxidant.is_some() || liquor.alkali.is_some();
        // A target is only for what is known.
        let targets = Targets {
            oxidant: wash.targets.oxidant.filter(|_| liquor.oxidant.is_some()),
            alkali: wash.targets.alkali.filter(|_| liquor.alkali.is_some()),
            ..Targets::default()
        };
        known.then_some(Self { wash: Wash { liquor, targets, ..wash }, assumed })
    }
}

/// Whether the oxidant was read since the bath began, and whether an antichlor has since made
/// every reading void.
struct LastRead {
    oxidant: bool,
    spent: bool,
}

fn last_read(since: &[&TimelineEntry]) -> LastRead {
    let mut read = LastRead { oxidant: false, spent: false };
    for entry in since {
        let strip = match &entry.body {
            Body::Reading(reading) => match reading.what {
                ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => reading.figure,
                _ => None,
            },
            Body::Rinsed(rinse) => rinse.strip_mg_per_l,
            Body::EndTest(test) => test.figure,
            Body::Antichlored(done) => {
                read.spent = true;
                done.strip_mg_per_l
            }
            _ => None,
        };
        read.oxidant |= strip.is_some();
    }
    read
}

/// The liquor in the pulp now: each rinse since a reading thins it by the wash's own law, and
/// each reading replaces what was predicted. `None` where the law has no answer.
fn liquor_now(wash: &Wash, start: &WashReadings, since: &[&TimelineEntry]) -> Option<PulpLiquor> {
    let alkali = |figure| {
        let strength = start.alkali.strength_range(ph(figure), TAP_CELSIUS);
        strength.ok()
    };
    let mut liquor = PulpLiquor {
        oxidant: start.oxidant,
        alkali: start.ph.and_then(|read| start.alkali.strength_range(read, TAP_CELSIUS).ok()),
        ..PulpLiquor::default()
    };
    for entry in since {
        let (read_ph, read_strip) = match &entry.body {
            Body::Reading(reading) => match reading.what {
                ReadingOf::Ph => (reading.figure, None),
                ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                    (None, reading.figure)
                }
                _ => continue,
            },
            Body::Rinsed(rinse) => {
                liquor = rinsed(wash, liquor, rinse.water_l.value)?;
                (rinse.ph, rinse.strip_mg_per_l)
            }
            Body::Antichlored(done) => {
                liquor.oxidant = None;
                (None, done.strip_mg_per_l)
            }
            Body::AcidFinished(done) => {
                liquor.alkali = None;
                (done.ph_after, None)
            }
            Body::EndTest(test) => match test.test {
                crate::journal::EndTestOf::LastRinsePh => (test.figure, None),
                crate::journal::EndTestOf::ChlorineStrip
                | crate::journal::EndTestOf::PeroxideStrip => (None, test.figure),
                _ => continue,
            },
            _ => continue,
        };
        liquor.alkali = read_ph.and_then(alkali).or(liquor.alkali);
        liquor.oxidant = read_strip.map(strip).or(liquor.oxidant);
    }
    Some(liquor)
}

/// The liquor after one more rinse.
fn rinsed(wash: &Wash, liquor: PulpLiquor, litres: f64) -> Option<PulpLiquor> {
    let tap = TapWater { salt: None, organics: None, ..wash.tap };
    Wash { liquor, tap, ..*wash }.after(1, millilitres(litres * 1000.0)).ok()
}

/// The oxidant of the bath as planned, as if none were used up: the worse case.
fn fresh_oxidant(plan: Option<&PlanRecord>) -> Option<Estimate<MassConcentration>> {
    let plan = plan?;
    matches!(plan.counted_as, Active::AvailableChlorine | Active::HydrogenPeroxide).then(|| {
        let strength = plan.liquor_strength_g_per_l.map(grams_per_litre);
        Estimate { basis: Basis::Assumed, ..strength }
    })
}

/// The plan that the last bath followed.
pub fn plan_of_bath(batch: &Batch) -> Option<&PlanRecord> {
    let plan = batch.baths.last()?.plan?;
    batch.timeline.iter().find(|entry| entry.entry.id == plan).and_then(|entry| {
        let Body::Planned(record) = &entry.body else { return None };
        Some(&**record)
    })
}
