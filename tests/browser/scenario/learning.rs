//! Own baths narrow the forecast: learnt by the worker while nobody acts, kept, listed with source
//! and readings, and learnt anew where what was kept is damaged.

use std::cell::RefCell;
use std::time::Duration;

use serde_json::Value;
use tokio::time::sleep;

use super::forecast::{check, close, later, open_sheet};
use super::steps::{begin_batch, check_screen, go_to_place, set_clock, start_bath, stop_bath};
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    nothing_learnt(phone).await?;
    set_clock(phone, -180).await?;
    let first = bath(phone, "Cattail, first").await?;
    read_and_stop(phone).await?;
    wait_until_learnt(phone, 1).await?;
    let second = bath(phone, "Cattail, second").await?;
    let narrower = spread(second) < 0.9 * spread(first);
    ensure(narrower, || format!("chlorine left: {first:?} mg/L, then {second:?}"))?;
    on_the_sheet(phone).await?;
    listed(phone).await?;
    damaged(phone).await
}

/// All ranges are published ones or own estimates.
async fn nothing_learnt(phone: &Phone) -> TestResult {
    go_to_place(phone, "Help").await?;
    phone.tap("What the forecast rests on").await?;
    phone.wait_for_text("No bath of yours has readings yet").await?;
    phone.wait_for_text("published").await?;
    check_screen(phone, "rests-on-nothing").await?;
    phone.tap("Back").await
}

/// How many times the lower end of a range the higher one is, as a logarithm: what is left of an
/// oxidant is known by ratio, and a slower bath leaves more of it, with a wider range in mg/L.
fn spread([low, high]: [f64; 2]) -> f64 {
    (high / low.max(1.0)).ln()
}

/// Starts a bath as always and reads what its chlorine depends on most; gives the range of what is
/// left of it in half an hour.
async fn bath(phone: &Phone, name: &str) -> TestResult<[f64; 2]> {
    begin_batch(phone, name).await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    start_bath(phone).await?;
    check(phone, &[("pH", "10.4"), ("Temperature", "38")]).await?;
    phone.wait_for_text("In 30 min: lightness").await?;
    open_sheet(phone).await?;
    // The reading weighs the forecast within moments; then its ranges stand still.
    let last = RefCell::new(Value::Null);
    phone
        .wait_for("a range that stands still", || async {
            sleep(Duration::from_millis(1500)).await;
            let ends = phone.execute(IN_HALF_AN_HOUR).await?;
            Ok(last.replace(ends.clone()) == ends && ends != Value::Null)
        })
        .await?;
    let ends = last.into_inner();
    close(phone).await?;
    let [low, high] = [0, 1].map(|end| ends[end].as_f64());
    let ends = low.zip(high).map(|(low, high)| [low, high]);
    ends.ok_or_else(|| TestFailure::new("the table has no range of chlorine"))
}

async fn read_and_stop(phone: &Phone) -> TestResult {
    for (clock, ph, strip) in [(-160, "10.4", "600"), (-135, "10.2", "450")] {
        later(phone, clock).await?;
        check(phone, &[("pH", ph), ("Chlorine strip", strip), ("Temperature", "37")]).await?;
        phone.wait_for_text(&format!("{strip} mg/L")).await?;
    }
    stop_bath(phone, "It has the colour I want").await?;
    // What was said lies over the top of the next screen until it is closed.
    phone.tap("Close").await
}

/// The worker learns once nobody has acted for some seconds.
async fn wait_until_learnt(phone: &Phone, baths: i64) -> TestResult {
    let kept = "try { \
             const kept = JSON.parse(localStorage.getItem('bleachfield.learning')); \
             return kept?.steps?.filter((step) => step.fit).length ?? 0; \
         } catch { return 0; }";
    phone
        .wait_for("a bath to be learnt from", || async {
            Ok(phone.execute(kept).await?.as_i64() == Some(baths))
        })
        .await
}

/// On how many baths the forecast rests stands on its sheet, with the nearest one.
async fn on_the_sheet(phone: &Phone) -> TestResult {
    open_sheet(phone).await?;
    phone.tap("What it rests on").await?;
    phone.wait_for_text("Rests on 1 bath of this fibre.").await?;
    phone.wait_for_text("Your nearest bath").await?;
    check_screen(phone, "forecast-rests").await?;
    close(phone).await
}

/// Each number with its range, where it is from, and its source on tap.
async fn listed(phone: &Phone) -> TestResult {
    go_to_place(phone, "Help").await?;
    phone.tap("What the forecast rests on").await?;
    phone.wait_for_text("readings of yours").await?;
    let rows = phone.execute(ROWS).await?;
    let rows = rows.as_array().map_or(0, Vec::len);
    ensure(rows >= 12, || format!("{rows} numbers are listed"))?;
    phone.execute("document.querySelector('main details').open = true").await?;
    phone.wait_for_text("Holds for:").await?;
    check_screen(phone, "rests-on").await
}

/// What was kept is a cache: damaged, it is learnt anew from the book.
async fn damaged(phone: &Phone) -> TestResult {
    phone.execute("localStorage.setItem('bleachfield.learning', '{\"method\":1,')").await?;
    phone.open("/help/rests_on").await?;
    phone.wait_for_text("Numbers in use").await?;
    wait_until_learnt(phone, 2).await?;
    phone.wait_for_text("readings of yours").await
}

/// The range of the chlorine that is left in 30 minutes, in mg/L, from the table on the sheet.
const IN_HALF_AN_HOUR: &str = "\
    const row = [...document.querySelectorAll('.forecast-table tr')] \
        .find((row) => row.cells[0].textContent.startsWith('Chlorine left')); \
    return row?.cells[2].textContent.split('–').map(Number);";

/// The folds that hold a range.
const ROWS: &str = "return [...document.querySelectorAll('main details.more summary')] \
    .map((row) => row.innerText).filter((text) => text.includes(' to '))";
