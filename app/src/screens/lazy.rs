//! The pieces of the program that are loaded when a screen first needs them.
//!
//! Each function becomes a file of its own in the build (`app/xtask`, `split`). A piece that
//! cannot be fetched is an error and is fetched again at the next call.

use std::future::Future;

use leptos::{
    prelude::*,
    task::spawn_local,
    wasm_split::{SplitLoaderError, wasm_split},
};

use super::{
    batches, calculator, class_sheet, colour, help, rests_on, shelf,
    sink::{
        self,
        forecast::{self, ForecastParts},
    },
    trial, ways,
};
use crate::{i18n::t, route::Route};

/// Shows the screen of a route.
pub type Screen = fn(Route) -> AnyView;

/// Shows a part of a screen.
pub type Section = fn() -> AnyView;

/// The Sink once there is a batch.
#[wasm_split(active_batches, fallible, wasm_split_path = leptos::wasm_split)]
pub fn active_batches() -> Result<Section, SplitLoaderError> {
    Ok(sink::active_batches)
}

/// Mix, and its quick sums.
#[wasm_split(calculator, fallible, wasm_split_path = leptos::wasm_split)]
pub fn calculator() -> Result<Screen, SplitLoaderError> {
    Ok(calculator::screen)
}

/// Batches, plans and lots, and the sums that they share.
#[wasm_split(batches, fallible, wasm_split_path = leptos::wasm_split)]
pub fn batches() -> Result<Screen, SplitLoaderError> {
    Ok(batches::screen)
}

/// The sheet for a workshop.
#[wasm_split(class_sheet, fallible, wasm_split_path = leptos::wasm_split)]
pub fn class_sheet() -> Result<Screen, SplitLoaderError> {
    Ok(class_sheet::screen)
}

/// Colours from photos.
#[wasm_split(colour, fallible, wasm_split_path = leptos::wasm_split)]
pub fn colour() -> Result<Screen, SplitLoaderError> {
    Ok(colour::screen)
}

#[wasm_split(shelf, fallible, wasm_split_path = leptos::wasm_split)]
pub fn shelf() -> Result<Screen, SplitLoaderError> {
    Ok(shelf::screen)
}

#[wasm_split(help, fallible, wasm_split_path = leptos::wasm_split)]
pub fn help() -> Result<Screen, SplitLoaderError> {
    Ok(help::screen)
}

/// What happens to a running bath if it is left on.
#[wasm_split(sink_forecast, fallible, wasm_split_path = leptos::wasm_split)]
pub fn sink_forecast() -> Result<ForecastParts, SplitLoaderError> {
    Ok(forecast::PARTS)
}

/// Ways to a target colour.
#[wasm_split(ways, fallible, wasm_split_path = leptos::wasm_split)]
pub fn ways() -> Result<Screen, SplitLoaderError> {
    Ok(ways::screen)
}

/// Ladder trials.
#[wasm_split(trial, fallible, wasm_split_path = leptos::wasm_split)]
pub fn trial() -> Result<Screen, SplitLoaderError> {
    Ok(trial::screen)
}

/// What a forecast rests on.
#[wasm_split(rests_on, fallible, wasm_split_path = leptos::wasm_split)]
pub fn rests_on() -> Result<Screen, SplitLoaderError> {
    Ok(rests_on::screen)
}

/// A part of a screen, once its piece is loaded.
pub fn section(
    piece: impl Future<Output = Result<Section, SplitLoaderError>> + 'static,
) -> impl IntoView {
    let section = RwSignal::new(None::<Section>);
    spawn_local(async move {
        let missing: Section = || view! { <p class="card">{t!("not_here-why")}</p> }.into_any();
        let _ = section.try_set(Some(piece.await.unwrap_or(missing)));
    });
    move || section.get().map(|show| show())
}
