//! The phone's share sheet.

use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

/// What became of a file that was to be shared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shared {
    Done,
    /// The person closed the sheet.
    Dismissed,
    /// This browser shares no such file.
    Cannot,
}

/// Whether this browser would share such a file.
pub fn can_share(file: &File) -> bool {
    let navigator = window().navigator();
    let ask = || {
        let can = method(&navigator, "canShare")?;
        can.call1(&navigator, &sharing(file)).ok()?.as_bool()
    };
    ask().unwrap_or(false)
}

/// Opens the share sheet with a file. Must be called while the browser still
/// remembers the press that led here.
pub async fn share(file: &File) -> Shared {
    if !can_share(file) {
        return Shared::Cannot;
    }
    let navigator = window().navigator();
    let promise = method(&navigator, "share")
        .and_then(|share| share.call1(&navigator, &sharing(file)).ok())
        .and_then(|promise| promise.dyn_into::<Promise>().ok());
    let Some(promise) = promise else { return Shared::Cannot };
    match JsFuture::from(promise).await {
        Ok(_) => Shared::Done,
        Err(error) => {
            let name = Reflect::get(&error, &"name".into()).ok().and_then(|n| n.as_string());
            if name.as_deref() == Some("AbortError") { Shared::Dismissed } else { Shared::Cannot }
        }
    }
}

fn sharing(file: &File) -> JsValue {
    let what = Object::new();
    let _ = Reflect::set(&what, &"files".into(), &Array::of1(file));
    what.into()
}

fn method(of: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(of, &name.into()).ok()?.dyn_into().ok()
}
