//! The steps around the bath: cook, wash, antichlor, neutral finish, end tests, sign-off,
//! store, label, lot, sheets. Acid is refused until a zero chlorine test is logged, sign-off
//! until every test has passed, and invalid input with a reason.

use super::steps::{
    check_screen, close_form, end_test, open_form, rinse_form, save, start_bath, stop_bath,
    tap_and_feel, tick_rinse, wait_for_answer, wait_for_step,
};
use super::untested;
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    cook(phone).await?;
    bath(phone).await?;
    wash(phone).await?;
    acid_waits_for_a_test(phone).await?;
    antichlor(phone).await?;
    finish(phone).await?;
    untested_label(phone).await?;
    sign_off(phone).await?;
    store(phone).await?;
    lot(phone).await?;
    untested::run(phone).await
}

/// The cook begins the batch; the liquor is rinsed off and the wet pulp weighed.
async fn cook(phone: &Phone) -> TestResult {
    phone.open("/mix").await?;
    phone.tap("Cook").await?;
    phone.fill("Fibre", "iris leaf").await?;
    phone.fill("Dry raw fibre", "400").await?;
    phone.tap("Soda ash").await?;
    phone.fill("How much the pot holds", "10").await?;
    phone.wait_for_text("Alkali, all loads together 80 g").await?; // 20 % of 400 g
    check_screen(phone, "cook").await?;
    phone.tap("Start a batch with this cook").await?;
    phone.wait_for_text("Not bleached yet.").await?;

    open_form(phone, "Rinse").await?;
    rinse_form(phone, "10", "9.6", ("", "")).await?;
    phone.tap("Weigh the wet pulp").await?;
    phone.fill("Wet pulp", "1 kg").await?;
    phone.tap("Own figure").await?;
    phone.fill("Dryness of the pulp", "20").await?;
    save(phone, "Save").await
}

async fn bath(phone: &Phone) -> TestResult {
    phone.tap("Plan the bath").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5.25").await?;
    wait_for_answer(phone, "bleach").await?;
    check_screen(phone, "plan").await?;
    start_bath(phone).await?;
    phone.press("Check now").await?;
    phone.fill("pH", "10.4").await?;
    phone.tap("A strip").await?;
    phone.fill("Chlorine strip", "900").await?;
    phone.fill("Temperature", "37").await?;
    save(phone, "Save the check").await?;
    phone.wait_for_text("900 mg/L").await?;
    stop_bath(phone, "It has the colour I want").await?;
    // Until it is drained it goes on bleaching: this is shown first.
    phone.wait_for_text("Stopped and not rinsed.").await?;
    phone.wait_for_text("The product label and your local rules say").await?;
    phone.tap("Close").await?;
    phone.find("any", ".page section > ul").await?;
    check_screen(phone, "sink-drain").await
}

/// The ladder after the bath; invalid input is refused beside its field.
async fn wash(phone: &Phone) -> TestResult {
    phone.tap("Drain it and rinse now").await?;
    wait_for_step(phone, "Drain").await?;
    station_is(phone, "Wash").await?;
    check_screen(phone, "ladder-drain").await?;
    phone.tap("Drained").await?;
    wait_for_step(phone, "Rinse 1").await?;
    // By the readings of the bath: 900 mg/L and pH 10.4.
    phone.wait_for_text("rinses to go").await?;
    phone.wait_for_text("As planned. Change it if you use another amount.").await?;
    check_screen(phone, "ladder-rinse").await?;
    wash_form(phone).await?;
    rinse_form(phone, "10", "9.4", ("Chlorine strip", "9")).await?;
    phone.wait_for_text("10 L · pH 9.4 · 9 mg/L").await?;
    phone.fill("Water", "10").await?;
    tick_rinse(phone, 2, "8.8", ("Chlorine strip", "4")).await?;
    // The water of the last rinse is what is planned for the next.
    let planned = phone.value("Water").await?;
    ensure(planned == "10", || format!("{planned} L are planned, not 10"))?;
    tick_rinse(phone, 3, "8.4", ("Chlorine strip", "2")).await?;
    phone.wait_for_text("10 L as planned · pH 8.4 · 2 mg/L").await?;
    // The strip finds bleach: an antichlor may be used, and acid may not.
    phone.wait_for_text("Remove the last bleach").await?;
    phone.wait_for_text_gone("Neutral finish with acid").await?;
    check_screen(phone, "ladder-antichlor").await
}

