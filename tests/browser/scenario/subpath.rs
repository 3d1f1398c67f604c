//! The app in a folder of a plain static host, which knows files and 404.html: opened, opened at
//! the address of a screen, used, and used with the server stopped, and no request leaves the
//! folder.

use serde_json::Value;

use super::places::wait_for_place;
use super::steps::{begin_batch, go_to_place};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

const FOLDER: &str = "/studio/app";
const BATCH: &str = "Far from the root";

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.server.move_to(FOLDER)?;
    deep_link_first(phone).await?;
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    through_the_screens(phone).await?;
    phone.restart_browser().await?;
    phone.server.stop();
    for (path, shown) in [
        ("/", BATCH),
        ("/sink", BATCH),
        ("/batches", BATCH),
        ("/help/preferences", "High contrast"),
    ] {
        phone.open(path).await?;
        at(phone, path).await?;
        phone.wait_for_text(shown).await?;
    }
    through_the_screens(phone).await?;
    stays_within(phone).await?;
    phone.screenshot("subpath").await?;
    phone.server.resume()
}

/// Never opened before: the host answers with its 404.html, which leads to the screen.
async fn deep_link_first(phone: &mut Phone) -> TestResult {
    for path in ["/help/preferences", "/nowhere/at/all"] {
        phone.open(path).await?;
        phone
            .wait_for(path, || async { Ok(phone.path().await? == format!("{FOLDER}{path}")) })
            .await?;
    }
    phone.discard_console("the host's 404 for an address that is no file").await?;
    phone.open("/mix?from=a-bookmark").await?;
    wait_for_place(phone, "Mix").await?;
    at(phone, "/mix").await?;
    stays_within(phone).await?;
    phone.discard_console("the host's 404 for an address that is no file").await
}

async fn through_the_screens(phone: &Phone) -> TestResult {
    for place in ["Mix", "Shelf", "Sink"] {
        phone.tap(place).await?;
        wait_for_place(phone, place).await?;
        at(phone, &format!("/{}", place.to_lowercase())).await?;
    }
    begin_batch(phone, BATCH).await?;
    // Not by its address: Firefox reports the fetches of the plan that this would end.
    go_to_place(phone, "Batches").await?;
    wait_for_place(phone, "Batches").await?;
    phone.tap(BATCH).await?;
    phone
        .wait_for("the batch", || async {
            Ok(phone.path().await?.starts_with(&format!("{FOLDER}/batch/")))
        })
        .await
}

async fn at(phone: &Phone, path: &str) -> TestResult {
    let expected = format!("{FOLDER}{path}");
    phone.wait_for(&expected, || async { Ok(phone.path().await? == expected) }).await
}

/// No request of the page, no file kept, and no service worker is outside of the folder.
async fn stays_within(phone: &Phone) -> TestResult {
    let folder = format!("{}/", phone.server.address());
    let addresses = phone.execute_async(ADDRESSES).await?;
    let addresses: Vec<&str> =
        addresses.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure(!addresses.is_empty(), || "no request was seen".to_owned())?;
    let outside = addresses.iter().find(|address| !address.starts_with(&folder));
    ensure(outside.is_none(), || format!("outside of the folder: {outside:?}"))
}

const ADDRESSES: &str = r#"
    const kept = [];
    for (const name of await caches.keys()) {
        for (const request of await (await caches.open(name)).keys()) kept.push(request.url);
    }
    const scopes = (await navigator.serviceWorker.getRegistrations()).map((one) => one.scope);
    const links = [...document.querySelectorAll('a[href], link[href], script[src]')].map((e) => e.href || e.src);
    const asked = performance.getEntriesByType('resource').map((entry) => entry.name);
    return [...kept, ...scopes, ...links, ...asked].filter((one) => !one.startsWith('blob:'));
"#;
