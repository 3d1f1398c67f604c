//! Where a lot came from, where it went, and its movements in the journal.

use std::collections::BTreeMap;

use ulid::Ulid;

use super::{Ledger, Movement};
use crate::journal::{Body, Book, Entry, Subject, TimelineEntry};
use crate::quantity::grams;

/// A batch in a lot, and how much of the lot it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    pub batch: Ulid,
    /// Of the lot's oven-dry fibre, 0 to 1.
    pub share: f64,
}

impl Ledger {
    /// The batches in a lot, through every blend, the largest share first.
    /// Shares sum to 1. Empty for an unknown lot.
    pub fn batches_in(&self, lot: Ulid) -> Vec<Share> {
        let mut shares = BTreeMap::new();
        self.add_sources(lot, 1.0, &mut shares);
        let mut shares: Vec<_> =
            shares.into_iter().map(|(batch, share)| Share { batch, share }).collect();
        shares.sort_unstable_by(|a, b| b.share.total_cmp(&a.share).then(a.batch.cmp(&b.batch)));
        shares
    }

    /// The lots that have some of a batch in them, in order of their id.
    pub fn lots_with(&self, batch: Ulid) -> Vec<Ulid> {
        self.lots
            .keys()
            .copied()
            .filter(|lot| self.batches_in(*lot).iter().any(|share| share.batch == batch))
            .collect()
    }

    /// Every lot that was made with some of this one, through every blend and
    /// split, in order of their id.
    pub fn descendants(&self, lot: Ulid) -> Vec<Ulid> {
        let mut found = Vec::new();
        let mut todo = vec![lot];
        while let Some(next) = todo.pop() {
            for (into, _) in self.lots.get(&next).map_or(&[][..], |account| &account.went_into) {
                if !found.contains(into) {
                    found.push(*into);
                    todo.push(*into);
                }
            }
        }
        found.sort_unstable();
        found
    }

    /// A lot is made after its parts and never added to, so this ends.
    fn add_sources(&self, lot: Ulid, of_whole: f64, shares: &mut BTreeMap<Ulid, f64>) {
        let Some(account) = self.lots.get(&lot) else { return };
        if let Some(batch) = account.batch {
            *shares.entry(batch).or_insert(0.0) += of_whole;
        }
        for (source, dry) in &account.parts {
            self.add_sources(*source, of_whole * dry / account.began, shares);
        }
    }
}

/// The movements that journal entries tell, in the order of the entries. Pass
/// only entries that stand: not withdrawn, and as corrected. Sheets made from a
/// lot draw on it where their fibre was given.
pub fn from_entries<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<Movement> {
    entries.into_iter().filter_map(|entry| movement(entry.about, &entry.body)).collect()
}

/// The movements that a book tells, in the order in which they were written:
/// withdrawn entries left out, corrected ones as corrected.
pub fn from_book(book: &Book) -> Vec<Movement> {
    let batches = book.batches.values().flat_map(|batch| batch.visible_entries());
    let lots =
        book.lots.values().flat_map(|lot| lot.timeline.iter().filter(|told| told.is_visible()));
    let mut told: Vec<&TimelineEntry> = batches.chain(lots).collect();
    told.sort_unstable_by(|a, b| a.entry.order().cmp(&b.entry.order()));
    told.into_iter().filter_map(|told| movement(told.entry.about, &told.body)).collect()
}

fn movement(about: Subject, body: &Body) -> Option<Movement> {
    match (about, body) {
        (Subject::Batch(batch), Body::Stored(stored)) => Some(Movement::Stored {
            lot: stored.lot,
            batch,
            dry: grams(stored.wet_mass_g.value * stored.dryness.value),
        }),
        (Subject::Lot(lot), Body::LotBlended(blend)) => Some(Movement::Made {
            lot,
            parts: blend.parts.iter().map(|part| (part.lot, grams(part.dry_g.value))).collect(),
        }),
        (Subject::Lot(lot), Body::LotDrawn(drawn)) => {
            Some(Movement::Drawn { lot, dry: grams(drawn.dry_g.value) })
        }
        (Subject::Lot(lot), Body::Sheets(sheets)) => {
            sheets.dry_g.map(|dry| Movement::Drawn { lot, dry: grams(dry.value) })
        }
        _ => None,
    }
}
