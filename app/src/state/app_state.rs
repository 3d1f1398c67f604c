//! The book (the projection of all entries) and the writer of entries.
//!
//! A decision becomes an entry, the entry is stored, and only then it is added to the book
//! that screens read: nothing is shown as saved before it is.

use std::collections::BTreeSet;

use bleachfield_core::{
    journal::{Body, Book, DeviceId, Entry, EntryWriter, NewEntry, PhotoId, Subject, ulid_at},
    message::Message,
};
use jiff::Timestamp;
use leptos::{
    ev,
    prelude::*,
    task::spawn_local,
    wasm_split::{SplitLoaderError, wasm_split},
};
use leptos_use::use_event_listener;
use ulid::Ulid;

use crate::{
    platform::{clock, demo, random, storage_manager},
    storage::{
        self, EntryRecord, NewPhoto, OpenedStore, Persistence, PhotoBytes, Snapshot, Store,
        StoreError,
    },
};

/// The state of the app. Copied freely.
#[derive(Clone, Copy)]
pub struct AppState {
    book: RwSignal<Book>,
    /// Stored entries that this version cannot read.
    unreadable: RwSignal<Vec<EntryRecord>>,
    writer: StoredValue<EntryWriter>,
    store: StoredValue<Option<Store>, LocalStorage>,
    load_state: RwSignal<LoadState>,
    /// The present instant, updated every second.
    now: Signal<Timestamp>,
    on_write_error: Callback<StoreError>,
}

/// Whether the book is loaded.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadState {
    Loading,
    Ready(Persistence),
    /// There is a book, and it cannot be opened now.
    Failed(Message),
}

/// The state of the app, from context.
pub fn app_state() -> AppState {
    expect_context()
}

impl AppState {
    /// Provides the context and loads the book. `on_write_error` tells the person that
    /// something was not saved.
    pub fn provide(on_write_error: Callback<StoreError>) -> Self {
        let state = Self {
            book: RwSignal::new(Book::default()),
            unreadable: RwSignal::new(Vec::new()),
            writer: StoredValue::new(EntryWriter::new(
                DeviceId::from_random(random::bits() as u64),
                None,
            )),
            store: StoredValue::new_local(None),
            load_state: RwSignal::new(LoadState::Loading),
            now: clock::use_now(),
            on_write_error,
        };
        provide_context(state);
        spawn_local(async move {
            match storage::open().await {
                Ok(opened) => state.loaded(opened).await,
                Err(error) => state.load_state.set(LoadState::Failed(error.message())),
            }
        });
        state.follow_other_tabs();
        state
    }

    pub fn load_state(self) -> LoadState {
        self.load_state.get()
    }

    /// How long what is written lasts.
    pub fn persistence(self) -> Persistence {
        match self.load_state.get() {
            LoadState::Ready(persistence) => persistence,
            _ => Persistence::InMemory(StoreError::Unavailable),
        }
    }

    /// Reads the book, tracked.
    pub fn book<T>(self, read: impl FnOnce(&Book) -> T) -> T {
        self.book.with(read)
    }

    /// Reads the book, untracked.
    pub fn book_now<T>(self, read: impl FnOnce(&Book) -> T) -> T {
        self.book.with_untracked(read)
    }

    /// The stored entries that this version cannot read, as they are stored. Tracked.
    pub fn unreadable(self) -> Vec<EntryRecord> {
        self.unreadable.get()
    }

    /// As [`Self::unreadable`], untracked.
    pub fn unreadable_now(self) -> Vec<EntryRecord> {
        self.unreadable.get_untracked()
    }

    /// The present instant, tracked: it changes every second.
    pub fn now(self) -> Timestamp {
        self.now.get()
    }

    /// The id of this device in its entries.
    pub fn device(self) -> DeviceId {
        self.writer.with_value(|writer| writer.device().clone())
    }

    /// A new id for a batch, a bath, a shelf product or a lot.
    pub fn fresh_id(self) -> Ulid {
        ulid_at(clock::now(), random::bits())
    }

    /// An entry for [`Self::write_entries`]: others written with it may refer to its id.
    pub fn new_entry(self, about: Subject, body: Body) -> NewEntry {
        NewEntry { id: self.fresh_id(), about, body }
    }

    /// Writes an entry, and returns its id once it is stored. `None` if it was not stored;
    /// the person has been told.
    pub async fn write(self, about: Subject, body: Body) -> Option<Ulid> {
        self.write_all(vec![(about, body)]).await.and_then(|ids| ids.last().copied())
    }

    /// Writes several entries, all or none. One act of a person is one such call: between two
    /// calls the browser may be killed.
    pub async fn write_all(self, bodies: Vec<(Subject, Body)>) -> Option<Vec<Ulid>> {
        self.write_with(bodies, &[]).await
    }

    /// As [`Self::write_all`], for entries that refer to each other.
    pub async fn write_entries(self, entries: Vec<NewEntry>) -> Option<Vec<Ulid>> {
        self.write_entries_with(entries, &[]).await
    }

    /// As [`Self::write_all`], with the photos that the entries refer to.
    pub async fn write_with(
        self,
        bodies: Vec<(Subject, Body)>,
        photos: &[NewPhoto],
    ) -> Option<Vec<Ulid>> {
        let entries = bodies.into_iter().map(|(about, body)| self.new_entry(about, body));
        self.write_entries_with(entries.collect(), photos).await
    }

