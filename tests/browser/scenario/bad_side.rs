//! Inputs that are wrong, unknown or extreme: each is refused with its reason, or planned with
//! what makes it safe, and no number stands where there is none.

use super::steps::{begin_batch, check_screen, go_to_step, wait_for_answer};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    antichlor_on_strong_liquor(phone).await?;
    vinegar_in_bleach(phone).await?;
    pool_chlorine(phone).await?;
    old_open_bottle(phone).await?;
    acid_pulp(phone).await?;
    warm_percarbonate(phone).await?;
    peroxide(phone).await
}

/// 5 g/L of available chlorine and bisulfite: chlorine gas on the way, so no dose.
async fn antichlor_on_strong_liquor(phone: &Phone) -> TestResult {
    phone.open("/mix").await?;
    phone.tap("Remove leftover bleach").await?;
    phone.tap("Sodium bisulfite").await?;
    phone.fill("Strip reading", "5 g/L").await?;
    phone.fill("How much liquor", "10").await?;
    phone.wait_for_text("No dose").await?;
    phone.wait_for_text_gone("Weigh out").await?;
    phone.wait_for_text("Drain the liquor and rinse").await?;
    phone.find("any", "[aria-live] ul").await?;
    check_screen(phone, "bad-antichlor").await
}

async fn vinegar_in_bleach(phone: &Phone) -> TestResult {
    phone.open("/mix").await?;
    phone.tap("pH of a liquor").await?;
    phone.wait_for_text("The safe range is").await?;
    phone.tap("pH you read, volume, vinegar, other substances").await?;
    phone.fill("Vinegar (5 %) in a litre of it", "20").await?;
    phone.wait_for_text("They make chlorine gas.").await?;
    phone.wait_for_text_gone("The safe range is").await?;
    check_screen(phone, "bad-vinegar").await
}

/// Dichlor is refused; calcium hypochlorite goes onto the shelf as a stock solution alone.
async fn pool_chlorine(phone: &Phone) -> TestResult {
    phone.open("/shelf/new").await?;
    phone.tap("Pool chlorine (dichlor)").await?;
    phone.wait_for_text("Never use this one.").await?;
    phone.tap("Add to the shelf").await?;
    phone.wait_for_text("Something above is missing or not possible.").await?;
    phone.tap("Pool chlorine or bleaching powder").await?;
    phone.wait_for_text("Never put dry powder on pulp.").await?;
    phone.fill("Available chlorine in the powder", "70").await?;
    phone.fill("Powder for the stock", "140 g").await?;
    phone.fill("Stock solution", "1 L").await?;
    phone.wait_for_text_gone("Let it settle for at least").await?;
    phone.fill("Powder for the stock", "14 g").await?;
    phone.wait_for_text("Let it settle for at least 6 hours").await?;
    phone.find("any", "ol").await?;
    check_screen(phone, "bad-pool-chlorine").await?;
    phone.fill("Name on the shelf", "Pool stock").await?;
    phone.tap("Add to the shelf").await?;
    phone.wait_for_text("9.31 g/L").await?;
    check_screen(phone, "bad-stock-solution").await
}

/// A bottle opened two years ago may hold anything: measure it first.
async fn old_open_bottle(phone: &Phone) -> TestResult {
    phone.open("/shelf/new").await?;
    phone.fill("Name on the shelf", "Old bottle").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5.25").await?;
    let opened = "const field = document.querySelector('#day-opened'); \
         const then = new Date(Date.now() - 2 * 365 * 864e5); \
         field.value = then.toISOString().slice(0, 10); \
         field.dispatchEvent(new Event('input', { bubbles: true }))";
    phone.execute(opened).await?;
    phone.tap("Add to the shelf").await?;
    phone
        .wait_for("the bottle's page", || async {
            Ok(phone.path().await?.starts_with("/shelf/") && phone.path().await? != "/shelf/new")
        })
        .await?;
    begin_batch(phone, "Bad side").await?;
    phone.tap("Old bottle").await?;
    phone.wait_for_text("This bottle may hold from").await?;
    phone.wait_for_text("Measure the bottle first.").await?;
    no_answer(phone).await?;
    phone.find("any", "[role=alert]").await?;
    check_screen(phone, "bad-old-bottle").await
}

/// Acid in the pulp is a stop for chlorine bleach.
async fn acid_pulp(phone: &Phone) -> TestResult {
    phone.tap("Enter a label").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5.25").await?;
    wait_for_answer(phone, "bleach").await?;
    go_to_step(phone, "Bath").await?;
    phone.tap("More: pH of the pulp").await?;
    phone.fill("pH of water squeezed from the pulp", "4").await?;
    phone.wait_for_text("The water in the pulp may be as acid as pH 3.5").await?;
    no_answer(phone).await?;
    phone.find("any", "[role=alert]").await?;
    check_screen(phone, "bad-acid-pulp").await
}

/// At 50 °C the cooled sample is within the range: no soda is to be added.
async fn warm_percarbonate(phone: &Phone) -> TestResult {
    // One that a person changed stays; the others are those of the other bleach.
    phone.fill("Time", "50").await?;
    go_to_step(phone, "Bleach").await?;
    phone.tap("Percarbonate").await?;
    phone.tap("% percarbonate").await?;
    phone.fill("Strength of the powder", "95").await?;
    go_to_step(phone, "Bath").await?;
    for (field, expected) in [("Temperature", "45"), ("Time", "50")] {
        let value = phone.value(field).await?;
        ensure(value == expected, || format!("“{field}” is {value}, not {expected}"))?;
    }
    phone.fill("Temperature", "50").await?;
    phone.fill("pH of water squeezed from the pulp", "8").await?;
    phone.wait_for_text("Add nothing.").await?;
    phone.tap("What the bath will be").await?;
    phone.wait_for_text("A sample cooled to 25 °C").await?;
    phone.wait_for_text("In the bath, at 50 °C").await?;
    phone.wait_for_text("Reheat when it falls below 45").await?;
    check_screen(phone, "bad-warm-percarbonate").await
}

/// Peroxide of 3 % has its soda ash; of 35 % it is refused.
async fn peroxide(phone: &Phone) -> TestResult {
    go_to_step(phone, "Bleach").await?;
    phone.tap("Peroxide").await?;
    phone.tap("% by mass (w/w)").await?;
    phone.fill("Strength of the peroxide", "35").await?;
    phone.wait_for_text("is too strong to handle here").await?;
    no_answer(phone).await?;
    phone.fill("Strength of the peroxide", "3").await?;
    wait_for_answer(phone, "soda ash").await?;
    go_to_step(phone, "Measure out").await?;
    phone.wait_for_text("soda ash, dissolved in the water").await?;
    check_screen(phone, "bad-peroxide").await
}

/// The bar shows no number, but that there is none.
async fn no_answer(phone: &Phone) -> TestResult {
    phone.find("any", ".plan-bar.lacking").await?;
    let answer = "return document.querySelector('.plan-bar .answer').innerText";
    let answer = phone.execute(answer).await?;
    ensure(!answer.to_string().contains(" water"), || format!("an answer stands: {answer}"))
}
