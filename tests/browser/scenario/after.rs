//! All that stands round the bath: cook, rinse, bath, wash, antichlor, neutral finish,
//! end tests, sign-off, tub, label, lot, sheets. Acid is refused until a zero chlorine
//! test is logged, a sign-off until every test is, and each wrong answer in words.

use super::doings::{end_test, feel, leave, rinse, save, seen, start_bath, stop_bath, write_down};
use crate::failure::{Outcome, ensure};
use crate::phone::Phone;

pub async fn play(phone: &mut Phone) -> Outcome {
    cook(phone).await?;
    bath(phone).await?;
    wash(phone).await?;
    acid_waits_for_a_test(phone).await?;
    antichlor(phone).await?;
    finish(phone).await?;
    untested_label(phone).await?;
    sign_off(phone).await?;
    put_by(phone).await?;
    lot(phone).await
}

/// The cook begins the batch; its liquor is rinsed off, and the lump weighed.
async fn cook(phone: &Phone) -> Outcome {
    phone.open("/mix").await?;
    phone.tap("Cook").await?;
    phone.fill("DemoFibre", "iris leaf").await?;
    phone.fill("Dry raw fibre", "400").await?;
    phone.fill("What the pot holds", "10").await?;
    phone.sees("Alkali, all loads together 80 g").await?; // 20 % of 400 g
    seen(phone, "cook").await?;
    phone.tap("Begin a batch with this cook").await?;
    phone.sees("No bleach has met this pulp yet.").await?;

    write_down(phone, "Rinse").await?;
    rinse(phone, "10", "9.6", "").await?;
    phone.tap("Weigh the wet pulp").await?;
    phone.fill("Wet pulp", "1 kg").await?;
    phone.tap("I know my squeeze").await?;
    phone.fill("Dryness of the pulp", "20").await?;
    save(phone, "Save").await
}

async fn bath(phone: &Phone) -> Outcome {
    phone.tap("Plan the bath").await?;
    phone.fill("Strength of the bottle", "5.25").await?;
    phone.sees("Measure out").await?;
    seen(phone, "plan").await?;
    start_bath(phone).await?;
    phone.tap("Reading").await?;
    phone.fill("pH", "10.4").await?;
    phone.fill("Chlorine strip", "900").await?;
    phone.fill("Temperature", "37").await?;
    save(phone, "Save the reading").await?;
    phone.sees("900 mg/L").await?;
    stop_bath(phone, "It has the colour I want").await?;
    // It goes on bleaching until it is drained: that is said before anything else.
    phone.sees("Stopped and not rinsed.").await?;
    phone.sees("for the product's label and your local rules to say").await?;
    phone.tap("Close").await?;
    phone.find("any", ".page section > ul").await?;
    seen(phone, "sink-drain").await
}

/// The rinses, with what cannot be refused beside its field.
async fn wash(phone: &Phone) -> Outcome {
    phone.tap("Drain it and rinse now").await?;
    phone.sees("Rinses to do").await?;
    seen(phone, "wash-plan").await?;
    // A way that cannot be gone has its reason in the table, beside those that can.
    phone.tap("What that rests on, and other ways").await?;
    phone.fill("Water for each rinse", "5").await?;
    phone.fill("What the bucket holds", "1").await?;
    phone.sees("A vessel of 1 L is too small to stir this lump in.").await?;
    phone.find("any", "dialog table").await?;
    seen(phone, "wash-ways").await?;
    phone.fill("Water", "-2").await?;
    phone.sees("“-2” is below zero.").await?;
    phone.fill("Water", "0").await?;
    phone.sees("0 mL is no rinse. Give more water than nothing.").await?;
    phone.fill("Water", "10").await?;
    phone.fill("Dryness after squeezing", "60").await?;
    phone.sees("60 % dry is drier than hands or a small press reach. Up to 45 %").await?;
    seen(phone, "wash-refused").await?;
    phone.fill("Dryness after squeezing", "20").await?;
    rinse(phone, "10", "9.4", "9").await?;
    write_down(phone, "Rinse").await?;
    rinse(phone, "10", "8.8", "4").await?;
    // Two pairs of readings, and the wash works as well as this studio's own rinses do.
    write_down(phone, "Rinse").await?;
    phone.sees("2 rinses so far.").await?;
    rinse(phone, "10", "8.4", "2").await
}

