//! The five places: reachable, accessible, not wider than the screen, with controls of at
//! least 48 px.

use crate::axe::check_accessibility;
use crate::error::TestResult;
use crate::layout::check_layout;
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
