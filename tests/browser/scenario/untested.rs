//! Pulp that is stored untested, and kept past its date: what is asked first, and the marks of it
//! everywhere. After percarbonate alone no chlorine strip is asked for.

use super::finishing::station_is;
use super::steps::{
    begin_batch, check_screen, close_form, open_form, press_start, save, stop_bath, tick_rinse,
    wait_for_step,
};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

const NAME: &str = "Not tested";

pub async fn run(phone: &Phone) -> TestResult {
    bath(phone).await?;
    no_chlorine_strip(phone).await?;
    store_untested(phone).await?;
    marked_everywhere(phone).await
}

async fn bath(phone: &Phone) -> TestResult {
    begin_batch(phone, NAME).await?;
    phone.tap("Percarbonate").await?;
    phone.tap("% percarbonate").await?;
    phone.fill("Strength of the powder", "95").await?;
    press_start(phone).await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    stop_bath(phone, "It has the colour I want").await?;
    phone.tap("Close").await?;
    phone.tap("Drain it and rinse now").await?;
    wait_for_step(phone, "Drain").await?;
    phone.tap("Drained").await?;
    // Nobody read the bath: its peroxide counts as fresh.
    phone.wait_for_text("The bath was not read, so its bleach counts as fresh.").await
}

/// The rinse names the peroxide strip; acid is offered after that strip alone.
async fn no_chlorine_strip(phone: &Phone) -> TestResult {
    open_form(phone, "Acid finish").await?;
    phone.wait_for_text("Not done yet: peroxide strip.").await?;
    close_form(phone).await?;
    tick_rinse(phone, 1, "9", ("Peroxide strip", "0")).await?;
    open_form(phone, "Acid finish").await?;
    phone.wait_for_text("Which acid?").await?;
    close_form(phone).await?;
    let asked = phone.screen_text().await?.contains("Chlorine strip");
    ensure(!asked, || "a chlorine strip is asked for after percarbonate alone".to_owned())
}

/// The missing tests come first; without them a reason is needed.
async fn store_untested(phone: &Phone) -> TestResult {
    open_form(phone, "Store").await?;
    phone.wait_for_text("This pulp is not proven clean:").await?;
    phone.wait_for_text("Not done yet: feel.").await?;
    phone.find("field", "Why you store it now").await?;
    check_screen(phone, "store-untested").await?;
    phone.tap("Do the tests first").await?;
    phone
        .wait_for("the ladder", || async {
            Ok(phone.execute("return !document.querySelector('dialog[open]')").await? == true)
        })
        .await?;
    phone.find("any", ".ladder .now").await?;
    open_form(phone, "Store").await?;
    phone.fill("Wet pulp", "400 g").await?;
    phone.tap("Wet, in the cold").await?;
    date_is(phone, "2026-01-02").await?;
    phone.tap("Save").await?;
    phone.wait_for_text("Do the missing tests, or write why you store it without.").await?;
    phone.fill("Why you store it now", "The strips ran out.").await?;
    check_screen(phone, "store-reason").await?;
    save(phone, "Save").await?;
    station_is(phone, "Sheets").await
}

/// Fills in the date by which to use it.
async fn date_is(phone: &Phone, day: &str) -> TestResult {
    let set = format!(
        "const field = document.getElementById('keep-by'); field.value = '{day}'; \
         field.dispatchEvent(new Event('input', {{ bubbles: true }}))"
    );
    phone.execute(&set).await?;
    Ok(())
}

/// Batch, list, lots, lot, sheets and label say that it is not tested, and that it is past its
/// date.
async fn marked_everywhere(phone: &Phone) -> TestResult {
    let marks = ["Not tested clean", "Past its keep-by date"];
    let batch = phone.path().await?;
    for mark in marks {
        phone.wait_for_text(mark).await?;
    }
    phone.wait_for_text("Stored without proof that it is clean: The strips ran out.").await?;
    phone.find("any", "main h1").await?;
    check_screen(phone, "batch-untested").await?;
    for (path, name) in [("/batches", "list-untested"), ("/lots", "lots-untested")] {
        phone.open(path).await?;
        for mark in marks {
            phone.wait_for_text(mark).await?;
        }
        check_screen(phone, name).await?;
    }
    phone.tap(NAME).await?;
    phone.wait_for_text("Stored without proof that it is clean: The strips ran out.").await?;
    for mark in marks {
        phone.wait_for_text(mark).await?;
    }
    phone.tap("Sheets").await?;
    phone.find("field", "Number of sheets").await?;
    let shown = phone.screen_text().await?.matches(marks[0]).count();
    ensure(shown == 2, || format!("the mark stands {shown} times, not with the sheets too"))?;
    check_screen(phone, "lot-untested").await?;
    phone.open(&format!("{batch}/label")).await?;
    phone.wait_for_text("UNTESTED").await?;
    phone.wait_for_text(marks[1]).await
}
