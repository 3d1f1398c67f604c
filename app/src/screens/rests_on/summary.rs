//! On how many own baths a forecast rests, the nearest of them, and where it goes beyond them.

use bleachfield_core::forecast::ForecastQuantity;
use bleachfield_core::learning::{LearntParameters, PastBatch};
use bleachfield_core::message::Value;
use leptos::prelude::*;

use crate::{
    i18n::{format_number, format_value, render, t, t_count, t_with},
    route::Route,
};

/// Beside the forecast of a bath, with the link to the whole.
pub fn summary(found: &LearntParameters) -> AnyView {
    let beyond: Vec<_> =
        found.beyond.iter().map(|beyond| view! { <li>{render(&beyond.message())}</li> }).collect();
    view! {
        {learnt(found)}
        {(!beyond.is_empty()).then(|| view! { <ul>{beyond}</ul> })}
        {found.nearest.as_ref().map(nearest)}
        <a href=Route::RestsOn.href() class="button plain">{t!("learning-link")}</a>
    }
    .into_any()
}

/// On how many baths and readings, and how bands are corrected by them.
pub fn learnt(found: &LearntParameters) -> AnyView {
    if found.readings == 0 {
        return view! { <p>{t!("learning-none")}</p> }.into_any();
    }
    let of_others = found.batches_of_other_fibres;
    let named = [
        (ForecastQuantity::DryLightness, t!("learning-dry_lightness")),
        (ForecastQuantity::WetLightness, t!("learning-wet_lightness")),
        (ForecastQuantity::OxidantLeft, t!("learning-oxidant_left")),
        (ForecastQuantity::CooledPh, t!("learning-ph")),
        (ForecastQuantity::Celsius, t!("learning-celsius")),
    ];
    let correction = |(of, name): (ForecastQuantity, String)| {
        let (factor, readings) = found.correction.factor(of)?;
        let (factor, readings) = (format_number(factor, 2), readings.to_string());
        let text = t_with!(
            "learning-correction",
            &[("of", &name), ("factor", &factor), ("readings", &readings)],
        );
        Some(view! { <li>{text}</li> })
    };
    let corrections: Vec<_> = named.into_iter().filter_map(correction).collect();
    view! {
        <div class="stack">
            <p>
                {t_count!("learning-own", found.batches)}
                {(of_others > 0).then(|| format!(" {}", t_count!("learning-of_others", of_others)))}
                " "{t_count!("learning-readings", found.readings as usize)}
            </p>
            {(!corrections.is_empty()).then(|| view! { <ul class="small">{corrections}</ul> })}
        </div>
    }
    .into_any()
}

fn nearest(past: &PastBatch) -> impl IntoView + use<> {
    let facts = &past.facts;
    let (celsius, minutes) = (
        format_value(&Value::Celsius(facts.celsius)),
        format_value(&Value::Minutes(facts.minutes)),
    );
    let charge = format_number(facts.charge, 2);
    let text = t_with!(
        "learning-nearest_facts",
        &[("celsius", &celsius), ("minutes", &minutes), ("charge", &charge)],
    );
    view! { <p><strong>{t!("learning-nearest")}</strong>": "{facts.fibre.clone()}", "{text}</p> }
}
