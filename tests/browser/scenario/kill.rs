//! The browser is killed as soon as the app shows an entry as saved, without a network: the
//! entry must be there afterwards. And it is killed while a bath starts: plan and start are both
//! there afterwards, or neither.

use std::time::{Duration, SystemTime};

use serde_json::{Value, json};
use tokio::time::sleep;

use super::steps::{begin_batch, press_start, wait_for_answer};
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const CONTENTS: &str = include_str!("../fixture/contents.js");

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.server.stop();
    saved(phone).await?;
    started_in_one_transaction(phone).await?;
    started_at_any_moment(phone).await?;
    phone.server.resume()
}

/// Killed right after a new batch was shown as saved.
async fn saved(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.execute(PERSIST_NEVER_ANSWERED).await?;
    begin_batch(phone, "Killed but kept").await?;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Killed but kept").await
}

/// After the first transaction that follows the press no other one is let through, as if the
/// browser were killed there. The Sink shows once all is stored.
async fn started_in_one_transaction(phone: &mut Phone) -> TestResult {
    plan_bath(phone, "Killed between").await?;
    phone.execute(ONE_MORE_WRITE).await?;
    press_start(phone).await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/sink").await?;
    phone.wait_for_text("Killed between").await?;
    phone.find("press", "Check now").await?;
    let found = baths_and_plans(phone).await?;
    ensure(found == (1, 1), || format!("(plans, starts) are {found:?}, not (1, 1)"))
}

/// Killed at a moment after the press that differs from run to run.
async fn started_at_any_moment(phone: &mut Phone) -> TestResult {
    plan_bath(phone, "Killed at once").await?;
    let before = baths_and_plans(phone).await?;
    let moment = moment();
    press_start(phone).await?;
    sleep(moment).await;
    phone.kill_browser();

    phone.start_browser().await?;
    phone.open("/sink").await?;
    let after = baths_and_plans(phone).await?;
    let both = (before.0 + 1, before.1 + 1);
    ensure(after == before || after == both, || {
        format!("killed {moment:?} after the press: {before:?} (plans, starts) became {after:?}")
    })?;
    if after == both {
        phone.wait_for_text("Killed at once").await?;
    }
    Ok(())
}

/// Begins a batch and plans its bath, up to the button that starts it.
async fn plan_bath(phone: &Phone, name: &str) -> TestResult {
    begin_batch(phone, name).await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5.25").await?;
    wait_for_answer(phone, "bleach").await
}

/// The numbers of stored plans and of started baths. Each started bath has its plan.
async fn baths_and_plans(phone: &Phone) -> TestResult<(usize, usize)> {
    let stored = phone.execute_async(CONTENTS).await?;
    let entries = stored["entries"].as_object();
    let entries = entries.ok_or_else(|| TestFailure::new(format!("no entries: {stored}")))?;
    let texts = entries.values().filter_map(|record| record["text"].as_str());
    let entries: Vec<Value> =
        texts.filter_map(|text| serde_json::from_str::<Value>(text).ok()).collect();
    let of_kind = |kind: &str| -> Vec<&Value> {
        entries.iter().filter(|entry| entry["body"]["kind"] == json!(kind)).collect()
    };
    let (plans, starts) = (of_kind("planned"), of_kind("bath_started"));
    for start in &starts {
        ensure(plans.iter().any(|plan| plan["id"] == start["body"]["plan"]), || {
            format!("a bath was started without its plan: {start}")
        })?;
    }
    Ok((plans.len(), starts.len()))
}

/// Up to 60 ms: as long as a start takes on a slow phone, in tenths of a millisecond.
fn moment() -> Duration {
    let now = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    Duration::from_micros(u64::from(now.subsec_micros() % 600) * 100)
}

/// A browser may ask the person whether to persist the storage, and the person may not
/// answer: saving must not wait for it. WebKitGTK does not ask.
const PERSIST_NEVER_ANSWERED: &str = "if (navigator.storage) \
    navigator.storage.constructor.prototype.persist = () => new Promise(() => {})";

/// Refuses every writing transaction after the next one. `window.IDBDatabase` is the page's own.
const ONE_MORE_WRITE: &str = "
    const database = window.IDBDatabase.prototype;
    const open = database.transaction;
    let writes = 0;
    database.transaction = function (stores, mode, options) {
        if (mode === 'readwrite' && ++writes > 1) {
            throw new window.DOMException('no write is let through', 'AbortError');
        }
        return open.call(this, stores, mode, options);
    };";
