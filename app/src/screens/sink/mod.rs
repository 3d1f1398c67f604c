//! Sink: what is running now, what it asks for next, and how to stop it.
//!
//! `watch` looks after every running bath while the app is open, on whatever
//! screen; the rest is the screen itself, a card for each bath.

mod adding;
mod card;
mod cues;
mod draining;
mod empty;
mod latest;
mod reading;
mod reheat;
mod running;
mod steps;
mod stop;
mod tending;
mod times;
mod under_way;
mod watch;

pub use watch::{CueMonitor, Watch};

use leptos::prelude::*;

use crate::{components::Page, i18n::t, screens::lazy, state::app_state};
use empty::Empty;

/// The entry point of the piece that comes with the first batch.
pub fn under_way() -> AnyView {
    view! { <under_way::UnderWay /> }.into_any()
}

/// With an empty book it teaches; the code for what is under way comes with the
/// first batch.
#[component]
pub fn Sink() -> impl IntoView {
    let studio = app_state();
    let begun = Memo::new(move |_| studio.book(|book| !book.batches.is_empty()));
    view! {
        <Page title=t!("place-sink")>
            <div class="stack wide">
                {move || if begun.get() {
                    lazy::section(lazy::under_way()).into_any()
                } else {
                    view! { <Empty /> }.into_any()
                }}
            </div>
        </Page>
    }
}
