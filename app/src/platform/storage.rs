//! Where the browser stands on keeping what we store.
//!
//! Storage that is not persistent may be cleared by the browser when the
//! phone runs short, and by Safari after seven days without a visit unless
//! the app sits on the home screen (MDN, "Storage quotas and eviction
//! criteria").

use js_sys::{Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// How much is stored and how much may be, as the browser estimates it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    pub used_bytes: f64,
    pub quota_bytes: f64,
}

/// Asks the browser not to clear what is stored. Whether it promises; none if
/// it cannot be asked. Best called after the first thing worth keeping.
pub async fn persist() -> Option<bool> {
    asked("persist").await?.as_bool()
}

/// Whether the browser has promised not to clear what is stored.
pub async fn persisted() -> Option<bool> {
    asked("persisted").await?.as_bool()
}

/// How much room there is.
pub async fn estimate() -> Option<Room> {
    let estimate = asked("estimate").await?;
    let member = |name: &str| Reflect::get(&estimate, &JsValue::from_str(name)).ok()?.as_f64();
    Some(Room { used_bytes: member("usage")?, quota_bytes: member("quota")? })
}

/// The answer of a method of `navigator.storage`, which is missing outside
/// secure contexts and in older browsers.
async fn asked(method: &str) -> Option<JsValue> {
    let storage = Reflect::get(&window().navigator(), &"storage".into()).ok()?;
    let method = Reflect::get(&storage, &JsValue::from_str(method)).ok()?;
    let answer: Promise =
        method.dyn_ref::<js_sys::Function>()?.call0(&storage).ok()?.dyn_into().ok()?;
    JsFuture::from(answer).await.ok()
}
