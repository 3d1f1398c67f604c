//! The browser is killed the moment that the app says an entry is saved, with no
//! network: what it said is saved must be there.

use super::steps::begin_batch;
use crate::error::TestResult;
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.server.stop();
    phone.open("/").await?;
    phone.execute(NEVER_ANSWERED).await?;
    begin_batch(phone, "Killed but kept").await?;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Killed but kept").await?;
    phone.server.resume()
}

/// A browser may ask the person whether to keep what is stored, and the person may
/// let the question stand: what is saved must not wait for it. WebKitGTK has no such
/// question.
const NEVER_ANSWERED: &str = "if (navigator.storage) \
    navigator.storage.constructor.prototype.persist = () => new Promise(() => {})";
