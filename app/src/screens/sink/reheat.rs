//! The form for a bath that was reheated. Both temperatures may be unknown.

use bleachfield_core::{
    bath::by_thermometer,
    derive::cue::CueKind,
    journal::{Body, Reheated},
    message::Field,
    quantity::QuantityKind,
};
use leptos::prelude::*;

use super::{
    forecast::forecast_part, latest_readings::LatestReadings, running_bath::RunningBath,
    screen_cautions::FieldCautions,
};
use crate::{
    components::{CautionList, NumberField, NumberInput, to_first_wrong},
    i18n::t,
};

const FROM: Field = Field("reheated_from");
const TO: Field = Field("reheated_to");

#[component]
pub fn ReheatForm(running: RunningBath) -> impl IntoView {
    let from = NumberInput::new(FROM, QuantityKind::Temperature).optional();
    let to = NumberInput::new(TO, QuantityKind::Temperature).optional();
    let latest = running.latest_readings();
    let too_hot = Signal::derive(move || {
        let read = to.base().map(by_thermometer);
        read.map_or_else(Vec::new, |read| latest.with(|latest| latest.cautions_of_celsius(read)))
    });
    let heating = Signal::derive(move || latest.with(LatestReadings::heating_cautions));
    let save = Callback::new(move |()| {
        if [from, to].map(NumberInput::try_now).contains(&false) {
            return;
        }
        let mut bodies = vec![Body::Reheated(Reheated {
            bath: running.bath,
            from_celsius: from.base().map(by_thermometer),
            to_celsius: to.base().map(by_thermometer),
        })];
        bodies.extend(running.answers(CueKind::Reheat));
        running.write(bodies, t!("sink-said-reheated"));
    });
    view! {
        <div class="stack">
            <NumberField ask=from label=t!("sink-reheat-from") on_enter=save />
            <NumberField ask=to label=t!("sink-reheat-to") on_enter=save />
            <FieldCautions cautions=too_hot />
            <button class="button touch" disabled=move || running.sheets.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-reheat-save")}</button>
            {forecast_part(running, |parts| parts.warming)}
            <CautionList cautions=heating />
        </div>
    }
}
