//! A half-filled form is there again after another screen, a reload and a killed browser, until
//! it is saved or discarded; and units are chosen by a tap.

use std::time::Duration;

use tokio::time::sleep;

use super::steps::{begin_batch, check_screen, close_form, open_form, save};
use crate::engine::Engine;
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/batches").await?;
    new_batch(phone).await?;
    units(phone).await?;
    in_a_sheet(phone).await
}

async fn new_batch(phone: &mut Phone) -> TestResult {
    phone.tap("New batch").await?;
    phone.fill("Fibre", "cattail").await?;
    phone.fill("Wet pulp", "2 1/2 lb").await?;
    phone.tap("Not measured").await?;
    phone.tap("Sink").await?;
    phone.wait_for_text("No bath is running").await?;
    phone.open("/batches/new").await?;
    is_there(phone).await?;
    check_screen(phone, "unfinished").await?;
    // Local storage is written to disk some seconds after a change; by Chromium, once a minute.
    let written = if phone.engine == Engine::Chromium { 65 } else { 7 };
    sleep(Duration::from_secs(written)).await;
    phone.kill_browser();
    phone.start_browser().await?;
    phone.open("/batches/new").await?;
    is_there(phone).await?;
    phone.tap("Clear it").await?;
    phone.wait_for_text_gone("not saved").await?;
    has(phone, "Fibre", "").await?;
    has(phone, "Wet pulp", "").await?;
    phone.open("/batches/new").await?;
    has(phone, "Fibre", "").await
}

async fn is_there(phone: &Phone) -> TestResult {
    phone.wait_for_text("not saved").await?;
    has(phone, "Fibre", "cattail").await?;
    has(phone, "Wet pulp", "2 1/2 lb").await?;
    let chosen = "return document.querySelector('input[type=radio]:checked')?.labels[0].innerText";
    let chosen = phone.execute(chosen).await?;
    ensure(chosen.as_str().is_some_and(|text| text.contains("Not measured")), || {
        format!("chosen is {chosen}")
    })
}

/// A filled figure is converted; a typed one stays. The next form has the unit too.
async fn units(phone: &Phone) -> TestResult {
    phone.open("/mix/warm").await?;
    has(phone, "Temperature you want", "38").await?;
    phone.select("Unit: Temperature you want", "°F").await?;
    has(phone, "Temperature you want", "100.4").await?;
    phone.fill("Temperature you want", "104").await?;
    phone.select("Unit: Temperature you want", "°C").await?;
    has(phone, "Temperature you want", "104").await?;
    phone.wait_for_text("100").await?; // above the limit: refused beside the field
    phone.fill("Temperature you want", "40").await?;
    begin_batch(phone, "In cups").await?;
    phone.open("/mix/dilute").await?;
    phone.select("Unit: Volume to make", "cup").await?;
    phone.fill("Volume to make", "1").await?;
    phone.tap("½").await?;
    has(phone, "Volume to make", "1 ½").await?;
    phone.tap("¾").await?;
    has(phone, "Volume to make", "1 ¾").await?;
    check_screen(phone, "fractions").await?;
    phone.fill("Volume to make", "1.000").await?;
    phone.select("Unit: Volume to make", "mL").await?;
    phone.wait_for_text("“1.000” could be").await
}

async fn in_a_sheet(phone: &Phone) -> TestResult {
    phone.open("/batches").await?;
    phone.tap("In cups").await?;
    open_form(phone, "Rinse").await?;
    phone.fill("Water", "12").await?;
    close_form(phone).await?;
    open_form(phone, "Rinse").await?;
    has(phone, "Water", "12").await?;
    phone.wait_for_text("not saved").await?;
    check_screen(phone, "unfinished-sheet").await?;
    save(phone, "Save").await?;
    open_form(phone, "Rinse").await?;
    phone.wait_for_text_gone("not saved").await
}

async fn has(phone: &Phone, field: &str, text: &str) -> TestResult {
    let value = phone.value(field).await?;
    ensure(value == text, || format!("“{field}” is “{value}”, not “{text}”"))
}
