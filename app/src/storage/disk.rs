//! The store in IndexedDB.
//!
//! Reading goes through `idb`. Writing asks for more than that can say: a
//! browser's usual "relaxed" commit reports success once the operating system
//! has the bytes, and a phone that dies a second later may still lose them.
//! Here each write transaction asks for `durability: "strict"` (IndexedDB 3.0
//! §2.7.4), and a write counts as done on the transaction's `complete` event
//! alone; on `abort` the transaction's own error says why.
//!
//! Nothing but IndexedDB is awaited while a transaction is open, and every
//! record is made before it opens. An upgrade adds what is missing and takes
//! nothing away.

use super::convert::{entry_of, entry_record, join, photo_of, photo_records, pieces};
use super::{Contents, Keep, NewPhoto, PhotoBytes, StoreError};
use crate::platform::clock;
use bleachfield_core::journal::{DeviceId, Entry, PhotoId};
use idb::event::VersionChangeEvent;
use idb::{Database, DatabaseEvent, Factory, ObjectStoreParams, Transaction, TransactionMode};
use js_sys::{Array, Function, Object, Promise, Reflect};
use std::cell::RefCell;
use std::collections::BTreeSet;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbOpenDbRequest, IdbTransaction};

const NAME: &str = "bleachfield";

/// Raised whenever [`STORES`] grows, or an older program would misread a record: since 2,
/// photos lie in pieces.
const VERSION: u32 = 2;

/// Entries, by ULID.
const ENTRIES: &str = "entries";
/// Photos' bytes, by SHA-256.
const PHOTOS: &str = "photos";
/// Small copies of photos, by the SHA-256 of the whole one.
const THUMBS: &str = "thumbs";
/// What there is one of: the device's id.
const HOUSE: &str = "house";

/// Every object store, all with keys of their own beside the records. There
/// are no indexes: the book is one, in memory.
const STORES: [&str; 4] = [ENTRIES, PHOTOS, THUMBS, HOUSE];

/// The key of the device's id within [`HOUSE`].
const DEVICE: &str = "device";

/// An open database.
pub(super) struct Disk {
    connection: RefCell<Connection>,
}

impl Disk {
    /// Opens the database; makes or extends it where it must.
    pub(super) async fn open() -> Result<Self, StoreError> {
        Ok(Self { connection: RefCell::new(Connection::open().await?) })
    }

    fn database(&self) -> IdbDatabase {
        self.connection.borrow().raw.clone()
    }

    /// The browser may close a connection behind our back: under memory
    /// pressure, after hours of sleep, or for another tab's upgrade. Then the
    /// operation is tried once more on a new one.
    async fn reopened(&self) -> Result<IdbDatabase, StoreError> {
        let connection = Connection::open().await?;
        let raw = connection.raw.clone();
        *self.connection.borrow_mut() = connection;
        Ok(raw)
    }

    /// A transaction to read from one object store.
    async fn reading(&self, store: &str) -> Result<Transaction, StoreError> {
        let open =
            |raw: IdbDatabase| Database::from(raw).transaction(&[store], TransactionMode::ReadOnly);
        match open(self.database()).map_err(StoreError::from) {
            Err(StoreError::ClosedByOtherTab) => Ok(open(self.reopened().await?)?),
            opened => opened,
        }
    }

    /// Puts records into object stores, all of them or none.
    async fn write(&self, records: &[(&str, JsValue, JsValue)]) -> Result<(), StoreError> {
        if records.is_empty() {
            return Ok(());
        }
        let stores: BTreeSet<&str> = records.iter().map(|(store, ..)| *store).collect();
        let transaction = match strict(&self.database(), &stores) {
            Err(StoreError::ClosedByOtherTab) => strict(&self.reopened().await?, &stores)?,
            opened => opened?,
        };
        let done = committed(&transaction);
        for (store, key, record) in records {
            let put =
                transaction.object_store(store).and_then(|store| store.put_with_key(record, key));
            if let Err(error) = put {
                // Take back what this transaction has already put.
                let _ = transaction.abort();
                let _ = done.await;
                return Err(match StoreError::thrown(&error, StoreError::Aborted) {
                    // Here the state that is invalid is the transaction's: it
                    // ended under us.
                    StoreError::ClosedByOtherTab => StoreError::Aborted,
                    other => other,
                });
            }
        }
        // There is nothing more: else the browser first tells of each record, and waits for this
        // page to have heard it. One that does not know this does just that.
        #[expect(deprecated, reason = "it is in IndexedDB 3.0 (§5.3), whatever the bindings say")]
        let _ = transaction.commit();
        done.await.map(|_| ()).map_err(|_| match transaction.error() {
            Some(error) => StoreError::named(&error.name(), StoreError::Aborted),
            None => StoreError::Aborted,
        })
    }

    async fn picture(&self, store: &str, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        let reading = self.reading(store).await?;
        let store = reading.object_store(store)?;
        let found = store.get(JsValue::from_str(id.as_str()))?.await?;
        let Some((mut photo, count)) = found.as_ref().map(photo_of).transpose()? else {
            return Ok(None);
        };
        if count > 0 {
            let pieces = store.get_all(Some(pieces(id)?.into()), None)?.await?;
            join(&mut photo, count, &pieces)?;
        }
        Ok(Some(photo))
    }

