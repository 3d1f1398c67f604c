//! The browser is killed as soon as the app shows an entry as saved, without a network: the
//! entry must be there afterwards.

use super::steps::begin_batch;
use crate::error::TestResult;
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.server.stop();
    phone.open("/").await?;
    phone.execute(PERSIST_NEVER_ANSWERED).await?;
    begin_batch(phone, "Killed but kept").await?;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Killed but kept").await?;
    phone.server.resume()
}

/// A browser may ask the person whether to persist the storage, and the person may not
/// answer: saving must not wait for it. WebKitGTK does not ask.
const PERSIST_NEVER_ANSWERED: &str = "if (navigator.storage) \
    navigator.storage.constructor.prototype.persist = () => new Promise(() => {})";
