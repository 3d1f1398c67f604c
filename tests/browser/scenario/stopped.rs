//! The program stops by a fault while a bath runs: in its place the page shows what happened, the
//! clock of the bath and how to stop it, and opens again with the bath running.

use super::steps::{begin_batch, check_screen, is_open, set_clock, start_bath};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

const BATCH: &str = "Running all the same";

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    begin_batch(phone, BATCH).await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    start_bath(phone).await?;
    by_a_panic(phone).await?;
    opens_again(phone).await?;
    phone.open("/help").await?;
    phone.wait_for_text("The app stopped unexpectedly on").await?;
    phone.wait_for_text("panicked at").await?;
    by_a_trap(phone).await?;
    opens_again(phone).await
}

/// A panic, by a worker that answers before the request is sent. The form is a modal dialog,
/// which must not keep the report from being pressed.
async fn by_a_panic(phone: &Phone) -> TestResult {
    let picture = phone.photo_of_pulp(3)?;
    phone.tap("Photo").await?;
    phone.wait_for("the photo's form", || is_open(phone)).await?;
    // Not before: the forecast asks the worker too.
    phone.execute(ANSWERS_TOO_EARLY).await?;
    phone.attach("Choose a picture", &picture).await?;
    report_is_shown(phone).await?;
    let why = phone.execute("return document.getElementById('stopped-why').textContent").await?;
    let why = why.as_str().unwrap_or_default();
    ensure(why.starts_with("panicked at") && why.contains(".rs:"), || {
        format!("the report is {why:?}, without the place of the panic")
    })?;
    phone.wait_for_text("Planned end:").await?;
    check_screen(phone, "stopped").await?;
    set_clock(phone, 24 * 60).await?;
    phone.wait_for_text("has passed. Stop this bath now.").await?;
    set_clock(phone, 0).await
}

/// A trap that no panic hook sees, such as one for want of memory.
async fn by_a_trap(phone: &Phone) -> TestResult {
    phone.execute(TRAP).await?;
    report_is_shown(phone).await?;
    let kept = phone.last_fault().await?;
    ensure(kept.as_ref().is_some_and(|kept| kept.contains("out of memory")), || {
        format!("kept for Help is {kept:?}")
    })
}

/// The clock runs and the way to stop is there.
async fn report_is_shown(phone: &Phone) -> TestResult {
    for words in [
        "Bleachfield has stopped",
        "What you saved is still on this phone.",
        BATCH,
        "Chlorine bleach · since",
        "How to stop this bath without the app",
        "Drain the liquor",
    ] {
        phone.wait_for_text(words).await?;
    }
    let first = elapsed(phone).await?;
    phone.wait_for("the clock to run", || async { Ok(elapsed(phone).await? != first) }).await
}

async fn elapsed(phone: &Phone) -> TestResult<String> {
    let text = "return document.querySelector('#stopped-baths .elapsed').textContent";
    let text = phone.execute(text).await?.as_str().unwrap_or_default().to_owned();
    ensure(text.contains(':'), || format!("the clock shows {text:?}"))?;
    Ok(text)
}

/// At the Sink, with the bath as it was.
async fn opens_again(phone: &Phone) -> TestResult {
    phone.tap("Open again").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.wait_for_text(BATCH).await?;
    phone.find("press", "Stop the bath").await?;
    phone.discard_console("the fault, and what followed from it").await
}

/// The page's handler runs while it still holds the connection: a second borrow panics.
const ANSWERS_TOO_EARLY: &str = "window.Worker.prototype.postMessage = function () { \
    this.onmessage({ data: null }); }";

/// As an engine reports it. An error thrown by a script of the driver is not the page's own.
const TRAP: &str = "const error = new window.WebAssembly.RuntimeError('out of memory'); \
    window.dispatchEvent(new window.ErrorEvent('error', { error, message: error.message }))";
