//! The bath was warmed again: from what to what, as far as anybody looked.

use bleachfield_core::{
    derive::cue::CueKind,
    journal::{Body, Reheated},
    message::Field,
    quantity::{Basis, Celsius, QuantityKind},
};
use leptos::prelude::*;

use super::{
    latest::{LatestReadings, raised},
    reading::{Beside, give_or_take},
    running::RunningBath,
};
use crate::{
    components::{BottomSheet, CautionList, NumberField, NumberInput, to_first_wrong},
    i18n::t,
};

const FROM: Field = Field("reheated_from");
const TO: Field = Field("reheated_to");

#[component]
pub fn ReheatSheet(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("sink-reheat-title")>
            <ReheatForm running open />
        </BottomSheet>
    }
}

#[component]
fn ReheatForm(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    let from = NumberInput::new(FROM, QuantityKind::Temperature).optional();
    let to = NumberInput::new(TO, QuantityKind::Temperature).optional();
    let latest =
        Memo::new(move |_| running.studio.book(|book| LatestReadings::of(book, running.bath)));
    let too_hot = Signal::derive(move || {
        let mut situation = latest.with(LatestReadings::situation);
        situation.temperature = to.base().and_then(|value| Celsius::new(value).ok());
        situation.temperature.map(|_| raised(&situation, false, true)).unwrap_or_default()
    });
    let heating = Signal::derive(move || latest.with(LatestReadings::heating));
    let save = Callback::new(move |()| {
        if [from, to].map(NumberInput::try_now).contains(&false) {
            return;
        }
        let read =
            |ask: NumberInput| ask.base().map(|value| give_or_take(value, 1.0, Basis::Measured));
        let mut bodies = vec![Body::Reheated(Reheated {
            bath: running.bath,
            from_celsius: read(from),
            to_celsius: read(to),
        })];
        bodies.extend(running.answers(CueKind::Reheat));
        running.write(bodies, t!("sink-said-reheated"), Some(open));
    });
    view! {
        <div class="stack">
            <NumberField ask=from label=t!("sink-reheat-from") on_enter=save />
            <NumberField ask=to label=t!("sink-reheat-to") on_enter=save />
            <Beside cautions=too_hot />
            <button class="button touch" disabled=move || running.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-reheat-save")}</button>
            <CautionList cautions=heating />
        </div>
    }
}
