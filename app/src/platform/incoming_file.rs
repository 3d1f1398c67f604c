//! Files that come from outside: shared to the app from another app (kept by
//! public/service_worker.js until the page takes them), or opened with it by the system.

use js_sys::Array;
use leptos::prelude::{document, window};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, Cache, File, Request, Response};

use super::base;

/// Begins the name of the cache in which public/service_worker.js keeps shared files.
const SHARED: &str = "bleachfield-shared";

#[wasm_bindgen]
extern "C" {
    /// `LaunchQueue` (Web App Launch Handler API, Chromium): not in web-sys.
    type LaunchQueue;
    #[wasm_bindgen(thread_local_v2, js_name = launchQueue)]
    static LAUNCH_QUEUE: LaunchQueue;
    #[wasm_bindgen(method, js_name = setConsumer)]
    fn set_consumer(this: &LaunchQueue, consumer: &JsValue);

    type LaunchParams;
    #[wasm_bindgen(method, getter)]
    fn files(this: &LaunchParams) -> Option<Array>;

    type FileHandle;
    #[wasm_bindgen(method, catch, js_name = getFile)]
    async fn file(this: &FileHandle) -> Result<JsValue, JsValue>;
}

/// Calls `receive` with name and contents of each file shared since the last time, and of
/// each that the system opens with the app while the page lives. Nothing about it is checked.
pub fn on_file(receive: impl Fn(String, Blob) + Clone + 'static) {
    on_launch({
        let receive = receive.clone();
        move |handle| {
            let receive = receive.clone();
            spawn_local(async move {
                let file = handle.file().await.and_then(|file| file.dyn_into::<File>());
                if let Ok(file) = file {
                    receive(file.name(), file.into());
                }
            });
        }
    });
    spawn_local(async move {
        for (name, file) in take_shared().await.unwrap_or_default() {
            receive(name, file);
        }
    });
    remove_query();
}

/// Moves the shared files out of their cache.
async fn take_shared() -> Result<Vec<(String, Blob)>, JsValue> {
    let caches = window().caches()?;
    let name = format!("{SHARED}{}", base::suffix());
    if !JsFuture::from(caches.has(&name)).await?.is_truthy() {
        return Ok(Vec::new());
    }
    let cache: Cache = JsFuture::from(caches.open(&name)).await?.dyn_into()?;
    let mut files = Vec::new();
    for key in Array::from(&JsFuture::from(cache.keys()).await?) {
        let request: Request = key.dyn_into()?;
        let cached = JsFuture::from(cache.match_with_request(&request)).await?;
        if let Ok(response) = cached.dyn_into::<Response>() {
            let file = JsFuture::from(response.blob()?).await?.dyn_into()?;
            files.push((file_name(&request.url()), file));
        }
    }
    JsFuture::from(caches.delete(&name)).await?;
    Ok(files)
}

fn on_launch(open: impl Fn(FileHandle) + 'static) {
    if !JsValue::from_str("launchQueue").js_in(&window()) {
        return;
    }
    let consumer = Closure::<dyn Fn(LaunchParams)>::new(move |launch: LaunchParams| {
        let files = launch.files().unwrap_or_default();
        files.iter().map(JsCast::unchecked_into).for_each(&open);
    });
    LAUNCH_QUEUE.with(|queue| queue.set_consumer(&consumer.into_js_value()));
}

fn file_name(url: &str) -> String {
    let last = url.rsplit('/').next().unwrap_or_default();
    js_sys::decode_uri_component(last).map_or_else(|_| last.to_owned(), String::from)
}

/// Removes `?arrived=...` from the address, so that a reload does not ask again.
fn remove_query() {
    let location = window().location();
    let arrived = location.search().is_ok_and(|query| query.starts_with("?arrived="));
    if let (true, Ok(history), Ok(path)) = (arrived, window().history(), location.pathname()) {
        let title = document().title();
        let _ = history.replace_state_with_url(&JsValue::NULL, &title, Some(&path));
    }
}
