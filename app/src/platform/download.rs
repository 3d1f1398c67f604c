//! Downloads: files handed to the browser to save or open.

use std::time::Duration;

use leptos::prelude::{document, set_timeout};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{File, HtmlAnchorElement, Url};

/// How long the object URL lives: some browsers read it only after the press is handled.
const URL_LIFETIME: Duration = Duration::from_secs(60);

/// Offers `text` as a file called `name`. False if the browser refuses.
pub fn text(name: &str, mime: &str, text: &str) -> bool {
    super::file::file(name, mime, text.as_bytes()).is_some_and(|made| file(&made))
}

/// Offers a file under its own name. False if the browser refuses.
pub fn file(file: &File) -> bool {
    offer(file).is_ok()
}

fn offer(file: &File) -> Result<(), JsValue> {
    let url = Url::create_object_url_with_blob(file)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(&file.name());
    link.click();
    set_timeout(
        move || {
            let _ = Url::revoke_object_url(&url);
        },
        URL_LIFETIME,
    );
    Ok(())
}
