//! Steps that several scenarios share.

use std::time::Duration;

use super::places::wait_for_place;
use crate::axe::check_accessibility;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

/// Opens the demo studio from the screen that offers it.
pub async fn enter_demo(phone: &Phone) -> TestResult {
    phone.tap("Open the demo studio").await?;
    // A debug build needs longer for a season of photos: twice the time limit.
    let _ = phone.wait_for_text("Nothing here is yours").await;
    phone.wait_for_text("Nothing here is yours").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.find("press", "Check now").await?;
    Ok(())
}

/// Opens a form of the batch page that is folded under "Weigh, rinse, test, store…".
pub async fn open_form(phone: &Phone, form: &str) -> TestResult {
    let folded = "return !!document.querySelector('nav details.more:not([open])')";
    phone.wait_for("the batch's page", || is_batch_page(phone)).await?;
    if phone.execute(folded).await? == true {
        phone.tap("Weigh, rinse, test, store…").await?;
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

/// Opens a step of the open plan from its bar of steps, once it can be opened.
pub async fn go_to_step(phone: &Phone, step: &str) -> TestResult {
    let link = format!(
        "const link = [...document.querySelectorAll('.plan-steps a')] \
         .find((a) => a.querySelector('span').textContent === '{step}'); \
         link?.click(); return !!link"
    );
    phone.wait_for(step, || async { Ok(phone.execute(&link).await? == true) }).await?;
    wait_for_plan_step(phone, step).await
}

/// Waits until a step of the plan is shown.
pub async fn wait_for_plan_step(phone: &Phone, step: &str) -> TestResult {
    let here = "return document.querySelector('.plan-steps [aria-current=step] span')?.textContent";
    phone.wait_for(step, || async { Ok(phone.execute(here).await?.as_str() == Some(step)) }).await
}

/// Waits until the bar at the bottom shows an answer, or this part of one.
pub async fn wait_for_answer(phone: &Phone, part: &str) -> TestResult {
    let answer = "return document.querySelector('.plan-bar:not(.lacking) .answer')?.innerText";
    phone
        .wait_for("the answer in the bar", || async {
            let answer = phone.execute(answer).await?;
            Ok(answer.as_str().is_some_and(|answer| answer.contains(part)))
        })
        .await
}

/// Ticks the ready check of the open plan, going to its last step, and starts the bath.
pub async fn press_start(phone: &Phone) -> TestResult {
    let steps = "return !!document.querySelector('.plan-steps')";
    if phone.execute(steps).await? == true {
        go_to_step(phone, "Measure out").await?;
    }
    phone.wait_for_text("Goggles, gloves and an apron on.").await?;
    let disabled = "return [...document.querySelectorAll('.plan-bar button:not([hidden])')] \
         .every((button) => button.disabled)";
    ensure(phone.execute(disabled).await? == true, || "the start waits for no tick".into())?;
    phone.execute(TICK_ALL).await?;
    phone.tap("Bleach is in. Start the clock").await
}

/// As a person does, one after the other.
pub const TICK_ALL: &str =
    "document.querySelectorAll('.plan-ticks input:not(:checked)').forEach((tick) => tick.click())";

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

/// Fills in and saves the open form of a rinse; `strip` is the label of its field and the reading,
/// which may be empty.
pub async fn rinse_form(phone: &Phone, litres: &str, ph: &str, strip: (&str, &str)) -> TestResult {
    phone.fill("Water", litres).await?;
    phone.fill("pH of the water squeezed out", ph).await?;
    if !strip.1.is_empty() {
        phone.fill(strip.0, strip.1).await?;
    }
    save(phone, "Save").await
}

/// Ticks off the rinse that is next on the batch's page, with what was read in it.
pub async fn tick_rinse(phone: &Phone, number: u32, ph: &str, strip: (&str, &str)) -> TestResult {
    wait_for_step(phone, &format!("Rinse {number}")).await?;
    phone.fill("pH of the water squeezed out", ph).await?;
    phone.fill(strip.0, strip.1).await?;
    phone.tap("Rinsed").await?;
    phone
        .wait_for("the rinse to be saved", || async {
            Ok(!step(phone).await?.starts_with(&format!("Rinse {number} ")))
        })
        .await
}

/// Waits until the step of that name is the present one after the bath.
pub async fn wait_for_step(phone: &Phone, name: &str) -> TestResult {
    let wanted = format!("{name} (now)");
    phone
        .wait_for(&format!("the step “{name}”"), || async { Ok(step(phone).await? == wanted) })
        .await
}

/// The name of the present step after the bath.
async fn step(phone: &Phone) -> TestResult<String> {
    let now = "return document.querySelector('.ladder .now h2')?.textContent ?? ''";
    Ok(phone.execute(now).await?.as_str().unwrap_or_default().to_owned())
}

/// Reads the tap for the pH of the last rinse, and feels the pulp: what the readings of the
/// rinses leave to be tested.
pub async fn tap_and_feel(phone: &Phone, tap_ph: &str) -> TestResult {
    wait_for_step(phone, "pH of the last rinse").await?;
    phone.fill("pH of the tap water", tap_ph).await?;
    phone.wait_for_text("Result: passed").await?;
    phone.tap("Save").await?;
    wait_for_step(phone, "Feel").await?;
    phone.tap("Squeaks, not slippery").await?;
    phone.tap("Save").await?;
    wait_for_step(phone, "Sign off").await
}

/// Saves an end test with a number.
pub async fn end_test(phone: &Phone, test: &str, field: &str, reading: &str) -> TestResult {
    open_form(phone, "End test").await?;
    phone.tap(test).await?;
    phone.fill(field, reading).await?;
    phone.wait_for_text("Result: passed").await?;
    save(phone, "Save").await
}

/// Whether a dialog is open.
pub async fn is_open(phone: &Phone) -> TestResult<bool> {
    Ok(phone.execute("return !!document.querySelector('dialog[open]')").await? == true)
}

async fn is_batch_page(phone: &Phone) -> TestResult<bool> {
    Ok(phone.execute("return !!document.querySelector('.batch-head')").await? == true)
}

/// Goes to one of the five places. A plan has its answer where they are: back from it first.
pub async fn go_to_place(phone: &Phone, place: &str) -> TestResult {
    let places = "return !!document.querySelector('.places')?.getClientRects().length";
    if phone.execute(places).await? == false {
        phone.tap("Back").await?;
    }
    phone.tap(place).await
}

/// Begins a batch with the least input, from any screen.
pub async fn begin_batch(phone: &Phone, name: &str) -> TestResult {
    go_to_place(phone, "Batches").await?;
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
    // The rules read the document and its styles, which are the same in each engine and size. The
    // five places and the colour screens call them in each engine.
    if phone.engine == Engine::Chromium && phone.size == STANDARD_PHONE {
        check_accessibility(phone, name).await
    } else {
        Ok(())
    }
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
