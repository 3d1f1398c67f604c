//! An entry on the page.

use std::sync::Arc;

use bleachfield_core::{
    colour::display::DisplayColour,
    journal::{Batch, Body, TimelineEntry},
    quantity::{Basis, Unit},
};
use leptos::prelude::*;

use super::{EntryFigure, figures, what};
use crate::{
    components::{Assumed, Picture},
    i18n::{format_number, format_value, t, t_with},
    route::{ColourPurpose, Route},
    screens::batches::notes::note_of,
};

/// What an entry says, in words, figures and pictures.
#[component]
pub fn Telling(told: TimelineEntry, batch: Arc<Batch>) -> impl IntoView {
    let (title, lines) = what(&told, &batch);
    let mut body = told.body.clone();
    let facts = figures(&mut body).iter().map(fact).collect_view();
    let note = note_of(&told.body);
    let photo = told.body.photo().cloned().map(|photo| {
        let alt = t_with!("photo-of", &[("name", &super::super::called(&batch))]);
        view! { <Picture photo small=true opens=true alt=alt /> }
    });
    let measure = match &told.body {
        Body::Photo(p) => Some(Route::ColourMeasure {
            batch: batch.id,
            photo: p.photo.clone(),
            purpose: ColourPurpose::Swatch,
        }),
        _ => None,
    };
    let chip = match &told.body {
        Body::ColourReading(c) => Some(DisplayColour::new(c.lab()).css()),
        Body::ColourTarget(t) => Some(DisplayColour::new(t.lab()).css()),
        _ => None,
    };
    view! {
        <h3>{title}</h3>
        {lines.into_iter().map(|line| view! { <p class="line">{line}</p> }).collect_view()}
        {chip.map(|css| view! {
            <span class="swatch large" style:background=css aria-hidden="true"></span>
        })}
        <dl class="facts">{facts}</dl>
        {photo}
        {measure.map(|href| view! {
            <a class="button soft no-print" href=href.href()>{t!("swatch-measure-link")}</a>
        })}
        {note.map(|note| view! { <p class="said">{note}</p> })}
    }
}

/// One figure: name, value with its unit, range, and whether it was assumed.
fn fact(held: &EntryFigure<'_>) -> AnyView {
    let figure = &*held.figure;
    let range = (figure.low < figure.high).then(|| {
        let (low, high) = (shown(held, figure.low), shown(held, figure.high));
        t_with!("figure_range", &[("low", &low), ("high", &high)])
    });
    let assumed = figure.basis == Basis::Assumed;
    view! {
        <dt>{t(&format!("figure-{}", held.key))}</dt>
        <dd>
            {shown(held, figure.value)}
            {assumed.then(|| view! { " "<Assumed /> })}
            {range.map(|range| view! { <span class="range">{range}</span> })}
        </dd>
    }
    .into_any()
}

/// A value in the unit in which this figure is told.
fn shown(held: &EntryFigure<'_>, value: f64) -> String {
    match held.unit {
        // Strips and hardness are read in these, however small.
        Unit::MilligramsPerLitre => format!("{} mg/L", format_number(value, 3)),
        Unit::Hour => t_with!("duration-hours", &[("n", &format_number(value, 3))]),
        _ => format_value(&held.kind.value(value * held.base)),
    }
}
