//! What several screens show of a batch: its name, last pH and last colour.

use bleachfield_core::{
    colour::space::Lab,
    journal::{Batch, Body, EndTestOf, Figure, ReadingOf},
};

use crate::i18n::t;

/// Its name, else its fibre, else "nameless".
pub fn batch_name(batch: &Batch) -> String {
    [&batch.name, &batch.fibre]
        .into_iter()
        .find(|name| !name.trim().is_empty())
        .cloned()
        .unwrap_or_else(|| t!("batches-nameless"))
}

/// The last pH of the pulp's own liquor, from any kind of entry.
pub fn latest_ph(batch: &Batch) -> Option<Figure> {
    batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Reading(r) if r.what == ReadingOf::Ph => r.figure,
        Body::Rinsed(r) => r.ph,
        Body::EndTest(t) if t.test == EndTestOf::LastRinsePh => t.figure,
        Body::AcidFinished(a) => a.ph_after,
        _ => None,
    })
}

/// The last measured colour.
pub fn latest_colour(batch: &Batch) -> Option<Lab> {
    batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::ColourReading(c) => Some(c.lab()),
        _ => None,
    })
}
