//! "What happens if I leave it another half hour?": the first bath ever has wide bands and assumes
//! much; readings narrow them at once; an exhausted bath, a falling pH and a cooling bucket each
//! have their one advice. Without a network as well.

use std::time::Duration;

use super::steps::{begin_batch, check_screen, is_open, save, set_clock, start_bath};
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    planned(phone).await?;
    first_ever(phone).await?;
    narrowed(phone).await?;
    cooling(phone).await?;
    falling_ph(phone).await?;
    exhausted(phone).await?;
    offline(phone).await
}

/// The third step of the plan has it in one line.
async fn planned(phone: &Phone) -> TestResult {
    begin_batch(phone, "Iris, first").await?;
    phone.tap("% NaOCl by mass (w/w)").await?;
    phone.fill("Strength of the bottle", "5").await?;
    super::steps::go_to_step(phone, "Bath").await?;
    phone.wait_for_text("once dry, damage").await?;
    check_screen(phone, "forecast-plan").await
}

/// Nothing was read or photographed: the band is wide, and says what it assumes.
async fn first_ever(phone: &Phone) -> TestResult {
    start_bath(phone).await?;
    phone.wait_for_text("In 30 min: lightness").await?;
    wait_for_other_advice(phone, "Calculating").await?;
    check_screen(phone, "forecast-first").await?;
    open_sheet(phone).await?;
    phone.wait_for_text("No target colour is chosen").await?;
    phone.tap("What it rests on").await?;
    phone.wait_for_text("the colour of the pulp before the bath").await?;
    phone.tap("As a table").await?;
    check_screen(phone, "forecast-sheet").await?;
    close(phone).await?;
    phone.execute("document.documentElement.setAttribute('data-look', 'dark')").await?;
    open_sheet(phone).await?;
    check_screen(phone, "forecast-sheet-dark").await?;
    close(phone).await?;
    phone.screenshot("forecast-first-dark").await?;
    phone.execute("document.documentElement.removeAttribute('data-look')").await?;
    Ok(())
}

/// A reading narrows the band of its quantity at once. A strip for chlorine, a quarter either way,
/// tells less than a tested bottle in the first minutes: it is shown, and narrows nothing yet.
async fn narrowed(phone: &Phone) -> TestResult {
    later(phone, 12).await?;
    phone.wait_for_text("In 30 min: lightness").await?;
    let before = ph_width(phone).await?;
    check(phone, &[("pH", "10.6"), ("Chlorine strip", "700"), ("Temperature", "38")]).await?;
    phone.wait_for_text("700 mg/L").await?;
    let narrower = phone
        .wait_for("a narrower band of pH", || async { Ok(ph_width(phone).await? < 0.8 * before) });
    let narrower = narrower.await;
    narrower.map_err(|failure| TestFailure::new(format!("{failure}: {before} before")))?;
    open_sheet(phone).await?;
    check_screen(phone, "forecast-narrowed").await?;
    close(phone).await
}

/// Below its range the bath is to be warmed, never above it, and the sheet says with how much.
async fn cooling(phone: &Phone) -> TestResult {
    later(phone, 20).await?;
    let read = [("pH", "10.5"), ("Temperature", "31")];
    check_by(phone, &read, "A meter").await?;
    wait_for_advice(phone, "Warm it to 38 °C").await?;
    check_screen(phone, "forecast-cold").await?;
    phone.press("Reheated").await?;
    phone.wait_for_text("It is below").await?;
    phone.tap("With hot water").await?;
    phone.wait_for_text("it comes to 38 °C").await?;
    phone.tap("In a water bath").await?;
    phone.wait_for_text("in the water bath, stirring").await?;
    phone.fill("Temperature of the hot water", "30").await?;
    phone.wait_for_text("30 °C").await?;
    phone.tap("Vessel and room").await?;
    phone.tap("Save vessel and room").await?;
    phone.wait_for_text("Choose at least one of these.").await?;
    check_screen(phone, "forecast-warm").await?;
    phone.tap("Lid on").await?;
    phone.tap("Bucket or pot").await?;
    phone.tap("Plastic").await?;
    save(phone, "Save vessel and room").await?;
    phone.wait_for_text("Vessel saved.").await?;
    phone.press("Reheated").await?;
    phone.fill("Warmed to", "38").await?;
    save(phone, "Save").await?;
    wait_for_other_advice(phone, "Warm it to").await
}

