//! The book: the projection of a set of entries into batches, baths, shelf, lots and studio.
//! What is calculated from it (strengths today, wash records, cues) is not here.

mod batch;
mod lot;
mod product;
mod projection;
mod studio;
mod timeline;

pub use batch::{Batch, BatchState, BathView, Stopped};
pub use lot::{Lot, LotOrigin};
pub use product::Product;
pub use studio::Studio;
pub use timeline::TimelineEntry;

use super::merge::preferred;
use super::{Body, Entry, HlcTimestamp};
use std::collections::BTreeMap;
use ulid::Ulid;

/// The projection of a set of entries. Equal sets give equal books, in
/// whatever order and number of steps they were added.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book {
    pub batches: BTreeMap<Ulid, Batch>,
    /// All shelf products, finished ones included.
    pub products: BTreeMap<Ulid, Product>,
    pub lots: BTreeMap<Ulid, Lot>,
    pub studio: Studio,
    /// All entries in order, withdrawn ones included.
    log: BTreeMap<(HlcTimestamp, Ulid), Entry>,
    /// The timestamp of each entry, its key in the log.
    timestamps: BTreeMap<Ulid, HlcTimestamp>,
}

impl Book {
    /// Projects these entries. Of two contents of one id the one is used that
    /// [`super::merge`] keeps.
    pub fn of(entries: impl IntoIterator<Item = Entry>) -> Self {
        let mut book = Book::default();
        book.insert(entries);
        book.rebuild();
        book
    }

    /// Adds entries; ids that are present already change nothing.
    ///
    /// Entries newer than all others are projected by themselves. Older
    /// entries, withdrawals and corrections rebuild the projection.
    pub fn add(&mut self, entries: impl IntoIterator<Item = Entry>) {
        let last = self.log.keys().next_back().cloned();
        let (new, changed) = self.insert(entries);
        let appended = !changed
            && new.iter().all(|key| {
                Some(key) > last.as_ref()
                    && !matches!(self.log[key].body, Body::Withdrawn(_) | Body::Corrected(_))
            });
        if !appended {
            self.rebuild();
            return;
        }
        for key in new {
            let entry = TimelineEntry::unamended(self.log[&key].clone());
            self.apply(&entry);
        }
    }

    /// All entries in order, withdrawn ones included.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.log.values()
    }

    /// The number of entries.
    pub fn len(&self) -> usize {
        self.log.len()
    }

    /// Whether there is no entry.
    pub fn is_empty(&self) -> bool {
        self.log.is_empty()
    }

    /// The entry with this id.
    pub fn entry(&self, id: Ulid) -> Option<&Entry> {
        let timestamp = self.timestamps.get(&id)?;
        self.log.get(&(timestamp.clone(), id))
    }

    /// The latest timestamp, for an [`super::EntryWriter`] to continue from.
    pub fn latest(&self) -> Option<&HlcTimestamp> {
        self.log.keys().next_back().map(|(timestamp, _)| timestamp)
    }

    /// The running baths, longest first.
    pub fn running(&self) -> Vec<&BathView> {
        let mut running: Vec<&BathView> =
            self.batches.values().flat_map(|b| &b.baths).filter(|b| b.stopped.is_none()).collect();
        running.sort_unstable_by_key(|b| (b.started, b.id));
        running
    }

    /// The bath with this id.
    pub fn bath(&self, id: Ulid) -> Option<&BathView> {
        self.batches.values().flat_map(|b| &b.baths).find(|b| b.id == id)
    }

    /// All batches, the most recently changed first.
    pub fn batches_by_change(&self) -> Vec<&Batch> {
        let mut batches: Vec<&Batch> = self.batches.values().collect();
        batches.sort_unstable_by_key(|b| std::cmp::Reverse((b.changed, b.id)));
        batches
    }

    /// Products that are not finished, by name.
    pub fn shelf(&self) -> Vec<&Product> {
        let mut shelf: Vec<&Product> =
            self.products.values().filter(|p| p.finished.is_none()).collect();
        shelf.sort_unstable_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
        shelf
    }

    /// Inserts entries into the log. Returns the keys of the new ones in
    /// order, and whether an entry that was present has changed.
    fn insert(
        &mut self,
        entries: impl IntoIterator<Item = Entry>,
    ) -> (Vec<(HlcTimestamp, Ulid)>, bool) {
        let mut new = Vec::new();
        let mut changed = false;
        for entry in entries {
            let id = entry.id;
            let present = self.timestamps.get(&id).cloned();
            let entry = match present.and_then(|timestamp| self.log.remove(&(timestamp, id))) {
                Some(present) if present == entry => present,
                Some(present) => {
                    changed = true;
                    preferred(present, entry).0
                }
                None => {
                    new.push((entry.stamp.clone(), id));
                    entry
                }
            };
            self.timestamps.insert(id, entry.stamp.clone());
            self.log.insert((entry.stamp.clone(), id), entry);
        }
        new.sort_unstable();
        (new, changed)
    }
}

#[cfg(test)]
mod tests;
