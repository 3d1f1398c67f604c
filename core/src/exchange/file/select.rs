//! Selecting what goes into a file: some batches and everything that they refer to.

use crate::journal::{Body, Book, Entry, PhotoId, Subject};
use std::collections::BTreeSet;
use ulid::Ulid;

/// The entries that describe these batches completely: their own, those of the
/// products used, those of the lots made from them, those of the pots of their trials, and all
/// amendments of these. In the journal's order.
pub fn select<'a>(book: &'a Book, batches: &[Ulid]) -> Vec<&'a Entry> {
    let subjects = subjects_of(book, batches);
    let mut ids: BTreeSet<Ulid> = BTreeSet::new();
    // In order, so that amendments come after what they amend.
    for entry in book.entries() {
        let amends = match &entry.body {
            Body::Withdrawn(w) => ids.contains(&w.entry),
            Body::Corrected(c) => ids.contains(&c.entry),
            Body::DeviceNamed(_) => true,
            _ => false,
        };
        if amends || subjects.contains(&entry.about) {
            ids.insert(entry.id);
        }
    }
    book.entries().filter(|e| ids.contains(&e.id)).collect()
}

/// The batches, the products they used, and the lots made from them by storing
/// and blending.
fn subjects_of(book: &Book, batches: &[Ulid]) -> BTreeSet<Subject> {
    let mut subjects: BTreeSet<Subject> = batches.iter().map(|id| Subject::Batch(*id)).collect();
    // Lots lead to further lots by blending: until nothing is added.
    loop {
        let before = subjects.len();
        let entries: Vec<&Entry> = book.entries().filter(|e| subjects.contains(&e.about)).collect();
        for entry in entries {
            subjects.extend(entry.body.product().map(Subject::Bottle));
            if let Body::Stored(stored) = &entry.body {
                subjects.insert(Subject::Lot(stored.lot));
            }
            if let Body::TrialDesigned(trial) = &entry.body {
                subjects.extend(trial.pots.iter().map(|pot| Subject::Batch(pot.batch)));
            }
        }
        for lot in book.lots.values() {
            if subjects.contains(&Subject::Lot(lot.id)) {
                subjects.extend(lot.went_into.iter().map(|id| Subject::Lot(*id)));
            }
        }
        if subjects.len() == before {
            return subjects;
        }
    }
}

/// The photos that these entries refer to.
pub fn photos_of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> BTreeSet<PhotoId> {
    entries.into_iter().filter_map(|e| e.body.photo()).cloned().collect()
}
