//! What the steps of the job cost a person: taps, characters, scrolling, seconds, in Chromium.
//! Prints a table.

use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::TestResult;
use crate::person::{Effort, Person};
use crate::phone::Phone;

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
    person.fill("The bottle has", "5").await?;
    person.fill("You want", "0.3").await?;
    person.fill("And make", "2 L").await?;
    person.read("From the bottle").await?;
    person.effort().await
}

async fn first_plan(phone: &Phone) -> TestResult<Effort> {
    plan(&mut Person::at(phone)).await
}

async fn plan(person: &mut Person<'_>) -> TestResult<Effort> {
    person.tap("New batch").await?;
    person.fill("Fibre", "iris").await?;
    person.fill("Wet pulp", "1 kg").await?;
    person.tap("Not measured").await?;
    person.tap("Save and plan the bath").await?;
    person.tap("% NaOCl by mass (w/w)").await?;
    person.fill("Strength of the bottle", "5").await?;
    person.read("From the bottle").await?;
    person.read("Water to add").await?;
    person.effort().await
}

async fn start(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Start the bath").await?;
    person.tap("Bleach is in. Start the clock").await?;
    phone.wait_for("the Sink", || async { Ok(phone.path().await? == "/sink") }).await?;
    person.effort().await
}

async fn reading(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Reading").await?;
    person.fill("pH", "10.2").await?;
    person.fill("Chlorine strip", "1000").await?;
    person.fill("Temperature", "38").await?;
    person.tap("Save the reading").await?;
    person.read("38 °C").await?;
    person.effort().await
}

async fn stop(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Stop the bath").await?;
    person.tap("It has the colour I want").await?;
    phone.wait_for_text("Drain it and rinse now").await?;
    person.effort().await
}

async fn wash(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Drain it and rinse now").await?;
    phone.wait_for_text("Rinses to do").await?;
    person.fill("Water", "10").await?;
    person.fill("pH of the water squeezed out", "8.8").await?;
    person.fill("Strip in the water squeezed out", "20").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    unfold(&mut person, "Rinse").await?;
    person.fill("Water", "10").await?;
    person.fill("pH of the water squeezed out", "7.6").await?;
    person.fill("Strip in the water squeezed out", "0").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    unfold(&mut person, "End test").await?;
    person.tap("Chlorine strip").await?;
    person.fill("Strip in the water squeezed out", "0").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    unfold(&mut person, "End test").await?;
    person.tap("pH of the last rinse").await?;
    person.fill("pH read in the last rinse", "7.6").await?;
    person.fill("pH of the tap water", "7.5").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    unfold(&mut person, "End test").await?;
    person.tap("Feel").await?;
    person.tap("Squeaks, not slippery").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    person.tap("Sign off").await?;
    person.tap("Sign off as clean").await?;
    form_closed(phone).await?;
    person.tap("Put the pulp by").await?;
    person.fill("Wet pulp", "900").await?;
    person.tap("Wet, in the cold").await?;
    person.tap("Save").await?;
    form_closed(phone).await?;
    person.effort().await
}

async fn unfold(person: &mut Person<'_>, form: &str) -> TestResult {
    let folded = "return !!document.querySelector('nav details.more:not([open])')";
    if person.phone().execute(folded).await? == true {
        person.tap("Weigh, rinse, test, put by…").await?;
    }
    person.tap(form).await
}

async fn form_closed(phone: &Phone) -> TestResult {
    let open = "return !!document.querySelector('dialog[open]')";
    phone.wait_for("the form to close", || async { Ok(phone.execute(open).await? == false) }).await
}

async fn plan_again(phone: &Phone) -> TestResult<Effort> {
    let mut person = Person::at(phone);
    person.tap("Batches").await?;
    plan(&mut person).await
}
