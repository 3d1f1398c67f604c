//! What a set of entries amounts to: batches, baths, shelf, lots, studio.

mod batch;
mod fold;
mod shelf;

pub use batch::{Batch, BatchState, BathView, Stopped, TimelineEntry};
pub use shelf::{Lot, LotOrigin, Product, Studio};

use super::merge::preferred;
use super::{Body, Entry, HlcTimestamp};
use std::collections::BTreeMap;
use ulid::Ulid;

/// The projection of a set of entries. Equal sets give equal books, in
/// whatever order and in however many helpings they came.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book {
    pub batches: BTreeMap<Ulid, Batch>,
    /// Every shelf product, finished ones included.
    pub products: BTreeMap<Ulid, Product>,
    pub lots: BTreeMap<Ulid, Lot>,
    pub studio: Studio,
    /// All entries in their order, withdrawn ones included.
    log: BTreeMap<(HlcTimestamp, Ulid), Entry>,
    /// Where each entry stands in the log.
    place: BTreeMap<Ulid, HlcTimestamp>,
}

impl Book {
    /// The book of these entries. Of two contents of one id it keeps the one
    /// that [`super::merge`] keeps.
    pub fn of(entries: impl IntoIterator<Item = Entry>) -> Self {
        let mut book = Book::default();
        book.take_in(entries);
        book.refold();
        book
    }

    /// Adds entries; ids that are here already change nothing.
    ///
    /// What was just written is folded in by itself; older entries, and those
    /// about other entries, fold the whole book again.
    pub fn add(&mut self, entries: impl IntoIterator<Item = Entry>) {
        let last = self.log.keys().next_back().cloned();
        let (new, changed) = self.take_in(entries);
        let appended = !changed
            && new.iter().all(|key| {
                Some(key) > last.as_ref()
                    && !matches!(self.log[key].body, Body::Withdrawn(_) | Body::Corrected(_))
            });
        if !appended {
            self.refold();
            return;
        }
        for key in new {
            let told = TimelineEntry::plain(self.log[&key].clone());
            self.apply(&told);
        }
    }

    /// All entries in their order, withdrawn ones included.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.log.values()
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.log.len()
    }

    /// Whether there is no entry at all.
    pub fn is_empty(&self) -> bool {
        self.log.is_empty()
    }

    /// The entry with this id.
    pub fn entry(&self, id: Ulid) -> Option<&Entry> {
        let stamp = self.place.get(&id)?;
        self.log.get(&(stamp.clone(), id))
    }

    /// The latest stamp, for a [`super::EntryWriter`] to go on from.
    pub fn latest(&self) -> Option<&HlcTimestamp> {
        self.log.keys().next_back().map(|(stamp, _)| stamp)
    }

    /// The baths that are running, longest first.
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

    /// Batches, the one most lately touched first.
    pub fn batches_by_change(&self) -> Vec<&Batch> {
        let mut batches: Vec<&Batch> = self.batches.values().collect();
        batches.sort_unstable_by_key(|b| std::cmp::Reverse((b.changed, b.id)));
        batches
    }

    /// Products that are still on the shelf, by name.
    pub fn shelf(&self) -> Vec<&Product> {
        let mut shelf: Vec<&Product> =
            self.products.values().filter(|p| p.finished.is_none()).collect();
        shelf.sort_unstable_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
        shelf
    }

    /// Keeps the entries that are not here yet. Their keys in order, and
    /// whether one that was here has changed.
    fn take_in(
        &mut self,
        entries: impl IntoIterator<Item = Entry>,
    ) -> (Vec<(HlcTimestamp, Ulid)>, bool) {
        let mut new = Vec::new();
        let mut changed = false;
        for entry in entries {
            let id = entry.id;
            let entry =
                match self.place.get(&id).and_then(|stamp| self.log.remove(&(stamp.clone(), id))) {
                    Some(here) if here == entry => here,
                    Some(here) => {
                        changed = true;
                        preferred(here, entry).0
                    }
                    None => {
                        new.push((entry.stamp.clone(), id));
                        entry
                    }
                };
            self.place.insert(id, entry.stamp.clone());
            self.log.insert((entry.stamp.clone(), id), entry);
        }
        new.sort_unstable();
        (new, changed)
    }
}

#[cfg(test)]
mod tests;
