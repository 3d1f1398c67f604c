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
use bleachfield_core::journal::{DeviceId, Entry, PhotoId};
use web_sys::Blob;

use crate::platform::file;

pub use error::StoreError;
pub use record::EntryRecord;

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

/// Everything stored but the photos.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapshot {
    /// The id of this device; created with the store.
    pub device: DeviceId,
    pub entries: Vec<Entry>,
    /// Ids of records that cannot be decoded. They are left as they are.
    pub unreadable: Vec<String>,
}

impl Snapshot {
    /// Of decoded records; an error is the id of one that cannot be decoded.
    fn of(device: DeviceId, records: impl Iterator<Item = Result<Entry, String>>) -> Self {
        let mut snapshot = Self { device, entries: Vec::new(), unreadable: Vec::new() };
        for record in records {
            match record {
                Ok(entry) => snapshot.entries.push(entry),
                Err(id) => snapshot.unreadable.push(id),
            }
        }
        snapshot
    }
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
    async fn append(&self, entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError>;

    /// The bytes of a photo; `None` if it is not stored here.
    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    /// The small copy of a photo; `None` if there is none yet.
    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    /// Stores a small copy that was made later.
    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError>;

    /// The ids of all stored photos.
    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError>;
}

/// Opens the IndexedDB store and reads it; the memory backend takes its place where the
/// browser offers no disk (private browsing, storage forbidden or full).
///
/// # Errors
/// [`StoreError::VersionTooNew`] and [`StoreError::ConnectionClosed`]: there is a book on
/// disk, and an empty one in its place would mislead.
pub async fn open() -> Result<OpenedStore, StoreError> {
    let opened = match indexed_db::IndexedDb::open().await {
        Ok(store) => store.load().await.map(|snapshot| (store, snapshot)),
        Err(error) => Err(error),
    };
    match opened {
        Ok((store, snapshot)) => {
            let persistence = Persistence::OnDisk;
            Ok(OpenedStore { store: Rc::new(store), persistence, snapshot })
        }
        Err(error @ (StoreError::VersionTooNew | StoreError::ConnectionClosed)) => Err(error),
        Err(error) => {
            let store = memory::Memory::new();
            let snapshot = store.load().await?;
            let persistence = Persistence::InMemory(error);
            Ok(OpenedStore { store: Rc::new(store), persistence, snapshot })
        }
    }
}
