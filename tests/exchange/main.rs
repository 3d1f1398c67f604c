//! Exchange files of every format that was ever written still open with the same contents.
//!
//! `format-1.zip` was written when format 1 was new and is never written again: a later format
//! gets a file of its own beside it.

#![allow(clippy::unwrap_used)]

mod records;

use bleachfield_core::exchange::file::{
    EntryRecord, ExchangeFile, Limits, json_text, json_text_with, photos_of, read, write,
};
use bleachfield_core::exchange::photo;
use bleachfield_core::journal::{BatchState, Body, Book, Note, StopReason};
use bleachfield_core::quantity::Basis;
use ulid::Ulid;

const FORMAT_1: &[u8] = include_bytes!("format-1.zip");

/// A JPEG of one grey pixel.
const PIXEL: &[u8] = include_bytes!("pixel.jpg");

#[test]
fn format_1_opens_with_the_same_contents() {
    let ExchangeFile { header, format, entries, unreadable, photos, ignored } =
        read(FORMAT_1, Limits::default()).unwrap();
    assert_eq!((header.app.as_str(), header.device.as_str(), format), ("0.1.0", "k7m2", 1));
    assert_eq!(header.exported_at.to_string(), "2026-05-03T17:40:00Z");
    assert!(ignored.is_empty() && unreadable.is_empty());
    assert_eq!(photos_of(&entries), [photo::id_of(PIXEL)].into());
    assert_eq!(photos.len(), 1);
    assert_eq!(photos[&photo::id_of(PIXEL)].bytes, PIXEL);
    // The unknown kind of a newer version is kept whole.
    assert!(json_text(&header, &entries).contains("\"listened_to\""));
    assert!(entries.iter().take(14).all(|entry| !matches!(entry.body, Body::Unknown(_))));

    let book = Book::of(entries);
    let batch = &book.batches[&Ulid(1)];
    assert_eq!((batch.name.as_str(), batch.fibre.as_str()), ("Iris, from the ditch", "iris leaf"));
    assert_eq!(batch.state, BatchState::Stored);
    assert_eq!(batch.weighed.as_ref().unwrap().dryness.basis, Basis::Assumed);
    let stopped = batch.baths[0].stopped.unwrap();
    assert_eq!(
        (stopped.why, stopped.at.to_string()),
        (StopReason::Spent, "2026-05-03T10:08:00Z".into())
    );
    let withdrawn = Body::Note(Note { text: "by mistake".into() });
    assert!(batch.visible_entries().all(|shown| shown.entry.body != withdrawn));
    assert_eq!(book.lots[&Ulid(3)].dry_g_left(), 100.0);
    assert_eq!(book.products[&Ulid(2)].name, "Blue bottle");
}

/// As long as 1 is the format in use, the same contents are written as the very same file.
#[test]
fn format_1_is_written_as_before() {
    let file = read(FORMAT_1, Limits::default()).unwrap();
    let photos = file.photos.into_iter().map(|(id, photo)| (id, photo.bytes));
    assert_eq!(write(&file.header, &file.entries, photos).unwrap(), FORMAT_1);
}

/// The records of entries that could not be read, as they stand in a file, byte for byte.
#[test]
fn unreadable_entries_of_format_1_are_written_as_before() {
    const TEXT: &str = r#"{
  "app": "0.1.0",
  "device": "k7m2",
  "entries": [],
  "exported_at": "2026-05-03T17:40:00Z",
  "format": 1,
  "unreadable": [
    {
      "format": 2,
      "id": "00000000000000000000000007",
      "text": "{\"newer\":1.0}"
    }
  ]
}
"#;
    let ExchangeFile { header, unreadable, .. } = read(TEXT.as_bytes(), Limits::default()).unwrap();
    let id = Ulid(7).to_string();
    assert_eq!(unreadable, [EntryRecord { id, format: 2, text: r#"{"newer":1.0}"#.into() }]);
    assert_eq!(json_text_with(&header, &[], &unreadable), TEXT);
}
