//! Sink: the running baths, their next cues, and how to stop them.
//!
//! `cue_monitor` follows every running bath while the app is open, on whatever screen, and
//! `if_stopped` keeps what the page shows should the program stop; the rest is the screen itself,
//! with a card for each bath.

mod active_batches;
mod addition;
mod alert_settings;
mod bath_card;
mod cue_monitor;
mod drain_advice;
mod empty;
mod if_stopped;
mod latest_readings;
mod pending_cues;
mod reading;
mod reheat;
mod running_bath;
mod schedule;
mod stop;
mod waiting_batches;

pub use cue_monitor::{CueAlerts, CueMonitor};
pub use if_stopped::keep_for_stop;

use leptos::prelude::*;

use crate::{components::Page, i18n::t, screens::lazy, state::app_state};
use active_batches::ActiveBatches;
use empty::EmptySink;

/// The entry point of the lazy piece.
pub fn active_batches() -> AnyView {
    view! { <ActiveBatches /> }.into_any()
}

/// The screen at `/sink`. The lazy piece is loaded once there is a batch.
#[component]
pub fn Sink() -> impl IntoView {
    let state = app_state();
    let any_batch = Memo::new(move |_| state.book(|book| !book.batches.is_empty()));
    view! {
        <Page title=t!("place-sink")>
            <div class="stack wide">
                {move || if any_batch.get() {
                    lazy::section(lazy::active_batches()).into_any()
                } else {
                    view! { <EmptySink /> }.into_any()
                }}
            </div>
        </Page>
    }
}
