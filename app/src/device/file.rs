//! Files out of the app and into it, and files that are served with it.

use js_sys::{Array, Uint8Array};
use leptos::prelude::{document, window};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File, FilePropertyBag, HtmlAnchorElement, RequestInit, Response, Url};

/// A file of these bytes.
pub fn file(name: &str, mime: &str, bytes: &[u8]) -> Option<File> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    let parts = Array::of1(&Uint8Array::from(bytes));
    File::new_with_u8_array_sequence_and_options(&parts, name, &options).ok()
}

/// Hands a file to the browser's downloads; whether it could be handed over.
pub fn download(file: &File) -> bool {
    let hand_over = || {
        let address = Url::create_object_url_with_blob(file).ok()?;
        let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
        link.set_href(&address);
        link.set_download(&file.name());
        link.click();
        Some(address)
    };
    let Some(address) = hand_over() else { return false };
    // The browser reads it after the click: a minute is long enough.
    leptos::task::spawn_local(async move {
        gloo_timers::future::TimeoutFuture::new(60_000).await;
        let _ = Url::revoke_object_url(&address);
    });
    true
}

/// Whether a file is served at this address of our own. An app that answers
/// every address with its page does not count.
pub async fn served(address: &str) -> bool {
    asked(address, "HEAD").await.is_some()
}

/// The file served at this address of our own.
pub async fn fetched(address: &str) -> Option<Blob> {
    let response = asked(address, "GET").await?;
    JsFuture::from(response.blob().ok()?).await.ok()?.dyn_into().ok()
}

async fn asked(address: &str, method: &str) -> Option<Response> {
    let init = RequestInit::new();
    init.set_method(method);
    let answer = window().fetch_with_str_and_init(address, &init);
    let response: Response = JsFuture::from(answer).await.ok()?.dyn_into().ok()?;
    let kind = response.headers().get("content-type").ok().flatten().unwrap_or_default();
    (response.ok() && !kind.starts_with("text/html")).then_some(response)
}
