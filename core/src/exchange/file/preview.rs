//! What importing a file would change, before anything is changed.

use super::{ExchangeFile, photos_of};
use crate::journal::{
    Body, Book, ClockSkew, Conflict, Entry, HybridLogicalClock, PhotoId, Subject, merge,
};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};
use ulid::Ulid;

/// What importing an [`ExchangeFile`] would change in a book.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportPreview {
    /// Entries that are not in the book.
    pub new_entries: Vec<Entry>,
    /// The number of entries that are in the book already.
    pub here: usize,
    /// New batches, by name.
    pub new_batches: Vec<(Ulid, String)>,
    /// Known batches that get further entries: name and number of entries.
    pub grown_batches: Vec<(Ulid, String, usize)>,
    /// New shelf products, by name.
    pub new_products: Vec<(Ulid, String)>,
    /// Photos of the file that are not stored here.
    pub new_photos: Vec<PhotoId>,
    /// Photos that entries refer to and that are neither stored here nor in the file.
    pub missing_photos: Vec<PhotoId>,
    /// Entries of one id whose contents differ here and in the file.
    pub conflicts: Vec<Conflict>,
    /// The largest skew of a clock that wrote new entries.
    pub clock: ClockSkew,
}

impl ImportPreview {
    /// Whether everything in the file is here already.
    pub fn nothing_new(&self) -> bool {
        self.new_entries.is_empty() && self.new_photos.is_empty() && self.conflicts.is_empty()
    }

    /// The entries to store for the import: new ones, and those by which a
    /// conflict changes one here.
    pub fn to_write<'a>(&'a self, book: &'a Book) -> impl Iterator<Item = &'a Entry> {
        let resolved =
            self.conflicts.iter().map(|c| &c.kept).filter(|kept| book.entry(kept.id) != Some(kept));
        self.new_entries.iter().chain(resolved)
    }
}

/// Compares a file with the book. `has_photo` tells which photos are stored
/// here.
pub fn preview(
    book: &Book,
    has_photo: impl Fn(&PhotoId) -> bool,
    file: &ExchangeFile,
    now: Timestamp,
) -> ImportPreview {
    let (known, new_entries): (Vec<Entry>, Vec<Entry>) =
        file.entries.iter().cloned().partition(|e| book.entry(e.id).is_some());
    let here: Vec<Entry> = known.iter().filter_map(|e| book.entry(e.id)).cloned().collect();
    let conflicts = merge(here, known).conflicts;

    // Names as they will be afterwards: the file may correct one.
    let after = Book::of(book.entries().chain(&file.entries).cloned());
    let (grown, new) = changed_batches(book, &new_entries);
    let name = |id: &Ulid| after.batches.get(id).map(|b| b.name.clone()).unwrap_or_default();

    ImportPreview {
        here: file.entries.len() - new_entries.len(),
        new_batches: new.keys().map(|id| (*id, name(id))).collect(),
        grown_batches: grown.iter().map(|(id, count)| (*id, name(id), *count)).collect(),
        new_products: new_products(book, &new_entries)
            .into_iter()
            .filter_map(|id| after.products.get(&id).map(|p| (id, p.name.clone())))
            .collect(),
        new_photos: file.photos.keys().filter(|id| !has_photo(id)).cloned().collect(),
        missing_photos: photos_of(&file.entries)
            .into_iter()
            .filter(|id| !file.photos.contains_key(id) && !has_photo(id))
            .collect(),
        conflicts,
        clock: largest_skew(file, &new_entries, now),
        new_entries,
    }
}

/// The batches that get new entries, with their number: known ones, then new ones.
fn changed_batches(
    book: &Book,
    new_entries: &[Entry],
) -> (BTreeMap<Ulid, usize>, BTreeMap<Ulid, usize>) {
    let mut counts: BTreeMap<Ulid, usize> = BTreeMap::new();
    for id in new_entries.iter().filter_map(|e| e.about.batch()) {
        *counts.entry(id).or_default() += 1;
    }
    counts.into_iter().partition(|(id, _)| book.batches.contains_key(id))
}

fn new_products(book: &Book, new_entries: &[Entry]) -> BTreeSet<Ulid> {
    let added = new_entries.iter().filter_map(|e| match (e.about, &e.body) {
        (Subject::Bottle(id), Body::ProductAdded(_)) => Some(id),
        _ => None,
    });
    added.filter(|id| !book.products.contains_key(id)).collect()
}

fn largest_skew(file: &ExchangeFile, new_entries: &[Entry], now: Timestamp) -> ClockSkew {
    // The device of this clock does not matter.
    let mut clock = HybridLogicalClock::new(file.header.device.clone(), None);
    let skews = new_entries.iter().map(|entry| clock.receive(&entry.stamp, now));
    skews.max().unwrap_or(ClockSkew::WithinLimit)
}
