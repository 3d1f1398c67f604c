//! Handing a file to the browser, which keeps it or asks what to open it with.

use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{File, HtmlAnchorElement, Url};

/// Offers `text` as a file called `name`. False if the browser would not take it.
pub fn text(name: &str, mime: &str, text: &str) -> bool {
    super::file::file(name, mime, text.as_bytes()).is_some_and(|made| file(&made))
}

/// Offers a file under its own name. False if the browser would not take it.
pub fn file(file: &File) -> bool {
    offer(file).is_ok()
}

fn offer(file: &File) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(file)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(&file.name());
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
