//! The choice of stations, their times and places, and when the class begins.

use bleachfield_core::message::Message;
use leptos::prelude::*;

use super::form::{ClassForm, StationForm};
use crate::{components::NumberField, i18n::t};

#[component]
pub fn StationChoices(form: ClassForm, refused: Signal<Option<Message>>) -> impl IntoView {
    let all = form.stations.get_value();
    let tick = |one: StationForm| {
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=one.chosen
                    on:change=move |event| one.chosen.set(event_target_checked(&event)) />
                <span>{name(one)}</span>
            </label>
        }
    };
    let times = move |one: StationForm| {
        let numbers = view! {
            <fieldset class="class-times">
                <legend>{name(one)}</legend>
                <div class="plan-grid">
                    <NumberField ask=one.minutes label=t!("class-minutes")
                        hint=t!("class-minutes_hint") />
                    <NumberField ask=one.places label=t!("class-places") refused />
                </div>
            </fieldset>
        };
        view! { <div hidden=move || !one.chosen.get()>{numbers}</div> }
    };
    view! {
        <fieldset class="class-stations">
            <legend>{t!("class-stations")}</legend>
            {all.map(tick).collect_view()}
        </fieldset>
        <div class="field">
            <label for="class-start">{t!("class-start")}</label>
            <input id="class-start" type="time" prop:value=form.start
                on:input=move |event| form.start.set(event_target_value(&event)) />
        </div>
        <details class="more">
            <summary>{t!("class-times")}</summary>
            <div class="inside stack">
                <p class="small soft">{t!("class-times_hint")}</p>
                {all.map(times).collect_view()}
            </div>
        </details>
    }
}

fn name(one: StationForm) -> String {
    t(&format!("station-{}", <&str>::from(one.station)))
}
