//! From a target colour to a plan: ways side by side, two stages among them.

use super::steps::{begin_batch, check_screen, go_to_step, wait_for_answer};
use super::trial::{batch_address, bottle, on_shelf};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.restart_browser().await?;
    phone.server.stop();
    bottle(phone, "Cellar bottle").await?;
    phone.open("/shelf/new").await?;
    phone.tap("Percarbonate").await?;
    phone.fill("Name on the shelf", "Oxygen powder").await?;
    phone.tap("% hydrogen peroxide").await?;
    phone.fill("Strength of the powder", "32.5").await?;
    phone.tap("Add to the shelf").await?;
    on_shelf(phone).await?;
    begin_batch(phone, "Iris to cream").await?;
    let batch = batch_address(phone).await?;
    phone.open(&format!("{batch}/ways")).await?;
    phone.wait_for_text("Choose the colour to bleach towards first.").await?;
    phone.tap("Choose the colour").await?;
    phone.tap("Straw").await?;
    phone.wait_for("the colour", || async { Ok(phone.path().await?.ends_with("/colour")) }).await?;
    phone.open(&format!("{batch}/ways")).await?;
    // A debug build is slow: twice the time limit.
    let _ = phone.wait_for_text("Odds from 120 simulated baths").await;
    phone.wait_for_text("Odds from 120 simulated baths").await?;
    phone.wait_for_text("The colour now was never measured").await?;
    phone.wait_for_text("Two mild").await?;
    phone.wait_for_text("Chlorine bath, wash, then peroxide").await?;
    check_screen(phone, "ways-cards").await?;
    phone.execute("document.querySelectorAll('.way')[1]?.scrollIntoView()").await?;
    phone.screenshot("ways-second").await?;
    phone.tap("Side by side, as a table").await?;
    check_screen(phone, "ways-table").await?;
    let first = "return document.querySelector('.way ol li:not(.wash)').innerText";
    let bath = phone.execute(first).await?.as_str().unwrap_or_default().to_owned();
    phone.tap("Make this plan").await?;
    phone.wait_for("the plan", || async { Ok(phone.path().await?.ends_with("/plan")) }).await?;
    wait_for_answer(phone, "water").await?;
    go_to_step(phone, "Bath").await?;
    let charge = phone.value("Charge").await?;
    ensure(
        bath.contains(&format!("{charge}\u{a0}%")) || bath.contains(&format!("{charge} %")),
        || format!("the plan has a charge of {charge}, the way was {bath}"),
    )?;
    check_screen(phone, "ways-plan").await?;
    phone.server.resume()
}
