//! Teaching the phone, in the demo studio: a chart is photographed and taught, a photo that is no
//! chart is refused with what to do, and the next measured colour keeps both figures.

use std::fs;
use std::path::PathBuf;

use bleachfield_demo::photo::preset::{DemoFibre, Lighting, photo, studio_phone};
use bleachfield_demo::photo::{Scene, render};

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
    phone.open("/colour/teach").await?;
    phone.wait_for_text("Teach this phone").await?;
    phone.screenshot("teach-start").await?;

    let pulp = photo(DemoFibre::CattailLeaf, 0.3, false, Lighting::Overcast, 43);
    let file = photo_file(phone, "no-chart", &pulp)?;
    phone.attach("Choose a picture", &file).await?;
    phone.wait_for_text("Nothing learnt from this photo").await?;
    phone.screenshot("teach-refused").await?;

    let chart = Scene { camera: studio_phone(), ..Scene::chart(2.0, 44) };
    let file = photo_file(phone, "chart", &chart)?;
    phone.attach("Choose a picture", &file).await?;
    phone.wait_for_text("Learnt: pulp colours come within").await?;
    phone.screenshot("teach-learnt").await?;
    check_layout(phone, "teaching").await?;
    check_accessibility(phone, "teaching").await?;
    phone.tap("Teach this phone").await?;
    phone.wait_for_text("Taught on").await?;

    phone.open("/batches").await?;
    phone.wait_for("the book", || async { Ok(phone.execute(FIND_BATCH).await? == true) }).await?;
    phone.wait_for_text("Colour over time").await?;
    let file = photo_file(phone, "sheet", &pulp)?;
    phone.tap("Photo").await?;
    phone.attach("Choose a picture", &file).await?;
    phone.wait_for_text("1200 × 900").await?;
    phone.tap("Dried").await?;
    phone.tap("Save and measure its colour").await?;
    phone.wait_for_text("Figures").await?;
    phone.tap("Figures").await?;
    phone.wait_for_text("Without what the phone was taught").await?;
    phone.screenshot("teach-used").await?;
    let text = phone.execute("return document.body.innerText").await?;
    let offered = text.as_str().is_some_and(|text| text.contains("Teach this phone, for"));
    ensure(!offered, || "teaching is offered although it was done".to_owned())
}

fn photo_file(phone: &Phone, name: &str, scene: &Scene) -> TestResult<PathBuf> {
    let rendered = render(scene).map_err(|error| TestFailure::new(error.to_string()))?;
    let file = phone.folder().join(format!("{name}.jpg"));
    fs::write(&file, rendered.jpeg)?;
    Ok(file)
}
