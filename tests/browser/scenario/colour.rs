//! Colour from photos, in the demo studio: a photo is taken, measured and stored, shown in
//! its batch's progress, compared with a target and other photos, and followed over ageing;
//! files that are no photo or show no white are refused with what to do.

use std::fs;
use std::path::PathBuf;

use bleachfield_demo::photo::preset::{DemoFibre, Lighting, no_card, photo};
use bleachfield_demo::photo::{Scene, render};
use fantoccini::actions::{InputSource, MOUSE_BUTTON_LEFT, MouseActions, PointerAction};

use super::orientation::check_orientations;
use super::steps::enter_demo;
use crate::axe::check_accessibility;
use crate::error::{TestFailure, TestResult, ensure};
use crate::layout::check_layout;
use crate::phone::Phone;

/// Opens the batch "Reed bed".
const FIND_BATCH: &str = "const link = [...document.querySelectorAll('a.batch-card')] \
    .find((link) => link.querySelector('h2').innerText === 'Reed bed'); \
    link?.click(); return !!link";

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/batches").await?;
    enter_demo(phone).await?;
    phone.open("/batches").await?;
    // Two names begin with these words; the season's first is meant.
    phone.wait_for("the book", || async { Ok(phone.execute(FIND_BATCH).await? == true) }).await?;
    phone.wait_for_text("Colour over time").await?;
    let batch = phone.path().await?;

    phone.tap("Photo").await?;
    check_orientations(phone).await?;
    phone.open(&batch).await?;
    measure(phone).await?;
    follow(phone, &batch).await?;
    aim(phone, &batch).await?;
    compare(phone, &batch).await?;
    age(phone).await?;
    refuse(phone, &batch).await
}

/// A dried swatch in daylight: taken, marked, dragged, stored as an aged one.
async fn measure(phone: &Phone) -> TestResult {
    let sheet = photo(DemoFibre::CattailLeaf, 0.12, false, Lighting::Overcast, 41);
    let file = photo_file(phone, "sheet", &sheet)?;
    phone.tap("Photo").await?;
    phone.attach("Choose a picture", &file).await?;
    phone.wait_for_text("1200 × 900").await?;
    phone.tap("Dried").await?;
    phone.tap("Save and measure its colour").await?;
    phone.wait_for_text("These were found in the photo").await?;
    let ticked = "return [...document.querySelectorAll('.tick input')].map((i) => i.checked)";
    let before = phone.execute(ticked).await?;
    if before[1] == false {
        phone.tap("Grey card").await?;
    }
    phone.wait_for_text("Figures").await?;
    phone.screenshot("colour-measure").await?;
    drag(phone).await?;
    phone.wait_for_text("Figures").await?;
    phone.tap("Figures").await?;
    phone.wait_for_text("Yellowness (E313)").await?;
    check_screen(phone, "measuring").await?;

    let earlier = phone.find("field", "Measured before?").await?;
    earlier.select_by_index(1).await?;
    phone.tap("on a bright window sill").await?;
    phone.execute("scrollTo(0, document.body.scrollHeight)").await?;
    phone.screenshot("colour-result").await?;
    phone.tap("Save the colour").await?;
    phone.wait_for_text("Colour, Reed bed").await
}

/// Drags the pulp's mark by its handle: the loupe shows meanwhile, and the mark moves. Then
/// moves it by the arrow keys.
async fn drag(phone: &Phone) -> TestResult {
    let handle = phone.find("any", "[data-mark=pulp]").await?;
    let before = handle.attr("aria-label").await?;
    let finger = |actions| MouseActions::new("finger".into()).then(actions);
    let onto =
        PointerAction::MoveToElement { element: handle.clone(), duration: None, x: 0.0, y: 0.0 };
    let on = finger(onto)
        .then(PointerAction::Down { button: MOUSE_BUTTON_LEFT })
        .then(PointerAction::MoveBy { duration: None, x: 12.0, y: 6.0 });
    let client = phone.client()?;
    client.perform_actions(on).await?;
    let loupe = phone.execute("return !!document.querySelector('.loupe')").await?;
    phone.screenshot("colour-loupe").await?;
    client.perform_actions(finger(PointerAction::Up { button: MOUSE_BUTTON_LEFT })).await?;
    ensure(loupe == true, || "no loupe while a mark is dragged".into())?;
    let after = handle.attr("aria-label").await?;
    ensure(after != before, || format!("the mark stayed at {before:?}"))?;
    for key in ["\u{e012}", "\u{e012}", "\u{e013}"] {
        handle.send_keys(key).await?; // left, left, up
    }
    ensure(handle.attr("aria-label").await? != after, || "arrow keys move nothing".into())
}

