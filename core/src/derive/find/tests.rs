#![allow(clippy::unwrap_used)]

use proptest::prelude::*;

use super::*;
use crate::derive::sample::book_of;
use crate::journal::{BatchStarted, Body, Entry, Note, Renamed, Subject, Tagged, sample::entries};
use crate::property;

fn batch(id: u128) -> Subject {
    Subject::Batch(Ulid(id))
}

fn started(id: u128, name: &str, fibre: &str) -> (Subject, Body) {
    let started =
        BatchStarted { name: name.into(), fibre: fibre.into(), ..BatchStarted::default() };
    (batch(id), Body::BatchStarted(started))
}

fn note(id: u128, text: &str) -> (Subject, Body) {
    (batch(id), Body::Note(Note { text: text.into() }))
}

fn tagged(id: u128, add: &[&str], remove: &[&str]) -> (Subject, Body) {
    let texts = |all: &[&str]| all.iter().map(|text| (*text).to_owned()).collect();
    (batch(id), Body::Tagged(Tagged { add: texts(add), remove: texts(remove) }))
}

fn index(book: &Book) -> BatchIndex {
    let mut index = BatchIndex::default();
    index.update(book);
    index
}

fn found(book: &Book, search: &BatchSearch) -> Vec<u128> {
    index(book).find(search).into_iter().map(|id| id.0).collect()
}

fn by_words(words: &str) -> BatchSearch {
    BatchSearch { words: words.into(), ..BatchSearch::default() }
}

#[test]
fn every_word_must_be_written_somewhere() {
    let book = book_of([
        started(1, "From the ditch", "Kōzo"),
        note(1, "Smelled of the sea"),
        started(2, "From the hill", "iris leaf"),
    ]);
    assert_eq!(found(&book, &by_words("KOZO sea")), [1]);
    assert_eq!(found(&book, &by_words("from")), [2, 1]);
    assert!(found(&book, &by_words("kozo hill")).is_empty());
    // A word does not reach from one text into the next.
    assert!(found(&book, &by_words("ditchkozo")).is_empty());
}

#[test]
fn filters_narrow_and_tags_can_be_taken_off() {
    let book = book_of([
        started(1, "a", " Kozo"),
        started(2, "b", "kozo"),
        started(3, "c", "flax"),
        tagged(1, &["gift", "thick"], &[]),
        tagged(3, &["gift"], &[]),
        tagged(1, &[], &["thick"]),
    ]);
    let search = BatchSearch { fibre: Some("KOZO".into()), ..BatchSearch::default() };
    assert_eq!(found(&book, &search), [1, 2]);
    let tag = |tag: &str| BatchSearch { tag: Some(tag.into()), ..BatchSearch::default() };
    assert_eq!(found(&book, &tag("gift")), [1, 3]);
    assert!(found(&book, &tag("thick")).is_empty());
    assert_eq!(found(&book, &by_words("gift")), [1, 3]);
    assert!(found(&book, &by_words("thick")).is_empty());
}

#[test]
fn what_has_no_figure_comes_last() {
    assert_eq!(largest_first(Some(80.0), Some(70.0)), Ordering::Less);
    assert_eq!(largest_first(None, Some(-1.0)), Ordering::Greater);
    assert_eq!(largest_first(None, None), Ordering::Equal);
}

/// The plain way: folds every text of the book at every question.
fn scan(book: &Book, query: &str) -> Vec<Ulid> {
    let pots: Vec<Ulid> =
        book.trials.values().flat_map(|trial| trial.pots.iter().map(|pot| pot.batch)).collect();
    let holds = |batch: &Batch, word: &str| {
        let mut any = false;
        each_text(book, batch, &mut |text| any |= fold(text).contains(word));
        any
    };
    let all = book.batches_by_change().into_iter().filter(|batch| !pots.contains(&batch.id));
    all.filter(|batch| words(query).iter().all(|word| holds(batch, word)))
        .map(|batch| batch.id)
        .collect()
}

/// Texts with accents, in upper case, and with words in common.
const TEXTS: [&str; 6] =
    ["Kōzo from the Ditch", "ABACÁ fibre", "smelled of sea", "Straße 3", "iris", "note QUOTED é"];
const QUERIES: [&str; 10] = [
    "",
    "kozo",
    "KŌZO ditch",
    "abaca",
    "sea iris",
    "strasse",
    "note",
    "e",
    "bottle",
    "quoted note",
];

/// An index that followed the book entry by entry finds what a scan finds, whatever was
/// withdrawn, corrected or merged in meanwhile.
#[test]
fn the_index_finds_what_a_plain_scan_finds() {
    let texts = prop::collection::vec((0..3_u128, 0..TEXTS.len(), any::<bool>()), 0..8);
    let cases = (entries(24), texts, prop::collection::vec(any::<prop::sample::Index>(), 3));
    property::check(cases, 50, |(entries, texts, cuts)| {
        let own = book_of(texts.into_iter().map(|(id, text, is_name)| {
            let text = TEXTS[text].to_owned();
            let body = if is_name {
                Body::Renamed(Renamed { name: text })
            } else {
                Body::Note(Note { text })
            };
            (batch(id), body)
        }));
        let mut all: Vec<Entry> = entries;
        all.extend(own.entries().cloned());
        let (mut book, mut followed) = (Book::default(), BatchIndex::default());
        let mut any_found = false;
        let mut cuts: Vec<usize> = cuts.iter().map(|cut| cut.index(all.len() + 1)).collect();
        cuts.sort_unstable();
        cuts.push(all.len());
        let mut from = 0;
        for cut in cuts {
            // The later part first: what comes then is older, and rebuilds the book.
            let part = all[from..cut].iter().rev().cloned();
            book.add(part);
            from = cut;
            followed.update(&book);
            for query in QUERIES {
                let found = followed.find(&by_words(query));
                prop_assert_eq!(&found, &scan(&book, query), "{}", query);
                any_found |= !query.is_empty() && !found.is_empty();
            }
        }
        Ok(any_found)
    });
}
