//! A field that a person types in keeps its element, focus, text and selection while the page
//! around it changes: by another choice, by the clock, and by an entry of another tab.

use std::time::Duration;

use tokio::time::sleep;

use super::steps::{
    begin_batch, go_to_step, is_open, open_form, save, set_clock, start_bath, wait_for_answer,
};
use crate::engine::Engine;
use crate::error::TestResult;
use crate::phone::Phone;

/// Longer than three ticks of the app's clock.
const THREE_TICKS: Duration = Duration::from_millis(3300);

/// Forms, while other choices and results change.
pub async fn in_forms(phone: &mut Phone) -> TestResult {
    mix(phone).await?;
    new_batch(phone).await?;
    begin_batch(phone, "Typed in").await?;
    plan_form(phone).await
}

/// Sheets over the page, while the page behind them changes.
pub async fn in_sheets(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    begin_batch(phone, "Typed in").await?;
    let plan = phone.path().await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    start_bath(phone).await?;
    check_sheet(phone, plan.trim_end_matches("/plan")).await?;
    note_form(phone, plan.trim_end_matches("/plan")).await?;
    if phone.engine == Engine::Firefox {
        // Firefox cancels what a tab is running when the tab is closed, without unwinding: the
        // queue of tasks, interrupted so, is then called once more before the tab is gone.
        let why = "it may call a dropped closure of a tab with a running bath that is being closed";
        phone.check_console_but("closure invoked recursively or after being dropped", why).await?;
    }
    Ok(())
}

/// The liquor of Mix, while the oxidant changes and the results are recomputed.
async fn mix(phone: &Phone) -> TestResult {
    phone.open("/mix").await?;
    phone.tap("pH of a liquor").await?;
    for field in ["Strength of the liquor", "Soda ash in it", "Temperature"] {
        let mut typed = phone.begin_typing(field, "10").await?;
        for bleach in ["Percarbonate", "Chlorine bleach"] {
            phone.press_without_focus(bleach).await?;
            phone.wait_for_text(counted_as(bleach)).await?;
            phone.check_typing(&typed, bleach).await?;
        }
        phone.type_key(&mut typed, '5').await?;
    }
    phone.tap("pH you read, volume, vinegar, other substances").await?;
    // The first character adds a choice below the field.
    let mut typed = phone.begin_typing("pH you read", "91").await?;
    phone.press_without_focus("A meter (within a tenth)").await?;
    phone.check_typing(&typed, "the way of reading").await?;
    phone.type_key(&mut typed, '2').await
}

/// Shown while the bleach is chosen.
fn counted_as(bleach: &str) -> &'static str {
    if bleach == "Percarbonate" {
        "Hydrogen peroxide in a litre"
    } else {
        "Available chlorine in a litre"
    }
}

/// The form of a new batch, while the way of measuring dryness changes and another tab saves a
/// batch.
async fn new_batch(phone: &Phone) -> TestResult {
    phone.open("/batches/new").await?;
    phone.fill("Fibre", "iris leaf").await?;
    for field in ["Name of the batch", "Wet pulp"] {
        let mut typed = phone.begin_typing(field, "500").await?;
        for how in ["Not measured", "Own figure", "Dried a sample"] {
            phone.press_without_focus(how).await?;
            phone.check_typing(&typed, how).await?;
        }
        phone.type_key(&mut typed, '5').await?;
    }
    let typed = phone.begin_typing("Wet sample", "25").await?;
    let tab = phone.open_in_new_tab("/").await?;
    begin_batch(phone, "Of another tab").await?;
    phone.close_tab_and_return_to(tab).await?;
    sleep(THREE_TICKS).await;
    phone.check_typing(&typed, "a batch of another tab").await
}

/// The plan, while the label's unit changes, results are recomputed, and another tab puts a
/// bleach on the shelf, which adds a choice above the field.
async fn plan_form(phone: &Phone) -> TestResult {
    phone.tap("% NaOCl by mass (w/w)").await?;
    let mut typed = phone.begin_typing("Strength of the bottle", "52").await?;
    for unit in ["% NaOCl by volume (w/v)", "% available chlorine by mass", "% NaOCl by mass (w/w)"]
    {
        phone.press_without_focus(unit).await?;
        phone.check_typing(&typed, unit).await?;
    }
    phone.type_key(&mut typed, '.').await?;
    wait_for_answer(phone, "bleach").await?;
    go_to_step(phone, "Bath").await?;
    let mut typed = phone.begin_typing("Consistency", "55").await?;
    phone.type_key(&mut typed, '.').await?;
    phone.press_without_focus("Gentle").await?;
    phone
        .wait_for("the gentle values", || async { Ok(phone.value("Consistency").await? == "4") })
        .await?;
    let mut typed = phone.begin_typing("Temperature", "33").await?;
    phone.type_key(&mut typed, '6').await?;
    wait_for_answer(phone, "bleach").await?;
    go_to_step(phone, "Bleach").await?;
    let typed = phone.begin_typing("Strength of the bottle", "52").await?;

    let tab = phone.open_in_new_tab("/shelf/new").await?;
    phone.fill("Name on the shelf", "Blue bottle").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "6").await?;
    phone.tap("Add to the shelf").await?;
    phone
        .wait_for("the entry to be saved", || async { Ok(phone.path().await? != "/shelf/new") })
        .await?;
    phone.close_tab_and_return_to(tab).await?;
    phone.wait_for_text("Blue bottle").await?;
    phone.check_typing(&typed, "a bottle of another tab").await
}

/// The sheet of a check at the Sink, while the clock ticks, a cue becomes due, and another tab saves
/// a reading, which the Sink shows.
async fn check_sheet(phone: &Phone, batch: &str) -> TestResult {
    phone.press("Check now").await?;
    phone.wait_for("the sheet", || is_open(phone)).await?;
    let mut typed = phone.begin_typing("Temperature", "380").await?;
    sleep(THREE_TICKS).await;
    phone.check_typing(&typed, "the clock").await?;
    set_clock(phone, 11).await?;
    phone.wait_for_text("Stir the pulp").await?;
    sleep(THREE_TICKS).await;
    phone.check_typing(&typed, "a cue").await?;

    let tab = phone.open_in_new_tab(batch).await?;
    open_form(phone, "Reading").await?;
    phone.tap("Temperature").await?;
    phone.fill("Temperature", "36.5").await?;
    save(phone, "Save").await?;
    phone.close_tab_and_return_to(tab).await?;
    phone.wait_for_text("36.5 °C").await?;
    phone.check_typing(&typed, "a reading of another tab").await?;
    phone.type_key(&mut typed, '.').await?;
    phone.fill("Temperature", "38").await?;
    save(phone, "Save the check").await
}

/// A form of the batch page, while another tab adds to the timeline behind it.
async fn note_form(phone: &Phone, batch: &str) -> TestResult {
    phone.open(batch).await?;
    phone.tap("Note").await?;
    let mut typed = phone.begin_typing("Note", "Smells green").await?;
    let tab = phone.open_in_new_tab(batch).await?;
    phone.tap("Note").await?;
    phone.fill("Note", "Written in another tab").await?;
    save(phone, "Save").await?;
    phone.close_tab_and_return_to(tab).await?;
    phone.wait_for_text("Written in another tab").await?;
    phone.check_typing(&typed, "a note of another tab").await?;
    phone.type_key(&mut typed, 'h').await?;
    save(phone, "Save").await?;
    phone.wait_for_text("Shells green").await
}