/// The batch's swatches over time; a press on one shows its photo.
async fn follow(phone: &Phone, batch: &str) -> TestResult {
    phone.wait_for_text("Swatches").await?;
    phone.screenshot("colour-progress").await?;
    check_screen(phone, "progress").await?;
    phone.tap("As a table").await?;
    phone.wait_for_text("before the bath, wet").await?;
    phone.wait_for_text("22 min, wet").await?;
    phone.tap("22 min").await?;
    phone.wait_for_text("Hue, degrees").await?;
    phone.screenshot("colour-swatch").await?;
    phone.open(&format!("{batch}/colour")).await
}

/// Sets the target: a named step, then a paper in a photo.
async fn aim(phone: &Phone, batch: &str) -> TestResult {
    phone.tap("Choose a target colour").await?;
    phone.wait_for_text("Six steps").await?;
    phone.screenshot("colour-target").await?;
    check_screen(phone, "the choice of a target").await?;
    phone.tap("Natural white").await?;
    phone.wait_for_text("Natural white: ΔE00").await?;
    phone.screenshot("colour-aimed").await?;
    phone.open(&format!("{batch}/colour/target")).await?;
    phone.find("any", "a.photo-link").await?.click().await?;
    phone.wait_for_text("Measure a paper").await?;
    phone.wait_for_text("Figures").await?;
    phone.fill("Name of this paper", "the old ledger").await?;
    phone.tap("Set as target").await?;
    phone.wait_for_text("the old ledger: ΔE00").await
}

async fn compare(phone: &Phone, batch: &str) -> TestResult {
    phone.open(&format!("{batch}/colour/compare")).await?;
    phone.wait_for_text("(ΔE00").await?;
    two_photos(phone).await?;
    phone.screenshot("colour-beside").await?;
    phone.tap("One over the other").await?;
    two_photos(phone).await?;
    phone.screenshot("colour-split").await?;
    check_screen(phone, "comparing").await
}

async fn two_photos(phone: &Phone) -> TestResult {
    let shown = "const all = [...document.querySelectorAll('main img')]; \
        return all.length === 2 && all.every((i) => i.complete && i.naturalWidth > 0)";
    phone.wait_for("two photos", || async { Ok(phone.execute(shown).await? == true) }).await
}

async fn age(phone: &Phone) -> TestResult {
    phone.open("/batches").await?;
    phone.tap("Yellowing").await?;
    phone.wait_for_text("Post-colour no.").await?;
    phone.wait_for_text("on a bright window sill").await?;
    phone.screenshot("colour-yellowing").await?;
    check_screen(phone, "yellowing").await
}

async fn refuse(phone: &Phone, batch: &str) -> TestResult {
    let bare = photo_file(phone, "bare", &no_card(DemoFibre::IrisLeaf, 7))?;
    phone.open(&format!("{batch}?do=photo")).await?;
    phone.attach("Choose a picture", &bare).await?;
    phone.wait_for_text("1200 × 900").await?;
    phone.tap("Wet").await?;
    phone.tap("Save and measure its colour").await?;
    phone.wait_for_text("No white sheet or card was found").await?;
    phone.wait_for_text("Lay a sheet of plain white paper beside the pulp").await?;
    phone.execute("document.querySelector('.result').scrollIntoView({ block: 'center' })").await?;
    phone.screenshot("colour-refused").await?;
    let save = phone.find("press", "Save the colour").await?;
    ensure(save.attr("disabled").await?.is_some(), || "a refused colour can be saved".into())?;

    let unreadable: [(&str, Vec<u8>, &str); 3] = [
        ("words.jpg", b"this is no picture".to_vec(), ""),
        ("half.jpg", fs::read(&bare)?[..4000].to_vec(), ""),
        ("iphone.heic", b"\0\0\0\x18ftypheic\0\0\0\0mif1heic".to_vec(), "HEIC"),
    ];
    phone.open(&format!("{batch}?do=photo")).await?;
    for (name, bytes, words) in unreadable {
        let file = phone.folder().join(name);
        fs::write(&file, bytes)?;
        phone.attach("Choose a picture", &file).await?;
        let refused = "return document.querySelector('dialog .wrong')?.innerText || ''";
        phone
            .wait_for(name, || async {
                let said = phone.execute(refused).await?;
                Ok(said.as_str().is_some_and(|said| !said.is_empty() && said.contains(words)))
            })
            .await?;
    }
    phone.screenshot("colour-unreadable").await
}

async fn check_screen(phone: &Phone, what: &str) -> TestResult {
    check_accessibility(phone, what).await?;
    check_layout(phone, what).await
}

/// Writes a synthetic photo as a file.
fn photo_file(phone: &Phone, name: &str, scene: &Scene) -> TestResult<PathBuf> {
    let rendered = render(scene).map_err(|error| TestFailure::new(error.to_string()))?;
    let file = phone.folder().join(format!("{name}.jpg"));
    fs::write(&file, rendered.jpeg)?;
    Ok(file)
}
