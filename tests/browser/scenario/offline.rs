//! Once opened, the app starts cold without a network, at every address.

use std::fs;
use std::path::Path;
use std::process::Command;

use bleachfield_ship::shipped::shipped;

use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.restart_browser().await?;
    phone.server.stop();
    for path in ["/", "/mix", "/batches", "/help"] {
        phone.open(path).await?;
        ensure(phone.path().await? == path, || format!("{path} led elsewhere"))?;
    }
    // The server is really gone: a file that is not cached cannot be fetched.
    let other = phone.execute_async("return (await fetch('/not-kept.txt')).status").await?;
    let gone = other.as_str().is_some_and(|said| said.starts_with("error"));
    ensure(gone, || format!("the server still answers: {other}"))?;
    phone.screenshot("offline").await?;
    phone.server.resume()?;
    phone.discard_console("a fetch that had to fail").await
}

/// The pieces of the program once more, where they can be had in no other way: in what
/// follows, the app starts from what was put together out of the one file of them. Of a
/// quick build, which has no pieces, this asks nothing.
async fn fetch_pieces_as_one_file(phone: &mut Phone) -> TestResult {
    let served = phone.folder().join("pieces-as-one-file");
    let copied = Command::new("cp").arg("-r").arg(phone.server.folder()).arg(&served).status()?;
    ensure(copied.success(), || "could not copy the built app".to_owned())?;
    let pieces = pieces(&served)?;
    for piece in &pieces {
        fs::remove_file(served.join(&piece[1..]))?;
    }
    phone.server.serve_instead(&served)?;
    phone.fetch_again(&pieces).await?;
    phone.wait_until_offline_ready().await
}

/// The addresses of the program's pieces.
pub fn pieces(dist: &Path) -> TestResult<Vec<String>> {
    let files = shipped(dist)?.into_iter();
    Ok(files.filter(|file| file.piece.is_some()).map(|file| file.path).collect())
}