/// The form with everything that may be said of a rinse, and the plan of the wash.
async fn wash_form(phone: &Phone) -> TestResult {
    phone.tap("More: soak, dryness, wash plan").await?;
    phone.wait_for_text("Number of rinses").await?;
    check_screen(phone, "wash-plan").await?;
    // An impossible method has its reason in the table of methods.
    phone.tap("How this is calculated, and other ways").await?;
    phone.fill("Water for each rinse", "5").await?;
    phone.fill("How much the bucket holds", "1").await?;
    phone.wait_for_text("A container of 1 L is too small to stir this pulp in.").await?;
    phone.find("any", "dialog table").await?;
    check_screen(phone, "wash-ways").await?;
    phone.fill("Water", "-2").await?;
    phone.wait_for_text("“-2” is below zero.").await?;
    phone.fill("Water", "0").await?;
    phone.wait_for_text("0 mL is not enough for a rinse. Enter more than zero.").await?;
    phone.fill("Water", "10").await?;
    phone.fill("Dryness after squeezing", "60").await?;
    phone
        .wait_for_text("60 % dry is more than hands or a small press can reach. Up to 45 %")
        .await?;
    check_screen(phone, "wash-refused").await?;
    phone.fill("Dryness after squeezing", "20").await
}

/// The station that the bar names as the present one.
pub async fn station_is(phone: &Phone, name: &str) -> TestResult {
    let now = "return document.querySelector('.stations [aria-current=step] .name')?.innerText";
    phone
        .wait_for(&format!("the station “{name}”"), || async {
            Ok(phone.execute(now).await? == name)
        })
        .await
}

async fn acid_waits_for_a_test(phone: &Phone) -> TestResult {
    open_form(phone, "Acid finish").await?;
    phone.wait_for_text("No acid yet. Acid on bleach makes chlorine gas").await?;
    // The strip of the last rinse counts: it found 2 mg/L.
    phone.wait_for_text("Failed: chlorine strip.").await?;
    let save = phone.execute("return !!document.querySelector('dialog[open] .save')").await?;
    ensure(save == false, || "an acid finish can be saved with live bleach".to_owned())?;
    check_screen(phone, "acid-refused").await
}

async fn antichlor(phone: &Phone) -> TestResult {
    phone.tap("Antichlor").await?;
    phone.tap("Sodium thiosulfate crystals (pentahydrate)").await?;
    phone.wait_for_text("Few scales show so little. Dissolve 1 g in a litre of water").await?;
    phone.wait_for_text("No calculation proves it.").await?;
    phone.fill("Amount weighed", "5").await?;
    phone.wait_for_text("More than 7 g of crystals per gram of chlorine").await?;
    phone.fill("Amount weighed", "0.02").await?;
    phone.fill("Strip reading afterwards", "0").await?;
    check_screen(phone, "antichlor").await?;
    save(phone, "Save").await?;
    // A positive strip fails the test, and acid stays refused.
    open_form(phone, "End test").await?;
    phone.tap("Chlorine strip").await?;
    phone.fill("Strip in the water squeezed out", "1").await?;
    phone.wait_for_text("Result: failed").await?;
    save(phone, "Save").await?;
    open_form(phone, "Acid finish").await?;
    phone.wait_for_text("Failed: chlorine strip.").await?;
    close_form(phone).await?;
    end_test(phone, "Chlorine strip", "Strip in the water squeezed out", "0").await
}

