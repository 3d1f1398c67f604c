//! What to put in a file: everything, or some batches and what they draw on.

use crate::journal::{Body, Book, Entry, PhotoId, Subject};
use std::collections::BTreeSet;
use ulid::Ulid;

/// The entries that tell the whole of these batches: their own, those of the
/// products that they used, those of the lots that came of them, and what
/// was said later about any of these. In the journal's order.
pub fn select<'a>(book: &'a Book, batches: &[Ulid]) -> Vec<&'a Entry> {
    let mut about: BTreeSet<Subject> = batches.iter().map(|id| Subject::Batch(*id)).collect();
    // Lots lead to further lots by blending; go on until nothing is added.
    loop {
        let before = about.len();
        for entry in book.entries().filter(|e| about.contains(&e.about)).collect::<Vec<_>>() {
            about.extend(entry.body.product().map(Subject::Bottle));
            if let Body::Stored(stored) = &entry.body {
                about.insert(Subject::Lot(stored.lot));
                about.extend(
                    book.lots
                        .get(&stored.lot)
                        .into_iter()
                        .flat_map(|lot| &lot.went_into)
                        .map(|id| Subject::Lot(*id)),
                );
            }
        }
        for lot in book
            .lots
            .values()
            .filter(|lot| about.contains(&Subject::Lot(lot.id)))
            .collect::<Vec<_>>()
        {
            about.extend(lot.went_into.iter().map(|id| Subject::Lot(*id)));
        }
        if about.len() == before {
            break;
        }
    }
    let mut ids: BTreeSet<Ulid> = BTreeSet::new();
    // In order, so that what speaks of an entry comes after it.
    for entry in book.entries() {
        let said_of = match &entry.body {
            Body::Withdrawn(w) => ids.contains(&w.entry),
            Body::Corrected(c) => ids.contains(&c.entry),
            Body::DeviceNamed(_) => true,
            _ => false,
        };
        if said_of || about.contains(&entry.about) {
            ids.insert(entry.id);
        }
    }
    book.entries().filter(|e| ids.contains(&e.id)).collect()
}

/// The photos that these entries name.
pub fn photos_of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> BTreeSet<PhotoId> {
    entries.into_iter().filter_map(|e| e.body.photo()).cloned().collect()
}
