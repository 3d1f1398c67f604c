//! A ladder trial of six pots, without a network: set up, measured out, run, read, scaled up.

use super::steps::{begin_batch, check_screen, set_clock};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.restart_browser().await?;
    phone.server.stop();
    bottle(phone, "Cellar bottle").await?;
    begin_batch(phone, "Iris for pots").await?;
    let batch = batch_address(phone).await?;
    set_up(phone, &batch).await?;
    run_pots(phone).await?;
    read(phone).await?;
    scale_up(phone).await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Iris for pots").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains("Pot 1"), || "the pots crowd the list of batches".into())?;
    phone.server.resume()
}

/// A bottle of 5 % NaOCl on the shelf.
pub async fn bottle(phone: &Phone, name: &str) -> TestResult {
    phone.open("/shelf/new").await?;
    phone.fill("Name on the shelf", name).await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    phone.fill("Price", "2.50").await?;
    phone.tap("Add to the shelf").await?;
    on_shelf(phone).await
}

/// Waits until the new product's page is shown.
pub async fn on_shelf(phone: &Phone) -> TestResult {
    phone
        .wait_for("the product's page", || async {
            let path = phone.path().await?;
            Ok(path.starts_with("/shelf/") && path != "/shelf/new")
        })
        .await
}

/// The address of the batch whose plan is open.
pub async fn batch_address(phone: &Phone) -> TestResult<String> {
    let plan = phone.path().await?;
    Ok(plan.trim_end_matches("/plan").to_owned())
}

async fn set_up(phone: &Phone, batch: &str) -> TestResult {
    phone.open(&format!("{batch}/trial")).await?;
    phone.wait_for_text("The pots, in random order").await?;
    check_screen(phone, "trial-set-up").await?;
    // What cannot be is refused beside its field, and what was typed stays.
    phone.fill("Wet pulp for each pot", "900").await?;
    phone.wait_for_text("are more than the 500 g of wet pulp").await?;
    phone.fill("Wet pulp for each pot", "ten").await?;
    phone.wait_for_text("“ten” does not start with a number.").await?;
    phone.tap("Keep this trial").await?;
    ensure(phone.path().await?.ends_with("/trial"), || "a wrong number was kept".into())?;
    phone.fill("Wet pulp for each pot", "40").await?;
    phone.tap("Charge").await?;
    phone.tap("Time").await?;
    phone.wait_for_text("Nothing differs between the pots.").await?;
    phone.tap("Charge").await?;
    phone.tap("Time").await?;
    phone.wait_for_text("The pots, in random order").await?;
    phone.tap("Keep this trial").await?;
    phone
        .wait_for("the trial", || async { Ok(phone.path().await?.starts_with("/trial/")) })
        .await?;
    phone.wait_for_text("Mix once, for all pots").await?;
    check_screen(phone, "trial-measure").await
}

async fn run_pots(phone: &Phone) -> TestResult {
    phone.tap("Run").await?;
    phone.wait_for_text("When you are ready").await?;
    check_screen(phone, "trial-before").await?;
    phone.press("Bleach is in pot 1").await?;
    phone.wait_for_text("Pot 1 started").await?;
    for pot in 2..=6 {
        // The second goes in before its time, the others once they are due.
        if pot == 2 {
            phone.press("Pot 2 is in already").await?;
        } else {
            set_clock(phone, 3 * pot).await?;
            phone.wait_for_text_gone("is in already").await?;
            phone.press(&format!("Bleach is in pot {pot}")).await?;
        }
        phone.wait_for_text(&format!("Pot {pot} started")).await?;
        if pot == 4 {
            check_screen(phone, "trial-running").await?;
        }
    }
    phone.press("All running pots stirred").await?;
    phone.wait_for_text("Stirred").await?;
    // Long after: every pot is over, one after the other is taken out.
    set_clock(phone, 200).await?;
    phone.wait_for_text("over by").await?;
    check_screen(phone, "trial-over").await?;
    for _ in 1..=6 {
        let next = "return document.querySelector('.trial-next .button.touch')?.innerText ?? ''";
        let name = phone.execute(next).await?.as_str().unwrap_or_default().to_owned();
        phone.press(&name).await?;
        phone.wait_for_text_gone(&name).await?;
    }
    phone.wait_for_text("All pots are out.").await
}

/// By eye: the stronger the charge, the lighter; one from a meter.
async fn read(phone: &Phone) -> TestResult {
    set_clock(phone, 1500).await?;
    phone.tap("Read").await?;
    phone.wait_for_text("Not read yet").await?;
    phone.tap("By eye, or a known colour").await?;
    phone.fill("L*", "140").await?;
    phone.fill("a*", "1").await?;
    phone.fill("b*", "12").await?;
    phone.tap("Save this colour").await?;
    phone.find("any", "[aria-invalid=true]").await?;
    check_screen(phone, "trial-read").await?;
    let by_eye = "[...document.querySelectorAll('.trial-read > li')].forEach((pot) => { \
         const charge = Number(pot.querySelector('p').innerText.split(/\\s/)[0]); \
         pot.querySelectorAll('.chip')[Math.round(charge)].click(); })";
    phone.execute(by_eye).await?;
    phone.wait_for_text_gone("Not read yet").await
}

async fn scale_up(phone: &Phone) -> TestResult {
    phone.tap("Result").await?;
    phone.wait_for_text("Lightness L* by Charge").await?;
    phone.wait_for_text("Charge: from its lowest to its highest").await?;
    check_screen(phone, "trial-result").await?;
    phone.tap("As a table").await?;
    phone.wait_for_text("came out lightest").await?;
    phone.wait_for_text("times a pot").await?;
    check_screen(phone, "trial-scale-up").await?;
    phone.tap("Plan this for all the pulp").await?;
    phone.wait_for("the plan", || async { Ok(phone.path().await?.ends_with("/plan")) }).await?;
    phone.wait_for_text("Cellar bottle").await?;
    check_screen(phone, "trial-plan").await
}
