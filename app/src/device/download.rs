//! Handing a text file to the browser, which keeps it or asks what to open it with.

use js_sys::Array;
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Offers `text` as a file called `name`. False if the browser would not take it.
pub fn text(name: &str, mime: &str, text: &str) -> bool {
    offer(name, mime, text).is_ok()
}

fn offer(name: &str, mime: &str, text: &str) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type(mime);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // Not let go at once: some browsers read it only after the press is over.
    leptos::prelude::set_timeout(
        move || {
            let _ = Url::revoke_object_url(&address);
        },
        std::time::Duration::from_secs(60),
    );
    Ok(())
}
