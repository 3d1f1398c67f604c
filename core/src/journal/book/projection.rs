//! The book, and how it is projected: which entries apply, and what each changes.

use super::timeline::insert;
use super::{Batch, BathView, Lot, Product, Studio, TimelineEntry, Trial};
use crate::journal::merge::preferred;
use crate::journal::{Body, Entry, HlcTimestamp, LotBlended, Subject};
use jiff::Timestamp;
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
    /// The trials, by their ids.
    pub trials: BTreeMap<Ulid, Trial>,
    pub studio: Studio,
    /// All entries in order, withdrawn ones included.
    log: BTreeMap<(HlcTimestamp, Ulid), Entry>,
    /// The timestamp of each entry, its key in the log.
    timestamps: BTreeMap<Ulid, HlcTimestamp>,
}

impl Book {
    /// Projects these entries. Of two contents of one id the one is used that
    /// [`crate::journal::merge`] keeps.
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

    /// The latest timestamp, for an [`crate::journal::EntryWriter`] to continue from.
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

    /// The trial that a batch is a pot of, and its number there.
    pub fn trial_of_pot(&self, batch: Ulid) -> Option<(&Trial, u32)> {
        self.trials.values().find_map(|trial| {
            let pot = trial.pots.iter().find(|pot| pot.batch == batch)?;
            Some((trial, pot.number))
        })
    }

    /// The trials with pulp of a batch, the latest first.
    pub fn trials_of(&self, batch: Ulid) -> Vec<&Trial> {
        let mut trials: Vec<&Trial> =
            self.trials.values().filter(|trial| trial.parent == batch).collect();
        trials.sort_unstable_by_key(|trial| std::cmp::Reverse((trial.designed, trial.id)));
        trials
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

impl Book {
    /// Rebuilds the projection from all entries.
    fn rebuild(&mut self) {
        self.batches.clear();
        self.products.clear();
        self.lots.clear();
        self.trials.clear();
        self.studio = Studio::default();
        for entry in self.amended_entries() {
            self.apply(&entry);
        }
    }

    /// Applies one entry. Entries must come in order.
    fn apply(&mut self, entry: &TimelineEntry) {
        // The first entry about a batch creates it, even if the entry that
        // starts and names the batch has not arrived yet.
        if let Subject::Batch(id) = entry.entry.about {
            self.batches.entry(id).or_insert_with(|| Batch::unnamed(id, entry.at));
        }
        if entry.is_visible() {
            self.apply_to_subject(entry);
        }
        if let Some(timeline) = self.timeline_of(entry.entry.about) {
            insert(timeline, entry);
        }
    }

    /// All entries in order, with the amendments that apply to them.
    ///
    /// Only a *later* entry can withdraw or correct. Walking backwards thus
    /// decides about each amendment before the entries that it amends, and no
    /// cycle can arise, whatever a file contains.
    fn amended_entries(&self) -> Vec<TimelineEntry> {
        let mut withdrawn: BTreeMap<Ulid, Ulid> = BTreeMap::new();
        let mut corrected: BTreeMap<Ulid, Ulid> = BTreeMap::new();
        for entry in self.log.values().rev() {
            if withdrawn.contains_key(&entry.id) {
                continue;
            }
            match &entry.body {
                Body::Withdrawn(w) if self.is_before(w.entry, entry) => {
                    withdrawn.entry(w.entry).or_insert(entry.id);
                }
                Body::Corrected(c) => {
                    if let Some(target) = self.corrected_entry(c.entry, entry) {
                        corrected.entry(target).or_insert(entry.id);
                    }
                }
                _ => {}
            }
        }
        self.log
            .values()
            .map(|entry| {
                let mut amended = TimelineEntry::unamended(entry.clone());
                amended.withdrawn_by = withdrawn.get(&entry.id).copied();
                if let Some(by) = corrected.get(&entry.id)
                    && let Some(Entry { body: Body::Corrected(c), .. }) = self.entry(*by)
                {
                    amended.body = (*c.body).clone();
                    amended.at = c.at.unwrap_or(entry.at);
                    amended.corrected_by = Some(*by);
                }
                amended
            })
            .collect()
    }

    fn is_before(&self, id: Ulid, than: &Entry) -> bool {
        self.entry(id).is_some_and(|e| e.order() < than.order())
    }

    /// The entry that a correction applies to: a correction of a correction
    /// applies to the entry corrected first.
    fn corrected_entry<'a>(&'a self, mut id: Ulid, mut from: &'a Entry) -> Option<Ulid> {
        loop {
            let entry = self.entry(id).filter(|e| e.order() < from.order())?;
            match &entry.body {
                Body::Corrected(c) => (id, from) = (c.entry, entry),
                _ => return Some(id),
            }
        }
    }

    /// Applies a visible entry to its subject.
    fn apply_to_subject(&mut self, entry: &TimelineEntry) {
        let TimelineEntry { body, at, .. } = entry;
        match (entry.entry.about, body) {
            (Subject::Batch(id), body) => {
                if let Body::Stored(stored) = body {
                    let name = self.batches.get(&id).map(|b| b.name.clone()).unwrap_or_default();
                    self.lots.insert(stored.lot, Lot::of_batch(id, stored, *at, name));
                }
                if let Body::TrialDesigned(designed) = body {
                    self.trials.insert(designed.trial, Trial::new(id, designed, *at));
                }
                if let Some(batch) = self.batches.get_mut(&id) {
                    batch.apply(entry);
                }
            }
            (Subject::Lot(id), Body::LotBlended(blend)) => self.blend(id, blend, *at),
            (Subject::Lot(id), body) => {
                if let Some(lot) = self.lots.get_mut(&id) {
                    lot.apply(body);
                }
            }
            (Subject::Bottle(id), Body::ProductAdded(added)) => {
                let timeline = self.products.remove(&id).map(|p| p.timeline).unwrap_or_default();
                self.products.insert(id, Product { timeline, ..Product::new(id, added, *at) });
            }
            (Subject::Bottle(id), body) => {
                if let Some(product) = self.products.get_mut(&id) {
                    product.apply(body, *at);
                }
            }
            (Subject::Studio, _) => self.studio.apply(entry),
        }
    }

    fn blend(&mut self, id: Ulid, blend: &LotBlended, at: Timestamp) {
        for part in &blend.parts {
            if let Some(lot) = self.lots.get_mut(&part.lot) {
                lot.dry_g_drawn += part.dry_g.value;
                lot.went_into.push(id);
            }
        }
        self.lots.insert(id, Lot::of_blend(id, blend, at));
    }

    /// The timeline of a subject, if the subject is known.
    fn timeline_of(&mut self, subject: Subject) -> Option<&mut Vec<TimelineEntry>> {
        match subject {
            Subject::Batch(id) => self.batches.get_mut(&id).map(|batch| &mut batch.timeline),
            Subject::Bottle(id) => self.products.get_mut(&id).map(|product| &mut product.timeline),
            Subject::Lot(id) => self.lots.get_mut(&id).map(|lot| &mut lot.timeline),
            Subject::Studio => Some(&mut self.studio.timeline),
        }
    }
}
