//! Colour: measured in photos, followed over a batch's baths, compared, aged; and the phone
//! taught by known colours.

mod chip;
mod compare;
mod corrected_photo;
mod figures;
mod mark_board;
mod measure;
mod photo_input;
mod progress;
mod progress_chart;
mod refusal;
mod target;
mod teach;
mod timed_swatch;
mod yellowing;

pub use self::corrected_photo::{CorrectedPhoto, last_corrected};

use leptos::prelude::*;

use crate::{route::Route, screens::not_found, state::app_state};

/// Entry point of the lazily loaded piece.
pub fn screen(route: Route) -> AnyView {
    let studio = app_state();
    let batch = match route {
        Route::Yellowing => return yellowing::page(),
        Route::Teach => return teach::page(studio),
        Route::Colour(id) | Route::ColourTarget(id) => id,
        Route::ColourMeasure { batch, .. } | Route::ColourCompare { batch, .. } => batch,
        _ => return not_found(),
    };
    if !studio.book_now(|book| book.batches.contains_key(&batch)) {
        return not_found();
    }
    match route {
        Route::ColourTarget(_) => target::page(studio, batch),
        Route::ColourMeasure { photo, purpose, .. } => measure::page(studio, batch, photo, purpose),
        Route::ColourCompare { left, right, .. } => compare::page(studio, batch, [left, right]),
        _ => progress::page(studio, batch),
    }
}
