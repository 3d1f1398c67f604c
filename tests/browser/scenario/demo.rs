//! The demo studio is a place of its own: entered and left with one tap, said on every screen,
//! and nothing of it in the person's book.

use std::fs;
use std::process::Command;

use super::places::wait_for_place;
use super::steps::{begin_batch, check_screen, enter_demo, go_to_place, start_bath};
use crate::error::{TestResult, ensure};
use crate::layout::check_layout;
use crate::phone::Phone;

const OWN: &str = "My own reeds";
const RIBBON: &str = "Nothing here is yours";
const PLACES: [&str; 5] = ["Sink", "Mix", "Batches", "Shelf", "Help"];
const DEMO_FILE: &str = "demo/estuary-studio.bleachfield.zip";

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    begin_batch(phone, OWN).await?;
    let own = book(phone).await?;

    go_to_place(phone, "Help").await?;
    enter_demo(phone).await?;
    in_the_demo(phone).await?;
    // A reload stays in the demo; so does every screen that is opened by its address.
    phone.open("/batches").await?;
    phone.wait_for_text(RIBBON).await?;
    begin_batch(phone, "Written in the demo").await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Written in the demo").await?;

    leave(phone).await?;
    ensure(book(phone).await? == own, || "the person's own book has changed".to_owned())?;
    let left = phone.execute_async(LEFT_OVER).await?;
    ensure(left == 0, || format!("left over from the demo: {left}"))?;

    offline(phone).await?;
    opened_anew(phone).await?;
    by_hand(phone).await?;
    refused(phone).await
}

/// Each place says where one is, and shows the demo's batches and none of the person's.
async fn in_the_demo(phone: &Phone) -> TestResult {
    for place in PLACES {
        phone.tap(place).await?;
        wait_for_place(phone, place).await?;
        phone.wait_for_text(RIBBON).await?;
        check_layout(phone, place).await?;
        phone.screenshot(&format!("demo-{}", place.to_lowercase())).await?;
    }
    phone.tap("Batches").await?;
    phone.wait_for_text("Reed bed").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains(OWN), || format!("“{OWN}” is shown in the demo"))?;
    ensure(!text.contains("on this phone alone"), || "the demo asks for a backup".to_owned())?;
    check_screen(phone, "demo-batches").await?;
    // Dated from now: its last bath runs.
    phone.tap("Sink").await?;
    phone.wait_for_text("Stop the bath").await?;
    phone.execute("document.documentElement.setAttribute('data-look', 'dark')").await?;
    phone.screenshot("demo-sink-dark").await
}

async fn leave(phone: &Phone) -> TestResult {
    phone.tap("Leave").await?;
    phone.wait_for_text_gone(RIBBON).await?;
    wait_for_place(phone, "Sink").await?;
    phone.open("/batches").await?;
    phone.wait_for_text(OWN).await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains("Reed bed"), || "the demo is in the person's own book".to_owned())
}

/// Once opened, it needs no network.
async fn offline(phone: &mut Phone) -> TestResult {
    phone.server.stop();
    phone.open("/help").await?;
    enter_demo(phone).await?;
    phone.tap("Batches").await?;
    phone.wait_for_text("Reed bed").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains("Written in the demo"), || "the demo is not as new".to_owned())?;
    leave(phone).await?;
    phone.server.resume()
}

/// Whoever starts the app anew is in their own book, whatever they did last.
async fn opened_anew(phone: &mut Phone) -> TestResult {
    phone.open("/help").await?;
    enter_demo(phone).await?;
    phone.restart_browser().await?;
    phone.open("/batches").await?;
    phone.wait_for_text(OWN).await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains(RIBBON), || "a fresh start is in the demo".to_owned())?;
    // That demo was never left: it is deleted a day later.
    phone.execute(A_DAY_LATER).await?;
    phone.open("/batches").await?;
    phone
        .wait_for("the forgotten demo to be deleted", || async {
            Ok(phone.execute_async(LEFT_OVER).await? == 0)
        })
        .await
}

/// The demo's file chosen by hand is not merged.
async fn by_hand(phone: &Phone) -> TestResult {
    let file = phone.folder().join("studio.zip");
    fs::copy(phone.server.folder().join(DEMO_FILE), &file)?;
    let own = book(phone).await?;
    phone.open("/batches/take").await?;
    phone.attach("Choose the file", &file).await?;
    let _ = phone.wait_for_text("This file is the demo studio.").await;
    phone.wait_for_text("This file is the demo studio.").await?;
    check_screen(phone, "demo-file").await?;
    enter_demo(phone).await?;
    leave(phone).await?;
    ensure(book(phone).await? == own, || "the demo's file was merged".to_owned())
}

/// While a bath of the person's own runs it cannot be entered, and where it is not served it
/// says so.
async fn refused(phone: &mut Phone) -> TestResult {
    let bare = phone.folder().join("bare");
    let copied = Command::new("cp").arg("-r").args([phone.server.folder(), &bare]).status()?;
    ensure(copied.success(), || "could not copy the built app".to_owned())?;
    fs::remove_dir_all(bare.join("demo"))?;
    phone.server.serve_instead(&bare)?;
    phone.open("/help").await?;
    phone.tap("Open the demo studio").await?;
    phone.wait_for_text("comes without the demo studio").await?;
    phone.discard_console("a file that is not there").await?;
    begin_batch(phone, "A bath of my own").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    start_bath(phone).await?;
    go_to_place(phone, "Help").await?;
    phone.tap("Open the demo studio").await?;
    phone.wait_for_text("A bath of yours is running").await
}

/// The ids of all entries in the person's own book.
async fn book(phone: &Phone) -> TestResult<serde_json::Value> {
    phone.execute_async(BOOK).await
}

const BOOK: &str = r#"
    const done = (request) => new Promise((ok, no) => { request.onsuccess = () => ok(request.result); request.onerror = no; });
    const db = await done(indexedDB.open('bleachfield'));
    const keys = await done(db.transaction('entries').objectStore('entries').getAllKeys());
    db.close();
    return keys;
"#;

const A_DAY_LATER: &str = "localStorage.setItem('bleachfield.demo_entered', \
    JSON.stringify(new Date(Date.now() - 25 * 3600000).toISOString()))";

const LEFT_OVER: &str = r#"
    const databases = (await indexedDB.databases()).filter((one) => one.name.includes('demo'));
    const keys = Object.keys(localStorage).concat(Object.keys(sessionStorage)).filter((key) => key.includes('demo'));
    return databases.length + keys.length;
"#;
