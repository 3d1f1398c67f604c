//! A plan that was kept for later: whether it still waits, and what changed since it was made.
//! Not here: making a plan, which is `bath::plan`, and its record, which is `plan_record`.

mod change;
#[cfg(test)]
mod tests;

use jiff::Timestamp;
use ulid::Ulid;

use crate::{
    caution::Situation,
    journal::{Batch, Body, Book, EndTestOf, Figure, PlanRecord, ReadingOf, TimelineEntry},
};

use super::oxidant_left;
pub use change::PlanChange;

/// The last plan of a batch, while no bath has followed it.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptPlan {
    /// The entry with the plan.
    pub entry: Ulid,
    pub made: Timestamp,
    pub record: PlanRecord,
    /// What no longer is as it was planned with, the gravest first.
    pub changes: Vec<PlanChange>,
    /// For the cautions of starting it now.
    pub situation: Situation,
}

impl KeptPlan {
    /// The plan of a batch that waits to be started; `None` if there is none, or if a bath was
    /// started or recorded since.
    pub fn of(book: &Book, batch: &Batch, now: Timestamp) -> Option<Self> {
        let (planned, record) = batch.visible_entries().rev().find_map(|entry| {
            let Body::Planned(record) = &entry.body else { return None };
            Some((entry, &**record))
        })?;
        let since = Since::new(book, batch, planned);
        let followed = batch.baths.iter().any(|bath| bath.plan == Some(planned.entry.id));
        if followed || since.has(|body| matches!(body, Body::BathStarted(_))) {
            return None;
        }
        let residual = oxidant_left(batch);
        Some(Self {
            entry: planned.entry.id,
            made: planned.at,
            record: record.clone(),
            changes: change::changes(book, batch, record, &since, residual, now),
            situation: Situation::of_record(record, residual),
        })
    }

    /// Whether it must not be started, however sure the person is.
    pub fn is_stopped(&self) -> bool {
        self.changes.iter().any(PlanChange::stops)
    }
}

/// The visible entries of a batch of which a plan could not know: of events after it, and
/// those written or corrected after it.
struct Since<'a>(Vec<&'a TimelineEntry>);

impl<'a> Since<'a> {
    fn new(book: &Book, batch: &'a Batch, planned: &TimelineEntry) -> Self {
        let made = planned.entry.order();
        let corrected_later = |entry: &TimelineEntry| {
            let by = entry.corrected_by.and_then(|by| book.entry(by));
            by.is_some_and(|by| by.order() > made)
        };
        let entries = batch.visible_entries().filter(|entry| {
            entry.entry.id != planned.entry.id
                && (entry.at > planned.at || entry.entry.order() > made || corrected_later(entry))
        });
        Self(entries.collect())
    }

    fn has(&self, is: impl Fn(&Body) -> bool) -> bool {
        self.0.iter().any(|entry| is(&entry.body))
    }
}

/// What is known of the pH of the water in a batch's pulp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PulpWaterPh {
    NotRead,
    Read(Figure),
    /// Acid was added, and no pH read after it.
    AcidSince,
}

impl PulpWaterPh {
    /// By the last entry outside a bath, of any kind.
    pub fn of(batch: &Batch) -> Self {
        let last = batch.visible_entries().rev().find_map(|entry| Self::by(&entry.body));
        last.unwrap_or(Self::NotRead)
    }

    fn by(body: &Body) -> Option<Self> {
        let read = match body {
            Body::BatchStarted(started) => started.cook.as_ref()?.ph_after_rinse,
            Body::Cooked(cook) => cook.ph_after_rinse,
            Body::Rinsed(rinse) => rinse.ph,
            Body::AcidFinished(acid) => {
                return Some(acid.ph_after.map_or(Self::AcidSince, Self::Read));
            }
            Body::EndTest(test) if test.test == EndTestOf::LastRinsePh => test.figure,
            Body::Reading(read) if read.what == ReadingOf::Ph && read.bath.is_none() => read.figure,
            _ => None,
        };
        read.map(Self::Read)
    }
}
