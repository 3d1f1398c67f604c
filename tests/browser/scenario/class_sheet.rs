//! The sheet for a workshop: filled in, read on the phone, printed on one page, and recorded only
//! when it is saved as a plan.

use fantoccini::wd::PrintSize;

use super::places::wait_for_place;
use super::steps::{begin_batch, check_screen, go_to_place};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

/// People of the largest class that is sure to fit on one page, and at a table.
const MOST_ON_A_PAGE: (&str, &str) = ("24", "4");

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    go_to_place(phone, "Batches").await?;
    wait_for_place(phone, "Batches").await?;
    phone.tap("Class sheet").await?;
    // No bottle is assumed.
    phone.wait_for_text("Missing: strength of the bottle.").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    phone.wait_for_text("12 people at 3 tables").await?;
    check_screen(phone, "class-sheet-form").await?;
    refused(phone).await?;
    sheet(phone).await?;
    is_printed_on_one_page(phone).await?;
    of_a_batch(phone).await
}

/// What cannot be is said beside its field, and nothing is lost.
async fn refused(phone: &Phone) -> TestResult {
    phone.fill("Number of people", "500").await?;
    phone.wait_for_text_gone("12 people at").await?;
    phone.find("any", "[aria-invalid=true]").await?;
    phone.fill("Number of people", "24").await?;
    phone.fill("People at a table", "1").await?;
    phone.wait_for_text("No class sheet").await?;
    phone.fill("People at a table", "5").await?;
    phone.wait_for_text("24 people at 5 tables").await
}

/// The largest class with every station.
async fn sheet(phone: &Phone) -> TestResult {
    let (people, table) = MOST_ON_A_PAGE;
    phone.fill("Number of people", people).await?;
    phone.fill("People at a table", table).await?;
    for station in ["Cook", "Rinse"] {
        phone.tap(station).await?;
    }
    phone.wait_for_text("24 people at 6 tables").await?;
    phone.wait_for_text("Table of 4").await?;
    phone.find("any", "article.class-sheet").await?;
    check_screen(phone, "class-sheet").await?;
    // Each danger stands once.
    let twice = "const all = [...document.querySelectorAll('.class-caution strong')]\
        .map((one) => one.textContent); return all.length - new Set(all).size";
    let twice = phone.execute(twice).await?.as_i64();
    ensure(twice == Some(0), || format!("{twice:?} cautions stand twice"))?;
    let text = phone.screen_text().await?;
    for words in ["Never acid with chlorine bleach", "Eyes and hands", "Empty one bath at a time"] {
        ensure(text.contains(words), || format!("“{words}” is not on the sheet"))?;
    }
    Ok(())
}

async fn is_printed_on_one_page(phone: &mut Phone) -> TestResult {
    phone.screenshot_as_printed("class-sheet-printed").await?;
    for (name, size) in
        [("class-sheet-a4", PrintSize::A4), ("class-sheet-letter", PrintSize::US_LETTER)]
    {
        let Some(pages) = phone.print_pages(name, size).await? else { continue };
        ensure(pages == 1, || format!("{name} has {pages} pages"))?;
    }
    Ok(())
}

/// Of a batch: its pulp is counted, and nothing is recorded until it is saved as a plan.
async fn of_a_batch(phone: &Phone) -> TestResult {
    begin_batch(phone, "Class batch").await?;
    go_to_place(phone, "Batches").await?;
    wait_for_place(phone, "Batches").await?;
    phone.tap("Class batch").await?;
    // The list has a class sheet of its own.
    phone
        .wait_for("the batch's page", || async { Ok(phone.path().await?.starts_with("/batch/")) })
        .await?;
    phone.tap("Class sheet").await?;
    phone.wait_for_text("Missing: strength of the bottle.").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    phone.wait_for_text("Class sheet: Class batch").await?;
    // 12 people with 25 g each need 1.5 kg of wet pulp; the batch has 500 g.
    phone.wait_for_text("The batch has less pulp than the class needs: 1 kg").await?;
    phone.fill("Number of people", "4").await?;
    phone.wait_for_text_gone("less pulp than the class needs").await?;
    phone.tap("Save as a plan").await?;
    phone
        .wait_for("the batch's page", || async { Ok(phone.path().await?.starts_with("/batch/")) })
        .await?;
    phone.wait_for_text("Plan made").await
}
