//! The batches in a lot, and the lots that a lot or a batch went into.
//! Not here: how much each lot holds, which is `ledger`.

use std::collections::BTreeMap;

use ulid::Ulid;

use super::LotLedger;
use crate::journal::{Book, LotOrigin};

/// A batch in a lot, and its share of the lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BatchShare {
    pub batch: Ulid,
    /// Of the lot's oven-dry fibre, 0 to 1.
    pub share: f64,
}

impl LotLedger {
    /// The batches in a lot through every blend, largest share first.
    /// Shares sum to 1. Empty for an unknown lot.
    pub fn batches_in(&self, lot: Ulid) -> Vec<BatchShare> {
        let mut shares = BTreeMap::new();
        self.add_sources(lot, 1.0, &mut shares);
        let mut shares: Vec<_> =
            shares.into_iter().map(|(batch, share)| BatchShare { batch, share }).collect();
        shares.sort_unstable_by(|a, b| b.share.total_cmp(&a.share).then(a.batch.cmp(&b.batch)));
        shares
    }

    /// The lots that contain some of a batch, in order of their id.
    pub fn lots_with(&self, batch: Ulid) -> Vec<Ulid> {
        self.lots
            .keys()
            .copied()
            .filter(|lot| self.batches_in(*lot).iter().any(|share| share.batch == batch))
            .collect()
    }

    /// Every lot made with some of this one through every blend and split, in
    /// order of their id.
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

    /// Terminates, since a lot is made after its parts and never added to.
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

/// The batches in a lot, through all blends. A lot that is part of itself, by
/// a broken file, is visited once.
pub fn source_batches(book: &Book, lot: Ulid) -> Vec<Ulid> {
    let (mut found, mut seen) = (Vec::new(), Vec::new());
    let mut todo = vec![lot];
    while let Some(id) = todo.pop() {
        if seen.contains(&id) {
            continue;
        }
        seen.push(id);
        match book.lots.get(&id).map(|lot| &lot.origin) {
            Some(LotOrigin::Batch(batch)) if !found.contains(batch) => found.push(*batch),
            Some(LotOrigin::Lots(parts)) => todo.extend(parts.iter().map(|part| part.lot)),
            _ => {}
        }
    }
    found
}
