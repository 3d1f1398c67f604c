//! The app gets onto the home screen: by the browser's own question where it has one, by hand
//! elsewhere; offered once after the first batch, and not where it is there already.

use super::places::wait_for_place;
use super::steps::{begin_batch, check_screen, go_to_place};
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

const OFFER: &str = "Your first batch is saved.";

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    phone.execute(OFFERED_BY_BROWSER).await?;
    phone.tap("Batches").await?;
    wait_for_place(phone, "Batches").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains(OFFER), || "offered before there is a batch".to_owned())?;
    begin_batch(phone, "The first").await?;
    go_to_place(phone, "Batches").await?;
    wait_for_place(phone, "Batches").await?;
    phone.wait_for_text(OFFER).await?;
    check_screen(phone, "install-offer").await?;
    phone.tap("Show how").await?;
    wait_for_place(phone, "Help").await?;
    phone.tap("Put it on this phone").await?;
    phone
        .wait_for("the browser to ask", || async {
            Ok(phone.execute("return window.asked === true").await? == true)
        })
        .await?;
    phone.execute(OFFERED_BY_NONE).await?;
    phone.execute("dispatchEvent(new Event('appinstalled'))").await?;
    phone.wait_for_text("open the browser's menu").await?;

    // Once is enough, also after a reload.
    phone.open("/").await?;
    phone.execute(OFFERED_BY_BROWSER).await?;
    phone.tap("Batches").await?;
    phone.wait_for_text("The first").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains(OFFER), || "offered twice".to_owned())?;
    by_hand(phone).await
}

/// As on an iPhone, which has the property and no question.
async fn by_hand(phone: &Phone) -> TestResult {
    phone.open("/mix").await?;
    phone.execute(OFFERED_BY_NONE).await?;
    set_standalone(phone, false).await?;
    phone.tap("Help").await?;
    phone.wait_for_text("Press Share").await?;
    phone.execute("document.getElementById('install').scrollIntoView()").await?;
    check_screen(phone, "install-by-hand").await?;
    phone.execute("document.documentElement.setAttribute('data-look', 'dark')").await?;
    phone.screenshot("install-by-hand-dark").await?;
    phone.tap("Mix").await?;
    wait_for_place(phone, "Mix").await?;
    set_standalone(phone, true).await?;
    phone.tap("Help").await?;
    wait_for_place(phone, "Help").await?;
    let text = phone.screen_text().await?;
    ensure(!text.contains("Put it on this phone"), || "it is there already".to_owned())
}

async fn set_standalone(phone: &Phone, value: bool) -> TestResult {
    let set =
        "Object.defineProperty(navigator, 'standalone', { configurable: true, value: VALUE })";
    phone.execute(&set.replace("VALUE", &value.to_string())).await?;
    Ok(())
}

/// Chromium's own event comes whenever it has checked the manifest: the page is shown this one.
const OFFERED_BY_BROWSER: &str = "const event = new Event('beforeinstallprompt', { cancelable: true }); \
    event.prompt = () => { window.asked = true; return Promise.resolve({ outcome: 'accepted' }); }; \
    let kept; Object.defineProperty(window, 'bleachfieldInstall', { configurable: true, \
        get: () => kept && event, set: (value) => { kept = value; } }); \
    window.dispatchEvent(event)";

/// As in a browser without that event.
const OFFERED_BY_NONE: &str = "Object.defineProperty(window, 'bleachfieldInstall', { configurable: true, \
    get: () => undefined, set: () => {} })";
