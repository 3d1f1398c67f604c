//! The screens that are looked at: every route, sum, form and sheet of the app, with an empty
//! book and with the demo studio's. A test holds the list against the app's own enums.

use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;

/// A screen, and how it is reached.
#[derive(Clone, Copy, Debug)]
pub struct Screen {
    /// Also its picture's file name.
    pub name: &'static str,
    /// The variant of an enum of the app that it shows, such as `Route::Shelf`.
    pub shows: &'static str,
    /// Its address; `{running}` and the like stand for ids of the demo's book.
    pub path: &'static str,
    /// What is then pressed to open a sheet.
    pub press: Option<&'static str>,
    /// Empty where the book must hold something.
    pub books: &'static [Book],
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Book {
    Empty,
    Demo,
}

impl Book {
    pub fn name(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::Demo => "demo",
        }
    }
}

/// With either book.
const fn both(name: &'static str, shows: &'static str, path: &'static str) -> Screen {
    Screen { name, shows, path, press: None, books: &[Book::Empty, Book::Demo] }
}

const fn empty(name: &'static str, shows: &'static str, path: &'static str) -> Screen {
    Screen { name, shows, path, press: None, books: &[Book::Empty] }
}

const fn demo(name: &'static str, shows: &'static str, path: &'static str) -> Screen {
    Screen { name, shows, path, press: None, books: &[Book::Demo] }
}

/// A sheet that a press opens, with the demo's book.
const fn sheet(
    name: &'static str,
    shows: &'static str,
    path: &'static str,
    press: &'static str,
) -> Screen {
    Screen { name, shows, path, press: Some(press), books: &[Book::Demo] }
}

