//! The book is searched, batches are tagged and set side by side, and a plan is made again.

use super::steps::{
    check_screen, enter_demo, go_to_place, go_to_step, open_form, save, wait_for_answer,
};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/batches").await?;
    enter_demo(phone).await?;
    find(phone).await?;
    tag(phone).await?;
    compare(phone).await?;
    season(phone).await?;
    tables(phone).await?;
    again(phone).await
}

/// Words and filters narrow the list; it is as it was left after a batch was looked at.
async fn find(phone: &Phone) -> TestResult {
    go_to_place(phone, "Batches").await?;
    phone.fill("Search", "FLAG gárden leaf").await?;
    phone.wait_for_text("Flag garden, dead leaf").await?;
    phone.wait_for_text_gone("Sluice meadow").await?;
    check_screen(phone, "book-search").await?;
    // The address follows a moment after the last key.
    let query = "return decodeURIComponent(location.search)";
    phone
        .wait_for("the words in the address", || async {
            let query = phone.execute(query).await?;
            Ok(query.as_str().is_some_and(|query| query.contains("FLAG gárden leaf")))
        })
        .await?;
    phone.tap("Flag garden, dead leaf").await?;
    phone.find("any", ".batch-page").await?;
    check_screen(phone, "book-page").await?;
    phone.tap("Back").await?;
    phone.find("any", ".batch-card").await?;
    let words = phone.value("Search").await?;
    ensure(words == "FLAG gárden leaf", || format!("the search is now “{words}”"))?;
    phone.fill("Search", "no such word").await?;
    phone.wait_for_text("No batch found. Try fewer words or filters.").await?;
    phone.tap("Show all").await?;
    phone.tap("Filters").await?;
    phone.select("Bleach", "Percarbonate").await?;
    phone.wait_for_text("1 set").await?;
    phone.select("Sort by", "Lightest first").await?;
    phone.find("any", ".batch-card").await?;
    check_screen(phone, "book-filters").await?;
    phone.tap("Show all").await?;
    phone.wait_for_text("Sluice meadow").await
}

/// A tag is put on, finds its batch, and is undone like any entry.
async fn tag(phone: &Phone) -> TestResult {
    phone.tap("Sluice meadow").await?;
    phone.find("any", ".batch-page").await?;
    phone.tap("Tags").await?;
    phone.fill("New tag", "Wedding").await?;
    check_screen(phone, "book-tags").await?;
    save(phone, "Save").await?;
    phone.find("any", "a.tag").await?;
    phone.tap("Wedding").await?;
    phone.wait_for_text("Sluice meadow").await?;
    phone.wait_for_text_gone("Reed bed, two steps").await?;
    phone.tap("Sluice meadow").await?;
    phone.find("any", ".batch-page").await?;
    phone.tap("Tags").await?;
    phone.tap("Remove Wedding").await?;
    save(phone, "Save").await?;
    let none = "return !document.querySelector('a.tag')";
    phone.wait_for("the tag to go", || async { Ok(phone.execute(none).await? == true) }).await
}

async fn compare(phone: &Phone) -> TestResult {
    phone.tap("Compare with…").await?;
    phone.wait_for_text("Tick two to four batches.").await?;
    phone.tap("Compare Flag garden, dead leaf").await?;
    phone.tap("Compare Tow for the class").await?;
    phone.wait_for_text("3 batches ticked").await?;
    check_screen(phone, "book-choose").await?;
    phone.tap("Show side by side").await?;
    phone.wait_for_text("What differs").await?;
    phone.wait_for_text("Dry fibre").await?;
    phone.find("any", "svg.chart.times").await?;
    check_screen(phone, "book-compare").await?;
    // The list is still as it was left.
    phone.tap("Back").await?;
    phone.wait_for_text("3 batches ticked").await?;
    phone.tap("Cancel").await
}

async fn season(phone: &Phone) -> TestResult {
    phone.tap("What worked").await?;
    phone.wait_for_text("Most lightness gained").await?;
    phone.find("any", "table.loads").await?;
    check_screen(phone, "book-season").await?;
    phone.tap("Fibre kept").await?;
    phone.tap("Fibre").await?;
    phone.wait_for_text("For a kilogram of dry pulp").await?;
    phone.tap("Back").await?;
    phone.find("any", ".batch-card").await?;
    Ok(())
}

/// Batches and readings for a spreadsheet.
async fn tables(phone: &Phone) -> TestResult {
    phone.tap("Share a backup").await?;
    phone.wait_for_text("For a spreadsheet").await?;
    check_screen(phone, "book-tables").await?;
    phone.execute(KEEP_SAVED).await?;
    for (table, columns, rows) in
        [("Batches", "batch,fibre,tags,started,", 15), ("Readings", "batch,fibre,read_at,", 100)]
    {
        // The place is called Batches too.
        phone.press_on(&format!("main button[data-table={}]", table.to_lowercase())).await?;
        phone
            .wait_for("the table", || async {
                let text = phone.execute("return window.saved.at(-1) ?? ''").await?;
                let text = text.as_str().unwrap_or_default();
                Ok(text.starts_with(columns) && text.lines().count() > rows)
            })
            .await?;
    }
    phone.tap("Back").await?;
    phone.find("any", ".batch-card").await?;
    Ok(())
}

/// Keeps the text of each file that is saved.
const KEEP_SAVED: &str = "window.saved = []; const make = URL.createObjectURL; \
    URL.createObjectURL = (file) => { \
        file.text().then((text) => window.saved.push(text)); \
        return make.call(URL, file); \
    };";

/// The plan of an earlier batch, scaled to what is in the bucket now.
async fn again(phone: &Phone) -> TestResult {
    phone.tap("Sluice meadow").await?;
    phone.find("any", ".batch-page").await?;
    phone.tap("Do it again").await?;
    phone.wait_for_text("Weigh what is in the bucket now.").await?;
    phone.fill("Wet pulp", "heavy").await?;
    phone.wait_for_text("“heavy” does not start with a number.").await?;
    phone.fill("Wet pulp", "300 g").await?;
    phone.wait_for_text("times as much as then").await?;
    wait_for_answer(phone, "").await?;
    check_screen(phone, "book-again").await?;
    go_to_step(phone, "Measure out").await?;
    phone.tap("Keep the plan for later").await?;
    phone
        .wait_for("the batch's page", || async { Ok(phone.path().await?.starts_with("/batch/")) })
        .await?;
    phone.find("any", ".batch-page").await?;
    open_form(phone, "Weigh").await
}
