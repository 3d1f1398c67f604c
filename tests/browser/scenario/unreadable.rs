//! Entries and photos that this version cannot read are counted at opening and in Help, exported
//! as they are stored, stored again by another phone that imports them, and never deleted.

use std::fs;

use serde_json::{Value, json};

use super::places::wait_for_place;
use super::steps::{begin_batch, check_screen};
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const CONTENTS: &str = include_str!("../fixture/contents.js");

/// The key of an entry of a newer format.
const NEWER: &str = "01JZZZZZZZZZZZZZZZZZZZZZZ1";

pub async fn run(phone: &mut Phone) -> TestResult {
    let other = phone.another().await?;
    let outcome = unreadable(phone, &other).await;
    other.close_after(outcome).await
}

async fn unreadable(phone: &Phone, other: &Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    begin_batch(phone, "Beside the unreadable").await?;
    phone.open_file("/icon/bleachfield.svg").await?;
    phone.execute_async(&DAMAGE.replace("NEWER", NEWER)).await?;
    phone.discard_console("a browser requests a favicon for a bare image").await?;
    let before = entries(phone).await?;

    phone.open("/").await?;
    phone.wait_for_text("2 entries cannot be read by this version. Nothing was deleted.").await?;
    // Leaving before the Sink is drawn would abort the fetch of its code.
    phone.wait_for_text("Beside the unreadable").await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Beside the unreadable").await?;
    wait_for_place(phone, "Batches").await?;
    phone.open("/help").await?;
    phone.tap("Check the stored photos").await?;
    phone.wait_for_text("1 photo cannot be read. Nothing was deleted.").await?;
    check_screen(phone, "help-unreadable").await?;
    phone.tap("Export what is stored").await?;
    let photos = fs::read_to_string(phone.downloaded_file("bleachfield.json").await?)?;
    ensure(photos.contains("image/jpeg"), || format!("exported of the photo: {photos}"))?;
    phone.tap("Export unreadable entries").await?;
    let file = phone.downloaded_file("bleachfield.json").await?;

    other.open("/batches/take").await?;
    other.wait_until_offline_ready().await?;
    other.attach("Choose the file", &file).await?;
    other.wait_for_text("2 entries cannot be read by this version.").await?;
    other.tap("Import this file").await?;
    other.wait_for_text("Imported.").await?;
    other.open("/help").await?;
    wait_for_place(other, "Help").await?;
    other.wait_for_text("2 entries cannot be read by this version.").await?;
    let (now, copied) = (entries(phone).await?, entries(other).await?);
    ensure(now == before, || format!("the entries were {before} and are {now}"))?;
    ensure(copied[NEWER] == before[NEWER], || format!("imported was {}", copied[NEWER]))
}

/// The stored entries.
async fn entries(phone: &Phone) -> TestResult<Value> {
    let stored = phone.execute_async(CONTENTS).await?;
    let entries = stored["entries"].clone();
    if entries.is_object() { Ok(entries) } else { Err(TestFailure::new(json!(stored).to_string())) }
}

/// Stores an entry of a newer format, one in another shape, and a photo without its bytes.
const DAMAGE: &str = r#"
    const done = (request) => new Promise((then, not) => {
        request.onsuccess = () => then(request.result);
        request.onerror = () => not(request.error);
    });
    const database = await done(indexedDB.open('bleachfield'));
    const writing = database.transaction(['entries', 'photos'], 'readwrite');
    const entries = writing.objectStore('entries');
    const newer = { id: 'NEWER', format: 99, text: '{"newer": 1.0}' };
    await Promise.all([
        done(entries.put(newer, 'NEWER')),
        done(entries.put({ of: 'another shape' }, '01JZZZZZZZZZZZZZZZZZZZZZZ2')),
        done(writing.objectStore('photos').put({ mime: 'image/jpeg' }, 'a'.repeat(64))),
    ]);
    database.close();
"#;
