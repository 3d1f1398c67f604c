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

pub use under_way::UnderWay;
pub use watch::{Watch, Watching};

use leptos::prelude::*;

use crate::{components::Page, i18n::t, route::lazy, state::studio};
use empty::Empty;

/// With an empty book it teaches; the code for what is under way comes with the
/// first batch.
#[component]
pub fn Sink() -> impl IntoView {
    let studio = studio();
    let begun = Memo::new(move |_| studio.book(|book| !book.batches.is_empty()));
    view! {
        <Page title=t!("place-sink")>
            <div class="stack wide">
                {move || if begun.get() {
                    lazy::part(lazy::under_way())
                } else {
                    view! { <Empty /> }.into_any()
                }}
            </div>
        </Page>
    }
}
