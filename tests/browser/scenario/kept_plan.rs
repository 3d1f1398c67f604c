//! A plan that was kept for later is what starts; what changed since is said before that.

use super::places::wait_for_place;
use super::steps::{
    begin_batch, check_screen, go_to_place, go_to_step, open_form, press_start, save,
    wait_for_answer,
};
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
    ensure(text.contains("of 2 h"), || format!("the stop is not after 120 min: {text}"))
}

/// A lump that was weighed again, and a plan made again from the kept one.
async fn weighed_again(phone: &Phone) -> TestResult {
    keep_a_plan(phone, "Weighed twice").await?;
    open_form(phone, "Weigh").await?;
    phone.fill("Wet pulp", "600 g").await?;
    phone.tap("Not measured").await?;
    save(phone, "Save").await?;
    open_from_sink(phone, "Weighed twice").await?;
    phone.wait_for_text("The wet pulp is 600 g at 20 % dryness now. The plan is for 500 g").await?;
    phone.find("press", "Start it as planned").await?;
    // The new amounts are asked for before the old ones.
    phone.find("any", "[role=alert]").await?;
    check_screen(phone, "kept-plan-changed").await?;
    phone.tap("Plan it again").await?;
    wait_for_answer(phone, "powder").await?;
    for (step, field, expected) in [
        ("Pulp", "Wet pulp", "600"),
        ("Bleach", "Strength of the powder", "95"),
        ("Bath", "Temperature", "52"),
        ("Bath", "Time", "120"),
    ] {
        go_to_step(phone, step).await?;
        let filled = phone.value(field).await?;
        ensure(filled == expected, || format!("“{field}” is {filled}, not {expected}"))?;
    }
    go_to_step(phone, "Measure out").await?;
    phone.tap("Keep the plan for later").await?;
    phone
        .wait_for("the batch's page", || async { Ok(!phone.path().await?.ends_with("/plan")) })
        .await?;
    open_from_sink(phone, "Weighed twice").await?;
    facts_are_those_of_the_plan(phone).await?;
    phone.wait_for_text_gone("Since this plan was made").await?;
    phone.find("press", "Bleach is in. Start the clock").await?;
    Ok(())
}

/// Begins a batch, and keeps a plan of percarbonate at 52 °C for 120 min.
async fn keep_a_plan(phone: &Phone, batch: &str) -> TestResult {
    begin_batch(phone, batch).await?;
    phone.tap("Percarbonate").await?;
    phone.tap("% percarbonate").await?;
    phone.fill("Strength of the powder", "95").await?;
    go_to_step(phone, "Bath").await?;
    phone.fill("Temperature", "52").await?;
    phone.fill("Time", "120").await?;
    go_to_step(phone, "Measure out").await?;
    phone.tap("Keep the plan for later").await?;
    phone
        .wait_for("the batch's page", || async { Ok(!phone.path().await?.ends_with("/plan")) })
        .await
}

async fn open_from_sink(phone: &Phone, batch: &str) -> TestResult {
    go_to_place(phone, "Sink").await?;
    wait_for_place(phone, "Sink").await?;
    phone.wait_for_text("Planned. Start the bath.").await?;
    phone.tap(batch).await?;
    phone
        .wait_for("the kept plan", || async { Ok(phone.path().await?.ends_with("/plan")) })
        .await?;
    phone.wait_for_text("The plan of").await
}

async fn facts_are_those_of_the_plan(phone: &Phone) -> TestResult {
    let facts = "return document.querySelector('main dl.facts').textContent";
    let facts = phone.execute(facts).await?.as_str().unwrap_or_default().to_owned();
    let planned = ["Percarbonate", "52 °C", "120 min"];
    let missing = planned.into_iter().find(|fact| !facts.contains(fact));
    ensure(missing.is_none() && !facts.contains("Chlorine"), || {
        format!("not the plan that was kept: {facts}")
    })
}
