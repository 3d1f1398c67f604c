//! Writes that are on disk when they succeed. By web-sys, not by `rexie`, which can neither
//! ask for strict durability nor tell an aborted transaction from a committed one by its error.
//!
//! The usual "relaxed" commit succeeds once the operating system has the bytes; a phone that
//! loses power a second later can still lose them. So each write asks for `durability:
//! "strict"` (IndexedDB 3.0 §2.7.4), commits explicitly, and succeeds on `complete` alone.

use std::collections::BTreeSet;

use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbOpenDbRequest, IdbTransaction};

use super::StoreError;

/// A record to be written.
pub(super) struct Put {
    pub store: &'static str,
    pub key: JsValue,
    pub value: JsValue,
}

/// Writes all records in one transaction of an existing database.
///
/// # Errors
/// [`StoreError::ConnectionClosed`] if the database does not exist or was closed meanwhile;
/// else by the error of the transaction. Nothing was written then.
pub(super) async fn put_all(name: &str, version: u32, puts: &[Put]) -> Result<(), StoreError> {
    if puts.is_empty() {
        return Ok(());
    }
    let connection = Connection::open(name, version).await?;
    let transaction = strict_transaction(&connection.0, puts)?;
    let completion = completion(&transaction);
    for Put { store, key, value } in puts {
        let put = transaction.object_store(store).and_then(|s| s.put_with_key(value, key));
        if let Err(error) = put {
            let _ = transaction.abort();
            let _ = completion.await;
            return Err(match StoreError::from_exception(&error) {
                // Here the transaction was closed, not the connection.
                None | Some(StoreError::ConnectionClosed) => StoreError::Aborted,
                Some(error) => error,
            });
        }
    }
    // Commits without waiting until the page has handled the event of each request.
    // Browsers without `commit` do so by themselves.
    #[expect(deprecated, reason = "IndexedDB 3.0 §5.3 has it, whatever the bindings say")]
    let _ = transaction.commit();
    completion.await.map(drop).map_err(|_| {
        let error = transaction.error().and_then(|error| StoreError::from_name(&error.name()));
        error.unwrap_or(StoreError::Aborted)
    })
}

/// A connection for one transaction; closed on drop.
struct Connection(IdbDatabase);

impl Connection {
    async fn open(name: &str, version: u32) -> Result<Self, StoreError> {
        let factory = window().indexed_db().ok().flatten().ok_or(StoreError::Unavailable)?;
        let request = factory.open_with_u32(name, version).map_err(|error| {
            StoreError::from_exception(&error).unwrap_or(StoreError::Unavailable)
        })?;
        match JsFuture::from(opening(&request)).await {
            Ok(_) => {
                let database = request.result().ok().and_then(|result| result.dyn_into().ok());
                database.map(Self).ok_or(StoreError::Unavailable)
            }
            // The database was deleted: the schema is not made here.
            Err(_) if request.transaction().is_some_and(|upgrade| upgrade.abort().is_ok()) => {
                Err(StoreError::ConnectionClosed)
            }
            Err(_) => {
                let error = request.error().ok().flatten();
                let error = error.and_then(|error| StoreError::from_name(&error.name()));
                Err(error.unwrap_or(StoreError::Unavailable))
            }
        }
    }
}

impl Drop for Connection {
    fn drop(&mut self) {
        self.0.close();
    }
}

/// Resolves on success; rejects on an error, and where the database would have to be created.
fn opening(request: &IdbOpenDbRequest) -> Promise {
    Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
        request.set_onupgradeneeded(Some(&reject));
    })
}

fn strict_transaction(database: &IdbDatabase, puts: &[Put]) -> Result<IdbTransaction, StoreError> {
    let stores: BTreeSet<&str> = puts.iter().map(|put| put.store).collect();
    let stores: Array = stores.into_iter().map(JsValue::from_str).collect();
    let options = Object::new();
    // By name: web-sys has the options only among its unstable interfaces.
    let open = || -> Result<IdbTransaction, JsValue> {
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let transaction: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
        transaction.call3(database, &stores, &"readwrite".into(), &options)?.dyn_into()
    };
    open().map_err(|error| StoreError::from_exception(&error).unwrap_or(StoreError::Unavailable))
}

/// Resolves when the transaction is committed; rejects when it is aborted.
fn completion(transaction: &IdbTransaction) -> JsFuture {
    JsFuture::from(Promise::new(&mut |resolve, reject| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
    }))
}