async fn acid_waits_for_a_test(phone: &Phone) -> Outcome {
    write_down(phone, "Acid finish").await?;
    phone.sees("No acid yet. Acid on bleach makes chlorine gas").await?;
    phone.sees("Not done yet: chlorine strip.").await?;
    let save = phone.run("return !!document.querySelector('dialog[open] .save')").await?;
    ensure(save == false, || "an acid finish can be saved with live bleach".to_owned())?;
    seen(phone, "acid-refused").await
}

async fn antichlor(phone: &Phone) -> Outcome {
    phone.tap("Antichlor").await?;
    phone.sees("Few scales show so little. Dissolve 1 g in a litre of water").await?;
    phone.sees("No sum proves it.").await?;
    phone.fill("Weighed out", "5").await?;
    phone.sees("More than 7 g of crystals to a gram of chlorine").await?;
    phone.fill("Weighed out", "0.02").await?;
    phone.fill("Strip afterwards", "0").await?;
    seen(phone, "antichlor").await?;
    save(phone, "Save").await?;
    // A strip that still colours is no pass, and keeps the acid away.
    write_down(phone, "End test").await?;
    phone.tap("Chlorine strip").await?;
    phone.fill("Strip in the water squeezed out", "1").await?;
    phone.sees("This test: failed").await?;
    save(phone, "Save").await?;
    write_down(phone, "Acid finish").await?;
    phone.sees("Failing: chlorine strip.").await?;
    leave(phone).await?;
    end_test(phone, "Chlorine strip", "Strip in the water squeezed out", "0").await
}

/// Now, and only now, the acid may come; what came after it must be tested anew.
async fn finish(phone: &Phone) -> Outcome {
    write_down(phone, "Acid finish").await?;
    phone.sees("Chlorine was tested for after the last bleach, and was not found.").await?;
    phone.fill("pH of the pulp's water", "8.4").await?;
    phone.fill("How much water", "4").await?;
    // Nearly all of it is for the tap's own bicarbonate.
    phone.sees("First, half of it 0.0191 g").await?;
    phone.sees("the carbon dioxide gone 0.523 g").await?;
    phone.find("any", "dialog .figure").await?;
    seen(phone, "acid").await?;
    phone.fill("Weighed out", "0.2").await?;
    phone.fill("pH of the water squeezed out", "7.5").await?;
    save(phone, "Save").await?;
    write_down(phone, "Rinse").await?;
    rinse(phone, "10", "7.5", "0").await
}

async fn untested_label(phone: &Phone) -> Outcome {
    phone.tap("Label for the tub").await?;
    phone.sees("The label may be printed, and says UNTESTED").await?;
    phone.sees("Contact with acids liberates toxic gas.").await?;
    seen(phone, "label-untested").await?;
    phone.tap("Back").await
}

async fn sign_off(phone: &Phone) -> Outcome {
    write_down(phone, "Sign off").await?;
    phone.tap("Sign off with this reason").await?;
    phone.sees("Not clean yet:").await?;
    seen(phone, "sign-off-refused").await?;
    // With a reason it may go, unproven; that is taken back.
    phone.fill("Why you sign it off all the same", "The strips ran out.").await?;
    save(phone, "Sign off with this reason").await?;
    phone.sees("Treat it as if bleach were left in it.").await?;
    phone.tap("Undo").await?;
    phone.sees("Rinse until the end tests pass.").await?;

    end_test(phone, "Chlorine strip", "Strip in the water squeezed out", "0").await?;
    write_down(phone, "End test").await?;
    phone.tap("pH of the last rinse").await?;
    phone.fill("pH read in the last rinse", "7.5").await?;
    phone.fill("pH of the tap water", "7.4").await?;
    phone.sees("This test: passed").await?;
    seen(phone, "end-test").await?;
    save(phone, "Save").await?;
    feel(phone).await?;
    phone.tap("Sign it off").await?;
    phone.sees("Every test that this batch needs has passed").await?;
    seen(phone, "sign-off").await?;
    save(phone, "Sign off as clean").await?;
    phone.sees("Every end test passed.").await
}