/// The neutral finish is allowed now; it is rinsed out, and that rinse is the test.
async fn finish(phone: &Phone) -> TestResult {
    open_form(phone, "Acid finish").await?;
    phone.wait_for_text("Tested for chlorine after the last bleach: none found.").await?;
    phone.tap("Citric acid, anhydrous").await?;
    phone.fill("pH of the pulp's water", "8.4").await?;
    phone.fill("How much water", "4").await?;
    // Nearly all of the dose is for the tap water's bicarbonate.
    phone.wait_for_text("First, half of it 0.0191 g").await?;
    phone.wait_for_text("the carbon dioxide is gone 0.523 g").await?;
    phone.find("any", "dialog .figure").await?;
    check_screen(phone, "acid").await?;
    phone.fill("Amount weighed", "0.2").await?;
    phone.fill("pH of the water squeezed out", "7.5").await?;
    save(phone, "Save").await?;
    phone.fill("Water", "10").await?;
    tick_rinse(phone, 4, "7.5", ("Chlorine strip", "0")).await?;
    station_is(phone, "Prove").await
}

async fn untested_label(phone: &Phone) -> TestResult {
    phone.tap("Label for the tub").await?;
    phone.wait_for_text("You can print the label; it says UNTESTED").await?;
    phone.wait_for_text("Contact with acids liberates toxic gas.").await?;
    check_screen(phone, "label-untested").await?;
    phone.tap("Back").await
}

async fn sign_off(phone: &Phone) -> TestResult {
    open_form(phone, "Sign off").await?;
    phone.tap("Sign off with this reason").await?;
    phone.wait_for_text("Not clean yet.").await?;
    check_screen(phone, "sign-off-refused").await?;
    // Signed off with a reason, unproven; then undone.
    phone.fill("Reason for signing off without the tests", "The strips ran out.").await?;
    save(phone, "Sign off with this reason").await?;
    phone.wait_for_text("Treat it as if it still holds bleach.").await?;
    phone.tap("Undo").await?;
    phone.wait_for_text("Rinse until the end tests pass.").await?;

    // The strip of the last rinse counts; its pH is known, and the tap's is asked for.
    wait_for_step(phone, "pH of the last rinse").await?;
    let filled = phone.value("pH of the last rinse").await?;
    ensure(filled == "7.5", || format!("the pH of the last rinse is {filled}, not 7.5"))?;
    check_screen(phone, "ladder-test").await?;
    tap_and_feel(phone, "7.4").await?;
    check_screen(phone, "ladder-proven").await?;
    phone.tap("Sign off").await?;
    phone.wait_for_text("Every test that this batch needs has passed").await?;
    check_screen(phone, "sign-off").await?;
    save(phone, "Sign off as clean").await?;
    phone.wait_for_text("Every end test passed.").await?;
    station_is(phone, "Store").await
}

/// Stores the pulp; the QR code of its label opens the batch.
async fn store(phone: &mut Phone) -> TestResult {
    phone.tap("Store the pulp").await?;
    phone.fill("Wet pulp", "900 g").await?;
    phone.fill("Dryness of the pulp", "50").await?;
    phone.wait_for_text("50 % dry is more than hands or a small press can reach.").await?;
    phone.fill("Dryness of the pulp", "20").await?;
    phone.tap("Save").await?;
    phone.wait_for_text("Choose one of these.").await?;
    // The page scrolls to what is missing, so that a tap may miss.
    let kept = "return [...document.querySelectorAll('dialog input:checked')] \
        .some((input) => input.labels[0].innerText.includes('Wet, in the cold'))";
    phone
        .wait_for("the way it is kept", || async {
            phone.tap("Wet, in the cold").await?;
            Ok(phone.execute(kept).await? == true)
        })
        .await?;
    phone.fill("Where is it?", "Cellar fridge").await?;
    phone.wait_for_text("Yield from raw fibre").await?;
    check_screen(phone, "put-by").await?;
    save(phone, "Save").await?;
    phone.wait_for_text("Stored as a lot.").await?;

    let batch = phone.path().await?;
    station_is(phone, "Sheets").await?;
    phone.find("any", "main h1").await?;
    check_screen(phone, "batch-stored").await?;
    phone.print("batch").await?;
    phone.tap("Label for the tub").await?;
    phone.wait_for("the label", || async { Ok(phone.path().await?.ends_with("/label")) }).await?;
    phone.wait_for_text("The code opens").await?;
    phone.wait_for_text("Keep by").await?;
    phone.wait_for_text_gone("UNTESTED").await?;
    check_screen(phone, "label").await?;
    let said = phone.read_qr_code(".tub-label .code").await?;
    let wanted = format!("{}{batch}", phone.server.origin());
    ensure(said == wanted, || format!("the label's code says {said}, not {wanted}"))?;
    phone.print("label").await?;
    phone.open(said.trim_start_matches(&phone.server.origin())).await?;
    phone.wait_for_text("Stored as a lot.").await
}

