//! The result of a measurement: the colour and its figures, or why there is none and what to do.

use bleachfield_core::{
    colour::{
        difference,
        shift::{DryingShift, no_pair_message},
    },
    derive::{colour_target, drying_shift, swatches},
    journal::PulpState,
};
use leptos::prelude::*;

use super::MeasureState;
use crate::{
    components::{Explain, Term},
    i18n::{render, t, t_count, t_with},
    route::ColourPurpose,
    screens::colour::{
        chip::chip,
        figures::{facts, plus_minus},
    },
    worker::ColourResult,
};

pub fn view(measuring: MeasureState) -> AnyView {
    let shown = move || match measuring.result.get() {
        None => view! { <p>{t!("swatch-measure-measuring")}</p> }.into_any(),
        Some(Err(why)) => refused(&[(render(&why), String::new())]),
        Some(Ok(result)) if result.readings.is_empty() => {
            let reasons: Vec<(String, String)> = result
                .refused
                .iter()
                .map(|error| (render(&error.message()), render(&error.instruction())))
                .collect();
            refused(&reasons)
        }
        Some(Ok(result)) => reading(measuring, &result),
    };
    view! { <section class="card stack result" role="status" aria-live="polite">{shown}</section> }
        .into_any()
}

/// All reasons against the photo, each with its instruction; a repeated instruction once.
fn refused(reasons: &[(String, String)]) -> AnyView {
    let mut shown: Vec<&str> = Vec::new();
    let lines: Vec<AnyView> = reasons
        .iter()
        .map(|(why, todo)| {
            let new = !todo.is_empty() && !shown.contains(&todo.as_str());
            shown.push(todo);
            let todo = new.then(|| todo.clone());
            view! { <p><b>{todo}</b></p><p class="small">{why.clone()}</p> }.into_any()
        })
        .collect();
    view! {
        <h2>{t!("swatch-measure-refused")}</h2>
        <div class="caution care">{lines}</div>
    }
    .into_any()
}

fn reading(measuring: MeasureState, result: &ColourResult) -> AnyView {
    let MeasureState { studio, batch, purpose, pulp, .. } = measuring;
    let reading = &result.readings[0];
    let second = result.readings.get(1).zip(result.between).map(|(other, between)| {
        let text = t_with!(
            "swatch-measure-between",
            &[
                ("difference", &plus_minus(between, 1)),
                ("lightness", &plus_minus(other.lightness, 1)),
            ],
        );
        view! { <div class="row">{chip(other.lab(), "swatch large")}<p class="grow">{text}</p></div> }
    });
    let doubt =
        result.doubt.map(|doubt| t_with!("swatch-measure-doubt", &[("doubt", &t(doubt.key()))]));
    let swatch = purpose == ColourPurpose::Swatch;
    let target =
        swatch.then(|| studio.book_now(|book| colour_target(book.batches.get(&batch)?))).flatten();
    let to_target = target.map(|target| {
        let lab = [reading.lightness, reading.a, reading.b];
        let difference = plus_minus(difference::from_figures(lab, target.lab()), 1);
        view! {
            <p>{t_with!("swatch-to_target", &[("difference", &difference)])}</p>
            <Explain term=Term::DeltaE />
        }
    });
    let linear = reading.lab().to_xyz().to_linear();
    let dried = move || {
        (swatch && pulp.get() == PulpState::Wet).then(|| {
            let shift = studio.book_now(|book| drying_shift(&swatches(book.batches.get(&batch)?)));
            view! { <p class="small">{predicted_drying(shift, linear)}</p> }
        })
    };
    view! {
        <div class="row">
            {chip(reading.lab(), "swatch huge")}
            <div class="figure grow mid">
                <span class="name">{t!("swatch-figure-lightness")}</span>
                <span class="big">{plus_minus(reading.lightness, 1)}</span>
            </div>
        </div>
        {to_target}
        {facts(reading, false)}
        <Explain term=Term::Yellowness />
        {doubt.map(|doubt| view! { <p class="small">{doubt}</p> })}
        {second}
        {dried}
    }
    .into_any()
}

/// The predicted dry colour of a wet one (linear RGB), or why there is no prediction.
pub fn predicted_drying(shift: Option<DryingShift>, linear: [f64; 3]) -> String {
    let Some((shift, dried)) = shift.and_then(|shift| Some((shift, shift.dried(linear)?))) else {
        return render(&no_pair_message());
    };
    t_with!(
        "swatch-dries_to",
        &[
            ("lightness", &plus_minus(dried.lightness, 0)),
            ("yellowness", &plus_minus(dried.yellowness, 0)),
            ("pairs", &t_count!("swatch-pairs", shift.pairs as usize)),
        ],
    )
}
