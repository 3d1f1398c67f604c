//! All that happened to a product, the latest first.

use std::sync::Arc;

use bleachfield_core::journal::{
    Body, Product, StrengthFound, StrengthMethod, Subject, TimelineEntry,
};
use leptos::prelude::*;

use super::{
    state::{ProductWriter, withdraw},
    truth::{ranged, stated},
};
use crate::{
    i18n::{format_number, t, t_count, t_with},
    platform::clock,
};

/// The lines of the product's log that stand.
#[component]
pub fn History(product: Arc<Product>, writing: ProductWriter) -> impl IntoView {
    let lines = product.timeline.iter().filter(|told| told.is_visible()).rev();
    view! {
        <ol class="timeline">
            {lines.map(|told| view! { <Line told=told.clone() writing /> }).collect_view()}
        </ol>
    }
}

#[component]
fn Line(told: TimelineEntry, writing: ProductWriter) -> impl IntoView {
    let entry = told.entry.id;
    let kind = told.body.kind().to_owned();
    let title = t(&format!("entry-{kind}"));
    let take_back = t_with!("shelf-take_back_this", &[("what", &title)]);
    view! {
        <li data-kind=kind>
            <div class="row top">
                <div class="grow stack tight">
                    <p class="when"><time>{clock::local(told.at)}</time></p>
                    <h3>{title}</h3>
                    {lines(&told.body).into_iter().map(|line| view! {
                        <p class="line">{line}</p>
                    }).collect_view()}
                    {note(&told.body).map(|note| view! { <p class="said">{note}</p> })}
                </div>
                <button class="button bare no-print" aria-label=take_back
                    on:click=move |_| {
                        withdraw(writing.studio, Subject::Bottle(writing.product), entry);
                    }>
                    {t!("shelf-take_back")}
                </button>
            </div>
        </li>
    }
}

/// What an entry says, in words.
fn lines(body: &Body) -> Vec<String> {
    match body {
        Body::ProductAdded(added) => match &added.strength {
            Some(label) => vec![t_with!("shelf-told-label", &[("label", &stated(label))])],
            None => Vec::new(),
        },
        Body::ProductOpened(opened) => {
            vec![t_with!("shelf-told-opened", &[("date", &clock::local_day(opened.on))])]
        }
        Body::StrengthFound(found) => strength(found),
        Body::Renamed(renamed) => vec![renamed.name.clone()],
        Body::Unknown(_) => vec![t!("entry_line-unknown")],
        _ => Vec::new(),
    }
}

fn strength(found: &StrengthFound) -> Vec<String> {
    let method = match found.method {
        StrengthMethod::IodometricTitration => t_count!("shelf-told-titrated", found.runs.len()),
        StrengthMethod::PermanganateTitration => t!("shelf-told-permanganate"),
        StrengthMethod::Strip => t!("shelf-told-strip"),
        StrengthMethod::Other => t!("shelf-told-other"),
    };
    let thinned = found.dilution.zip(found.strip_mg_per_l).map(|(water, read)| {
        let (one_in, mg) = (format_number(water + 1.0, 4), format_number(read.value, 3));
        t_with!("shelf-told-strip_read", &[("one_in", &one_in), ("mg", &mg)])
    });
    let figure = found.strength.figure;
    let range = ranged(figure, "").map(|range| format!(" ({})", range.trim()));
    let strength = format!("{}{}", stated(&found.strength), range.unwrap_or_default());
    [Some(strength), Some(method), thinned].into_iter().flatten().collect()
}

/// What the person wrote beside it.
fn note(body: &Body) -> Option<String> {
    let text = match body {
        Body::ProductAdded(added) => &added.note,
        Body::StrengthFound(found) => &found.note,
        Body::ProductFinished(finished) => &finished.why,
        Body::Note(note) => &note.text,
        _ => return None,
    };
    (!text.is_empty()).then(|| text.clone())
}
