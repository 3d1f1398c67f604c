//! Sink: the running baths, their next acts, and how to stop them.
//!
//! `cue_monitor` follows every running bath while the app is open, on whatever screen, and
//! `if_stopped` keeps what the page shows should the program stop; the rest is the screen itself:
//! `focus` is one bath that fills it, `rows` are several.

mod active_batches;
mod acts;
mod addition;
mod alert_settings;
mod check_photo;
mod check_sheet;
mod cue_monitor;
mod cue_tone;
mod drain_advice;
mod empty;
mod focus;
pub mod forecast;
mod hold_button;
mod if_stopped;
mod latest_readings;
mod reheat;
mod ring;
mod rows;
mod running_bath;
mod schedule;
mod screen_cautions;
mod sheets;
mod stop;
mod waiting_batches;
mod wet_touch;

pub use cue_monitor::{CueAlerts, CueMonitor};
pub use if_stopped::keep_for_stop;
pub use wet_touch::WetTouch;

use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::Page,
    i18n::{t, t_with},
    route::Route,
    screens::lazy,
    state::app_state,
};
use active_batches::ActiveBatches;
use empty::EmptySink;
use running_bath::batch_name;

/// The running bath that fills the screen: the one of the address, else the only one.
#[derive(Clone, Copy)]
struct FocusedBath(Memo<Option<Ulid>>);

/// The entry point of the lazy piece.
pub fn active_batches() -> AnyView {
    view! { <ActiveBatches /> }.into_any()
}

/// The screen at `/sink`, and at `/sink?bath=ID`. The lazy piece is loaded once there is a batch.
#[component]
pub fn Sink(
    /// The bath of the address.
    bath: Option<Ulid>,
) -> impl IntoView {
    let state = app_state();
    let any_batch = Memo::new(move |_| state.book(|book| !book.batches.is_empty()));
    let focused = Memo::new(move |_| {
        state.book(|book| {
            let running = book.running();
            let by_address = running.iter().find(|running| Some(running.id) == bath);
            let only = running.first().filter(|_| running.len() == 1);
            by_address.or(only).map(|running| running.id)
        })
    });
    provide_context(FocusedBath(focused));
    let title = Signal::derive(move || {
        let name = focused.get().and_then(|bath| {
            state.book(|book| book.batches.get(&book.bath(bath)?.batch).map(batch_name))
        });
        name.unwrap_or_else(|| t!("place-sink"))
    });
    // How many baths there are to go back to.
    let several = Memo::new(move |_| {
        focused.get()?;
        let running = state.book(|book| book.running().len());
        (running > 1).then_some(running)
    });
    let back = Signal::derive(move || several.get().map(|_| Route::Sink));
    let back_name = Signal::derive(move || {
        several.get().map(|n| t_with!("sink-all", &[("n", &n.to_string())]))
    });
    view! {
        <Page title back back_name>
            <div class="stack sink" class:one=move || focused.get().is_some()>
                {move || if any_batch.get() {
                    lazy::section(lazy::active_batches()).into_any()
                } else {
                    view! { <EmptySink /> }.into_any()
                }}
            </div>
        </Page>
    }
}
