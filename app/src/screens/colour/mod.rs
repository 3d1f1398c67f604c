//! Colour: measured from photos, followed through a batch's baths, compared, aged.

mod chart;
mod compare;
mod figures;
mod measure;
mod progress;
mod seen;
mod target;
mod yellowing;

use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    route::Route,
    screens::nowhere,
    state::{AppState, app_state},
};

/// The piece's entry point.
pub fn screen(route: Route) -> AnyView {
    let studio = app_state();
    let batch = match route {
        Route::Yellowing => return yellowing::page(),
        Route::Colour(id) | Route::ColourTarget(id) => id,
        Route::ColourMeasure { batch, .. } | Route::ColourCompare { batch, .. } => batch,
        _ => return nowhere(),
    };
    if !studio.book_now(|book| book.batches.contains_key(&batch)) {
        return nowhere();
    }
    match route {
        Route::ColourTarget(_) => target::page(studio, batch),
        Route::ColourMeasure { photo, purpose, .. } => measure::page(studio, batch, photo, purpose),
        Route::ColourCompare { left, right, .. } => compare::page(studio, batch, [left, right]),
        _ => progress::page(studio, batch),
    }
}

/// The batch as it is now, followed; `None` once it is gone.
fn batch(studio: AppState, id: Ulid) -> Memo<Option<bleachfield_core::journal::Batch>> {
    Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned()))
}
