//! What the steps of the job cost a person: taps, characters, scrolling, seconds, in Chromium.
//! Prints a table.

use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::TestResult;
use crate::person::{Effort, Person};
use crate::phone::Phone;
use crate::scenario::steps::{is_open, wait_for_step};

/// Does the job step by step and prints what each cost.
pub async fn measure(environment: &TestEnvironment) -> TestResult {
    let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
    println!("{:<28} {:>6} {:>11} {:>9} {:>8}", "", "taps", "characters", "screens", "seconds");
    phone.open("/").await?;
    print("dilution", dilution(&phone).await?);
    phone.open("/").await?;
    print("first plan", first_plan(&phone).await?);
    print("start", start(&phone).await?);
    print("a reading", reading(&phone).await?);
    print("stop", stop(&phone).await?);
    print("wash, proof, sign-off, store", wash(&phone).await?);
    phone.open("/").await?;
    print("plan from last time", plan_again(&phone).await?);
    phone.close().await;
    Ok(())
}

fn print(job: &str, effort: Effort) {
    println!("{job:<28} {effort}");
}

async fn dilution(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Mix").await?;
    person.tap("Dilute").await?;
    person.fill("Strength of the bottle", "5").await?;
    person.fill("Strength you want", "0.3").await?;
    person.read("From the bottle").await?;
    person.effort().await
}

async fn first_plan(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    pulp_and_bleach(&mut person).await?;
    person.effort().await
}

async fn pulp_and_bleach(person: &mut Person<'_>) -> TestResult {
    person.tap("Plan a bath").await?;
    person.fill("Wet pulp", "1000").await?;
    person.tap("Next: Bleach").await?;
    person.fill("Strength of the bottle", "5").await?;
    person.tap("% NaOCl by mass (w/w)").await?;
    person.read("mL bleach").await?;
    person.read("water at").await
}

async fn plan_again(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    pulp_and_bleach(&mut person).await?;
    person.tap("Next: Bath").await?;
    person.tap("As last time").await?;
    person.read("water at").await?;
    person.effort().await
}

async fn start(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Next: Bath").await?;
    person.tap("Next: Measure out").await?;
    person.tap_all(".plan-ticks label:has(input:not(:checked))").await?;
    person.tap("Bleach is in. Start the clock").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    person.effort().await
}

async fn reading(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.press("Check now").await?;
    person.fill("pH", "10.2").await?;
    person.tap("A strip").await?;
    person.fill("Chlorine strip", "1000").await?;
    person.fill("Temperature", "38").await?;
    person.tap("Save the check").await?;
    person.read("38 °C").await?;
    person.effort().await
}

async fn stop(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.hold("Stop the bath").await?;
    phone.wait_for_text("Stopped at").await?;
    person.press("It has the colour I want").await?;
    form_closed(phone).await?;
    person.read("Drain it and rinse now").await?;
    person.effort().await
}

/// From the drain to the store, with two rinses.
async fn wash(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Drain it and rinse now").await?;
    person.tap("Drained").await?;
    for (rinse, ph, strip) in [("Rinse 1", "8.8", "20"), ("Rinse 2", "7.6", "0")] {
        wait_for_step(phone, rinse).await?;
        person.fill("pH of the water squeezed out", ph).await?;
        person.fill("Chlorine strip", strip).await?;
        person.tap("Rinsed").await?;
    }
    wait_for_step(phone, "pH of the last rinse").await?;
    person.fill("pH of the tap water", "7.5").await?;
    person.tap("Save").await?;
    wait_for_step(phone, "Feel").await?;
    person.tap("Squeaks, not slippery").await?;
    person.tap("Save").await?;
    wait_for_step(phone, "Sign off").await?;
    person.tap("Sign off").await?;
    person.tap("Sign off as clean").await?;
    form_closed(phone).await?;
    person.tap("Store the pulp").await?;
    person.fill("Wet pulp", "900").await?;
    person.tap("Wet, in the cold").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    person.effort().await
}

async fn form_closed(phone: &Phone) -> TestResult {
    phone.wait_for("the form to close", || async { Ok(!is_open(phone).await?) }).await
}
