//! Colour: measured from photos, followed through a batch's baths, compared, aged.

mod chart;
mod compare;
mod figures;
mod measure;
mod progress;
mod seen;
mod target;
mod yellowing;

use bleachfield_core::journal::PhotoId;
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    route::Address,
    screens::nowhere,
    state::{Studio, studio},
};
use measure::Purpose;

/// Shows the screen at an address that is about colour.
pub fn at(at: &Address) -> AnyView {
    if at.parts() == ["batches", "yellowing"] {
        return yellowing::page();
    }
    let studio = studio();
    let known = |batch: &Ulid| studio.book_now(|book| book.batches.contains_key(batch));
    let Some(batch) = at.id().filter(known) else { return nowhere() };
    match at.parts()[..] {
        [_, _, "colour"] => progress::page(studio, batch),
        [_, _, "colour", "measure"] => {
            let photo = at.asked("photo").and_then(|id| PhotoId::try_from(id).ok());
            let purpose = match at.asked("for").as_deref() {
                Some("target") => Purpose::Target,
                _ => Purpose::Swatch,
            };
            photo.map_or_else(nowhere, |photo| measure::page(studio, batch, photo, purpose))
        }
        [_, _, "colour", "target"] => target::page(studio, batch),
        [_, _, "colour", "compare"] => {
            let asked = |name| at.asked(name).and_then(|id| id.parse().ok());
            compare::page(studio, batch, [asked("left"), asked("right")])
        }
        _ => nowhere(),
    }
}

/// The batch as it is now, followed; `None` once it is gone.
fn batch(studio: Studio, id: Ulid) -> Memo<Option<bleachfield_core::journal::Batch>> {
    Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned()))
}
