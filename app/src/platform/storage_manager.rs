//! Persistence and quota of everything that the browser stores for the app.
//!
//! Storage that is not persistent may be cleared when the device runs short, and by Safari
//! after seven days without a visit unless the app is on the home screen (MDN, "Storage
//! quotas and eviction criteria").

use js_sys::Promise;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{StorageEstimate, StorageManager};

/// Storage used and available, as the browser estimates it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StorageUse {
    pub used_bytes: f64,
    pub quota_bytes: f64,
}

/// Asks the browser not to clear what is stored. Whether it will not; `None` if it cannot be
/// asked. Best called after the first entry worth keeping.
pub async fn persist() -> Option<bool> {
    call(StorageManager::persist).await?.as_bool()
}

/// Whether the browser has agreed not to clear what is stored.
pub async fn persisted() -> Option<bool> {
    call(StorageManager::persisted).await?.as_bool()
}

pub async fn estimate() -> Option<StorageUse> {
    let estimate: StorageEstimate = call(StorageManager::estimate).await?.unchecked_into();
    Some(StorageUse { used_bytes: estimate.get_usage()?, quota_bytes: estimate.get_quota()? })
}

/// `navigator.storage` is missing outside secure contexts and in older browsers, and so are
/// some of its methods: the call then throws.
async fn call(method: fn(&StorageManager) -> Result<Promise, JsValue>) -> Option<JsValue> {
    JsFuture::from(method(&window().navigator().storage()).ok()?).await.ok()
}
