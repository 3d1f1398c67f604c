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

use crate::markup::prelude::*;

use crate::{later, locale::word, part::Page, studio::studio};
use empty::Empty;

/// With an empty book it teaches; the code for what is under way comes with the
/// first batch.
#[component]
pub fn Sink() -> Markup {
    let studio = studio();
    let begun = Memo::new(move || studio.book(|book| !book.batches.is_empty()));
    view! {
        <Page title=word("place.sink")>
            <div class="stack wide">
                {move || if begun.get() {
                    later::part(later::under_way())
                } else {
                    view! { <Empty /> }.into_any()
                }}
            </div>
        </Page>
    }
}
