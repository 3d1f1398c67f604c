//! The Sink: one bath fills the screen, several are rows; a stop is held; a check is saved in one
//! go; drops of water press nothing.

use std::time::Duration;

use serde_json::Value;
use tokio::time::sleep;

use super::steps::{HOLD, begin_batch, check_screen, is_open, save, set_clock, start_bath};
use crate::engine::Engine;
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const CONTENTS: &str = include_str!("../fixture/contents.js");
const FINGER: Duration = Duration::from_millis(90);

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    start(phone, "Cattail, first").await?;
    fills_the_screen(phone).await?;
    said_once(phone).await?;
    check(phone).await?;
    wet(phone).await?;
    past_an_hour(phone).await?;
    hold(phone).await?;
    by_key(phone).await?;
    two_baths(phone).await?;
    elsewhere(phone).await
}

async fn start(phone: &Phone, name: &str) -> TestResult {
    begin_batch(phone, name).await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    start_bath(phone).await
}

/// Ring, readings, next act and stop are in sight, and large enough.
async fn fills_the_screen(phone: &Phone) -> TestResult {
    phone.wait_for_text("No reading yet").await?;
    phone.wait_for_text("of 1 h · stop").await?;
    phone.wait_for_text("Stir in 10 min").await?;
    to_top(phone).await?;
    check_screen(phone, "sink-one").await?;
    all_in_sight(phone).await
}

/// Everything of the running bath is above the bar of places, and no act is smaller than 64 px.
async fn all_in_sight(phone: &Phone) -> TestResult {
    if !phone.has_whole_screen().await? {
        return Ok(());
    }
    let fonts = "return document.fonts.status === 'loaded'";
    phone.wait_for("the fonts", || async { Ok(phone.execute(fonts).await? == true) }).await?;
    let found = phone.execute(IN_SIGHT).await?;
    ensure(found == "", || format!("in the running bath: {found}"))
}

/// What a locked phone cannot do stands there until it was read, and not again.
async fn said_once(phone: &Phone) -> TestResult {
    phone.wait_for_text("A locked phone cannot call you.").await?;
    phone.find("press", "Put cues in my calendar").await?;
    phone.tap("Understood").await?;
    phone.wait_for_text_gone("A locked phone cannot call you.").await?;
    phone.open("/sink").await?;
    phone.wait_for_text("No reading yet").await?;
    phone.wait_for_text_gone("A locked phone cannot call you.").await
}

/// pH, strip, temperature and photo in one sheet; the way the pH was read must be chosen.
async fn check(phone: &Phone) -> TestResult {
    set_clock(phone, 20).await?;
    phone.wait_for_text("due now").await?;
    phone.tap("I have seen it").await?;
    to_top(phone).await?;
    check_screen(phone, "sink-due").await?;
    all_in_sight(phone).await?;
    phone.press("Stirred").await?;
    phone.wait_for_text("Read the pH, Dip a strip, Take a photo").await?;
    phone.press("Check now").await?;
    phone.tap("Save the check").await?;
    phone.wait_for_text("Fill in at least one of these.").await?;
    phone.fill("pH", "10.4").await?;
    phone.tap("Save the check").await?;
    ensure(is_open(phone).await?, || "saved without saying how the pH was read".to_owned())?;
    phone.tap("A strip").await?;
    phone.fill("Chlorine strip", "900").await?;
    phone.fill("Temperature", "37").await?;
    let picture = phone.photo_of_pulp(5)?;
    phone.attach("Choose a picture", &picture).await?;
    phone.wait_for_text("Photo ready").await?;
    check_screen(phone, "sink-check").await?;
    let before = entries(phone).await?.len();
    save(phone, "Save the check").await?;
    phone.wait_for_text("900 mg/L").await?;
    // Three readings, a photo, and three answered cues.
    let after = entries(phone).await?;
    let kinds: Vec<&str> =
        after.iter().filter_map(|entry| entry["body"]["kind"].as_str()).collect();
    let of = |kind: &str| kinds.iter().filter(|known| **known == kind).count();
    ensure(after.len() == before + 7 && of("reading") == 3 && of("photo") == 1, || {
        format!("{before} entries became {}: {kinds:?}", after.len())
    })?;
    phone.tap("Close").await
}

/// A drop, a bounce and two touches at once press nothing.
async fn wet(phone: &Phone) -> TestResult {
    if phone.engine != Engine::Chromium {
        return Ok(()); // of the drivers, only this one times its touches
    }
    let stirs = || count(phone, "stirred");
    let before = stirs().await?;
    phone.press_both_for("Stirred", "Times", FINGER).await?;
    sleep(Duration::from_millis(600)).await;
    ensure(stirs().await? == before, || "two touches at once stirred".to_owned())?;
    ensure(!is_open(phone).await?, || "two touches at once opened a sheet".to_owned())?;
    phone.press_for("Stirred", FINGER).await?;
    phone.press_for("Stirred", FINGER).await?;
    sleep(Duration::from_millis(600)).await;
    let after = stirs().await?;
    ensure(after == before + 1, || format!("{before} stirs became {after} by a bounce"))
}

/// From 59:59 to 1:00:00 and on the clock stays on one line within the ring, also at 360 px.
async fn past_an_hour(phone: &Phone) -> TestResult {
    for (minutes, text) in [(59, "59:"), (65, "1:05:"), (26 * 60, "26:0")] {
        set_clock(phone, minutes).await?;
        phone.wait_for_text(text).await?;
        if minutes == 59 {
            // The age of a reading grows, though nothing was read.
            phone.wait_for_text("900 mg/L 39 min").await?;
        }
        let found = phone.execute(CLOCK_FITS).await?;
        ensure(found == "", || format!("after {minutes} min: {found}"))?;
        if minutes == 65 {
            phone.tap("I have seen it").await?;
            to_top(phone).await?;
            check_screen(phone, "sink-late").await?;
        }
    }
    set_clock(phone, 21).await?;
    phone.wait_for_text("21:").await?;
    phone.tap("I have seen it").await
}

