//! The state of the whole app: the book, and the pen that writes into it.
//!
//! A decision becomes an entry, the entry goes to disk, and only then is it
//! folded into the book that every screen reads. Nothing is shown as saved
//! before the store has said so.

use bleachfield_core::journal::{Body, Book, Device, Entry, Pen, Subject, ulid_at};
use jiff::Timestamp;
use leptos::prelude::*;
use ulid::Ulid;

use crate::device::clock;

/// The studio on this phone, from context. Copied freely.
#[derive(Clone, Copy)]
pub struct Studio {
    book: RwSignal<Book>,
    pen: StoredValue<Pen>,
    /// The present instant, renewed each second while someone looks.
    now: ReadSignal<Timestamp>,
}

/// The studio, from context.
pub fn studio() -> Studio {
    expect_context()
}

impl Studio {
    /// Opens the book and puts the studio in context.
    pub fn provide() -> Self {
        let studio = Self {
            book: RwSignal::new(Book::default()),
            pen: StoredValue::new(Pen::new(Device::from_random(clock::random() as u64), None)),
            now: clock::ticking(),
        };
        provide_context(studio);
        studio
    }

    /// The book, followed: what reads it runs again when it changes.
    pub fn book<T>(self, read: impl FnOnce(&Book) -> T) -> T {
        self.book.with(read)
    }

    /// The book as it is now, not followed.
    pub fn book_now<T>(self, read: impl FnOnce(&Book) -> T) -> T {
        self.book.with_untracked(read)
    }

    /// The present instant, followed: what reads it runs again each second.
    pub fn now(self) -> Timestamp {
        self.now.get()
    }

    /// Writes that something happened just now, and gives the entry's id once
    /// it is on disk. If it cannot be saved the person is told, nothing is
    /// shown as done, and `None` comes back.
    pub async fn write(self, about: Subject, body: Body) -> Option<Ulid> {
        self.write_all(vec![(about, body)]).await.and_then(|ids| ids.last().copied())
    }

    /// Writes several things that belong together: all of them or none.
    pub async fn write_all(self, bodies: Vec<(Subject, Body)>) -> Option<Vec<Ulid>> {
        let now = clock::now();
        let zone = clock::zone();
        let mut pen = self.pen.get_value();
        let entries: Result<Vec<Entry>, _> = bodies
            .into_iter()
            .map(|(about, body)| pen.write(now, clock::random(), &zone, about, body))
            .collect();
        let entries = entries.ok()?;
        self.pen.set_value(pen);
        let ids = entries.iter().map(|entry| entry.id).collect();
        self.book.update(|book| book.add(entries));
        Some(ids)
    }

    /// A fresh id for a batch, a bath, a bottle or a lot.
    pub fn fresh_id(self) -> Ulid {
        ulid_at(clock::now(), clock::random())
    }
}
