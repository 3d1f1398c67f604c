//! What changes by itself is told to a screen reader, by a live region that is shown: an answer,
//! an error, a cue that fell due, a save. The running clock is not.

use std::time::Duration;

use serde_json::Value;
use tokio::time::sleep;

use super::steps::{begin_batch, save, set_clock, start_bath};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/mix/dilute").await?;
    phone.execute(LISTEN).await?;
    phone.fill("Strength of the bottle", "5").await?;
    phone.fill("Strength you want", "0.5").await?;
    heard(phone, "From the bottle 100 mL").await?;
    phone.fill("Strength you want", "7").await?;
    heard(phone, "water cannot make it").await?;

    begin_batch(phone, "Read aloud").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    heard(phone, "mL bleach").await?;
    start_bath(phone).await?;
    set_clock(phone, 11).await?;
    heard(phone, "Stir the pulp").await?;
    phone.press("Stirred").await?;
    heard(phone, "Stirred. Saved.").await?;
    phone.press("Check now").await?;
    phone.tap("Save the check").await?;
    heard(phone, "Fill in at least one of these.").await?;
    phone.fill("Temperature", "37").await?;
    save(phone, "Save the check").await?;
    heard(phone, "Check saved.").await?;

    let before = announcements(phone).await?.len();
    sleep(Duration::from_secs(3)).await;
    let after = announcements(phone).await?;
    ensure(after.len() == before, || {
        format!("announced while nothing happened: {:?}", &after[before..])
    })
}

/// Waits until `words` have been announced.
async fn heard(phone: &Phone, words: &str) -> TestResult {
    let announced =
        || async { Ok(announcements(phone).await?.iter().any(|told| told.contains(words))) };
    phone.wait_for(&format!("“{words}” to be announced"), announced).await
}

async fn announcements(phone: &Phone) -> TestResult<Vec<String>> {
    let told = phone.execute("return JSON.parse(document.documentElement.dataset.heard)").await?;
    let told = told.as_array().into_iter().flatten().filter_map(Value::as_str);
    Ok(told.map(str::to_owned).collect())
}

/// Writes down the text of each live region when it changes, on the root element: a driver's
/// script may have no other memory.
const LISTEN: &str = r"
    const root = document.documentElement;
    root.dataset.heard = '[]';
    const regions = '[role=status], [role=alert], [aria-live=polite], [aria-live=assertive]';
    const hears = (region) => {
        const text = region.innerText.replace(/\s+/g, ' ').trim();
        if (!text || !region.getClientRects().length) return;
        const heard = JSON.parse(root.dataset.heard);
        heard.push(text);
        root.dataset.heard = JSON.stringify(heard);
    };
    new MutationObserver((changes) => {
        const changed = new Set();
        for (const { target, addedNodes } of changes) {
            const around = (target.closest ? target : target.parentElement)?.closest(regions);
            if (around) changed.add(around);
            for (const added of addedNodes) {
                if (added.matches?.('[role=alert]')) changed.add(added);
                added.querySelectorAll?.('[role=alert]').forEach((alert) => changed.add(alert));
            }
        }
        changed.forEach(hears);
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
";
