//! A product's timeline, the latest entry first.

use std::sync::Arc;

use bleachfield_core::journal::{
    Body, Product, StrengthFound, StrengthMethod, Subject, TimelineEntry,
};
use leptos::prelude::*;

use super::{
    strength::{range_text, stated},
    writer::{ProductWriter, withdraw},
};
use crate::{
    i18n::{format_number, t, t_count, t_with},
    platform::clock,
};

#[component]
pub fn History(product: Arc<Product>, writer: ProductWriter) -> impl IntoView {
    let visible = product.timeline.iter().filter(|entry| entry.is_visible()).rev();
    view! { <ol class="timeline">{visible.map(|entry| line(entry, writer)).collect_view()}</ol> }
}

fn line(entry: &TimelineEntry, writer: ProductWriter) -> AnyView {
    let id = entry.entry.id;
    let kind = entry.body.kind().to_owned();
    let title = t(&format!("entry-{kind}"));
    let withdraw_label = t_with!("shelf-take_back_this", &[("what", &title)]);
    view! {
        <li data-kind=kind>
            <div class="row top">
                <div class="grow stack tight">
                    <p class="when"><time>{clock::local(entry.at)}</time></p>
                    <h3>{title}</h3>
                    {describe(&entry.body).into_iter().map(|line| view! {
                        <p class="line">{line}</p>
                    }).collect_view()}
                    {note(&entry.body).map(|note| view! { <p class="said">{note}</p> })}
                </div>
                <button class="button bare no-print" aria-label=withdraw_label
                    on:click=move |_| withdraw(writer.studio, Subject::Bottle(writer.product), id)>
                    {t!("shelf-take_back")}
                </button>
            </div>
        </li>
    }
    .into_any()
}

fn describe(body: &Body) -> Vec<String> {
    match body {
        Body::ProductAdded(added) => added
            .strength
            .iter()
            .map(|label| t_with!("shelf-told-label", &[("label", &stated(label))]))
            .collect(),
        Body::ProductOpened(opened) => {
            vec![t_with!("shelf-told-opened", &[("date", &clock::local_day(opened.on))])]
        }
        Body::StrengthFound(found) => describe_strength(found),
        Body::Renamed(renamed) => vec![renamed.name.clone()],
        Body::Unknown(_) => vec![t!("entry_line-unknown")],
        _ => Vec::new(),
    }
}

fn describe_strength(found: &StrengthFound) -> Vec<String> {
    let method = match found.method {
        StrengthMethod::IodometricTitration => t_count!("shelf-told-titrated", found.runs.len()),
        StrengthMethod::PermanganateTitration => t!("shelf-told-permanganate"),
        StrengthMethod::Strip => t!("shelf-told-strip"),
        StrengthMethod::Other => t!("shelf-told-other"),
    };
    let strip = found.dilution.zip(found.strip_mg_per_l).map(|(water, read)| {
        let (one_in, mg) = (format_number(water + 1.0, 4), format_number(read.value, 3));
        t_with!("shelf-told-strip_read", &[("one_in", &one_in), ("mg", &mg)])
    });
    let range = range_text(found.strength.figure, "").map(|range| format!(" ({})", range.trim()));
    let strength = format!("{}{}", stated(&found.strength), range.unwrap_or_default());
    [Some(strength), Some(method), strip].into_iter().flatten().collect()
}

/// The note written with an entry.
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
