//! What is under way: a card for each running bath, and the batches that wait for
//! their next step.

use crate::markup::prelude::*;
use ulid::Ulid;

use super::{card::BathCard, empty::Empty, steps::Steps, tending::Tending, watch::ClockMoved};
use crate::{part::Each, studio::studio};

#[component]
pub fn UnderWay() -> Markup {
    let studio = studio();
    let running = Memo::new(move || {
        studio.book(|book| {
            book.running().iter().map(|bath| bath.id.to_string()).collect::<Vec<String>>()
        })
    });
    let any = Memo::new(move || running.with(|running| !running.is_empty()));
    view! {
        <Show when=Signal::derive(move || any.get())><ClockMoved /></Show>
        <Each keys=running each=|bath: String| {
            bath.parse::<Ulid>().ok().map(|bath| view! { <BathCard bath /> }).into_any()
        } />
        <Steps />
        {move || if any.get() {
            view! { <Tending /> }.into_any()
        } else {
            view! { <Empty /> }.into_any()
        }}
    }
}
