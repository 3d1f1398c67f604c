//! What several stories have in common, done as a person does it.

use super::places::shows;
use crate::axe::no_serious_barrier;
use crate::engine::USUAL;
use crate::failure::{Outcome, ensure};
use crate::phone::Phone;

/// Opens a form of a batch's page that stands behind "Weigh, rinse, test, put by…".
pub async fn write_down(phone: &Phone, form: &str) -> Outcome {
    let folded = "return !!document.querySelector('nav details.more:not([open])')";
    phone.wait_for("the batch's page", || batch_stands(phone)).await?;
    if phone.run(folded).await? == true {
        phone.tap("Weigh, rinse, test, put by…").await?;
    }
    phone.tap(form).await?;
    phone.wait_for("the form", || is_open(phone)).await
}

/// Presses what ends the open form, and waits until the form has closed: it does only
/// once all is on disk.
pub async fn save(phone: &Phone, press: &str) -> Outcome {
    phone.tap(press).await?;
    phone.wait_for("the form to close", || async { Ok(!is_open(phone).await?) }).await
}

/// Closes the open form without saving.
pub async fn leave(phone: &Phone) -> Outcome {
    save(phone, "Close").await
}

/// From a plan that stands: the first press asks for goggles, the second starts the clock.
pub async fn start_bath(phone: &Phone) -> Outcome {
    phone.sees("Measure out").await?;
    phone.tap("Start the bath").await?;
    phone.sees("Goggles, gloves and an apron on.").await?;
    phone.tap("Bleach is in. Start the clock").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.sees("Chlorine strip").await
}

/// Stops the bath that runs. The answer counts only half a second after the question
/// stands, so it is pressed until it does.
pub async fn stop_bath(phone: &Phone, why: &str) -> Outcome {
    phone.tap("Stop the bath").await?;
    phone.sees("Then drain or quench the bath at once.").await?;
    phone
        .wait_for("the bath to stop", || async {
            if is_open(phone).await? {
                phone.tap(why).await?;
            }
            Ok(!is_open(phone).await?)
        })
        .await
}

/// One rinse, as it was done; the strip is left out where there is none.
pub async fn rinse(phone: &Phone, litres: &str, ph: &str, strip: &str) -> Outcome {
    phone.fill("Water", litres).await?;
    phone.fill("pH of the water squeezed out", ph).await?;
    if !strip.is_empty() {
        phone.fill("Strip in the water squeezed out", strip).await?;
    }
    save(phone, "Save").await
}

/// One end test whose answer is a number in a field.
pub async fn end_test(phone: &Phone, test: &str, field: &str, reading: &str) -> Outcome {
    write_down(phone, "End test").await?;
    phone.tap(test).await?;
    phone.fill(field, reading).await?;
    phone.sees("This test: passed").await?;
    save(phone, "Save").await
}

/// The end test between finger and thumb.
pub async fn feel(phone: &Phone) -> Outcome {
    write_down(phone, "End test").await?;
    phone.tap("Feel").await?;
    phone.tap("Squeaks, not slippery").await?;
    phone.sees("This test: passed").await?;
    save(phone, "Save").await
}

/// Whether a form, or a question, has risen over the page.
pub async fn is_open(phone: &Phone) -> Outcome<bool> {
    Ok(phone.run("return !!document.querySelector('dialog[open]')").await? == true)
}

async fn batch_stands(phone: &Phone) -> Outcome<bool> {
    Ok(phone.run("return !!document.querySelector('.batch-head')").await? == true)
}

/// A batch from its fibre and a lump that nobody measured, as short as can be, by
/// presses from whatever screen is open.
pub async fn begin_batch(phone: &Phone, name: &str) -> Outcome {
    phone.tap("Batches").await?;
    // The Sink has such a press too, and stays until the code of the batches is there.
    shows(phone, "Batches").await?;
    phone.tap("New batch").await?;
    phone.fill("DemoFibre", "Cattail leaf").await?;
    phone.fill("Name of the batch", name).await?;
    phone.fill("Wet pulp", "500 g").await?;
    phone.tap("Not measured").await?;
    phone.tap("Save and plan the bath").await?;
    // It goes on to the plan only when the entry is on disk.
    phone
        .wait_for("the entry to be saved", || async { Ok(phone.path().await?.ends_with("/plan")) })
        .await
}

/// A screen of a story: pictured, not wider than the phone, and without barriers.
pub async fn seen(phone: &Phone, name: &str) -> Outcome {
    phone.picture(name).await?;
    let wider = phone.run("return document.documentElement.scrollWidth - innerWidth").await?;
    ensure(wider.as_i64().is_some_and(|by| by <= 0), || format!("{name} is {wider} px too wide"))?;
    // What a barrier is does not hang on the size of the screen.
    if phone.size == USUAL { no_serious_barrier(phone, name).await } else { Ok(()) }
}
