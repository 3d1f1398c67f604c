//! The result of a measurement: the colour and its figures, or why there is none and what to do.

use bleachfield_core::{
    colour::{
        difference,
        shift::{DryingShift, no_pair_message},
        uncertainty::UncertaintySource,
    },
    derive::{colour_target, drying_shift, swatches},
    journal::PulpState,
};
use leptos::prelude::*;

use super::MeasureState;
use crate::{
    components::{Explain, Term},
    i18n::{render, sentence_case, t, t_count, t_with},
    route::{ColourPurpose, Route},
    screens::colour::{
        chip::chip,
        figures::{by_lightness, facts, in_words, plus_minus},
        refusal,
    },
    worker::ColourResult,
};

pub fn view(measuring: MeasureState) -> AnyView {
    let shown = move || match measuring.result.get() {
        None => view! { <p>{t!("swatch-measure-measuring")}</p> }.into_any(),
        Some(Err(why)) => {
            refusal::view(t!("swatch-measure-refused"), &[(render(&why), String::new())])
        }
        Some(Ok(result)) if result.readings.is_empty() => {
            let reasons: Vec<_> = result.refused.iter().map(refusal::words).collect();
            refusal::view(t!("swatch-measure-refused"), &reasons)
        }
        Some(Ok(result)) => reading(measuring, &result),
    };
    view! { <section class="card stack result" role="status" aria-live="polite">{shown}</section> }
        .into_any()
}

fn reading(measuring: MeasureState, result: &ColourResult) -> AnyView {
    let MeasureState { studio, batch, purpose, pulp, .. } = measuring;
    let reading = &result.readings[0];
    let second = result.readings.get(1).zip(result.differences.first()).map(|(other, found)| {
        let text = t_with!(
            "swatch-measure-between",
            &[
                ("change", &by_lightness(found)),
                ("difference", &plus_minus(found.delta_e00, 1)),
            ],
        );
        view! { <div class="row">{chip(other.lab(), "swatch large")}<p class="grow">{text}</p></div> }
    });
    let doubt =
        result.doubt.map(|doubt| t_with!("swatch-measure-doubt", &[("doubt", &t(doubt.key()))]));
    let teach =
        (result.doubt == Some(UncertaintySource::Camera) && reading.camera.is_none()).then_some(());
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
    let since = swatch.then(|| measuring.since_before(reading)).flatten();
    view! {
        <div class="row">
            {chip(reading.lab(), "swatch huge")}
            <div class="figure grow mid">
                <span class="big words">{in_words(reading.lab(), since.as_ref())}</span>
                <span class="range">"L* "{plus_minus(reading.lightness, 1)}</span>
            </div>
        </div>
        {since.map(|since| view! { <p>{sentence_case(by_lightness(&since))}</p> })}
        {to_target}
        <details class="more">
            <summary>{t!("swatch-figures")}</summary>
            <div class="inside stack">
                {facts(reading)}
                <Explain term=Term::Yellowness />
            </div>
        </details>
        {doubt.map(|doubt| view! { <p class="small">{doubt}</p> })}
        {teach.map(|()| view! {
            <a class="button plain" href=Route::Teach.href()>{t!("teach-offer")}</a>
        })}
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
