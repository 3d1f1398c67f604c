//! The numbers behind an advice: chances, what narrows the band, what to measure out, and what the
//! forecast rests on.

use bleachfield_core::{
    bath::MeasuredDose,
    derive::{AdvisedDose, BathForecast},
    forecast::ForecastQuantity,
    message::Value,
    quantity::{in_grams, in_millilitres},
};
use leptos::prelude::*;

use super::words::{at, product_name, range};
use crate::{
    components::Fact,
    i18n::{
        amount, fixed, format_value, mass_text, sentence_case, t, t_count, t_with, volume_text,
    },
    platform::clock,
    screens::sink::running_bath::RunningBath,
    worker::ForecastUpdate,
};

/// What an amount is made up of, and what must not be passed.
pub fn dose(dose: &AdvisedDose) -> AnyView {
    let solution = match dose.measured.dose {
        MeasuredDose::Solution(solution) => Some(t_with!(
            "forecast-dose-solution",
            &[
                ("product", &product_name(dose)),
                ("bleach", &amount(solution.bleach)),
                ("water", &volume_text(in_millilitres(solution.water))),
                ("take", &volume_text(in_millilitres(solution.take))),
            ],
        )),
        MeasuredDose::Direct(_) => None,
    };
    let soda = dose
        .measured
        .soda_ash
        .map(|mass| t_with!("forecast-dose-soda", &[("amount", &mass_text(in_grams(mass)))]));
    let most = dose.ph.map(|ph| t_with!("forecast-dose-ph", &[("ph", &fixed(ph, 1))]));
    let vessels =
        (dose.vessels > 1).then(|| t_count!("forecast-dose-vessels", dose.vessels as usize));
    let lines = [solution, soda, vessels, most, Some(t!("forecast-dose-how"))];
    view! { <ul class="small">{lines.into_iter().flatten().map(|line| view! { <li>{line}</li> }).collect_view()}</ul> }
        .into_any()
}

/// Chances, the present state, and the reading that would narrow the band most.
pub fn reasons(running: RunningBath, update: &ForecastUpdate, made: &BathForecast) -> AnyView {
    if !update.support.can_tell() {
        return view! { <p>{t!("forecast-contradict-how")}</p> }.into_any();
    }
    let percent = |chance: f64| t_with!("forecast-percent", &[("n", &fixed(100.0 * chance, 0))]);
    let told = &update.advice;
    let stop = clock::local_time(at(running, made.goal.until.max(update.view.now)));
    let colour = told
        .chance_of_colour
        .map(|chance| (t_with!("forecast-fact-colour", &[("time", &stop)]), percent(chance)));
    let damage = vec![
        (t!("forecast-fact-damage_now"), percent(told.chance_of_damage)),
        (
            t_with!("forecast-fact-damage_then", &[("time", &stop)]),
            percent(told.chance_of_damage_by_end),
        ),
    ];
    let now = update.view.now;
    let wet = update
        .at(ForecastQuantity::WetLightness, now)
        .zip(update.at(ForecastQuantity::DryLightness, now));
    let wet = wet.map(|(wet, dry)| {
        let drier = t_with!(
            "forecast-fact-wet_dry",
            &[
                ("wet", &range(wet.low_80, wet.high_80, 0)),
                ("dry", &range(dry.low_80, dry.high_80, 0))
            ],
        );
        (t!("forecast-fact-now"), drier)
    });
    let facts = colour.into_iter().chain(damage).chain(wet);
    let target = made
        .goal
        .lightness
        .is_none()
        .then(|| view! { <p class="small">{t!("forecast-no_target")}</p> });
    let measure = told.measure.map(|reading| {
        let reading = sentence_case(t(&format!("forecast-reading-{}", <&str>::from(reading))));
        view! { <p class="small">{t_with!("forecast-narrows", &[("reading", &reading)])}</p> }
    });
    view! {
        <dl class="facts">
            {facts.map(|(name, value)| view! { <Fact name value /> }).collect_view()}
        </dl>
        {target}
        {measure}
    }
    .into_any()
}

/// How many courses, what was assumed, and how far it can be trusted.
pub fn basis(_: RunningBath, update: &ForecastUpdate, made: &BathForecast) -> AnyView {
    let samples = t_with!(
        "forecast-samples",
        &[
            ("samples", &update.support.samples.to_string()),
            ("readings", &made.readings.len().to_string()),
        ],
    );
    let assumed =
        made.assumed.iter().map(|input| t(&format!("forecast-assumed-{}", <&str>::from(*input))));
    let assumed: Vec<_> = assumed.map(|name| view! { <li>{name}</li> }).collect();
    let cooling = made.request.cooling.map(|bath| {
        t_with!("forecast-room", &[("room", &format_value(&Value::Celsius(bath.air.celsius)))])
    });
    view! {
        <p>{samples}</p>
        {(!assumed.is_empty()).then(|| view! {
            <p>{t!("forecast-assumed")}</p>
            <ul>{assumed}</ul>
        })}
        <p>{t!("forecast-drying")}</p>
        {cooling.map(|text| view! { <p>{text}</p> })}
    }
    .into_any()
}
