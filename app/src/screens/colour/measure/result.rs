//! What came of a measurement: the colour and its figures, or why there is none and what
//! to do about it.

use bleachfield_core::{
    colour::{difference, shift::no_pair_message},
    derive::{colour_target, drying_shift, swatches},
    journal::PulpState,
    message::Message,
};
use leptos::prelude::*;

use super::MeasureState;
use crate::{
    i18n::{render, t, t_with},
    route::ColourPurpose,
    screens::colour::figures::{chip, facts, ranged},
    worker::ColourResult,
};

pub fn view(measuring: MeasureState) -> AnyView {
    let shown = move || match measuring.found.get() {
        None => view! { <p>{t!("swatch-measure-measuring")}</p> }.into_any(),
        Some(Err(why)) => refused(&[(render(&why), String::new())]),
        Some(Ok(found)) if found.readings.is_empty() => {
            let against: Vec<(String, String)> = found
                .refused
                .iter()
                .map(|one| (render(&one.message()), render(&one.instruction())))
                .collect();
            refused(&against)
        }
        Some(Ok(found)) => reading(measuring, &found),
    };
    view! { <section class="card stack result" role="status" aria-live="polite">{shown}</section> }
        .into_any()
}

/// Every reason against the photo, each with what to do; the same advice once.
fn refused(against: &[(String, String)]) -> AnyView {
    let mut advised: Vec<&str> = Vec::new();
    let lines: Vec<AnyView> = against
        .iter()
        .map(|(why, todo)| {
            let new = !todo.is_empty() && !advised.contains(&todo.as_str());
            advised.push(todo);
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

fn reading(measuring: MeasureState, found: &ColourResult) -> AnyView {
    let reading = &found.readings[0];
    let second = found.readings.get(1).zip(found.between).map(|(other, between)| {
        let gaps = [("difference", ranged(between, 1)), ("lightness", ranged(other.lightness, 1))];
        let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
        view! {
            <div class="row">{chip(other.lab(), "swatch large")}<p class="grow">{t_with!("swatch-measure-between", &gaps)}</p></div>
        }
    });
    let doubt =
        found.doubt.map(|doubt| t_with!("swatch-measure-doubt", &[("doubt", &t(doubt.key()))]));
    let lab = [reading.lightness, reading.a, reading.b];
    let to_target = (measuring.purpose == ColourPurpose::Swatch)
        .then(|| {
            measuring.studio.book_now(|book| colour_target(book.batches.get(&measuring.batch)?))
        })
        .flatten()
        .map(|target| {
            let away = difference::from_figures(lab, target.lab());
            view! { <p>{t_with!("swatch-to_target", &[("difference", &ranged(away, 1))])}</p> }
        });
    let linear = reading.lab().to_xyz().to_linear();
    let wet = measuring.purpose == ColourPurpose::Swatch;
    let dried = move || {
        (wet && measuring.pulp.get() == PulpState::Wet).then(|| {
            let shift = measuring
                .studio
                .book_now(|book| drying_shift(&swatches(book.batches.get(&measuring.batch)?)));
            view! { <p class="small">{foreseen(shift, linear)}</p> }
        })
    };
    view! {
        <div class="row">
            {chip(reading.lab(), "swatch huge")}
            <div class="figure grow mid">
                <span class="name">{t!("swatch-figure-lightness")}</span>
                <span class="big">{ranged(reading.lightness, 1)}</span>
            </div>
        </div>
        {to_target}
        {facts(reading, false)}
        {doubt.map(|doubt| view! { <p class="small">{doubt}</p> })}
        {second}
        {dried}
    }
    .into_any()
}

/// What a wet colour will dry to, or that nothing is known of it.
pub fn foreseen(
    shift: Option<bleachfield_core::colour::shift::DryingShift>,
    linear: [f64; 3],
) -> String {
    let Some((shift, dried)) = shift.and_then(|shift| Some((shift, shift.dried(linear)?))) else {
        let none: Message = no_pair_message();
        return render(&none);
    };
    let (lightness, yellowness) = (ranged(dried.lightness, 0), ranged(dried.yellowness, 0));
    let pairs = crate::i18n::t_count!("swatch-pairs", shift.pairs as usize);
    t_with!(
        "swatch-dries_to",
        &[("lightness", &lightness), ("yellowness", &yellowness), ("pairs", &pairs)],
    )
}
