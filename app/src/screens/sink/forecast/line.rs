//! Under the ring: what to do, and what comes if the bath is left on. A press opens the sheet.

use bleachfield_core::caution::Severity;
use leptos::prelude::*;

use super::{SinkForecast, follow::follow, words};
use crate::{
    i18n::{render, t},
    screens::sink::{
        running_bath::RunningBath, screen_cautions::urgent_cautions, sheets::SheetKind,
        wet_touch::WetTouch,
    },
};

pub fn line(running: RunningBath) -> AnyView {
    let shown: SinkForecast = expect_context();
    let touch: WetTouch = expect_context();
    follow(running, shown);
    let danger = known_danger(running);
    let advice = move || {
        if let Some(problem) = shown.problem.get() {
            return render(&problem);
        }
        match (shown.update.get(), shown.made.get()) {
            (Some(update), Some(made)) => {
                words::advice(running, &update, &made, danger.get()).sentence
            }
            _ => t!("forecast-waiting"),
        }
    };
    let outlook = move || shown.update.with(|update| update.as_ref().and_then(words::outlook));
    let open = move |_| {
        if touch.is_press("forecast") {
            running.sheets.open(running.bath, SheetKind::Forecast);
        }
    };
    view! {
        <button class="outlook" on:click=open>
            <span class="advice">{advice}</span>
            " "
            <span class="soft small">{outlook}</span>
        </button>
    }
    .into_any()
}

/// Whether a danger stands on the screen that rests on a known figure.
pub fn known_danger(running: RunningBath) -> Memo<bool> {
    let urgent = urgent_cautions(running.bath);
    Memo::new(move |_| {
        urgent.with(|urgent| {
            let known = urgent.iter().filter(|caution| !caution.id.is_of_unknown());
            known.into_iter().any(|caution| caution.severity == Severity::Danger)
        })
    })
}