/// Into the tub, and a label on it whose code opens the batch.
async fn put_by(phone: &mut Phone) -> Outcome {
    phone.tap("Put the pulp by").await?;
    phone.fill("Wet pulp", "900 g").await?;
    phone.fill("Dryness of the pulp", "50").await?;
    phone.sees("50 % dry is drier than hands or a small press reach.").await?;
    phone.fill("Dryness of the pulp", "20").await?;
    phone.fill("Where does it stand?", "Cellar fridge").await?;
    phone.sees("Yield from raw fibre").await?;
    seen(phone, "put-by").await?;
    save(phone, "Save").await?;
    phone.sees("Put by as a lot.").await?;

    let batch = phone.path().await?;
    phone.tap("Label for the tub").await?;
    phone.wait_for("the label", || async { Ok(phone.path().await?.ends_with("/label")) }).await?;
    phone.sees("The code opens").await?;
    phone.sees("Keep by").await?;
    phone.no_longer_sees("UNTESTED").await?;
    seen(phone, "label").await?;
    let said = phone.code_at(".tub-label .code").await?;
    let wanted = format!("{}{batch}", phone.server.origin());
    ensure(said == wanted, || format!("the label's code says {said}, not {wanted}"))?;
    phone.print("label").await?;
    phone.open(said.trim_start_matches(&phone.server.origin())).await?;
    phone.sees("Put by as a lot.").await
}

/// The lot gives what it holds and no more, and remembers where it went.
async fn lot(phone: &Phone) -> Outcome {
    phone.tap("180 g of dry fibre left").await?;
    phone.sees("Made of").await?;
    phone.fill("How much to take, as dry fibre", "5 kg").await?;
    phone.sees("The lot holds 180 g of dry fibre; 5 kg cannot come out of it.").await?;
    seen(phone, "lot-refused").await?;
    phone.fill("How much to take, as dry fibre", "60 g").await?;
    phone.fill("What for?", "A bowl").await?;
    phone.tap("Take it out").await?;
    phone.sees("60 g A bowl").await?;
    split_and_blend(phone).await?;
    phone.tap("Sheets").await?;
    phone.fill("Dry pulp", "60 g").await?;
    phone.sees("One sheet, air-dry").await?;
    phone.fill("How many sheets", "9").await?;
    seen(phone, "sheets").await?;
    phone.tap("Save").await?;
    phone.sees("9 sheets A4").await?;
    phone.sees("20 g of dry fibre left").await?; // 180 less 60, 30, 10 and 60
    let refused = phone.screen_text().await?.contains("cannot come out of it");
    ensure(!refused, || "what was saved is refused".to_owned())?;
    phone.find("any", "main h1").await?;
    seen(phone, "lot").await?;
    phone.tap("Back").await?;
    phone.sees("20 g of dry fibre left").await?;
    seen(phone, "lots").await
}

/// A part becomes a lot of its own, and some of it meets the rest again.
async fn split_and_blend(phone: &Phone) -> Outcome {
    phone.tap("A part").await?;
    phone.fill("How much to take, as dry fibre", "30").await?;
    phone.fill("Name of the new lot", "For cards").await?;
    phone.tap("Make it a lot of its own").await?;
    phone.sees("Went into").await?;
    phone.tap("Blend").await?;
    phone.choose("With which lot?", "For cards").await?;
    phone.fill("How much to take, as dry fibre", "10").await?;
    phone.fill("How much of the other, as dry fibre", "40").await?;
    phone.sees("The lot holds 30 g of dry fibre; 40 g cannot come out of it.").await?;
    phone.fill("How much of the other, as dry fibre", "20").await?;
    phone.fill("Name of the new lot", "Both again").await?;
    phone.tap("Blend them").await?;
    phone.sees("Both again").await?;
    // Traced back: all of it is of the one batch.
    phone.tap("Both again").await?;
    phone.sees("Iris leaf 100 %").await?;
    phone.sees("Dry fibre left 30 g").await?;
    seen(phone, "lot-blended").await?;
    phone.tap("Back").await?;
    phone.tap("80 g of dry fibre left").await?;
    phone
        .wait_for("the first lot", || async { Ok(phone.screen_text().await?.contains("A bowl")) })
        .await
}
