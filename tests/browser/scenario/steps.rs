//! Steps that several scenarios share.

use std::time::Duration;

use super::places::wait_for_place;
use crate::axe::check_accessibility;
use crate::engine::STANDARD_PHONE;
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

/// Opens a form of the batch page that is folded under "Weigh, rinse, test, put by…".
pub async fn open_form(phone: &Phone, form: &str) -> TestResult {
    let folded = "return !!document.querySelector('nav details.more:not([open])')";
    phone.wait_for("the batch's page", || is_batch_page(phone)).await?;
    if phone.execute(folded).await? == true {
        phone.tap("Weigh, rinse, test, put by…").await?;
    }
    phone.tap(form).await?;
    phone.wait_for("the form", || is_open(phone)).await
}

/// Presses the button that saves the open form, and waits until the form closes, which it
/// does once the entries are stored.
pub async fn save(phone: &Phone, press: &str) -> TestResult {
    phone.tap(press).await?;
    phone.wait_for("the form to close", || async { Ok(!is_open(phone).await?) }).await
}

/// Closes the open form without saving.
pub async fn close_form(phone: &Phone) -> TestResult {
    save(phone, "Close").await
}

/// Presses both buttons that start the bath of the open plan: the first asks for goggles, the
/// second starts it.
pub async fn press_start(phone: &Phone) -> TestResult {
    phone.wait_for_text("Measure out").await?;
    phone.tap("Start the bath").await?;
    phone.wait_for_text("Goggles, gloves and an apron on.").await?;
    phone.tap("Bleach is in. Start the clock").await
}

/// Starts the bath of the open plan.
pub async fn start_bath(phone: &Phone) -> TestResult {
    press_start(phone).await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.find("press", "Check now").await?;
    Ok(())
}

/// Longer than a stop must be held.
pub const HOLD: Duration = Duration::from_millis(1500);

/// Stops the running bath by holding, and says why. The dialog accepts an answer only after half
/// a second, so the answer is pressed until it closes.
pub async fn stop_bath(phone: &Phone, why: &str) -> TestResult {
    phone.press_for("Stop the bath", HOLD).await?;
    phone.wait_for_text("Stopped at").await?;
    phone
        .wait_for("the reason to be saved", || async {
            if is_open(phone).await? {
                phone.press(why).await?;
            }
            Ok(!is_open(phone).await?)
        })
        .await
}

/// Fills in and saves a rinse; `strip` may be empty.
pub async fn rinse(phone: &Phone, litres: &str, ph: &str, strip: &str) -> TestResult {
    phone.fill("Water", litres).await?;
    phone.fill("pH of the water squeezed out", ph).await?;
    if !strip.is_empty() {
        phone.fill("Strip in the water squeezed out", strip).await?;
    }
    save(phone, "Save").await
}

/// Saves an end test with a number.
pub async fn end_test(phone: &Phone, test: &str, field: &str, reading: &str) -> TestResult {
    open_form(phone, "End test").await?;
    phone.tap(test).await?;
    phone.fill(field, reading).await?;
    phone.wait_for_text("This test: passed").await?;
    save(phone, "Save").await
}

/// Saves the end test by feel.
pub async fn feel_test(phone: &Phone) -> TestResult {
    open_form(phone, "End test").await?;
    phone.tap("Feel").await?;
    phone.tap("Squeaks, not slippery").await?;
    phone.wait_for_text("This test: passed").await?;
    save(phone, "Save").await
}

/// Whether a dialog is open.
pub async fn is_open(phone: &Phone) -> TestResult<bool> {
    Ok(phone.execute("return !!document.querySelector('dialog[open]')").await? == true)
}

async fn is_batch_page(phone: &Phone) -> TestResult<bool> {
    Ok(phone.execute("return !!document.querySelector('.batch-head')").await? == true)
}

/// Begins a batch with the least input, from any screen.
pub async fn begin_batch(phone: &Phone, name: &str) -> TestResult {
    phone.tap("Batches").await?;
    // The Sink has such a button too, and stays until the code of Batches is loaded.
    wait_for_place(phone, "Batches").await?;
    phone.tap("New batch").await?;
    phone.fill("Fibre", "Cattail leaf").await?;
    phone.fill("Name of the batch", name).await?;
    phone.fill("Wet pulp", "500 g").await?;
    phone.tap("Not measured").await?;
    phone.tap("Save and plan the bath").await?;
    // The plan opens once the entries are stored.
    phone
        .wait_for("the entry to be saved", || async { Ok(phone.path().await?.ends_with("/plan")) })
        .await
}

/// Takes a screenshot of a screen and checks its width and accessibility.
pub async fn check_screen(phone: &Phone, name: &str) -> TestResult {
    phone.screenshot(name).await?;
    let wider = phone.execute("return document.documentElement.scrollWidth - innerWidth").await?;
    ensure(wider.as_i64().is_some_and(|by| by <= 0), || format!("{name} is {wider} px too wide"))?;
    // Accessibility does not depend on the size of the screen.
    if phone.size == STANDARD_PHONE { check_accessibility(phone, name).await } else { Ok(()) }
}

/// Sets the page's clock to so many minutes from the true time. `window.Date` is the page's
/// own; Firefox runs scripts of the driver in a sandbox with another `Date`.
pub async fn set_clock(phone: &Phone, minutes: i64) -> TestResult {
    let set = format!(
        "const clock = window.Date; clock.trueNow ??= clock.now; \
         clock.now = () => clock.trueNow() + {minutes} * 60000"
    );
    phone.execute(&set).await?;
    Ok(())
}
