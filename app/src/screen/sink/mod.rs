//! Sink: what is running now, what it asks for next, and how to stop it.
//!
//! `watch` looks after every running bath while the app is open, on whatever
//! screen; the rest is the screen itself, a card for each bath.

mod adding;
mod card;
mod cues;
mod empty;
mod latest;
mod reading;
mod reheat;
mod running;
mod steps;
mod stop;
mod tending;
mod times;
mod watch;

pub use watch::{Watch, Watching};

use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    locale::word,
    part::{Each, Page},
    studio::studio,
};
use card::BathCard;
use empty::Empty;
use steps::Steps;
use tending::Tending;

#[component]
pub fn Sink() -> impl IntoView {
    let studio = studio();
    let running = Memo::new(move |_| {
        studio.book(|book| {
            book.running().iter().map(|bath| bath.id.to_string()).collect::<Vec<String>>()
        })
    });
    let any = Memo::new(move |_| running.with(|running| !running.is_empty()));
    view! {
        <Page title=word("place.sink")>
            <div class="stack wide">
                <Show when=move || any.get()><watch::ClockMoved /></Show>
                <Each keys=running each=|bath: String| {
                    bath.parse::<Ulid>().ok().map(|bath| view! { <BathCard bath /> }).into_any()
                } />
                <Steps />
                {move || if any.get() {
                    view! { <Tending /> }.into_any()
                } else {
                    view! { <Empty /> }.into_any()
                }}
            </div>
        </Page>
    }
}