    /// This device's id, made now if there is none yet.
    async fn device(&self) -> Result<DeviceId, StoreError> {
        let key = JsValue::from_str(DEVICE);
        let reading = self.reading(HOUSE).await?;
        let found = reading.object_store(HOUSE)?.get(key.clone())?.await?;
        if let Some(device) =
            found.and_then(|v| v.as_string()).and_then(|text| DeviceId::new(text).ok())
        {
            return Ok(device);
        }
        let device = DeviceId::from_random(clock::random() as u64);
        self.write(&[(HOUSE, key, JsValue::from_str(device.as_str()))]).await?;
        Ok(device)
    }
}

impl Keep for Disk {
    async fn contents(&self) -> Result<Contents, StoreError> {
        let device = self.device().await?;
        let reading = self.reading(ENTRIES).await?;
        let records = reading.object_store(ENTRIES)?.get_all(None, None)?.await?;
        let mut contents = Contents { device, entries: Vec::new(), unreadable: Vec::new() };
        for record in &records {
            match entry_of(record) {
                Ok(entry) => contents.entries.push(entry),
                Err(id) => contents.unreadable.push(id),
            }
        }
        Ok(contents)
    }

    async fn append(&self, entries: &[Entry], photos: &[NewPhoto]) -> Result<(), StoreError> {
        let mut records = Vec::new();
        for entry in entries {
            records.push((ENTRIES, JsValue::from_str(&entry.id.to_string()), entry_record(entry)?));
        }
        for new in photos {
            records.extend(picture_in(PHOTOS, &new.id, &new.photo)?);
            if let Some(thumb) = &new.thumb {
                records.extend(picture_in(THUMBS, &new.id, thumb)?);
            }
        }
        self.write(&records).await
    }

    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        self.picture(PHOTOS, id).await
    }

    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        self.picture(THUMBS, id).await
    }

    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError> {
        let records: Vec<_> = picture_in(THUMBS, id, thumb)?.collect();
        self.write(&records).await
    }

    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError> {
        let reading = self.reading(PHOTOS).await?;
        let keys = reading.object_store(PHOTOS)?.get_all_keys(None, None)?.await?;
        Ok(keys.iter().filter_map(|k| PhotoId::try_from(k.as_string()?).ok()).collect())
    }
}

/// What is to be written of a picture, and where.
fn picture_in<'a>(
    store: &'a str,
    id: &PhotoId,
    picture: &PhotoBytes,
) -> Result<impl Iterator<Item = (&'a str, JsValue, JsValue)> + use<'a>, StoreError> {
    let records = photo_records(id, picture)?.into_iter();
    Ok(records.map(move |(key, record)| (store, key, record)))
}

/// A connection, and what must live as long as it does.
struct Connection {
    raw: IdbDatabase,
    /// Gives way when another tab, with a newer version, wants to upgrade.
    _gives_way: Closure<dyn FnMut(web_sys::Event)>,
}

impl Connection {
    async fn open() -> Result<Self, StoreError> {
        let factory = Factory::new().map_err(|_| StoreError::Unavailable)?;
        let mut request = factory.open(NAME, Some(VERSION)).map_err(|_| StoreError::Unavailable)?;
        request.on_upgrade_needed(|event| {
            // A store that could not be made shows as missing at first use.
            let _ = upgrade(&event);
        });
        // The request's callbacks go with `request`; this one is called later.
        request.forget_callbacks();
        let raw: IdbOpenDbRequest = request.into();
        let opened = Promise::new(&mut |resolve, reject| {
            raw.set_onsuccess(Some(&resolve));
            raw.set_onerror(Some(&reject));
            // Another tab that sleeps may never let go; do not wait for it.
            raw.set_onblocked(Some(&reject));
        });
        match JsFuture::from(opened).await {
            Ok(_) => {}
            Err(event) => {
                let blocked =
                    event.dyn_ref::<web_sys::Event>().is_some_and(|e| e.type_() == "blocked");
                return Err(match raw.error() {
                    _ if blocked => StoreError::ClosedByOtherTab,
                    Ok(Some(error)) => StoreError::named(&error.name(), StoreError::Unavailable),
                    _ => StoreError::Unavailable,
                });
            }
        }
        let database: IdbDatabase =
            raw.result().ok().and_then(|v| v.dyn_into().ok()).ok_or(StoreError::Unavailable)?;
        let handle = database.clone();
        let gives_way = Closure::new(move |_| handle.close());
        database.set_onversionchange(Some(gives_way.as_ref().unchecked_ref()));
        Ok(Self { raw: database, _gives_way: gives_way })
    }
}

impl Drop for Connection {
    fn drop(&mut self) {
        self.raw.set_onversionchange(None);
        self.raw.close();
    }
}

/// Makes the object stores that are missing; takes none away.
fn upgrade(event: &VersionChangeEvent) -> Result<(), idb::Error> {
    let database = event.database()?;
    let there = database.store_names();
    for store in STORES.iter().filter(|store| !there.iter().any(|name| name == *store)) {
        database.create_object_store(store, ObjectStoreParams::new())?;
    }
    Ok(())
}

/// A transaction to write with, that completes when the disk has the bytes.
fn strict(database: &IdbDatabase, stores: &BTreeSet<&str>) -> Result<IdbTransaction, StoreError> {
    // `web-sys` has the options only among its unstable parts.
    let names: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
    let options = Object::new();
    let open = || {
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let transaction: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
        transaction.call3(database, &names, &"readwrite".into(), &options)?.dyn_into()
    };
    open().map_err(|error: JsValue| StoreError::thrown(&error, StoreError::Unavailable))
}

/// Settles when the transaction has: fulfilled when committed, else rejected.
fn committed(transaction: &IdbTransaction) -> JsFuture {
    JsFuture::from(Promise::new(&mut |resolve, reject| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
    }))
}
