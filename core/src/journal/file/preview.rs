//! What a file would add, told before anything is added.

use super::{ExchangeFile, photos_of};
use crate::journal::{Body, Book, Clock, ClockSkew, Conflict, Entry, PhotoId, Subject, merge};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};
use ulid::Ulid;

/// What taking in a [`ExchangeFile`] would do to a book.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportPreview {
    /// Entries that are not here yet.
    pub new_entries: Vec<Entry>,
    /// How many are here already.
    pub here: usize,
    /// Batches that are not here yet, by name.
    pub new_batches: Vec<(Ulid, String)>,
    /// Batches here that would get further entries: name and how many.
    pub grown_batches: Vec<(Ulid, String, usize)>,
    /// Shelf products that are not here yet, by name.
    pub new_products: Vec<(Ulid, String)>,
    /// Photos in the file that are not here yet.
    pub new_photos: Vec<PhotoId>,
    /// Photos that entries name, and that are neither here nor in the file.
    pub missing_photos: Vec<PhotoId>,
    /// Entries here and in the file under one id with different contents.
    pub conflicts: Vec<Conflict>,
    /// Whether a clock that wrote the file runs far ahead of this one.
    pub clock: ClockSkew,
}

impl ImportPreview {
    /// Whether everything in the file is here already.
    pub fn nothing_new(&self) -> bool {
        self.new_entries.is_empty() && self.new_photos.is_empty() && self.conflicts.is_empty()
    }

    /// All that the store must write for the file to be in the book: new
    /// entries, and those by which a conflict changes one here.
    pub fn to_write<'a>(&'a self, book: &'a Book) -> impl Iterator<Item = &'a Entry> {
        let settled =
            self.conflicts.iter().map(|c| &c.kept).filter(|kept| book.entry(kept.id) != Some(kept));
        self.new_entries.iter().chain(settled)
    }
}

/// Compares a file with the book. `has_photo` says which photos are stored
/// here.
pub fn preview(
    book: &Book,
    has_photo: impl Fn(&PhotoId) -> bool,
    parcel: &ExchangeFile,
    now: Timestamp,
) -> ImportPreview {
    let new_entries: Vec<Entry> =
        parcel.entries.iter().filter(|e| book.entry(e.id).is_none()).cloned().collect();
    let known = parcel.entries.iter().filter_map(|e| book.entry(e.id)).cloned();
    let conflicts =
        merge(known, parcel.entries.iter().filter(|e| book.entry(e.id).is_some()).cloned())
            .conflicts;

    // Names as they will be afterwards: a file may correct one here.
    let after = Book::of(merge(book.entries().cloned(), parcel.entries.iter().cloned()).entries);
    let mut touched: BTreeMap<Ulid, usize> = BTreeMap::new();
    for id in new_entries.iter().filter_map(|e| e.about.batch()) {
        *touched.entry(id).or_default() += 1;
    }
    let name = |id: &Ulid| after.batches.get(id).map(|b| b.name.clone()).unwrap_or_default();
    let (grown, new): (Vec<_>, Vec<_>) =
        touched.into_iter().partition(|(id, _)| book.batches.contains_key(id));
    let new_products: BTreeSet<Ulid> = new_entries
        .iter()
        .filter_map(|e| match (e.about, &e.body) {
            (Subject::Bottle(id), Body::ProductAdded(_)) if !book.products.contains_key(&id) => {
                Some(id)
            }
            _ => None,
        })
        .collect();

    // The clock's own device does not matter here, so any will do.
    let mut clock = Clock::new(parcel.header.device.clone(), None);
    let mut worst = ClockSkew::WithinLimit;
    for entry in &new_entries {
        worst = worst.worse(clock.receive(&entry.stamp, now));
    }

    ImportPreview {
        here: parcel.entries.len() - new_entries.len(),
        new_batches: new.iter().map(|(id, _)| (*id, name(id))).collect(),
        grown_batches: grown.iter().map(|(id, count)| (*id, name(id), *count)).collect(),
        new_products: new_products
            .into_iter()
            .filter_map(|id| after.products.get(&id).map(|p| (id, p.name.clone())))
            .collect(),
        new_photos: parcel.photos.keys().filter(|id| !has_photo(id)).cloned().collect(),
        missing_photos: photos_of(&parcel.entries)
            .into_iter()
            .filter(|id| !parcel.photos.contains_key(id) && !has_photo(id))
            .collect(),
        new_entries,
        conflicts,
        clock: worst,
    }
}
