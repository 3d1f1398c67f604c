//! The state of the whole app: the book, and the pen that writes into it.
//!
//! A decision becomes an entry, the entry goes to disk, and only then is it
//! folded into the book that every screen reads. Nothing is shown as saved
//! before the store has said so.

use bleachfield_core::{
    journal::{Body, Book, Device, Entry, Pen, PhotoId, Subject, ulid_at},
    message::Message,
};
use jiff::Timestamp;
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use crate::{
    components::notify,
    i18n::render,
    platform::{clock, storage},
    storage::{Contents, Kept, NewPhoto, Opened, PhotoBytes, Store, StoreError},
};

/// The studio on this phone, from context. Copied freely.
#[derive(Clone, Copy)]
pub struct Studio {
    book: RwSignal<Book>,
    pen: StoredValue<Pen>,
    store: StoredValue<Option<Store>, LocalStorage>,
    opening: RwSignal<Opening>,
    /// The present instant, renewed each second.
    now: Signal<Timestamp>,
}

/// How far the book is open.
#[derive(Clone, Debug, PartialEq)]
pub enum Opening {
    Reading,
    Open(Kept),
    /// There is a book, and it cannot be opened here and now.
    Refused(Message),
}

/// The studio, from context.
pub fn studio() -> Studio {
    expect_context()
}

impl Studio {
    /// Puts the studio in context and opens its book.
    pub fn provide() -> Self {
        let studio = Self {
            book: RwSignal::new(Book::default()),
            pen: StoredValue::new(Pen::new(Device::from_random(clock::random() as u64), None)),
            store: StoredValue::new_local(None),
            opening: RwSignal::new(Opening::Reading),
            now: clock::ticking(),
        };
        provide_context(studio);
        spawn_local(async move {
            match Store::open().await {
                Ok(opened) => studio.open(opened),
                Err(error) => studio.opening.set(Opening::Refused(error.message())),
            }
        });
        studio.follow_other_tabs();
        studio
    }

    /// How far the book is open.
    pub fn opening(self) -> Opening {
        self.opening.get()
    }

    /// Where what is written goes.
    pub fn kept(self) -> Kept {
        match self.opening.get() {
            Opening::Open(kept) => kept,
            _ => Kept::InMemory(StoreError::Unavailable),
        }
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

    /// This phone's own id, as entries carry it.
    pub fn device(self) -> Device {
        self.pen.with_value(|pen| pen.device().clone())
    }

    /// A fresh id for a batch, a bath, a bottle or a lot.
    pub fn fresh_id(self) -> Ulid {
        ulid_at(clock::now(), clock::random())
    }

    /// Writes that something happened just now, and gives the entry's id once
    /// it is on disk. If it cannot be saved the person is told, nothing is
    /// shown as done, and `None` comes back.
    pub async fn write(self, about: Subject, body: Body) -> Option<Ulid> {
        self.write_all(vec![(about, body)]).await.and_then(|ids| ids.last().copied())
    }

    /// Writes several things that belong together: all of them or none.
    pub async fn write_all(self, bodies: Vec<(Subject, Body)>) -> Option<Vec<Ulid>> {
        self.write_with(bodies, &[]).await
    }

    /// As [`Studio::write_all`], with the photos that the entries speak of.
    pub async fn write_with(
        self,
        bodies: Vec<(Subject, Body)>,
        photos: &[NewPhoto],
    ) -> Option<Vec<Ulid>> {
        let ids = self.write_unheard(bodies, photos).await?;
        self.tell();
        Some(ids)
    }

    /// As [`Studio::write_with`], but those who follow the book hear of it only by
    /// [`Studio::tell`]: for a screen that is about to be left, and would be drawn anew in vain.
    pub async fn write_unheard(
        self,
        bodies: Vec<(Subject, Body)>,
        photos: &[NewPhoto],
    ) -> Option<Vec<Ulid>> {
        let entries = self.entries(bodies)?;
        let begins = entries.iter().any(|entry| matches!(entry.body, Body::BatchStarted(_)));
        self.keep(&entries, photos).await?;
        let ids = entries.iter().map(|entry| entry.id).collect();
        self.book.update_untracked(|book| book.add(entries));
        if begins {
            // The first thing worth keeping: ask the browser not to clear it. Firefox
            // asks the person and answers when they do, which may be never: nothing
            // waits for it.
            spawn_local(async {
                storage::persist().await;
            });
        }
        Some(ids)
    }

    /// Tells those who follow the book that it has changed.
    pub fn tell(self) {
        self.book.notify();
    }

    /// Takes in entries and photos from an exchange file: all or nothing.
    /// `Some` once they are on disk and in the book.
    pub async fn take_in(self, entries: Vec<Entry>, photos: &[NewPhoto]) -> Option<()> {
        self.keep(&entries, photos).await?;
        self.note(&entries);
        self.book.update(|book| book.add(entries));
        Some(())
    }

    /// A photo's bytes; `None` if they are not on this phone.
    pub async fn photo(self, id: &PhotoId) -> Option<PhotoBytes> {
        self.store()?.photo(id).await.ok().flatten()
    }

    /// A photo's small copy; `None` if none was made.
    pub async fn thumb(self, id: &PhotoId) -> Option<PhotoBytes> {
        self.store()?.thumb(id).await.ok().flatten()
    }

    /// The store itself, for what only one screen needs of it.
    pub fn store(self) -> Option<Store> {
        self.store.get_value()
    }

    fn open(self, Opened { store, contents }: Opened) {
        let kept = store.kept();
        let Contents { device, entries, unreadable: _ } = contents;
        let book = Book::of(entries);
        self.pen.set_value(Pen::new(device, book.latest()));
        self.store.set_value(Some(store));
        self.book.set(book);
        self.opening.set(Opening::Open(kept));
    }

    fn entries(self, bodies: Vec<(Subject, Body)>) -> Option<Vec<Entry>> {
        let (now, zone) = (clock::now(), clock::zone());
        let mut entries = Ok(Vec::with_capacity(bodies.len()));
        self.pen.try_update_value(|pen| {
            entries = bodies
                .into_iter()
                .map(|(about, body)| pen.write(now, clock::random(), &zone, about, body))
                .collect();
        });
        // An entry is refused only for a figure that is no number, which no
        // field lets through: there is nothing that a person could mend.
        entries.ok()
    }

    async fn keep(self, entries: &[Entry], photos: &[NewPhoto]) -> Option<()> {
        let kept = match self.store() {
            Some(store) => store.append(entries, photos).await,
            None => Err(StoreError::Unavailable),
        };
        kept.map_err(|error| notify(render(&error.message()), None)).ok()
    }

    fn note(self, entries: &[Entry]) {
        self.pen.try_update_value(|pen| {
            pen.receive(entries, clock::now());
        });
    }

    /// Another tab may have written: reads again when this one is looked at.
    fn follow_other_tabs(self) {
        let _ = window_event_listener_untyped("focus", move |_| {
            spawn_local(async move {
                let Some(store) = self.store() else { return };
                if let Ok(contents) = store.contents().await
                    && contents.entries.len() > self.book.with_untracked(Book::len)
                {
                    self.note(&contents.entries);
                    self.book.update(|book| book.add(contents.entries));
                }
            });
        });
    }
}
