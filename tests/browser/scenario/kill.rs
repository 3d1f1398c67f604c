//! The browser is killed the moment that the app says an entry is saved, with no
//! network: what it said is saved must be there.

use crate::failure::Outcome;
use crate::phone::Phone;

pub async fn play(phone: &mut Phone) -> Outcome {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.server.stop();
    phone.open("/batches/new").await?;
    phone.run(NEVER_ANSWERED).await?;
    phone.fill("Fibre", "Cattail leaf").await?;
    phone.fill("Name of the batch", "Killed but kept").await?;
    phone.fill("Wet pulp", "500 g").await?;
    phone.tap("Not measured").await?;
    phone.tap("Save and plan the bath").await?;
    // It goes on to the plan only when the entry is on disk.
    phone
        .wait_for("the entry to be saved", || async { Ok(phone.path().await?.ends_with("/plan")) })
        .await?;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/batches").await?;
    phone.sees("Killed but kept").await?;
    phone.server.resume()
}

/// A browser may ask the person whether to keep what is stored, and the person may
/// let the question stand: what is saved must not wait for it. WebKitGTK has no such
/// question.
const NEVER_ANSWERED: &str = "if (navigator.storage) \
    navigator.storage.constructor.prototype.persist = () => new Promise(() => {})";