pub const ALL: &[Screen] = &[
    both("sink", "Route::Sink", "/sink"),
    demo("bath", "Route::Bath", "/sink?bath={running}"),
    sheet("bath-check", "SheetKind::Check", "/sink?bath={running}", "Check now"),
    sheet("bath-add", "SheetKind::Addition", "/sink?bath={running}", "Add"),
    sheet("bath-reheated", "SheetKind::Reheat", "/sink?bath={running}", "Reheated"),
    sheet("bath-times", "SheetKind::Schedule", "/sink?bath={running}", "Times"),
    sheet("bath-forecast", "SheetKind::Forecast", "/sink?bath={running}", FORECAST),
    sheet("bath-stop", "SheetKind::Stop", "/sink?bath={running}", STOP),
    both("mix", "Route::Calculator", "/mix"),
    empty("mix-dilute", "Sum::Dilute", "/mix/dilute"),
    empty("mix-dry-fibre", "Sum::DryFibre", "/mix/dry_fibre"),
    empty("mix-ph", "Sum::Ph", "/mix/ph"),
    empty("mix-warm", "Sum::Warm", "/mix/warm"),
    empty("mix-spoons", "Sum::Spoons", "/mix/spoons"),
    empty("mix-percarbonate", "Sum::Percarbonate", "/mix/percarbonate"),
    empty("mix-cook", "Sum::Cook", "/mix/cook"),
    both("mix-wash", "Sum::Wash", "/mix/wash"),
    empty("mix-antichlor", "Sum::Antichlor", "/mix/antichlor"),
    both("mix-sheets", "Sum::Sheets", "/mix/sheets"),
    both("batches", "Route::Batches", "/batches"),
    demo("batches-filtered", "Route::Batches", "/batches?q=a&sort=yield&oxidant=hypochlorite"),
    demo("batches-choose", "Route::Batches", "/batches?compare={stored}.{oldest}"),
    demo("compare", "Route::Compare", "/batches/compare?of={stored}.{oldest}.{clean}"),
    empty("compare-none", "Route::Compare", "/batches/compare?of="),
    both("season", "Route::Season", "/batches/season"),
    both("new-batch", "Route::NewBatch", "/batches/new"),
    both("send", "Route::Send", "/batches/send"),
    demo("send-batch", "Route::Send", "/batches/send?batch={stored}"),
    both("import", "Route::Import", "/batches/take"),
    both("yellowing", "Route::Yellowing", "/batches/yellowing"),
    demo("batch-planned", "Route::Batch", "/batch/{planning}"),
    demo("batch-running", "Route::Batch", "/batch/{running}"),
    demo("batch-washing", "Route::Batch", "/batch/{washing}"),
    demo("batch-stored", "Route::Batch", "/batch/{stored}"),
    demo("batch-clean", "Route::Batch", "/batch/{clean}"),
    demo("batch-abandoned", "Route::Batch", "/batch/{given_up}"),
    demo("form-cook", "BatchForm::Cook", "/batch/{planning}?do=cook"),
    demo("form-weigh", "BatchForm::Weigh", "/batch/{planning}?do=weigh"),
    demo("form-reading", "BatchForm::Reading", "/batch/{running}?do=reading"),
    demo("form-photo", "BatchForm::Photo", "/batch/{running}?do=photo"),
    demo("form-note", "BatchForm::Note", "/batch/{running}?do=note"),
    demo("form-rinse", "BatchForm::Rinse", "/batch/{washing}?do=rinse"),
    demo("form-antichlor", "BatchForm::Antichlor", "/batch/{washing}?do=antichlor"),
    demo("form-end-test", "BatchForm::EndTest", "/batch/{washing}?do=end_test"),
    demo("form-acid", "BatchForm::Acid", "/batch/{washing}?do=acid"),
    demo("form-reserve", "BatchForm::Reserve", "/batch/{washing}?do=reserve"),
    demo("form-sign-off", "BatchForm::SignOff", "/batch/{washing}?do=sign_off"),
    demo("form-store", "BatchForm::Store", "/batch/{washing}?do=store"),
    demo("form-sheets", "BatchForm::Sheets", "/batch/{stored}?do=sheets"),
    demo("form-rename", "BatchForm::Rename", "/batch/{stored}?do=rename"),
    demo("form-tags", "BatchForm::Tags", "/batch/{stored}?do=tags"),
    demo("form-abandon", "BatchForm::Abandon", "/batch/{planning}?do=give_up"),
    sheet("form-entry", "BatchForm::Entry", "/batch/{washing}", ENTRY),
    sheet("form-correct", "BatchForm::Correct", "/batch/{running}", CORRECT),
    demo("batch-label", "Route::BatchLabel", "/batch/{stored}/label"),
    empty("plan", "Route::NewPlan", "/plan"),
    demo("plan-again", "Route::PlanAgain", "/plan?again={stored}"),
    demo("plan-kept", "Route::Plan", "/batch/{planning}/plan"),
    demo("plan-begun", "Route::StartPlan", STARTED_PLAN),
    demo("ways", "Route::WaysToColour", "/batch/{planning}/ways"),
    demo("new-trial", "Route::NewTrial", "/batch/{planning}/trial"),
    demo("trial-unknown", "Route::Trial", "/trial/01JZZZZZZZZZZZZZZZZZZZZZZ1"),
    demo("plan-pulp", "Route::ChangePlan", "/batch/{planning}/plan?do=change&step=pulp"),
    demo("plan-bleach", "Route::ChangePlan", "/batch/{planning}/plan?do=change&step=bleach"),
    demo("plan-bath", "Route::ChangePlan", "/batch/{planning}/plan?do=change&step=bath"),
    demo("plan-measure", "Route::ChangePlan", "/batch/{planning}/plan?do=change&step=measure"),
    demo("colour", "Route::Colour", "/batch/{oldest}/colour"),
    demo("colour-target", "Route::ColourTarget", "/batch/{oldest}/colour/target"),
    demo("colour-compare", "Route::ColourCompare", "/batch/{oldest}/colour/compare"),
    demo("colour-measure", "Route::ColourMeasure", "/batch/{oldest}/colour/measure?photo={photo}"),
    both("colour-teach", "Route::Teach", "/colour/teach"),
    both("class-sheet", "Route::ClassSheet", "/class_sheet"),
    both("lots", "Route::Lots", "/lots"),
    demo("lot", "Route::Lot", "/lot/{lot}"),
    demo("lot-label", "Route::LotLabel", "/lot/{lot}/label"),
    both("shelf", "Route::Shelf", "/shelf"),
    both("new-product", "Route::NewProduct", "/shelf/new"),
    demo("product", "Route::Product", "/shelf/{bleach}"),
    demo("titrate", "Route::Titrate", "/shelf/{bleach}/titrate"),
    sheet("product-opened", "ProductForm::Opened", "/shelf/{unopened}", "Opened"),
    sheet("product-strip", "ProductForm::Strip", "/shelf/{bleach}", "Strip test"),
    sheet("product-used-up", "ProductForm::UsedUp", "/shelf/{bleach}", "Used up"),
    sheet("product-note", "ProductForm::Note", "/shelf/{bleach}", "Note"),
    sheet("product-rename", "ProductForm::Rename", "/shelf/{bleach}", "Rename"),
    both("help", "Route::Help", "/help"),
    both("preferences", "Route::Preferences", "/help/preferences"),
    both("glossary", "Route::Glossary", "/help/glossary"),
    both("rests-on", "Route::RestsOn", "/help/rests_on"),
    empty("nowhere", "none", "/nowhere"),
];