async fn to_top(phone: &Phone) -> TestResult {
    phone.execute("scrollTo(0, 0)").await?;
    Ok(())
}

/// A short press does nothing; a hold stops at once and asks why after it.
async fn hold(phone: &Phone) -> TestResult {
    phone.press_for("Stop the bath", FINGER).await?;
    sleep(Duration::from_millis(1500)).await;
    ensure(!is_open(phone).await?, || "a short press opened the stop".to_owned())?;
    ensure(stops(phone).await? == 0, || "a short press stopped the bath".to_owned())?;
    phone.press_for("Stop the bath", HOLD).await?;
    phone.wait_for_text("Stopped at").await?;
    ensure(stops(phone).await? == 1, || "a hold did not stop the bath".to_owned())?;
    check_screen(phone, "sink-stopped").await?;
    save(phone, "Undo the stop").await?;
    phone.wait_for_text("900 mg/L").await
}

/// Two key presses stop it as well.
async fn by_key(phone: &Phone) -> TestResult {
    phone.execute("document.querySelector('.hold').focus()").await?;
    phone.press_key('\u{e007}').await?;
    phone.wait_for_text("press again to stop").await?;
    phone.press_key('\u{e007}').await?;
    phone.wait_for_text("Stopped at").await?;
    save(phone, "Undo the stop").await?;
    phone.wait_for_text("900 mg/L").await
}

/// Two baths are rows, each with its own stop; a row opens its bath, and back leads to the rows.
async fn two_baths(phone: &Phone) -> TestResult {
    phone.wait_for_text("Undone.").await?;
    start(phone, "Iris, second").await?;
    // A notice of a screen that was left is gone.
    phone.wait_for_text_gone("Undone.").await?;
    phone.find("any", ".bath-row .hold").await?;
    let rows = phone.execute("return document.querySelectorAll('.bath-row .hold').length").await?;
    ensure(rows == 2, || format!("{rows} rows with a stop"))?;
    check_screen(phone, "sink-rows").await?;
    phone.tap("Iris, second").await?;
    phone.wait_for_text("No reading yet").await?;
    let name = phone.execute("return document.querySelector('main h1').innerText").await?;
    ensure(name == "Iris, second", || format!("the screen is of {name}"))?;
    to_top(phone).await?;
    check_screen(phone, "sink-one-of-two").await?;
    phone.tap("All 2 baths").await?;
    phone.find("any", ".bath-row").await?;
    Ok(())
}

/// On another place one short line stands for each act that is due, and leads to its bath.
async fn elsewhere(phone: &Phone) -> TestResult {
    phone.tap("Shelf").await?;
    set_clock(phone, 75).await?;
    phone.wait_for_text("Stop: Cattail, first").await?;
    let longest = "return Math.max(...[...document.querySelectorAll('.alarm')] \
        .map((line) => line.innerText.length))";
    let longest = phone.execute(longest).await?;
    ensure(longest.as_i64().is_some_and(|n| n < 40), || format!("a line of {longest} characters"))?;
    check_screen(phone, "sink-elsewhere").await?;
    phone.tap("Stop: Cattail, first").await?;
    phone.wait_for_text("900 mg/L").await
}

async fn stops(phone: &Phone) -> TestResult<usize> {
    count(phone, "bath_stopped").await
}

/// Stored entries of a kind.
async fn count(phone: &Phone, kind: &str) -> TestResult<usize> {
    let all = entries(phone).await?;
    Ok(all.iter().filter(|entry| entry["body"]["kind"] == kind).count())
}

/// All stored entries.
async fn entries(phone: &Phone) -> TestResult<Vec<Value>> {
    let stored = phone.execute_async(CONTENTS).await?;
    let entries = stored["entries"].as_object();
    let entries = entries.ok_or_else(|| TestFailure::new(format!("no entries: {stored}")))?;
    let texts = entries.values().filter_map(|record| record["text"].as_str());
    Ok(texts.filter_map(|text| serde_json::from_str::<Value>(text).ok()).collect())
}

/// Returns what is not in sight, or too small; "" if nothing.
const IN_SIGHT: &str = "
    scrollTo(0, 0);
    const bar = document.querySelector('.places').getBoundingClientRect().top;
    const wrong = [];
    for (const part of ['.ring', '.readings', '.act', '.small-acts', '.hold']) {
        const box = document.querySelector(part).getBoundingClientRect();
        if (box.bottom > bar + 1 || box.top < 0) wrong.push(part + ' is out of sight');
    }
    for (const act of document.querySelectorAll('.focus button')) {
        const { width, height } = act.getBoundingClientRect();
        if (height < 64 || width < 64) wrong.push(act.innerText + ' is ' + width + ' by ' + height);
    }
    const size = parseFloat(getComputedStyle(document.querySelector('.ring .elapsed')).fontSize);
    if (size < 64) wrong.push('the clock is ' + size);
    return wrong.join('; ');";

/// Returns how the clock leaves its ring; "" if it does not.
const CLOCK_FITS: &str = "
    const clock = document.querySelector('.ring .elapsed');
    const [text, ring] = [clock, document.querySelector('.ring')].map((e) => e.getBoundingClientRect());
    const size = parseFloat(getComputedStyle(clock).fontSize);
    if (text.left < ring.left + 18 || text.right > ring.right - 18) return 'too wide: ' + text.width;
    if (text.height > 1.5 * size) return 'broken into lines';
    return size < 64 ? 'only ' + size + ' px' : '';";
