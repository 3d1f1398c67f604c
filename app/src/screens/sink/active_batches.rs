//! The running baths: one fills the screen, several are rows. Then the batches that wait.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    FocusedBath,
    alert_settings::{AlertSettings, LockedPhone},
    cue_monitor::ClockShiftNotice,
    empty::EmptySink,
    focus::Focus,
    forecast::SinkForecast,
    rows::Rows,
    screen_cautions::{ScreenCautions, StandingCautions},
    sheets::{BathSheets, SheetHost},
    waiting_batches::{BathsToDrain, WaitingBatches},
    wet_touch::WetTouch,
};
use crate::state::app_state;

#[component]
pub fn ActiveBatches() -> impl IntoView {
    let state = app_state();
    let FocusedBath(focused) = expect_context();
    let sheets = BathSheets::provide();
    WetTouch::provide();
    ScreenCautions::provide();
    SinkForecast::provide();
    let running = Memo::new(move |_| {
        state.book(|book| book.running().iter().map(|bath| bath.id).collect::<Vec<Ulid>>())
    });
    let any = Memo::new(move |_| running.with(|running| !running.is_empty()));
    view! {
        <Show when=move || any.get()><ClockShiftNotice /><BathsToDrain /></Show>
        {move || match focused.get() {
            Some(bath) => view! { <Focus bath /> }.into_any(),
            None => view! { <Rows baths=running /> }.into_any(),
        }}
        <Show when=move || any.get()>
            <LockedPhone />
            <StandingCautions />
            <AlertSettings />
        </Show>
        <WaitingBatches />
        <Show when=move || !any.get()><EmptySink /></Show>
        <SheetHost sheets />
    }
}