/// A plan with proposed values, as a way to a colour begins it.
const STARTED_PLAN: &str =
    "/batch/{planning}/plan?bleach={bleach}&charge=150&celsius=380&minutes=60&consistency=500";

/// The line of the forecast, whose words change.
pub const FORECAST: &str = "#forecast";
/// The stop of a bath without holding it, which asks first.
pub const STOP: &str = "#stop";
/// The first entry of the timeline.
pub const ENTRY: &str = "#entry";
/// The correction of it.
pub const CORRECT: &str = "#correct";

/// Ids of the demo's book, by the names that stand in addresses.
pub struct Ids(Vec<(&'static str, String)>);

impl Ids {
    /// None: of an empty book.
    pub fn none() -> Self {
        Self(Vec::new())
    }

    /// Reads them from the links of the demo's lists.
    pub async fn of_demo(phone: &Phone) -> TestResult<Self> {
        let mut ids = Vec::new();
        phone.open("/batches").await?;
        phone.find("any", ".batch-card").await?;
        for state in ["planning", "running", "washing", "clean", "stored", "given_up"] {
            let card = format!("a.batch-card:has(.state.{state})");
            ids.push((state, id_of(phone, &card).await?));
        }
        // The oldest has a whole season of photos.
        let oldest = id_of(phone, ".cards > li:last-child > a.batch-card").await?;
        ids.push(("oldest", oldest.clone()));
        phone.open("/lots").await?;
        ids.push(("lot", id_of(phone, "a[href*='/lot/']").await?));
        phone.open("/shelf").await?;
        phone.find("any", "a.card[href*='/shelf/']").await?;
        for (name, sought) in [("bleach", "Titration"), ("unopened", "Opened")] {
            ids.push((name, product_with(phone, sought).await?));
        }
        let photo = phone.execute_async(&PHOTO_OF.replace("BATCH", &oldest)).await?;
        let photo = photo.as_str().filter(|id| id.len() == 64);
        let photo = photo.ok_or_else(|| TestFailure::new("the oldest batch has no photo"))?;
        ids.push(("photo", photo.to_owned()));
        Ok(Self(ids))
    }

    /// The address with its ids.
    pub fn fill(&self, path: &str) -> String {
        self.0
            .iter()
            .fold(path.to_owned(), |path, (name, id)| path.replace(&format!("{{{name}}}"), id))
    }
}

/// The id in the address of the first link that the selector matches.
async fn id_of(phone: &Phone, link: &str) -> TestResult<String> {
    let href = phone.find("any", link).await?.attr("href").await?.unwrap_or_default();
    let id = href.rsplit('/').next().filter(|id| id.len() == 26);
    id.map(str::to_owned).ok_or_else(|| TestFailure::new(format!("no id in {href} of {link}")))
}

/// The first product of the shelf whose page has an act of that name.
async fn product_with(phone: &Phone, act: &str) -> TestResult<String> {
    let links = "return [...document.querySelectorAll(\"a.card[href*='/shelf/']\")]
        .map((a) => a.getAttribute('href')).filter((href) => href.split('/').pop().length === 26)";
    phone.open("/shelf").await?;
    phone.find("any", "a.card[href*='/shelf/']").await?;
    let links = phone.execute(links).await?;
    for href in links.as_array().into_iter().flatten().filter_map(|href| href.as_str()) {
        phone.open(href).await?;
        phone.find("any", "main nav.row").await?;
        let has = format!(
            "return [...document.querySelectorAll('main nav.row > *')]
                .some((e) => e.textContent.trim().startsWith('{act}'))"
        );
        if phone.execute(&has).await? == true {
            return Ok(href.rsplit('/').next().unwrap_or_default().to_owned());
        }
    }
    Err(TestFailure::new(format!("no product of the demo can be {act}")))
}

/// The id of a photo of the demo's batch.
const PHOTO_OF: &str = r"
    const done = (request) => new Promise((ok, no) => { request.onsuccess = () => ok(request.result); request.onerror = no; });
    const db = await done(indexedDB.open('bleachfield-demo'));
    const entries = await done(db.transaction('entries').objectStore('entries').getAll());
    db.close();
    const photos = entries.filter(({ text }) => text.includes('BATCH')).map(({ text }) => JSON.parse(text).body);
    return photos.find((body) => body.kind === 'photo')?.photo;
";

#[cfg(test)]
mod tests {
    use super::*;

    /// The names of an enum's variants, from its source.
    fn variants(source: &str, of: &str) -> Vec<String> {
        let body = source.split_once(&format!("pub enum {of} {{")).map(|(_, rest)| rest);
        let body = body.and_then(|rest| rest.split_once("\n}")).map(|(body, _)| body);
        let lines = body.unwrap_or_default().lines().filter_map(|line| line.strip_prefix("    "));
        let named = lines.filter(|line| line.starts_with(|first: char| first.is_ascii_uppercase()));
        named.map(|line| line.chars().take_while(char::is_ascii_alphanumeric).collect()).collect()
    }

    #[test]
    fn every_route_sum_form_and_sheet_of_the_app_is_looked_at() {
        let sources = [
            ("Route", include_str!("../../../app/src/route/mod.rs")),
            ("Sum", include_str!("../../../app/src/route/mod.rs")),
            ("BatchForm", include_str!("../../../app/src/route/batch_form.rs")),
            ("SheetKind", include_str!("../../../app/src/screens/sink/sheets.rs")),
            ("ProductForm", include_str!("../../../app/src/screens/shelf/form.rs")),
        ];
        // A route of sums is looked at by each of them; the answer to a stop is asked as it is
        // before one.
        let by_others = ["Route::Sum", "SheetKind::StopReason"];
        for (name, source) in sources {
            let variants = variants(source, name);
            assert!(variants.len() > 3, "{name}: {variants:?}");
            for variant in variants {
                let shown = format!("{name}::{variant}");
                let is_there = ALL.iter().any(|screen| screen.shows == shown);
                assert!(is_there || by_others.contains(&&*shown), "no screen shows {shown}");
            }
        }
    }

    #[test]
    fn names_are_of_one_screen_each() {
        for (nth, screen) in ALL.iter().enumerate() {
            assert!(ALL[..nth].iter().all(|other| other.name != screen.name), "{}", screen.name);
        }
    }
}
