//! The folder that the app is served from. All addresses of the app are below it.

use std::cell::OnceCell;

use leptos::prelude::document;
use web_sys::Url;

/// Its path, which begins and ends with a slash: `/`, or `/some/folder/`. The page knows it
/// (the script in index.html).
pub fn path() -> String {
    thread_local! {
        static PATH: OnceCell<String> = const { OnceCell::new() };
    }
    PATH.with(|path| path.get_or_init(of_page).clone())
}

/// The path of a file of the app, such as `icon/bleachfield-192.png`.
pub fn of_file(name: &str) -> String {
    path() + name
}

/// The part of a path within the folder, with its first slash; `None` if it lies elsewhere.
pub fn within(path: &str) -> Option<String> {
    path.strip_prefix(&self::path()).map(|rest| format!("/{rest}"))
}

/// Ends the names of what belongs to the origin, so that each folder has its own. As in
/// public/service_worker.js.
pub fn suffix() -> String {
    match path().as_str() {
        "/" => String::new(),
        path => format!("@{path}"),
    }
}

fn of_page() -> String {
    // The tests of the addresses run outside of a browser.
    if cfg!(not(target_arch = "wasm32")) {
        return "/".to_owned();
    }
    let base = document().base_uri().ok().flatten();
    let path = base.and_then(|base| Url::new(&base).ok()).map(|url| url.pathname());
    let folder = path.and_then(|path| Some(path[..=path.rfind('/')?].to_owned()));
    folder.unwrap_or_else(|| "/".to_owned())
}
