//! The whole forecast: advice with the numbers behind it, chart, table, and what it rests on.

use bleachfield_core::derive::BathForecast;
use leptos::{prelude::*, task::spawn_local};

use super::{SinkForecast, chart, chosen_damage, facts, follow::refine, line::known_danger, words};
use crate::{
    components::CautionList,
    i18n::{render, t},
    screens::{
        rests_on,
        sink::{running_bath::RunningBath, screen_cautions::urgent_cautions},
    },
    worker::ForecastUpdate,
};

pub fn sheet(running: RunningBath) -> AnyView {
    let shown: SinkForecast = expect_context();
    let danger = known_danger(running);
    let urgent = Signal::from(urgent_cautions(running.bath));
    spawn_local(refine(shown));
    // Each part by itself: a fold that is open stays so while the numbers change.
    let part = move |of: fn(RunningBath, &ForecastUpdate, &BathForecast) -> AnyView| {
        move || Some(of(running, &shown.update.get()?, &shown.made.get()?))
    };
    let told = move |of: fn(RunningBath, &ForecastUpdate, &BathForecast) -> AnyView| {
        let part = part(of);
        move || shown.can_tell().then(part)
    };
    let advice = move || {
        let advice = words::advice(running, &shown.update.get()?, &shown.made.get()?, danger.get());
        Some(view! {
            <p class="advice" role="status">{advice.sentence}</p>
            {advice.dose.as_ref().map(facts::dose)}
        })
    };
    let waiting = move || match shown.problem.get() {
        Some(problem) => Some(view! { <p role="alert">{render(&problem)}</p> }.into_any()),
        None if shown.update.with(Option::is_none) => {
            Some(view! { <p role="status">{t!("forecast-waiting")}</p> }.into_any())
        }
        None => None,
    };
    let learnt = move || shown.learnt.with(|learnt| learnt.as_ref().map(rests_on::summary));
    view! {
        <div class="stack forecast">
            <CautionList cautions=urgent />
            {waiting}
            {advice}
            {part(facts::reasons)}
            {told(chart::chart)}
            <details class="more">
                <summary>{t!("forecast-table")}</summary>
                <div class="inside forecast-table">{told(chart::table)}</div>
            </details>
            <details class="more">
                <summary>{t!("forecast-rests")}</summary>
                <div class="inside stack">{part(facts::basis)}{learnt}</div>
            </details>
            {chosen_damage::choice()}
        </div>
    }
    .into_any()
}
