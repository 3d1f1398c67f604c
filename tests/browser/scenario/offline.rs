//! Once opened, the app starts cold without a network, at every address.

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
