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
    EntryRecord, decode_entry, decode_photo, encode_photo, join, photo_key, piece_keys,
};
use super::{NewPhoto, PhotoBytes, Snapshot, StorageBackend, StoreError};
use crate::platform::random;

const NAME: &str = "bleachfield";

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

/// How long to wait for another tab to close its connection before an upgrade.
const BLOCKED_AFTER: Duration = Duration::from_secs(10);

/// An open database.
pub(super) struct IndexedDb {
    connection: RefCell<Rc<Rexie>>,
}

impl IndexedDb {
    /// Opens the database; creates or upgrades it first if needed.
    pub(super) async fn open() -> Result<Self, StoreError> {
        Ok(Self { connection: RefCell::new(Rc::new(connect().await?)) })
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
        match put_all(NAME, VERSION, puts).await {
            Err(StoreError::ConnectionClosed) => {
                self.reconnect().await?;
                put_all(NAME, VERSION, puts).await
            }
            written => written,
        }
    }

    async fn reconnect(&self) -> Result<Rc<Rexie>, StoreError> {
        let connection = Rc::new(connect().await?);
        *self.connection.borrow_mut() = connection.clone();
        Ok(connection)
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
        let transaction = self.read(ENTRIES).await?;
        let records = transaction.store(ENTRIES)?.get_all(None, None).await?;
        Ok(Snapshot::of(device, records.into_iter().map(decode_entry)))
    }

    async fn append(&self, entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError> {
        let mut puts = Vec::new();
        for entry in entries {
            let (key, value) = entry.encode()?;
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
}

fn put_photo(store: &'static str, id: &PhotoId, photo: &PhotoBytes) -> Result<Put, StoreError> {
    let (key, value) = encode_photo(id, photo)?;
    Ok(Put { store, key, value })
}

/// Opens a connection. `rexie` closes it on `versionchange`, so that a newer version in
/// another tab can upgrade.
async fn connect() -> Result<Rexie, StoreError> {
    let (opened, connection) = oneshot::channel();
    // Never dropped half-way: an upgrade without its handler would leave stores out.
    spawn_local(async move {
        if let Err(Ok(unused)) = opened.send(build().await) {
            unused.close();
        }
    });
    // `rexie` has no hook for `blocked`: another tab that sleeps could delay this for ever.
    let (expired, timeout) = oneshot::channel::<()>();
    let expire = move || {
        let _ = expired.send(());
    };
    set_timeout(expire, BLOCKED_AFTER);
    match future::select(connection, timeout).await {
        Either::Left((Ok(connection), _)) => connection,
        _ => Err(StoreError::ConnectionClosed),
    }
}

async fn build() -> Result<Rexie, StoreError> {
    let empty = Rexie::builder(NAME).version(VERSION);
    let schema = STORES
        .into_iter()
        .fold(empty, |schema, store| schema.add_object_store(ObjectStore::new(store)));
    schema.build().await.map_err(|error| match StoreError::from(error) {
        // A private window of an old browser; nothing is stored yet.
        StoreError::ConnectionClosed | StoreError::Corrupt => StoreError::Unavailable,
        error => error,
    })
}