    async fn write_entries_with(
        self,
        entries: Vec<NewEntry>,
        photos: &[NewPhoto],
    ) -> Option<Vec<Ulid>> {
        let entries = self.stamped(entries)?;
        let first_of_batch = entries.iter().any(|e| matches!(e.body, Body::BatchStarted(_)));
        let records: Vec<EntryRecord> = entries.iter().map(EntryRecord::of).collect();
        self.append(&records, photos).await?;
        let ids = entries.iter().map(|entry| entry.id).collect();
        self.book.update(|book| book.add(entries));
        if first_of_batch && !demo::is_open() {
            // Worth keeping: ask the browser not to clear it. Not awaited: Firefox asks the
            // person, who may never answer.
            spawn_local(async {
                storage_manager::persist().await;
            });
        }
        Some(ids)
    }

    /// Writes the entries and photos of an exchange file, all or none, and the records in it
    /// that this version cannot read. `Some` once they are stored and in the book.
    pub async fn import(
        self,
        entries: Vec<Entry>,
        unreadable: Vec<EntryRecord>,
        photos: &[NewPhoto],
    ) -> Option<()> {
        let records = entries.iter().map(EntryRecord::of).chain(unreadable.iter().cloned());
        self.append(&records.collect::<Vec<_>>(), photos).await?;
        self.receive(&entries);
        // What could not be read here may have come in a readable form.
        let ids: BTreeSet<String> = entries.iter().map(|entry| entry.id.to_string()).collect();
        self.unreadable.update(|all| {
            all.retain(|record| !ids.contains(&record.id));
            all.extend(unreadable);
        });
        self.book.update(|book| book.add(entries));
        Some(())
    }

    /// The bytes of a photo; `None` if it is not on this device, or cannot be read.
    pub async fn photo(self, id: &PhotoId) -> Option<PhotoBytes> {
        self.read_photo(id).await.ok().flatten()
    }

    /// The bytes of a photo; `None` if it is not on this device.
    ///
    /// # Errors
    /// If it is, and cannot be read.
    pub async fn read_photo(self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        self.store().ok_or(StoreError::Unavailable)?.photo(id).await
    }

    /// The small copy of a photo; `None` if there is none yet.
    pub async fn thumb(self, id: &PhotoId) -> Option<PhotoBytes> {
        self.store()?.thumb(id).await.ok().flatten()
    }

    /// The store, once it is open.
    pub fn store(self) -> Option<Store> {
        self.store.get_value()
    }

    async fn loaded(self, OpenedStore { store, persistence, snapshot }: OpenedStore) {
        let Snapshot { device, entries, unreadable } = snapshot;
        self.unreadable.set(unreadable);
        let mut book = Book::default();
        if !entries.is_empty() {
            match load_projection().await {
                Ok(add) => add(&mut book, entries),
                Err(_) => {
                    let why = StoreError::NotLoaded.message();
                    return self.load_state.set(LoadState::Failed(why));
                }
            }
        }
        self.writer.set_value(EntryWriter::new(device, book.latest()));
        self.store.set_value(Some(store));
        self.book.set(book);
        self.load_state.set(LoadState::Ready(persistence));
    }

    fn stamped(self, entries: Vec<NewEntry>) -> Option<Vec<Entry>> {
        let (now, zone) = (clock::now(), clock::zone());
        let written = self.writer.try_update_value(|writer| writer.write_all(now, &zone, entries));
        // Fails only for a number that is not finite, which no field accepts.
        written?.ok()
    }

    async fn append(self, records: &[EntryRecord], photos: &[NewPhoto]) -> Option<()> {
        let written = match self.store() {
            Some(store) => store.append(records, photos).await,
            None => Err(StoreError::Unavailable),
        };
        written.map_err(|error| self.on_write_error.run(error)).ok()
    }

    /// Moves the clock of the writer past the entries of other devices and tabs.
    fn receive(self, entries: &[Entry]) {
        self.writer.try_update_value(|writer| {
            writer.receive(entries, clock::now());
        });
    }

    /// Reads what other tabs stored when the page gets the focus or becomes visible. Between two
    /// windows side by side only `focus` fires; a change of tabs may fire `visibilitychange` alone.
    fn follow_other_tabs(self) {
        let _ = use_event_listener(window(), ev::focus, move |_| self.read_other_tabs());
        let _ = use_event_listener(document(), ev::visibilitychange, move |_| {
            if !document().hidden() {
                self.read_other_tabs();
            }
        });
    }

    fn read_other_tabs(self) {
        spawn_local(async move {
            let Some(store) = self.store() else { return };
            let Ok(Snapshot { entries, unreadable, .. }) = store.load().await else { return };
            // A newer version in another tab may have written some.
            if self.unreadable.with_untracked(|known| *known != unreadable) {
                self.unreadable.set(unreadable);
            }
            if entries.len() > self.book.with_untracked(Book::len) {
                let Ok(add) = load_projection().await else { return };
                self.receive(&entries);
                self.book.update(|book| add(book, entries));
            }
        });
    }
}

type Projection = fn(&mut Book, Vec<Entry>);

/// What adds entries to the book. In the lazy piece that decodes them: a first visit has none.
#[wasm_split(records, fallible, wasm_split_path = leptos::wasm_split)]
fn load_projection() -> Result<Projection, SplitLoaderError> {
    Ok(|book: &mut Book, entries: Vec<Entry>| {
        if book.is_empty() {
            *book = Book::of(entries);
        } else {
            book.add(entries);
        }
    })
}
