//! A photo that was just taken is measured at once, as it is most likely to be asked for: with
//! the marks as they were found, and the references and the light as last time.

use std::cell::RefCell;

use bleachfield_core::colour::reference::Light;
use js_sys::Promise;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, future_to_promise};

use super::{
    ask::heard,
    message::{Answer, ColourAsked, ColourFound, Looked},
};

/// What is measured before anybody asked, and what came of it.
struct Ahead {
    looked: Looked,
    asked: ColourAsked,
    coming: Promise,
    found: Option<ColourFound>,
}

thread_local! {
    static AHEAD: RefCell<Option<Ahead>> = const { RefCell::new(None) };
    /// What was asked last.
    static LAST: RefCell<Option<ColourAsked>> = const { RefCell::new(None) };
}

/// What will be asked of a photo that is being taken, but for the photo and its marks.
pub fn likely() -> ColourAsked {
    let (white, grey, light) = LAST.with_borrow(|last| match last {
        Some(last) => (last.white, last.grey, last.light),
        None => (None, None, Light::Daylight),
    });
    ColourAsked { photo: String::new(), marks: Vec::new(), white, grey, light }
}

/// Keeps what comes of a photo that was looked at and is being measured.
pub fn keep(asked: ColourAsked, looked: Looked, coming: Promise) {
    let same = asked.clone();
    let coming = future_to_promise(async move {
        if let Ok((Answer::Colour(found), _)) = heard(coming).await {
            AHEAD.with_borrow_mut(|ahead| {
                if let Some(ahead) = ahead.as_mut().filter(|ahead| ahead.asked == same) {
                    ahead.found = Some(*found);
                }
            });
        }
        Ok(JsValue::UNDEFINED)
    });
    AHEAD.set(Some(Ahead { looked, asked, coming, found: None }));
}

/// What was seen of the photo, if it is the one last taken.
pub fn looked(photo: &str) -> Option<Looked> {
    AHEAD.with_borrow(|ahead| {
        ahead.as_ref().filter(|ahead| ahead.asked.photo == photo).map(|ahead| ahead.looked.clone())
    })
}

/// What came of it, if just that was likely to be asked.
pub async fn found(asked: &ColourAsked) -> Option<ColourFound> {
    LAST.set(Some(asked.clone()));
    let same = |ahead: &&Ahead| ahead.asked == *asked;
    let coming =
        AHEAD.with_borrow(|ahead| ahead.as_ref().filter(same).map(|ahead| ahead.coming.clone()))?;
    let found =
        || AHEAD.with_borrow(|ahead| ahead.as_ref().filter(same).and_then(|a| a.found.clone()));
    if let Some(found) = found() {
        return Some(found);
    }
    let _ = JsFuture::from(coming).await;
    found()
}
