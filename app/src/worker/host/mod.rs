//! The worker's side: receives requests and posts responses. Both are in a lazy piece, which the
//! page loads only where the worker has no canvas.

mod canvas;
mod colour;
mod exchange;
mod forecast;
mod handle;
mod learning;
mod photo;
mod respond;

use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use handle::{Handler, handle};
use respond::{Responder, respond};

/// Handles requests if this program was started as the worker; `false` if as the page.
pub fn serve_if_worker() -> bool {
    if !js_sys::global().has_type::<DedicatedWorkerGlobalScope>() {
        return false;
    }
    let received = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        spawn_local(serve(Some(event.data())));
    });
    scope().set_onmessage(Some(received.as_ref().unchecked_ref()));
    received.forget(); // lives as long as the worker
    spawn_local(serve(None));
    true
}

/// Responds to a message, or tells the page that the worker has started.
async fn serve(message: Option<JsValue>) {
    match load_responder().await {
        Ok(respond) => respond(message).await,
        // Undecodable: the client terminates this worker and starts another at the next request.
        Err(_) => _ = scope().post_message(&JsValue::UNDEFINED),
    }
}

#[wasm_split(work, fallible, wasm_split_path = leptos::wasm_split)]
fn load_responder() -> Result<Responder, SplitLoaderError> {
    Ok(respond)
}

/// The handler alone, for a page whose worker cannot do its work.
#[wasm_split(work, fallible, wasm_split_path = leptos::wasm_split)]
pub fn load_handler() -> Result<Handler, SplitLoaderError> {
    Ok(handle)
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}
