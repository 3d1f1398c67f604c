//! The worker's end: exchange files and photos, off the page's own thread.

use bleachfield_core::json::{self, Json};
use js_sys::{Array, Uint8Array};
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use super::{
    message::{Answer, Job},
    pixels::Decoded,
    work::{Work, work},
};

/// Does jobs, if this program was started as the worker; `false` if as the page.
pub fn serves() -> bool {
    if !js_sys::global().has_type::<DedicatedWorkerGlobalScope>() {
        return false;
    }
    let listener = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        spawn_local(serve(event.data()));
    });
    scope().set_onmessage(Some(listener.as_ref().unchecked_ref()));
    listener.forget(); // lives as long as the worker
    spawn_local(async {
        // Fetched before it is asked for; if it cannot be, the first job says so.
        let _ = load_work().await;
        answer(&JsValue::from(0), &Answer::Ready, Vec::new());
    });
    true
}

/// The jobs' own piece of the program: the page does without it.
#[wasm_split(work, fallible, wasm_split_path = leptos::wasm_split)]
fn load_work() -> Result<Work, SplitLoaderError> {
    Ok(work)
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}

/// Reads one message, does its job, answers.
async fn serve(message: JsValue) {
    let parts = Array::from(&message);
    let number = parts.get(0);
    let text = parts.get(1).as_string().unwrap_or_default();
    let job = json::read(text.as_bytes()).ok().and_then(|job| Job::from_json(&job).ok());
    let Some(job) = job else { return answer(&number, &Answer::Unread, Vec::new()) };
    let Ok(work) = load_work().await else {
        return answer(&number, &Answer::Unread, Vec::new());
    };
    let (done, bytes) = work(job, parts.iter().skip(2).collect()).await;
    answer(&number, &done, bytes);
}

/// Shows the page that waits for message `number` a picture.
pub fn show(number: u32, picture: &Decoded) {
    let text = json::written(&Answer::Shown.to_json());
    let message = Array::of3(&number.into(), &text.into(), picture.as_ref());
    let _ = scope().post_message_with_transfer(&message, &Array::of1(picture.as_ref()));
}

/// Says something to the page that waits for message `number`.
pub fn answer(number: &JsValue, answer: &Answer, bytes: Vec<Vec<u8>>) {
    let text = json::written(&answer.to_json());
    let message = Array::of2(number, &text.into());
    let handed_over = Array::new();
    for bytes in bytes {
        let buffer = Uint8Array::from(bytes.as_slice()).buffer();
        message.push(&buffer);
        handed_over.push(&buffer);
    }
    // Fails only if something in the list cannot be handed over: all can.
    let _ = scope().post_message_with_transfer(&message, &handed_over);
}
