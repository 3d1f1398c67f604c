//! A plan that was kept for later: whether it still waits, and what changed since it was made.
//! Not here: making a plan, which is `bath::plan`, and its record, which is `plan_record`.

mod change;
#[cfg(test)]
mod tests;

use jiff::Timestamp;
use ulid::Ulid;

use crate::{
    caution::{Residual, Situation},
    journal::{Batch, Body, Book, EndTestOf, Figure, PlanRecord, ReadingOf, TimelineEntry},
    pulp::sign_off::EndTestKind,
};

use super::SignOffEvidence;
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
        let residual = residual(batch, &since);
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

/// The last pH of the water in a batch's pulp, from any kind of entry outside a bath.
pub fn pulp_water_ph(batch: &Batch) -> Option<Figure> {
    batch.visible_entries().rev().find_map(|entry| water_ph(&entry.body))
}

fn water_ph(body: &Body) -> Option<Figure> {
    match body {
        Body::BatchStarted(started) => started.cook.as_ref()?.ph_after_rinse,
        Body::Cooked(cook) => cook.ph_after_rinse,
        Body::Rinsed(rinse) => rinse.ph,
        Body::AcidFinished(acid) => acid.ph_after,
        Body::EndTest(test) if test.test == EndTestOf::LastRinsePh => test.figure,
        Body::Reading(read) if read.what == ReadingOf::Ph && read.bath.is_none() => read.figure,
        _ => None,
    }
}

/// What may be left in the pulp now. Without a passed test after it, each oxidant that was in the
/// batch; an addition that only its note names may be any.
fn residual(batch: &Batch, since: &Since<'_>) -> Residual {
    let unmet = SignOffEvidence::of(batch).unmet_tests();
    let left = |strip| unmet.iter().any(|unmet| unmet.test == strip);
    let unnamed = since.has(change::is_unnamed_addition);
    match (left(EndTestKind::ChlorineStrip), left(EndTestKind::PeroxideStrip)) {
        _ if unnamed => Residual::Unknown,
        (true, true) => Residual::Unknown,
        (true, false) => Residual::Hypochlorite,
        (false, true) => Residual::Peroxide,
        (false, false) => Residual::None,
    }
}
