//! From an empty book to a plan: few taps, few characters, and the answer always in sight. A
//! plan begins its batch; a small pot is measured with a weak solution.

use super::steps::{TICK_ALL, check_screen, go_to_step, wait_for_answer, wait_for_plan_step};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_for_text("No bath is running").await?;
    kilo_of_pulp(phone).await?;
    back_goes_one_step(phone).await?;
    danger_waits_for_a_tick(phone).await?;
    measured_and_started(phone).await?;
    as_last_time_in_a_small_pot(phone).await
}

/// Five presses (one is the strength's basis) and five characters.
async fn kilo_of_pulp(phone: &Phone) -> TestResult {
    phone.tap("Plan a bath").await?;
    phone.wait_for_text("Still needed: wet pulp").await?;
    bar_is_in_sight(phone).await?;
    phone.tap("Next: Bleach").await?;
    phone.find("any", "[aria-invalid=true]").await?;
    phone.fill("Wet pulp", "1000").await?;
    phone.wait_for_text("About 200 g dry fibre").await?;
    check_screen(phone, "first-plan-pulp").await?;
    phone.tap("Next: Bleach").await?;
    wait_for_plan_step(phone, "Bleach").await?;
    phone.fill("Strength of the bottle", "6").await?;
    phone.wait_for_text("Still needed: what the label counts").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    wait_for_answer(phone, "water at").await?;
    bar_is_in_sight(phone).await?;
    check_screen(phone, "first-plan-bleach").await?;
    phone.tap("Next: Bath").await?;
    wait_for_plan_step(phone, "Bath").await?;
    phone.wait_for_text("filled in").await?;
    phone.wait_for_text("Within the safe range").await?;
    check_screen(phone, "first-plan-bath").await
}

async fn back_goes_one_step(phone: &Phone) -> TestResult {
    phone.execute("history.back()").await?;
    wait_for_plan_step(phone, "Bleach").await?;
    let strength = phone.value("Strength of the bottle").await?;
    ensure(strength == "6", || format!("the strength is {strength}"))?;
    phone.execute("history.forward()").await?;
    wait_for_plan_step(phone, "Bath").await
}

/// At 59 °C, by a kitchen thermometer, it may be above 60 °C: a danger, and the press waits.
async fn danger_waits_for_a_tick(phone: &Phone) -> TestResult {
    phone.fill("Temperature", "59").await?;
    phone.wait_for_text("First tick the danger above.").await?;
    check_screen(phone, "first-plan-danger").await?;
    phone.tap("Next: Measure out").await?;
    wait_for_plan_step(phone, "Bath").await?;
    phone.tap("I have read this and go on").await?;
    go_to_step(phone, "Measure out").await?;
    go_to_step(phone, "Bath").await?;
    phone.fill("Temperature", "38").await?;
    phone.wait_for_text_gone("I have read this and go on").await
}

async fn measured_and_started(phone: &Phone) -> TestResult {
    phone.tap("Next: Measure out").await?;
    wait_for_plan_step(phone, "Measure out").await?;
    phone.wait_for_text("water at 44 °C in the bucket").await?;
    phone.find("press", "Keep the plan for later").await?;
    check_screen(phone, "first-plan-measure").await?;
    phone.tap("From kettle and tap").await?;
    phone.wait_for_text("make the water at 44 °C").await?;
    phone.execute(TICK_ALL).await?;
    phone.tap("Bleach is in. Start the clock").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    phone.wait_for_text("Pulp, ").await
}

/// The values of the bath just started, for 10 g of pulp.
async fn as_last_time_in_a_small_pot(phone: &Phone) -> TestResult {
    phone.open("/plan").await?;
    phone.fill("Wet pulp", "10").await?;
    go_to_step(phone, "Bleach").await?;
    phone.fill("Strength of the bottle", "10").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    go_to_step(phone, "Bath").await?;
    phone.tap("As last time").await?;
    go_to_step(phone, "Measure out").await?;
    phone.wait_for_text("of the weak solution below").await?;
    phone.wait_for_text("Mix 10 mL bleach and 90 mL water").await?;
    check_screen(phone, "first-plan-small").await
}

async fn bar_is_in_sight(phone: &Phone) -> TestResult {
    let inside = "const box = document.querySelector('.plan-bar').getBoundingClientRect(); \
         return box.top > innerHeight / 2 && box.bottom <= innerHeight + 1";
    ensure(phone.execute(inside).await? == true, || "the answer is out of sight".into())
}
