//! The IndexedDB backend. Schema, versions and reads are by `rexie`; writes are by
//! [`durable_write`](super::durable_write).
//!
//! Nothing but IndexedDB is awaited while a transaction is open: anything else ends it.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use std::time::Duration;

use async_trait::async_trait;
use bleachfield_core::journal::{DeviceId, PhotoId};
use futures::channel::oneshot;
use futures::future::{self, Either};
use leptos::prelude::set_timeout;
use leptos::task::spawn_local;
use rexie::{ObjectStore, Rexie, Transaction, TransactionMode};
use wasm_bindgen::JsValue;

use super::durable_write::{Put, put_all};
use super::record::{
    as_json, decode_photo, encode_entry, encode_photo, entry_record, join, photo_key, piece_keys,
};
use super::{
    EntryRecord, NewPhoto, PhotoBytes, Snapshot, StorageBackend, StoreError, UnreadablePhoto,
};
use crate::platform::random;

/// The person's own book.
pub(super) const OWN: &str = "bleachfield";

/// The demo studio: made when it is entered, deleted when it is left.
pub(super) const DEMO: &str = "bleachfield-demo";

/// Raised when [`STORES`] grows, or when an earlier build would misread a record: earlier
/// builds of version 2 wrote photos in pieces.
const VERSION: u32 = 2;

/// Entries, by ULID.
const ENTRIES: &str = "entries";
/// Bytes of photos, by SHA-256.
const PHOTOS: &str = "photos";
/// Small copies of photos, by the SHA-256 of the photo.
const THUMBS: &str = "thumbs";
/// Single values of this installation.
const INSTALLATION: &str = "house";

/// Every object store, in every version: `rexie` deletes those that it is not told of. All
/// have keys outside the records, and no indexes, since the projection is in memory.
const STORES: [&str; 4] = [ENTRIES, PHOTOS, THUMBS, INSTALLATION];

/// The key of the device id in [`INSTALLATION`].
const DEVICE: &str = "device";

/// How long to wait for another tab to close its connection before an upgrade or a deletion.
const BLOCKED_AFTER: Duration = Duration::from_secs(10);

/// An open database.
pub(super) struct IndexedDb {
    name: &'static str,
    connection: RefCell<Rc<Rexie>>,
}

impl IndexedDb {
    /// Opens the database; creates or upgrades it first if needed.
    pub(super) async fn open(name: &'static str) -> Result<Self, StoreError> {
        Ok(Self { name, connection: RefCell::new(Rc::new(connect(name).await?)) })
    }

    /// Deletes a database, with all that is in it.
    ///
    /// # Errors
    /// [`StoreError::ConnectionClosed`] if another tab holds it open for too long.
    pub(super) async fn delete(name: &'static str) -> Result<(), StoreError> {
        within_limit(async move { Rexie::delete(name).await.map_err(StoreError::from) }, drop).await
    }

    /// Opens a read transaction.
    ///
    /// The browser may close a connection at any time (low memory, sleep, an upgrade by
    /// another tab): then it is opened again once.
    async fn read(&self, store: &str) -> Result<Transaction, StoreError> {
        let open = |connection: &Rexie| {
            connection.transaction(&[store], TransactionMode::ReadOnly).map_err(StoreError::from)
        };
        let connection = self.connection.borrow().clone();
        match open(&connection) {
            Err(StoreError::ConnectionClosed) => open(&*self.reconnect().await?),
            opened => opened,
        }
    }

    async fn write(&self, puts: &[Put]) -> Result<(), StoreError> {
        match put_all(self.name, VERSION, puts).await {
            Err(StoreError::ConnectionClosed) => {
                self.reconnect().await?;
                put_all(self.name, VERSION, puts).await
            }
            written => written,
        }
    }

    async fn reconnect(&self) -> Result<Rc<Rexie>, StoreError> {
        let connection = Rc::new(connect(self.name).await?);
        *self.connection.borrow_mut() = connection.clone();
        Ok(connection)
    }

    /// All records of entries, whatever their shape.
    async fn entry_records(&self) -> Result<Vec<EntryRecord>, StoreError> {
        let transaction = self.read(ENTRIES).await?;
        let store = transaction.store(ENTRIES)?;
        let keys = store.get_all_keys(None, None).await?;
        if let Ok(values) = store.get_all(None, None).await {
            let records = keys.iter().zip(values);
            return Ok(records.map(|(key, value)| entry_record(key, Some(value))).collect());
        }
        // The browser returns none of them if it cannot return one: one at a time.
        let mut records = Vec::new();
        for key in &keys {
            records.push(entry_record(key, self.value(ENTRIES, key).await?));
        }
        Ok(records)
    }

    /// A stored value; `None` if the browser cannot return it.
    ///
    /// # Errors
    /// If the database itself cannot be read.
    async fn value(&self, store: &str, key: &JsValue) -> Result<Option<JsValue>, StoreError> {
        let transaction = self.read(store).await?;
        match transaction.store(store)?.get(key.clone()).await.map_err(StoreError::from) {
            Err(error @ StoreError::ConnectionClosed) => Err(error),
            value => Ok(value.ok().flatten()),
        }
    }