/// A lot gives no more than it holds, and lists where its pulp went.
async fn lot(phone: &Phone) -> TestResult {
    phone.tap("180 g of dry fibre left").await?;
    phone.wait_for_text("Made from").await?;
    phone.fill("How much to take, as dry fibre", "5 kg").await?;
    phone.wait_for_text("The lot holds 180 g of dry fibre, so 5 kg cannot be taken.").await?;
    check_screen(phone, "lot-refused").await?;
    phone.fill("How much to take, as dry fibre", "60 g").await?;
    phone.fill("What for?", "A bowl").await?;
    phone.tap("Take this amount").await?;
    phone.wait_for_text("60 g A bowl").await?;
    split_and_blend(phone).await?;
    phone.tap("Sheets").await?;
    phone.fill("Dry pulp", "60 g").await?;
    phone.tap("A4").await?;
    phone.wait_for_text("One sheet, air-dry").await?;
    phone.fill("Number of sheets", "9").await?;
    check_screen(phone, "sheets").await?;
    phone.tap("Save").await?;
    phone.wait_for_text("9 sheets A4").await?;
    phone.wait_for_text("20 g of dry fibre left").await?; // 180 less 60, 30, 10 and 60
    let refused = phone.screen_text().await?.contains("cannot be taken");
    ensure(!refused, || "what was saved is refused".to_owned())?;
    phone.find("any", "main h1").await?;
    check_screen(phone, "lot").await?;
    phone.tap("Back").await?;
    phone.wait_for_text("20 g of dry fibre left").await?;
    check_screen(phone, "lots").await
}

/// Splits a part off as a lot of its own, and blends some of it with the rest.
async fn split_and_blend(phone: &Phone) -> TestResult {
    phone.tap("Split off a part").await?;
    phone.fill("How much to take, as dry fibre", "30").await?;
    phone.fill("Name of the new lot", "For cards").await?;
    phone.tap("Make a new lot").await?;
    phone.wait_for_text("Used for").await?;
    phone.tap("Blend").await?;
    phone.select("With which lot?", "For cards").await?;
    phone.fill("How much to take, as dry fibre", "10").await?;
    phone.fill("How much of the other lot, as dry fibre", "40").await?;
    phone.wait_for_text("The lot holds 30 g of dry fibre, so 40 g cannot be taken.").await?;
    phone.fill("How much of the other lot, as dry fibre", "20").await?;
    phone.fill("Name of the new lot", "Both again").await?;
    phone.tap("Blend them").await?;
    phone.wait_for_text("Both again").await?;
    // Traced back: all of it comes from one batch.
    phone.tap("Both again").await?;
    phone.wait_for_text("Iris leaf 100 %").await?;
    phone.wait_for_text("Dry fibre left 30 g").await?;
    check_screen(phone, "lot-blended").await?;
    phone.tap("Back").await?;
    phone.tap("80 g of dry fibre left").await?;
    phone
        .wait_for("the first lot", || async { Ok(phone.screen_text().await?.contains("A bowl")) })
        .await
}
