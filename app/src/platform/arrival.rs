//! Files that come to Bleachfield from outside: shared to it from another app
//! (the service worker keeps them until asked), or opened with it.

use js_sys::{Array, ArrayBuffer, Reflect, Uint8Array};
use leptos::prelude::{document, window};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Cache, Request, Response};

/// The cache that public/service_worker.js puts shared files in.
const SHARED: &str = "bleachfield-shared";

/// A file as it came: nothing about it is known to be true yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Arrival {
    pub name: String,
    pub bytes: Vec<u8>,
}

/// Calls `take` for each file that was shared to the app since the last time,
/// and for each one that the system opens with the app while this page lives.
pub fn on_arrival(take: impl Fn(Arrival) + Clone + 'static) {
    let opened = take.clone();
    follow_launches(move |file| {
        let opened = opened.clone();
        spawn_local(async move {
            if let Ok(arrival) = read_handle(file).await {
                opened(arrival);
            }
        });
    });
    spawn_local(async move {
        for arrival in take_shared().await.unwrap_or_default() {
            take(arrival);
        }
    });
    forget_address();
}

/// Takes the shared files out of their cache: each is given once.
async fn take_shared() -> Result<Vec<Arrival>, JsValue> {
    let caches = window().caches()?;
    if !JsFuture::from(caches.has(SHARED)).await?.is_truthy() {
        return Ok(Vec::new());
    }
    let cache: Cache = JsFuture::from(caches.open(SHARED)).await?.dyn_into()?;
    let mut arrivals = Vec::new();
    for key in Array::from(&JsFuture::from(cache.keys()).await?) {
        let request: Request = key.dyn_into()?;
        let kept = JsFuture::from(cache.match_with_request(&request)).await?;
        if let Ok(response) = kept.dyn_into::<Response>() {
            let bytes = bytes_of(JsFuture::from(response.array_buffer()?).await?)?;
            arrivals.push(Arrival { name: name_from(&request.url()), bytes });
        }
    }
    JsFuture::from(caches.delete(SHARED)).await?;
    Ok(arrivals)
}

/// Listens to `launchQueue`, where a browser has it (desktop Chromium).
fn follow_launches(opened: impl Fn(JsValue) + 'static) {
    let queue = Reflect::get(&window(), &"launchQueue".into()).unwrap_or_default();
    let consumer = Reflect::get(&queue, &"setConsumer".into());
    let Some(set_consumer) = consumer.ok().and_then(|f| f.dyn_into::<js_sys::Function>().ok())
    else {
        return;
    };
    let launched = Closure::<dyn Fn(JsValue)>::new(move |launch: JsValue| {
        let files = Reflect::get(&launch, &"files".into()).unwrap_or_default();
        if Array::is_array(&files) {
            Array::from(&files).iter().for_each(&opened);
        }
    });
    let _ = set_consumer.call1(&queue, launched.as_ref());
    launched.forget(); // lives as long as the page
}

async fn read_handle(handle: JsValue) -> Result<Arrival, JsValue> {
    let get_file: js_sys::Function = Reflect::get(&handle, &"getFile".into())?.dyn_into()?;
    let promise: js_sys::Promise = get_file.call0(&handle)?.dyn_into()?;
    let file: web_sys::File = JsFuture::from(promise).await?.dyn_into()?;
    let bytes = bytes_of(JsFuture::from(file.array_buffer()).await?)?;
    Ok(Arrival { name: file.name(), bytes })
}

fn bytes_of(buffer: JsValue) -> Result<Vec<u8>, JsValue> {
    let buffer: ArrayBuffer = buffer.dyn_into()?;
    Ok(Uint8Array::new(&buffer).to_vec())
}

fn name_from(url: &str) -> String {
    let last = url.rsplit('/').next().unwrap_or_default();
    js_sys::decode_uri_component(last).map_or_else(|_| last.to_owned(), String::from)
}

/// Takes `?arrived=...` off the address, so that a reload does not ask again.
fn forget_address() {
    let arrived = window().location().search().is_ok_and(|s| s.starts_with("?arrived="));
    if let (true, Ok(history), Ok(path)) =
        (arrived, window().history(), window().location().pathname())
    {
        let title = document().title();
        let _ = history.replace_state_with_url(&JsValue::NULL, &title, Some(&path));
    }
}
