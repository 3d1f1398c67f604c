//! What is under way: a card for each running bath, and the batches that wait for
//! their next step.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    card::BathCard, empty::Empty, steps::WaitingBatches, tending::Tending, watch::ClockMoved,
};
use crate::state::app_state;

#[component]
pub fn UnderWay() -> impl IntoView {
    let studio = app_state();
    let running = Memo::new(move |_| {
        studio.book(|book| book.running().iter().map(|bath| bath.id).collect::<Vec<Ulid>>())
    });
    let any = Memo::new(move |_| running.with(|running| !running.is_empty()));
    view! {
        <Show when=move || any.get()><ClockMoved /></Show>
        <For each=move || running.get() key=|bath| *bath let:bath><BathCard bath /></For>
        <WaitingBatches />
        {move || if any.get() {
            view! { <Tending /> }.into_any()
        } else {
            view! { <Empty /> }.into_any()
        }}
    }
}
