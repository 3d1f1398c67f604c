//! The view of an entry.

use std::sync::Arc;

use bleachfield_core::{
    colour::display::DisplayColour,
    journal::{Batch, Body, TimelineEntry},
    quantity::{Basis, Unit},
};
use leptos::prelude::*;

use super::{EntryFigure, describe, figures_mut, note_of};
use crate::{
    components::{Assumed, Picture},
    i18n::{format_number, format_value, t, t_with},
    route::{ColourPurpose, Route},
    screens::batches::facts::batch_name,
};

/// What an entry records, in words, figures and pictures.
#[component]
pub fn EntryView(entry: TimelineEntry, batch: Arc<Batch>) -> impl IntoView {
    let (title, lines) = describe(&entry, &batch);
    let mut body = entry.body.clone();
    let facts = figures_mut(&mut body).iter().map(fact).collect_view();
    let photo = entry.body.photo().cloned().map(|photo| {
        let alt = t_with!("photo-of", &[("name", &batch_name(&batch))]);
        view! { <Picture photo small=true opens=true alt=alt /> }
    });
    let measure = match &entry.body {
        Body::Photo(p) => Some(Route::ColourMeasure {
            batch: batch.id,
            photo: p.photo.clone(),
            purpose: ColourPurpose::Swatch,
        }),
        _ => None,
    };
    let colour = match &entry.body {
        Body::ColourReading(c) => Some(c.lab()),
        Body::ColourTarget(t) => Some(t.lab()),
        _ => None,
    };
    view! {
        <h3 class="visually-hidden">{title}</h3>
        {lines.into_iter().map(|line| view! { <p class="line">{line}</p> }).collect_view()}
        {colour.map(|lab| view! {
            <span class="swatch large" style:background=DisplayColour::new(lab).css()
                aria-hidden="true"></span>
        })}
        <dl class="facts">{facts}</dl>
        {photo}
        {measure.map(|route| view! {
            <a class="button soft no-print" href=route.href()>{t!("swatch-measure-link")}</a>
        })}
        {note_of(&entry.body).map(|note| view! { <p class="said">{note}</p> })}
    }
}

/// Figures in one line, at most.
const BRIEF_FIGURES: usize = 3;

/// An entry in one line: its title, and the first of what it says.
pub fn brief(entry: &TimelineEntry, batch: &Batch) -> (String, String) {
    let (title, lines) = describe(entry, batch);
    let mut body = entry.body.clone();
    let figures = figures_mut(&mut body);
    let figures = figures.iter().take(BRIEF_FIGURES).map(|figure| {
        let value = with_unit(figure, figure.figure.value);
        match figure.key {
            // Their unit does not say what they are.
            "ph" | "ph_before" | "ph_after" | "lightness" => format!("{} {value}", figure.name()),
            _ => value,
        }
    });
    // A colour is told by its lightness.
    let most = if matches!(entry.body, Body::ColourReading(_)) { 1 } else { BRIEF_FIGURES };
    let first_line = lines.into_iter().next();
    let parts: Vec<String> = first_line.into_iter().chain(figures.take(most)).collect();
    let text = if parts.is_empty() {
        note_of(&entry.body).unwrap_or_default()
    } else {
        parts.join(" · ")
    };
    (title, text)
}

/// Name, value with unit, range, and the mark of an assumed value.
fn fact(entry_figure: &EntryFigure<'_>) -> AnyView {
    let figure = &*entry_figure.figure;
    let text = |value| with_unit(entry_figure, value);
    let range = (figure.low < figure.high).then(|| {
        t_with!("figure_range", &[("low", &text(figure.low)), ("high", &text(figure.high))])
    });
    view! {
        <dt>{entry_figure.name()}</dt>
        <dd>
            {text(figure.value)}
            {(figure.basis == Basis::Assumed).then(|| view! { " "<Assumed /> })}
            {range.map(|range| view! { <span class="range">{range}</span> })}
        </dd>
    }
    .into_any()
}

fn with_unit(figure: &EntryFigure<'_>, value: f64) -> String {
    match figure.unit {
        // As strips and hardness kits are marked, however small the value.
        Unit::MilligramsPerLitre => format!("{} mg/L", format_number(value, 3)),
        Unit::Hour => t_with!("duration-hours", &[("n", &format_number(value, 3))]),
        _ => format_value(&figure.kind.value(value * figure.base)),
    }
}
