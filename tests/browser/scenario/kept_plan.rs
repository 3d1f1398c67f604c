//! A plan that was kept for later is what starts; what changed since is said before that.

use super::places::wait_for_place;
use super::steps::{begin_batch, check_screen, open_form, press_start, save};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    starts_as_kept(phone).await?;
    weighed_again(phone).await
}

/// Not the bath that the form begins with: that one is of chlorine bleach, 38 °C, 60 min.
async fn starts_as_kept(phone: &Phone) -> TestResult {
    keep_a_plan(phone, "Kept for later").await?;
    open_from_sink(phone, "Kept for later").await?;
    facts_are_those_of_the_plan(phone).await?;
    check_screen(phone, "kept-plan").await?;
    press_start(phone).await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.wait_for_text("Percarbonate · since").await?;
    let text = phone.screen_text().await?;
    ensure(text.contains("in 2 h") || text.contains("in 1 h 59 min"), || {
        format!("the stop is not after 120 min: {text}")
    })
}

/// A lump that was weighed again, and a plan made again from the kept one.
async fn weighed_again(phone: &Phone) -> TestResult {
    keep_a_plan(phone, "Weighed twice").await?;
    open_form(phone, "Weigh").await?;
    phone.fill("Wet pulp", "600 g").await?;
    phone.tap("Not measured").await?;
    save(phone, "Save").await?;
    open_from_sink(phone, "Weighed twice").await?;
    phone.wait_for_text("The lump is 600 g at 20 % dryness now. The plan is for 500 g").await?;
    phone.find("press", "Start it as planned").await?;
    phone.find("any", "[role=alert]").await?;
    check_screen(phone, "kept-plan-changed").await?;
    phone.tap("Plan it again").await?;
    phone.wait_for_text("Measure out").await?;
    for (field, expected) in [
        ("Wet pulp", "600"),
        ("Strength of the powder", "95"),
        ("Temperature of the bath", "52"),
        ("Time in the bath", "120"),
    ] {
        if field == "Wet pulp" {
            phone.tap("The wet lump (change)").await?;
        }
        let filled = phone.value(field).await?;
        ensure(filled == expected, || format!("“{field}” is {filled}, not {expected}"))?;
    }
    phone.tap("Keep the plan for later").await?;
    open_from_sink(phone, "Weighed twice").await?;
    facts_are_those_of_the_plan(phone).await?;
    phone.wait_for_text_gone("Since this plan was made").await?;
    phone.find("press", "Start the bath").await?;
    Ok(())
}

/// Begins a batch, and keeps a plan of percarbonate at 52 °C for 120 min.
async fn keep_a_plan(phone: &Phone, batch: &str) -> TestResult {
    begin_batch(phone, batch).await?;
    phone.tap("Percarbonate").await?;
    phone.tap("% percarbonate").await?;
    phone.fill("Strength of the powder", "95").await?;
    phone.fill("Temperature of the bath", "52").await?;
    phone.fill("Time in the bath", "120").await?;
    phone.wait_for_text("Measure out").await?;
    phone.tap("Keep the plan for later").await?;
    phone
        .wait_for("the batch's page", || async { Ok(!phone.path().await?.ends_with("/plan")) })
        .await
}

async fn open_from_sink(phone: &Phone, batch: &str) -> TestResult {
    phone.tap("Sink").await?;
    wait_for_place(phone, "Sink").await?;
    phone.wait_for_text("Planned. Start the bath.").await?;
    phone.tap(batch).await?;
    phone
        .wait_for("the kept plan", || async { Ok(phone.path().await?.ends_with("/plan")) })
        .await?;
    phone.wait_for_text("The plan of").await
}

async fn facts_are_those_of_the_plan(phone: &Phone) -> TestResult {
    let facts = "return document.querySelector('main dl.facts').innerText";
    let facts = phone.execute(facts).await?.as_str().unwrap_or_default().to_owned();
    let planned = ["Percarbonate", "52 °C", "120 min"];
    let missing = planned.into_iter().find(|fact| !facts.contains(fact));
    ensure(missing.is_none() && !facts.contains("Chlorine"), || {
        format!("not the plan that was kept: {facts}")
    })
}
