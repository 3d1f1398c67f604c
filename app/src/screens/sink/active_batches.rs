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
use crate::{components::icon, i18n::t_with, route::Route, state::app_state};

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
    let others = Memo::new(move |_| {
        focused.get().map_or(0, |_| running.with(|running| running.len().saturating_sub(1)))
    });
    view! {
        <Show when=move || { others.get() > 0 }>
            <a href=Route::Sink.href() class="button bare all-baths">
                <icon::Back />
                {move || t_with!("sink-all", &[("n", &(others.get() + 1).to_string())])}
            </a>
        </Show>
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
