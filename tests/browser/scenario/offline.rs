//! Once opened, the app starts cold where there is no network, at every address.

use std::fs;
use std::process::Command;

use bleachfield_ship::shipped::shipped;
use serde_json::json;

use crate::failure::{Outcome, ensure};
use crate::phone::Phone;

pub async fn play(phone: &mut Phone) -> Outcome {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    fetch_pieces_as_one_file(phone).await?;
    phone.restart_browser().await?;
    phone.server.stop();
    for path in ["/", "/mix", "/batches", "/help"] {
        phone.open(path).await?;
        ensure(phone.path().await? == path, || format!("{path} led elsewhere"))?;
    }
    // The proof that the server is gone: what is not kept cannot be had.
    let other = phone.run_async("return (await fetch('/not-kept.txt')).status").await?;
    let gone = other.as_str().is_some_and(|said| said.starts_with("error"));
    ensure(gone, || format!("the server still answers: {other}"))?;
    phone.picture("offline").await?;
    phone.server.resume()?;
    phone.expect_complaints("a fetch that had to fail").await
}

/// The pieces of the program once more, where they can be had in no other way: in what
/// follows, the app starts from what was put together out of the one file of them. Of a
/// quick build, which has no pieces, this asks nothing.
async fn fetch_pieces_as_one_file(phone: &mut Phone) -> Outcome {
    let served = phone.folder().join("pieces-as-one-file");
    let copied = Command::new("cp").arg("-r").arg(phone.server.folder()).arg(&served).status()?;
    ensure(copied.success(), || "could not copy the built app".to_owned())?;
    let mut pieces = Vec::new();
    for file in shipped(&served)?.into_iter().filter(|file| file.piece.is_some()) {
        fs::remove_file(served.join(&file.path[1..]))?;
        pieces.push(file.path);
    }
    phone.server.serve_instead(&served)?;
    let forgotten = phone.run_async(&FORGET.replace("PIECES", &json!(pieces).to_string())).await?;
    ensure(forgotten == pieces.len(), || {
        format!("{forgotten} of {} pieces had been kept", pieces.len())
    })?;
    phone.wait_until_offline_ready().await
}

/// Has the service worker fetch again what is deleted here, and says how much that is.
const FORGET: &str = r"
    const cache = await caches.open('bleachfield-files');
    const deleted = await Promise.all(PIECES.map((path) => cache.delete(path)));
    navigator.serviceWorker.controller.postMessage('fetch-quiet');
    return deleted.filter((was) => was).length;
";
