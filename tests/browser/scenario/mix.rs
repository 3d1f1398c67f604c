//! Mix: the tiles, a dilution in two taps and two numbers, the answer in its bar, what was typed
//! and what was opened last; and the terms of the trade.

use serde_json::{Value, json};

use super::steps::check_screen;
use crate::engine::STANDARD_PHONE;
use crate::error::{TestResult, ensure};
use crate::layout::check_layout;
use crate::phone::Phone;

/// Address and heading.
const SUMS: [(&str, &str); 10] = [
    ("dilute", "Dilute"),
    ("dry_fibre", "Dry fibre"),
    ("ph", "pH of a liquor"),
    ("warm", "Warm water"),
    ("spoons", "Spoons and cups"),
    ("percarbonate", "Percarbonate"),
    ("cook", "Cook"),
    ("wash", "Wash"),
    ("antichlor", "Remove leftover bleach"),
    ("sheets", "Sheets"),
];

pub async fn run(phone: &mut Phone) -> TestResult {
    dilution_from_opening(phone).await?;
    wrong_input_stays_beside_its_error(phone).await?;
    last_opened_first(phone).await?;
    for (address, name) in SUMS {
        phone.open(&format!("/mix/{address}")).await?;
        phone.wait_for_text(name).await?;
        check_bar(phone, name).await?;
        check_layout(phone, name).await?;
        check_screen(phone, &format!("mix-{address}")).await?;
    }
    answers_fit(phone).await?;
    terms(phone).await?;
    long_units(phone).await
}

/// Two taps, two numbers.
async fn dilution_from_opening(phone: &Phone) -> TestResult {
    phone.open("/").await?;
    phone.tap("Mix").await?;
    phone.find("any", ".tiles").await?;
    if phone.has_whole_screen().await? {
        phone.wait_for("the tiles", || async { Ok(phone.execute(TILES).await? == 10) }).await?;
    }
    check_screen(phone, "mix-tiles").await?;
    check_layout(phone, "Mix").await?;
    phone.tap("Dilute").await?;
    phone.fill("Strength of the bottle", "5").await?;
    phone.fill("Strength you want", "0.5").await?;
    phone.wait_for_text("From the bottle 100 mL").await?;
    phone.wait_for_text("Water 900 mL").await?;
    check_bar(phone, "Dilute").await?;
    check_screen(phone, "mix-dilute-answer").await?;
    phone.tap("Range and reason").await?;
    phone.wait_for_text("Exactly 100 mL and 900 mL.").await?;
    check_screen(phone, "mix-dilute-reason").await
}

async fn wrong_input_stays_beside_its_error(phone: &Phone) -> TestResult {
    phone.fill("Strength you want", "7").await?;
    phone.wait_for_text("water cannot make it").await?;
    phone.wait_for_text_gone("From the bottle").await?;
    phone.fill("Strength you want", "some").await?;
    phone.wait_for_text("“some” does not start with a number.").await?;
    let beside = "return [...document.querySelectorAll('.field')]
        .filter((field) => field.querySelector('[aria-invalid=true]'))
        .map((field) => !!field.querySelector('.wrong'))";
    let beside = phone.execute(beside).await?;
    ensure(beside == json!([true]), || format!("errors beside their fields: {beside}"))?;
    phone.fill("Strength you want", "0,5").await?;
    phone.wait_for_text("From the bottle 100 mL").await
}

/// What was opened last is the first tile, also after a reload; what was typed is there.
async fn last_opened_first(phone: &Phone) -> TestResult {
    phone.open("/mix/warm").await?;
    phone.fill("Water", "10").await?;
    phone.wait_for_text("Hot water").await?;
    phone.tap("Back").await?;
    let first = "return document.querySelector('.tiles a')?.innerText.trim()";
    let is_first = |name: &'static str| async move { Ok(phone.execute(first).await? == name) };
    phone.wait_for("the last sum first", || is_first("Warm water")).await?;
    phone.open("/mix").await?;
    phone.wait_for("the last sum first, after a reload", || is_first("Warm water")).await?;
    phone.tap("Dilute").await?;
    phone.wait_for_text("From the bottle 100 mL").await?;
    let typed = phone.value("Strength you want").await?;
    ensure(typed == "0,5", || format!("“0,5” was typed, “{typed}” is there"))?;
    phone.open("/mix/warm").await?;
    ensure(phone.value("Water").await? == "10", || "the water was lost".to_owned())
}

