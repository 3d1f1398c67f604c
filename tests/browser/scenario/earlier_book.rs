//! A database and preferences that an earlier build wrote: the app opens them with nothing
//! lost, and they are still there after a new entry. See `fixture/README.md`.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::steps::save;
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

/// The database in version 2, and the local storage.
const FIXTURE: &str = include_str!("../fixture/book-2.json");
const LOAD: &str = include_str!("../fixture/load.js");
const CONTENTS: &str = include_str!("../fixture/contents.js");

/// A batch of the fixture with photos.
const BATCH: &str = "Written by an earlier build";

pub async fn run(phone: &mut Phone) -> TestResult {
    for version in [1, 2] {
        let earlier = load(phone, version).await?;
        shows_everything(phone, &earlier).await?;
        keeps_preferences(phone, &earlier).await?;
        phone.open("/batches").await?;
        phone.tap(BATCH).await?;
        phone.tap("Note").await?;
        phone.fill("Note", "Added by the new build").await?;
        save(phone, "Save").await?;
        phone.restart_browser().await?;
        shows_everything(phone, &earlier).await?;
        phone.open("/batches").await?;
        phone.tap(BATCH).await?;
        phone.wait_for_text("Added by the new build").await?;
        still_stored(phone, &earlier).await?;
    }
    Ok(())
}

/// What the earlier build left.
struct EarlierBook {
    /// Database records as `contents.js` returns them, photos by hash.
    stored: Map<String, Value>,
    local_storage: Map<String, Value>,
}

impl EarlierBook {
    /// The bodies of all entries of a kind.
    fn bodies<'a>(&'a self, kind: &'a str) -> impl Iterator<Item = Value> + 'a {
        let entries = self.stored["entries"].as_object().into_iter().flatten();
        let texts = entries.filter_map(|(_, record)| record["text"].as_str());
        let parsed = texts.filter_map(|text| serde_json::from_str::<Value>(text).ok());
        parsed.map(|mut entry| entry["body"].take()).filter(move |body| body["kind"] == kind)
    }

    fn preferences(&self) -> TestResult<Map<String, Value>> {
        parse(&self.local_storage["bleachfield.preferences"])
    }
}

/// Loads the fixture into the browser as a database of a version.
async fn load(phone: &Phone, version: u32) -> TestResult<EarlierBook> {
    phone.open_file("/icon/bleachfield.svg").await?;
    let script = LOAD.replace("FIXTURE", FIXTURE).replace("VERSION", &version.to_string());
    let joined = phone.execute_async(&script).await?;
    ensure(joined.as_u64() > Some(0), || {
        format!("no photo of the fixture is in pieces: {joined}")
    })?;
    let stored = contents(phone).await?;
    phone.discard_console("a browser requests a favicon for a bare image").await?;
    let fixture: Value =
        serde_json::from_str(FIXTURE).map_err(|error| TestFailure::new(error.to_string()))?;
    let local_storage = fixture["localStorage"].as_object().cloned().unwrap_or_default();
    let count = |store: &str| stored[store].as_object().map_or(0, Map::len);
    ensure(count("entries") >= 100 && count("photos") >= 2 && local_storage.len() >= 3, || {
        "the fixture holds too little".to_owned()
    })?;
    Ok(EarlierBook { stored, local_storage })
}

/// Every batch, product and lot is listed, and both photos are drawn.
async fn shows_everything(phone: &Phone, earlier: &EarlierBook) -> TestResult {
    phone.open("/batches").await?;
    let mut names: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    let name = |body: Value| body["name"].as_str().unwrap_or_default().to_owned();
    names.insert("/batches", earlier.bodies("batch_started").map(name).collect());
    names.insert("/shelf", earlier.bodies("product_added").map(name).collect());
    for (place, names) in names {
        ensure(!names.is_empty(), || format!("the fixture has nothing for {place}"))?;
        phone.open(place).await?;
        for name in names {
            phone.wait_for_text(&name).await?;
        }
    }
    phone.open("/batches").await?;
    phone.tap(BATCH).await?;
    let photos = "return [...document.querySelectorAll('main img')] \
        .filter((image) => image.complete && image.naturalWidth > 0).length";
    phone
        .wait_for("both photos", || async { Ok(phone.execute(photos).await?.as_u64() >= Some(2)) })
        .await
}

/// The preferences apply, and changing one of them leaves the others.
async fn keeps_preferences(phone: &Phone, earlier: &EarlierBook) -> TestResult {
    let before = earlier.preferences()?;
    phone.open("/help/preferences").await?;
    let look = phone.execute("return document.documentElement.dataset.look").await?;
    ensure(look == before["look"], || format!("the look is {look}, not {}", before["look"]))?;
    ensure(before["speak"] == false, || "the fixture has speech on".to_owned())?;
    phone.tap("Say the cues aloud").await?;
    let mut expected = before;
    // A preference that the earlier build did not know.
    expected.insert("temperature".to_owned(), "celsius".into());
    expected.insert("speak".into(), true.into());
    phone
        .wait_for("the preference to be stored", || async {
            let stored = local_storage(phone, "bleachfield.preferences").await?;
            Ok(parse(&stored)? == expected)
        })
        .await?;
    for (key, text) in &earlier.local_storage {
        if key != "bleachfield.preferences" {
            let stored = local_storage(phone, key).await?;
            ensure(stored == *text, || format!("{key} was {text} and is {stored}"))?;
        }
    }
    let sent: Map<String, Value> = parse(&earlier.local_storage["bleachfield.sent"])?;
    let date = format!(
        "return new Date({}).toLocaleDateString('default', {{ dateStyle: 'medium' }})",
        sent["at"]
    );
    let date = phone.execute(&date).await?;
    phone.open("/batches/send").await?;
    phone.wait_for_text(date.as_str().unwrap_or_default()).await
}

/// Every record of the earlier build is in the database, unchanged.
async fn still_stored(phone: &Phone, earlier: &EarlierBook) -> TestResult {
    let now = contents(phone).await?;
    for (store, records) in &earlier.stored {
        for (key, record) in records.as_object().into_iter().flatten() {
            let kept = &now[store][key];
            ensure(kept == record, || format!("{store} {key} was {record} and is {kept}"))?;
        }
    }
    let count = |book: &Map<String, Value>| book["entries"].as_object().map_or(0, Map::len);
    let (before, after) = (count(&earlier.stored), count(&now));
    ensure(after == before + 1, || format!("{before} entries have become {after}"))
}

async fn contents(phone: &Phone) -> TestResult<Map<String, Value>> {
    let found = phone.execute_async(CONTENTS).await?;
    let stored = found.as_object().cloned();
    stored.ok_or_else(|| TestFailure::new(format!("the database cannot be read: {found}")))
}

async fn local_storage(phone: &Phone, key: &str) -> TestResult<Value> {
    phone.execute(&format!("return localStorage.getItem('{key}')")).await
}

/// The object that a JSON text holds.
fn parse(text: &Value) -> TestResult<Map<String, Value>> {
    let text = text.as_str().unwrap_or_default();
    serde_json::from_str(text).map_err(|error| TestFailure::new(format!("{text}: {error}")))
}
