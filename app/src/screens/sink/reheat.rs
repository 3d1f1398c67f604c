//! The bath was warmed again: from what to what, as far as anybody looked.

use bleachfield_core::{
    cue::CueKind,
    journal::{Body, Reheated},
    message::Field,
    quantity::{Basis, Celsius, Kind},
};
use leptos::prelude::*;

use super::{
    latest::{Latest, raised},
    reading::{Beside, give_or_take},
    running::Running,
};
use crate::{
    components::{Ask, AskField, CautionList, Rise, to_first_wrong},
    i18n::t,
};

const FROM: Field = Field("reheated_from");
const TO: Field = Field("reheated_to");

#[component]
pub fn ReheatSheet(running: Running, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <Rise open title=t!("sink-reheat-title")>
            <ReheatForm running open />
        </Rise>
    }
}

#[component]
fn ReheatForm(running: Running, open: RwSignal<bool>) -> impl IntoView {
    let from = Ask::new(FROM, Kind::Temperature).optional();
    let to = Ask::new(TO, Kind::Temperature).optional();
    let latest = Memo::new(move |_| running.studio.book(|book| Latest::of(book, running.bath)));
    let too_hot = Signal::derive(move || {
        let mut situation = latest.with(Latest::situation);
        situation.temperature = to.base().and_then(|value| Celsius::new(value).ok());
        situation.temperature.map(|_| raised(&situation, false, true)).unwrap_or_default()
    });
    let heating = Signal::derive(move || latest.with(Latest::heating));
    let save = Callback::new(move |()| {
        if [from, to].map(Ask::try_now).contains(&false) {
            return;
        }
        let read = |ask: Ask| ask.base().map(|value| give_or_take(value, 1.0, Basis::Measured));
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
            <AskField ask=from label=t!("sink-reheat-from") on_enter=save />
            <AskField ask=to label=t!("sink-reheat-to") on_enter=save />
            <Beside cautions=too_hot />
            <button class="press wet" disabled=move || running.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-reheat-save")}</button>
            <CautionList cautions=heating />
        </div>
    }
}
