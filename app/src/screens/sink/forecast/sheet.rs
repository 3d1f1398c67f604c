//! The whole forecast: advice with the numbers behind it, chart, table, and what it rests on.

use leptos::{prelude::*, task::spawn_local};

use super::{SinkForecast, chart, chosen_damage, facts, follow::refine, line::known_danger, words};
use crate::{
    components::CautionList,
    i18n::{render, t},
    screens::{
        rests_on,
        sink::{running_bath::RunningBath, screen_cautions::urgent_cautions},
    },
};

pub fn sheet(running: RunningBath) -> AnyView {
    let shown: SinkForecast = expect_context();
    let danger = known_danger(running);
    spawn_local(refine(shown));
    let urgent = Signal::from(urgent_cautions(running.bath));
    let body = move || {
        if let Some(problem) = shown.problem.get() {
            return view! { <p role="alert">{render(&problem)}</p> }.into_any();
        }
        let (Some(update), Some(made)) = (shown.update.get(), shown.made.get()) else {
            return view! { <p role="status">{t!("forecast-waiting")}</p> }.into_any();
        };
        let advice = words::advice(running, &update, &made, danger.get());
        view! {
            <p class="advice">{advice.sentence}</p>
            {advice.dose.as_ref().map(facts::dose)}
            {facts::reasons(running, &update, &made)}
            {update.support.can_tell().then(|| view! {
                {chart::chart(running, &update, &made)}
                <details class="more">
                    <summary>{t!("forecast-table")}</summary>
                    <div class="inside forecast-table">{chart::table(running, &update)}</div>
                </details>
            })}
            <details class="more">
                <summary>{t!("forecast-rests")}</summary>
                <div class="inside stack">{facts::basis(&update, &made)}{shown.learnt.get().as_ref().map(rests_on::summary)}</div>
            </details>
        }
        .into_any()
    };
    view! {
        <div class="stack forecast">
            <CautionList cautions=urgent />
            <div class="stack" aria-live="polite">{body}</div>
            {chosen_damage::choice()}
        </div>
    }
    .into_any()
}
