//! The worker's side: receives requests and posts responses. What handles a request is a piece
//! of the program of its own, which the page loads only where the worker has no canvas.

mod canvas;
mod colour;
mod exchange;
mod handle;
mod photo;

use std::rc::Rc;

use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, ImageBitmap, MessageEvent};

use super::protocol::{
    Envelope, OnPreview, Payload, STARTED, WorkerError, WorkerRequest, WorkerResponse,
    transfer_list,
};
use handle::{Handler, handle};

/// Handles requests if this program was started as the worker; `false` if as the page.
pub fn serve_if_worker() -> bool {
    if !js_sys::global().has_type::<DedicatedWorkerGlobalScope>() {
        return false;
    }
    let received = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        spawn_local(respond(event.data()));
    });
    scope().set_onmessage(Some(received.as_ref().unchecked_ref()));
    received.forget(); // lives as long as the worker
    spawn_local(async {
        // Loaded ahead; if it cannot be, the first request tells.
        let _ = load_handler().await;
        post(STARTED, WorkerResponse::Started, Vec::new());
    });
    true
}

#[wasm_split(work, fallible, wasm_split_path = leptos::wasm_split)]
pub fn load_handler() -> Result<Handler, SplitLoaderError> {
    Ok(handle)
}

async fn respond(message: JsValue) {
    let Some(Envelope { number, message, payload }) = Envelope::<WorkerRequest>::decode(&message)
    else {
        return;
    };
    let on_preview: OnPreview = Rc::new(move |preview: ImageBitmap| {
        post(number, WorkerResponse::Preview, vec![preview.into()]);
    });
    let outcome = match load_handler().await {
        Ok(handle) => handle(message, payload, Some(on_preview)).await,
        Err(_) => Err(WorkerError::Unavailable),
    };
    match outcome {
        Ok((response, payload)) => post(number, response, payload),
        Err(error) => post(number, WorkerResponse::Failed(error), Vec::new()),
    }
}

fn post(number: u32, message: WorkerResponse, payload: Payload) {
    let message = Envelope { number, message, payload }.encode();
    // Fails only for what cannot be transferred; buffers and bitmaps can.
    let _ = scope().post_message_with_transfer(&message, &transfer_list(&message));
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}
