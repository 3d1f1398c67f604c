//! The five places: reachable, accessible, not wider than the screen, with controls of at
//! least 48 px.

use serde_json::{Value, json};

use crate::axe::check_accessibility;
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const PLACES: [&str; 5] = ["Sink", "Mix", "Batches", "Shelf", "Help"];

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    for place in PLACES {
        phone.tap(place).await?;
        let path = format!("/{}", place.to_lowercase());
        phone.wait_for(place, || async { Ok(phone.path().await? == path) }).await?;
        wait_for_place(phone, place).await?;
        phone.screenshot(&path[1..]).await?;
        check_accessibility(phone, place).await?;
        check_layout(phone, place).await?;
    }
    // Each opens by its address too.
    for place in PLACES {
        phone.open(&format!("/{}", place.to_lowercase())).await?;
        wait_for_place(phone, place).await?;
    }
    Ok(())
}

/// Waits for the place's heading, or the one bath that fills the Sink: the previous screen stays
/// until the code of the next one is loaded, and leaving it before would abort the fetch.
pub(super) async fn wait_for_place(phone: &Phone, place: &str) -> TestResult {
    let shown = format!(
        "const main = document.querySelector('main.page'); \
         return main?.querySelector('h1')?.innerText === '{place}' \
             || '{place}' === 'Sink' && !!main?.querySelector('.ring')"
    );
    phone.wait_for(place, || async { Ok(phone.execute(&shown).await? == true) }).await
}

/// Checks that nothing is wider than the screen and controls are at least 48 px.
pub(super) async fn check_layout(phone: &Phone, place: &str) -> TestResult {
    let wider = phone.execute("return document.documentElement.scrollWidth - innerWidth").await?;
    if wider.as_i64().is_none_or(|by| by > 0) {
        let which = phone.execute(WIDE).await?;
        return Err(TestFailure::new(format!("{place} is {wider} px too wide: {which}")));
    }
    let small = phone.execute(SMALL_CONTROLS).await?;
    ensure(small == json!([]), || {
        let small = small.as_array().into_iter().flatten();
        let small: Vec<_> = small.filter_map(Value::as_str).collect();
        format!("{place} has controls under 48 px: {}", small.join(", "))
    })
}

/// Elements that extend beyond the right edge.
const WIDE: &str = r#"
    return [...document.querySelectorAll('body *')]
        .filter((e) => e.getBoundingClientRect().right > innerWidth + 0.5)
        .map((e) => `${e.tagName}.${e.className} “${(e.innerText || e.id || '').trim().slice(0, 40)}”`).slice(0, 8);
"#;

/// Buttons and fields lower or narrower than 48 px. A link within a sentence is exempt (WCAG
/// 2.2, 2.5.8, exception "inline").
const SMALL_CONTROLS: &str = r#"
    return [...document.querySelectorAll('button, select, textarea, summary, nav a, a.button, input')]
        .filter((e) => e.getClientRects().length && !e.closest('[hidden], [inert]'))
        .filter((e) => !e.matches('input[type=radio], input[type=checkbox], input[type=file]'))
        .map((e) => [e, e.getBoundingClientRect()])
        .filter(([, box]) => Math.min(box.width, box.height) < 47.5 && box.width > 1)
        .map(([e, box]) => `${e.tagName} “${(e.innerText || e.name || e.id).trim()}” ${Math.round(box.width)}x${Math.round(box.height)}`);
"#;
