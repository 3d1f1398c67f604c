//! A new version is cached completely, waits until it is activated, and then replaces the old
//! one completely.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    let newer = phone.folder().join("newer");
    build_newer(phone.server.folder(), &newer)?;
    phone.server.serve_instead(&newer)?;

    phone.execute_async(LOOK_FOR_UPDATE).await?;
    phone
        .wait_for("the new version to wait", || async {
            Ok(phone.execute_async(WAITING).await?.as_bool().unwrap_or_default())
        })
        .await?;
    phone.open("/").await?;
    ensure(!is_newer(phone).await?, || "the new version activated by itself".to_owned())?;

    phone.execute_async(LET_IT).await?;
    phone.open("/").await?;
    ensure(is_newer(phone).await?, || "the old version still answers".to_owned())?;
    phone.wait_until_offline_ready().await?;
    phone.server.stop();
    phone.open("/mix").await?;
    ensure(is_newer(phone).await?, || "the old version answers offline".to_owned())?;
    let stale = phone.execute_async(STALE).await?;
    ensure(stale == 0, || format!("{stale} files of the old version are still kept"))?;
    phone.server.resume()
}

/// The same app with one word more in its page, listed anew.
fn build_newer(from: &Path, to: &Path) -> TestResult {
    let copied = Command::new("cp").arg("-r").args([from, to]).status()?;
    ensure(copied.success(), || "could not copy the built app".to_owned())?;
    let old = fs::read_to_string(to.join("index.html"))?;
    let new = old.replace("</head>", "<meta name=\"newer\" content=\"yes\"></head>");
    fs::write(to.join("index.html"), &new)?;
    let worker = fs::read_to_string(to.join("service_worker.js"))?;
    let at = worker.find(LISTED).map(|at| at + LISTED.len());
    let end = at.and_then(|at| worker[at..].find('"').map(|end| at + end));
    let (Some(at), Some(end)) = (at, end) else {
        return Err(TestFailure::new("the service worker does not list the shell"));
    };
    let hash = bleachfield_xtask::dist::sha256(new.as_bytes());
    fs::write(to.join("service_worker.js"), format!("{}{hash}{}", &worker[..at], &worker[end..]))?;
    Ok(())
}

async fn is_newer(phone: &Phone) -> TestResult<bool> {
    Ok(phone.execute("return !!document.querySelector('meta[name=newer]')").await? == true)
}

const LISTED: &str = "\"path\":\"index.html\",\"hash\":\"";
const LOOK_FOR_UPDATE: &str = "await (await navigator.serviceWorker.getRegistration()).update()";
const WAITING: &str = "return !!(await navigator.serviceWorker.getRegistration()).waiting";
const LET_IT: &str = r#"
    const changed = new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done));
    (await navigator.serviceWorker.getRegistration()).waiting.postMessage('skip-waiting');
    await changed;
"#;
const STALE: &str = r#"
    const kept = (await (await caches.open('bleachfield-files')).keys()).map((k) => new URL(k.url).pathname);
    return kept.length - new Set(kept).size;
"#;
