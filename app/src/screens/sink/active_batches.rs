//! A card for each running bath, and the batches that wait for their next step.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    alert_settings::AlertSettings, bath_card::BathCard, cue_monitor::ClockShiftNotice,
    empty::EmptySink, waiting_batches::WaitingBatches,
};
use crate::state::app_state;

#[component]
pub fn ActiveBatches() -> impl IntoView {
    let state = app_state();
    let running = Memo::new(move |_| {
        state.book(|book| book.running().iter().map(|bath| bath.id).collect::<Vec<Ulid>>())
    });
    let any = Memo::new(move |_| running.with(|running| !running.is_empty()));
    view! {
        <Show when=move || any.get()><ClockShiftNotice /></Show>
        <For each=move || running.get() key=|bath| *bath let:bath><BathCard bath /></For>
        <WaitingBatches />
        {move || if any.get() {
            view! { <AlertSettings /> }.into_any()
        } else {
            view! { <EmptySink /> }.into_any()
        }}
    }
}
