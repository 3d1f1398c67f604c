//! A photo that was just taken is measured at once, as it is most likely to be asked for: with
//! the marks as they were found, and the references and the light as last time.

use std::cell::RefCell;

use bleachfield_core::colour::reference::Light;

use super::message::{ColourAsked, ColourFound, Looked};

/// What was measured before anybody asked, and what came of it.
struct Ahead {
    looked: Looked,
    asked: ColourAsked,
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

/// Keeps what was found in a photo by what was likely to be asked.
pub fn keep(photo: String, likely: ColourAsked, looked: Looked, found: Option<ColourFound>) {
    let asked = ColourAsked { photo, marks: looked.proposed.clone(), ..likely };
    AHEAD.set(Some(Ahead { looked, asked, found }));
}

/// What was seen of the photo, if it is the one last taken.
pub fn looked(photo: &str) -> Option<Looked> {
    AHEAD.with_borrow(|ahead| {
        ahead.as_ref().filter(|ahead| ahead.asked.photo == photo).map(|ahead| ahead.looked.clone())
    })
}

/// What came of it, if just that was likely to be asked.
pub fn found(asked: &ColourAsked) -> Option<ColourFound> {
    LAST.set(Some(asked.clone()));
    AHEAD.with_borrow(|ahead| ahead.as_ref().filter(|ahead| ahead.asked == *asked)?.found.clone())
}
