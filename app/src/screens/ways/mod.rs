//! Ways to the colour that a batch is bleached towards, side by side. The sums are in the core's
//! `forecast::ways`.

mod card;
mod page;
mod table;
mod words;

use leptos::prelude::*;

use self::page::WaysToColour;
use crate::route::Route;

/// Entry point of the lazily loaded piece.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::WaysToColour(batch) => view! { <WaysToColour batch /> }.into_any(),
        _ => ().into_any(),
    }
}
