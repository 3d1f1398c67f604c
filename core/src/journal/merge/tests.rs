#![allow(clippy::unwrap_used)]

use super::*;
use crate::journal::sample::{at, device, entries};
use crate::journal::{Body, Book, EntryWriter, Note, Subject};
use proptest::prelude::*;

fn note(random: u128, millis: i64, text: &str) -> Entry {
    let body = Body::Note(Note { text: text.into() });
    EntryWriter::new(device("a"), None)
        .write(at(millis), random, "", Subject::Studio, body)
        .unwrap()
}

#[test]
fn a_conflict_is_reported_and_resolved_alike_in_either_order() {
    let (a, b) = (note(1, 0, "white"), note(1, 0, "whiter"));
    let here = merge([a.clone()], [b.clone()]);
    let there = merge([b], [a]);
    assert_eq!(here, there);
    assert_eq!(here.entries.len(), 1);
    assert_eq!(here.conflicts.len(), 1);
    assert_ne!(here.conflicts[0].kept, here.conflicts[0].dropped);
    assert_eq!(
        Book::of([here.conflicts[0].dropped.clone(), here.conflicts[0].kept.clone()]),
        Book::of(here.entries)
    );
}

/// Overlapping parts of one history, as held by three devices.
fn three() -> impl Strategy<Value = [Vec<Entry>; 3]> {
    (entries(40), prop::collection::vec(0u8..8, 40)).prop_map(|(all, who)| {
        [0, 1, 2].map(|d| {
            all.iter()
                .zip(&who)
                .filter(|(_, who)| *who & (1 << d) != 0)
                .map(|(e, _)| e.clone())
                .collect()
        })
    })
}

proptest! {
    #[test]
    fn merging_is_commutative([a, b, _] in three()) {
        prop_assert_eq!(merge(a.clone(), b.clone()), merge(b, a));
    }

    #[test]
    fn merging_is_associative([a, b, c] in three()) {
        let left = merge(merge(a.clone(), b.clone()).entries, c.clone());
        let right = merge(a, merge(b, c).entries);
        prop_assert_eq!(left.entries, right.entries);
    }

    #[test]
    fn merging_is_idempotent([a, b, _] in three()) {
        let once = merge(a, b.clone()).entries;
        let again = merge(once.clone(), b);
        prop_assert_eq!(&again.entries, &once);
        prop_assert!(again.conflicts.is_empty());
        prop_assert_eq!(merge(once.clone(), once.clone()).entries, once);
    }

    #[test]
    fn merging_loses_nothing([a, b, _] in three()) {
        let merged = merge(a.clone(), b.clone()).entries;
        prop_assert!(a.iter().chain(&b).all(|e| merged.contains(e)));
        prop_assert!(merged.iter().all(|e| a.contains(e) || b.contains(e)));
    }

    /// The same laws for entries that were edited.
    #[test]
    fn conflicts_are_resolved_alike_everywhere(picks in prop::collection::vec((0u128..3, 0i64..3, "[ab]"), 0..8), cut in 0usize..8) {
        let all: Vec<Entry> = picks.iter().map(|(r, m, t)| note(*r, *m, t)).collect();
        // Same ids, different timestamps.
        let all: Vec<Entry> = all.into_iter().map(|mut e| { e.id = crate::journal::ulid_at(at(0), e.id.random()); e }).collect();
        let (a, b) = all.split_at(cut.min(all.len()));
        let (a, b) = (a.to_vec(), b.to_vec());
        prop_assert_eq!(merge(a.clone(), b.clone()).entries, merge(b.clone(), a.clone()).entries);
        prop_assert_eq!(Book::of(a.iter().chain(&b).cloned()), Book::of(b.iter().chain(&a).cloned()));
    }
}