/// Soda is weighed out for the whole bath, with the time that is left.
async fn falling_ph(phone: &Phone) -> TestResult {
    later(phone, 26).await?;
    check_by(phone, &[("pH", "9.3")], "A meter").await?;
    wait_for_advice(phone, "soda ash before").await?;
    check_screen(phone, "forecast-soda").await?;
    open_sheet(phone).await?;
    phone.wait_for_text("It cannot bring the pH above 11.0").await?;
    check_screen(phone, "forecast-soda-sheet").await?;
    close(phone).await
}

/// Nothing is left: more time adds nothing. A danger on the screen would stand above it.
async fn exhausted(phone: &Phone) -> TestResult {
    later(phone, 40).await?;
    check_by(phone, &[("pH", "10.2"), ("Chlorine strip", "2")], "A meter").await?;
    wait_for_advice(phone, "the bleach is probably used up").await?;
    check_screen(phone, "forecast-exhausted").await
}

/// Made on the phone: it is there without a network too.
async fn offline(phone: &mut Phone) -> TestResult {
    phone.wait_until_offline_ready().await?;
    phone.restart_browser().await?;
    phone.server.stop();
    phone.open("/sink").await?;
    phone.wait_for_text("once dry, damage").await?;
    phone.screenshot("forecast-offline").await?;
    phone.server.resume()
}

/// Sets the clock on. The Sink looks at it each second: by then the large button is another.
pub async fn later(phone: &Phone, minutes: i64) -> TestResult {
    set_clock(phone, minutes).await?;
    tokio::time::sleep(Duration::from_millis(1500)).await;
    Ok(())
}

/// Saves a check with strips.
pub async fn check(phone: &Phone, fields: &[(&str, &str)]) -> TestResult {
    check_by(phone, fields, "A strip").await
}

async fn check_by(phone: &Phone, fields: &[(&str, &str)], by: &str) -> TestResult {
    let due = "return [...document.querySelectorAll('.small-acts button')] \
         .some((act) => act.textContent.trim() === 'Check')";
    let small = phone.execute(due).await? == true;
    phone.press(if small { "Check" } else { "Check now" }).await?;
    phone.wait_for("the sheet of a check", || is_open(phone)).await?;
    for (field, text) in fields {
        phone.fill(field, text).await?;
    }
    if fields.iter().any(|(field, _)| *field == "pH") {
        phone.tap(by).await?;
    }
    save(phone, "Save the check").await
}

pub async fn open_sheet(phone: &Phone) -> TestResult {
    phone.press_on(".outlook").await?;
    phone.wait_for("the sheet of the forecast", || is_open(phone)).await?;
    phone.wait_for_text("Chain length that the fibre may lose").await
}

pub async fn close(phone: &Phone) -> TestResult {
    save(phone, "Close").await
}

async fn advice(phone: &Phone) -> TestResult<String> {
    let text = "return document.querySelector('.outlook .advice')?.textContent ?? ''";
    Ok(phone.execute(text).await?.as_str().unwrap_or_default().to_owned())
}

async fn wait_for_advice(phone: &Phone, words: &str) -> TestResult {
    let seen = std::cell::RefCell::new(String::new());
    let waited = phone
        .wait_for(words, || async {
            let advice = advice(phone).await?;
            let found = advice.contains(words);
            seen.replace(advice);
            Ok(found)
        })
        .await;
    waited.map_err(|failure| TestFailure::new(format!("{failure}; it says “{}”", seen.take())))
}

async fn wait_for_other_advice(phone: &Phone, words: &str) -> TestResult {
    phone
        .wait_for(&format!("other advice than “{words}”"), || async {
            let advice = advice(phone).await?;
            Ok(!advice.is_empty() && !advice.contains(words))
        })
        .await
}

/// Width of the present 80 % range of pH, from the table on the sheet.
async fn ph_width(phone: &Phone) -> TestResult<f64> {
    open_sheet(phone).await?;
    // The table is made anew by each update.
    let width = std::cell::Cell::new(None);
    let shown = phone
        .wait_for("the range of pH", || async {
            width.set(phone.execute(PH_WIDTH).await?.as_f64());
            Ok(width.get().is_some())
        })
        .await;
    close(phone).await?;
    shown?;
    width.get().ok_or_else(|| TestFailure::new("no range of pH"))
}

const PH_WIDTH: &str = "\
    const row = [...document.querySelectorAll('.forecast-table tr')] \
        .find((row) => row.cells[0].textContent.startsWith('pH')); \
    const ends = row?.cells[1].textContent.split('–').map(Number); \
    return ends ? ends.at(-1) - ends[0] : null";
