//! Building the projection: which entries apply, and what each changes in the book.

use super::timeline::insert;
use super::{Batch, Book, Lot, Product, Studio, TimelineEntry};
use crate::journal::{Body, Entry, LotBlended, Subject};
use jiff::Timestamp;
use std::collections::BTreeMap;
use ulid::Ulid;

impl Book {
    /// Rebuilds the projection from all entries.
    pub(super) fn rebuild(&mut self) {
        self.batches.clear();
        self.products.clear();
        self.lots.clear();
        self.studio = Studio::default();
        for entry in self.amended_entries() {
            self.apply(&entry);
        }
    }

    /// Applies one entry. Entries must come in order.
    pub(super) fn apply(&mut self, entry: &TimelineEntry) {
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
