//! The plan of the bath that was started last with an oxidant: values for the next one.

use crate::journal::{Body, Book, Oxidant, PlanRecord};

/// The plan of the last started bath with this oxidant, of any batch; `None` if there is none.
pub fn last_started_plan(book: &Book, oxidant: Oxidant) -> Option<&PlanRecord> {
    let baths = book.batches.values().flat_map(|batch| {
        batch.baths.iter().filter(|bath| bath.oxidant == oxidant).map(move |bath| (batch, bath))
    });
    let planned = baths.filter_map(|(batch, bath)| {
        let plan = bath.plan?;
        let record = batch.visible_entries().find_map(|entry| match &entry.body {
            Body::Planned(record) if entry.entry.id == plan => Some(&**record),
            _ => None,
        })?;
        Some((bath.started, record))
    });
    planned.max_by_key(|(started, _)| *started).map(|(_, record)| record)
}
