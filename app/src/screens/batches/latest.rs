//! What was last seen of a batch: pH, colour, photo.

use bleachfield_core::{
    colour::{display::DisplayColour, space::Lab},
    journal::{Batch, Body, EndTestOf, Figure, PhotoId, ReadingOf},
};

/// The last pH of the pulp's own liquor, whoever's reading it was.
pub fn ph(batch: &Batch) -> Option<Figure> {
    batch.visible_entries().rev().find_map(|told| match &told.body {
        Body::Reading(r) if r.what == ReadingOf::Ph => r.figure,
        Body::Rinsed(r) => r.ph,
        Body::EndTest(t) if t.test == EndTestOf::LastRinsePh => t.figure,
        Body::AcidFinished(a) => a.ph_after,
        _ => None,
    })
}

/// The last colour measured: as a chip, and its lightness.
pub fn colour(batch: &Batch) -> Option<(DisplayColour, f64)> {
    batch.visible_entries().rev().find_map(|told| match &told.body {
        Body::ColourReading(c) => {
            let lab = Lab { l: c.lightness.value, a: c.a.value, b: c.b.value };
            Some((DisplayColour::new(lab), lab.l))
        }
        _ => None,
    })
}

/// The last photo.
pub fn photo(batch: &Batch) -> Option<PhotoId> {
    batch.photos.last().cloned()
}
