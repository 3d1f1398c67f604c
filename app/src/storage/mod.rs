//! Storage of entries, photos and the device id: one trait, an IndexedDB backend and a memory
//! backend. The browser's promise to keep stored data is in `platform::storage_manager`; the
//! projection is in `state`.

mod durable_write;
mod error;
mod indexed_db;
mod memory;
mod record;

use std::collections::BTreeSet;
use std::rc::Rc;

use async_trait::async_trait;
use bleachfield_core::exchange::file::{PhotoFile, decode_all};
use bleachfield_core::journal::{DeviceId, Entry, PhotoId};
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use serde::Serialize;
use web_sys::Blob;

use crate::platform::{demo, file};

pub use bleachfield_core::exchange::file::EntryRecord;
pub use error::StoreError;

/// A picture as it is stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoBytes {
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: String,
    pub bytes: Vec<u8>,
}

impl PhotoBytes {
    /// As a blob; `None` if the browser refuses.
    pub fn to_blob(&self) -> Option<Blob> {
        file::blob(&self.mime, &self.bytes)
    }
}

/// A photo to be stored with the entries that refer to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPhoto {
    pub id: PhotoId,
    pub photo: PhotoBytes,
    /// A small copy for lists, if there is one yet.
    pub thumb: Option<PhotoBytes>,
}

impl NewPhoto {
    /// A photo of an exchange file.
    pub fn of_file(id: &PhotoId, photo: &PhotoFile) -> Self {
        let photo = PhotoBytes { mime: photo.mime.to_owned(), bytes: photo.bytes.clone() };
        Self { id: id.clone(), photo, thumb: None }
    }
}

/// Everything stored but the photos.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapshot {
    /// The id of this device; created with the store.
    pub device: DeviceId,
    pub entries: Vec<Entry>,
    /// Records that this version cannot read. They are left as they are.
    pub unreadable: Vec<EntryRecord>,
}

impl Snapshot {
    /// # Errors
    /// [`StoreError::NotLoaded`].
    async fn of(device: DeviceId, records: Vec<EntryRecord>) -> Result<Self, StoreError> {
        let (entries, unreadable) = if records.is_empty() {
            Default::default()
        } else {
            load_decoder().await.map_err(|_| StoreError::NotLoaded)?(records)
        };
        Ok(Self { device, entries, unreadable })
    }
}

type Decoder = fn(Vec<EntryRecord>) -> (Vec<Entry>, Vec<EntryRecord>);

/// In a lazy piece: a first visit has nothing to decode.
#[wasm_split(records, fallible, wasm_split_path = leptos::wasm_split)]
// The function itself would be called from the first piece's table, and so be part of it.
#[allow(clippy::redundant_closure)]
fn load_decoder() -> Result<Decoder, SplitLoaderError> {
    Ok(|records| decode_all(records))
}

/// A stored photo that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct UnreadablePhoto {
    pub id: PhotoId,
    /// What there is of its record: JSON, bytes as hexadecimal digits. Empty if the browser
    /// cannot return it.
    pub text: String,
}

/// How long stored data lasts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Persistence {
    OnDisk,
    /// Until the page closes, with the reason.
    InMemory(StoreError),
}

/// An opened store and what it holds.
pub struct OpenedStore {
    pub store: Store,
    pub persistence: Persistence,
    pub snapshot: Snapshot,
}

/// A shared handle to the backend in use.
pub type Store = Rc<dyn StorageBackend>;

/// A place to store entries and photos.
///
/// Writes are atomic; `Ok` means stored for as long as [`Persistence`] says. All methods
/// fail with a [`StoreError`]; a write that failed changed nothing.
#[async_trait(?Send)]
pub trait StorageBackend {
    /// Reads everything but the photos.
    async fn load(&self) -> Result<Snapshot, StoreError>;

    /// Writes entries and photos in one transaction. An existing record with the same id is
    /// replaced; equal ids mean equal contents, except for entries that resolve a conflict.
    /// The caller encodes entries, so that their encoder is in the lazy pieces that write.
    async fn append(&self, entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError>;

    /// The bytes of a photo; `None` if it is not stored here.
    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    /// The small copy of a photo; `None` if there is none yet.
    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    /// Stores a small copy that was made later.
    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError>;

    /// The ids of all stored photos.
    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError>;

    /// The stored photos that cannot be read. Reads all of them, one after another.
    async fn unreadable_photos(&self) -> Result<Vec<UnreadablePhoto>, StoreError>;
}

/// Makes the database of the demo studio anew, with these entries and photos. Whatever page is
/// open goes on with its own.
///
/// # Errors
/// If the browser offers no disk, or not enough of it.
pub async fn make_demo(entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError> {
    delete_demo().await?;
    indexed_db::IndexedDb::open(indexed_db::DEMO).await?.append(entries, photos).await
}

/// Deletes the database of the demo studio.
///
/// # Errors
/// If another tab holds it open for too long.
pub async fn delete_demo() -> Result<(), StoreError> {
    indexed_db::IndexedDb::delete(indexed_db::DEMO).await
}

/// Opens the IndexedDB store of the book that this page shows, and reads it; the memory backend
/// takes its place where the browser offers no disk (private browsing, storage forbidden or full).
///
/// # Errors
/// [`StoreError::VersionTooNew`], [`StoreError::ConnectionClosed`], [`StoreError::Corrupt`] and
/// [`StoreError::NotLoaded`]: there is a book on disk, and an empty one in its place would mislead.
pub async fn open() -> Result<OpenedStore, StoreError> {
    let name = if demo::is_open() { indexed_db::DEMO } else { indexed_db::OWN };
    let opened = match indexed_db::IndexedDb::open(name).await {
        Ok(store) => store.load().await.map(|snapshot| (store, snapshot)),
        Err(error) => Err(error),
    };
    match opened {
        Ok((store, snapshot)) => {
            let persistence = Persistence::OnDisk;
            Ok(OpenedStore { store: Rc::new(store), persistence, snapshot })
        }
        Err(
            error @ (StoreError::VersionTooNew
            | StoreError::ConnectionClosed
            | StoreError::Corrupt
            | StoreError::NotLoaded),
        ) => Err(error),
        Err(error) => {
            let store = memory::Memory::new();
            let snapshot = store.load().await?;
            let persistence = Persistence::InMemory(error);
            Ok(OpenedStore { store: Rc::new(store), persistence, snapshot })
        }
    }
}
