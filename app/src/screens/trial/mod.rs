//! Ladder trials: set up, measured out, run on one screen, read, and scaled up. The sums are in
//! the core's `trial` and `derive`.

mod chart;
mod levels;
mod measure;
mod page;
mod read;
mod result;
mod run;
mod setup;
mod words;

use leptos::prelude::*;

use self::{page::TrialPage, setup::NewTrial};
use crate::route::Route;

/// Entry point of the lazily loaded piece.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::NewTrial(batch) => view! { <NewTrial batch /> }.into_any(),
        Route::Trial(trial) => view! { <TrialPage trial /> }.into_any(),
        _ => ().into_any(),
    }
}