    async fn read_photo(
        &self,
        store: &str,
        id: &PhotoId,
    ) -> Result<Option<PhotoBytes>, StoreError> {
        let transaction = self.read(store).await?;
        let store = transaction.store(store)?;
        let Some(record) = store.get(photo_key(id)).await? else { return Ok(None) };
        let (photo, pieces) = decode_photo(record)?;
        if pieces == 0 {
            return Ok(Some(photo));
        }
        let following = store.get_all(Some(piece_keys(id)?), None).await?;
        join(photo, pieces, &following).map(Some)
    }

    /// The id of this device; created if there is none.
    async fn device(&self) -> Result<DeviceId, StoreError> {
        let key = JsValue::from_str(DEVICE);
        let transaction = self.read(INSTALLATION).await?;
        let stored = transaction.store(INSTALLATION)?.get(key.clone()).await?;
        let stored = stored.and_then(|id| DeviceId::new(id.as_string()?).ok());
        if let Some(device) = stored {
            return Ok(device);
        }
        let device = DeviceId::from_random(random::bits() as u64);
        let value = JsValue::from_str(device.as_str());
        self.write(&[Put { store: INSTALLATION, key, value }]).await?;
        Ok(device)
    }
}

#[async_trait(?Send)]
impl StorageBackend for IndexedDb {
    async fn load(&self) -> Result<Snapshot, StoreError> {
        let device = self.device().await?;
        Snapshot::of(device, self.entry_records().await?).await
    }

    async fn append(&self, entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError> {
        let mut puts = Vec::new();
        for entry in entries {
            let (key, value) = encode_entry(entry)?;
            puts.push(Put { store: ENTRIES, key, value });
        }
        for new in photos {
            puts.push(put_photo(PHOTOS, &new.id, &new.photo)?);
            if let Some(thumb) = &new.thumb {
                puts.push(put_photo(THUMBS, &new.id, thumb)?);
            }
        }
        self.write(&puts).await
    }

    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        self.read_photo(PHOTOS, id).await
    }

    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        self.read_photo(THUMBS, id).await
    }

    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError> {
        self.write(&[put_photo(THUMBS, id, thumb)?]).await
    }

    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError> {
        let transaction = self.read(PHOTOS).await?;
        let keys = transaction.store(PHOTOS)?.get_all_keys(None, None).await?;
        Ok(keys.iter().filter_map(|key| PhotoId::try_from(key.as_string()?).ok()).collect())
    }

    async fn unreadable_photos(&self) -> Result<Vec<UnreadablePhoto>, StoreError> {
        let mut unreadable = Vec::new();
        for id in self.photo_ids().await? {
            match self.read_photo(PHOTOS, &id).await {
                Ok(_) => {}
                Err(error @ StoreError::ConnectionClosed) => return Err(error),
                Err(_) => {
                    let value = self.value(PHOTOS, &photo_key(&id)).await?;
                    let text = value.map(|value| as_json(&value)).unwrap_or_default();
                    unreadable.push(UnreadablePhoto { id, text });
                }
            }
        }
        Ok(unreadable)
    }
}

fn put_photo(store: &'static str, id: &PhotoId, photo: &PhotoBytes) -> Result<Put, StoreError> {
    let (key, value) = encode_photo(id, photo)?;
    Ok(Put { store, key, value })
}

/// Opens a connection. `rexie` closes it on `versionchange`, so that a newer version in
/// another tab can upgrade.
async fn connect(name: &'static str) -> Result<Rexie, StoreError> {
    within_limit(build(name), Rexie::close).await
}

/// Awaits a request that another tab may block; `unused` gets a result that came too late.
async fn within_limit<T: 'static>(
    request: impl Future<Output = Result<T, StoreError>> + 'static,
    unused: impl FnOnce(T) + 'static,
) -> Result<T, StoreError> {
    let (done, result) = oneshot::channel();
    // Never dropped half-way: an upgrade without its handler would leave stores out.
    spawn_local(async move {
        if let Err(Ok(late)) = done.send(request.await) {
            unused(late);
        }
    });
    // `rexie` has no hook for `blocked`: another tab that sleeps could delay this for ever.
    let (expired, timeout) = oneshot::channel::<()>();
    let expire = move || {
        let _ = expired.send(());
    };
    set_timeout(expire, BLOCKED_AFTER);
    match future::select(result, timeout).await {
        Either::Left((Ok(result), _)) => result,
        _ => Err(StoreError::ConnectionClosed),
    }
}

async fn build(name: &str) -> Result<Rexie, StoreError> {
    let empty = Rexie::builder(name).version(VERSION);
    let schema = STORES
        .into_iter()
        .fold(empty, |schema, store| schema.add_object_store(ObjectStore::new(store)));
    schema.build().await.map_err(|error| match StoreError::from(error) {
        // A private window of an old browser; nothing is stored yet.
        StoreError::ConnectionClosed | StoreError::Corrupt => StoreError::Unavailable,
        error => error,
    })
}