/// Answers of sums with much to say leave the inputs in sight.
async fn answers_fit(phone: &Phone) -> TestResult {
    phone.open("/mix/wash").await?;
    phone.fill("Weight of the squeezed pulp", "1 kg").await?;
    phone.fill("Dryness after squeezing", "20").await?;
    phone.fill("pH of the liquor in the pulp", "10").await?;
    phone.fill("Water for each rinse", "5").await?;
    phone.wait_for_text("Number of rinses").await?;
    check_bar(phone, "Wash").await?;
    check_screen(phone, "mix-wash-answer").await?;
    phone.tap("Range and reason").await?;
    phone.wait_for_text("What to expect after each rinse").await?;
    check_bar(phone, "Wash").await?;
    check_screen(phone, "mix-wash-reason").await?;
    phone.open("/mix/sheets").await?;
    phone.fill("Dry pulp", "200").await?;
    phone.tap("A4").await?;
    phone.wait_for_text("Range and reason").await?;
    check_bar(phone, "Sheets").await?;
    check_screen(phone, "mix-sheets-answer").await
}

/// Beside the longest unit of its kind, a number keeps its room.
async fn long_units(phone: &Phone) -> TestResult {
    let mut longest = 0;
    for (address, name) in SUMS {
        phone.open(&format!("/mix/{address}")).await?;
        phone.wait_for_text(name).await?;
        let chosen = phone.execute(LONGEST_UNITS).await?;
        longest = longest.max(chosen.as_u64().unwrap_or_default());
        check_layout(phone, &format!("{name}, with long units")).await?;
        phone.screenshot(&format!("mix-{address}-long-units")).await?;
    }
    ensure(longest >= 5, || format!("the longest unit has {longest} letters"))
}

/// A term is explained where it stands, and in Help.
async fn terms(phone: &Phone) -> TestResult {
    phone.open("/mix/dilute").await?;
    phone.wait_for_text_gone("The bleaching power of chlorine bleach").await?;
    phone.tap("available chlorine?").await?;
    phone.wait_for_text("The bleaching power of chlorine bleach").await?;
    check_screen(phone, "term-open").await?;
    phone.tap("All terms").await?;
    phone.wait_for_text("To press a new sheet from the mould onto a felt.").await?;
    check_layout(phone, "Glossary").await?;
    check_screen(phone, "glossary").await
}

/// The bar is whole in sight, above the navigation, without scrolling; on a common phone the
/// first two fields are in sight with it, but for a sum that begins with a long choice.
async fn check_bar(phone: &Phone, sum: &str) -> TestResult {
    phone.find("any", ".answer-bar .answer").await?;
    phone.execute("scrollTo(0, 0)").await?;
    let seen = phone.execute(BAR).await?;
    let is = |name: &str| seen[name] == Value::Bool(true);
    ensure(is("whole"), || format!("{sum}: the answer's bar is not in sight: {seen}"))?;
    let long = sum == "Remove leftover bleach" || phone.size != STANDARD_PHONE;
    let fields = long || is("open") || is("fields");
    ensure(fields, || format!("{sum}: fields are below the bar: {seen}"))
}

/// Chooses the longest unit of each field; returns the most letters of one.
const LONGEST_UNITS: &str = r"
    const lists = [...document.querySelectorAll('.bench select.unit')];
    return Math.max(0, ...lists.map((list) => {
        const longest = [...list.options].sort((a, b) => b.text.length - a.text.length)[0];
        list.value = longest.value;
        list.dispatchEvent(new Event('change', { bubbles: true }));
        return longest.text.length;
    }));
";

const TILES: &str = r"
    const screen = document.querySelector('.places')?.getBoundingClientRect().top;
    return [...document.querySelectorAll('.tiles a svg')]
        .filter((tile) => tile.closest('a').getBoundingClientRect().bottom <= screen).length;
";

const BAR: &str = r"
    const bar = document.querySelector('.answer-bar').getBoundingClientRect();
    const places = document.querySelector('.places').getBoundingClientRect();
    const fields = [...document.querySelectorAll('.bench .field input')].slice(0, 2)
        .map((field) => field.getBoundingClientRect().bottom);
    return {
        whole: bar.top >= 0 && bar.height > 40 && bar.bottom <= places.top + 2,
        open: !!document.querySelector('.answer-bar.open'),
        fields: fields.every((bottom) => bottom <= bar.top),
        bar: [bar.top, bar.bottom], places: places.top, bottoms: fields,
    };
";
