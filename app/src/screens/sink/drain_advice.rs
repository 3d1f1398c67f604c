//! Before the liquor of a stopped bath is poured away: what is in it, and where it may go.

use bleachfield_core::{
    journal::{Book, Oxidant},
    message::Message,
    pulp::disposal::{SpentLiquor, UNPLANNED_VOLUME_ML, disposal_advice},
    quantity::{grams_per_litre, millilitres},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::latest_readings::{LatestReadings, plan_of};
use crate::{i18n::render, state::app_state};

/// Advice from the records of this liquor; local rules last.
#[component]
pub fn DrainAdvice(bath: Ulid) -> impl IntoView {
    let state = app_state();
    let advice = move || state.book(|book| advice(book, bath)).unwrap_or_default();
    view! {
        <ul>{move || advice().iter().map(|one| view! { <li>{render(one)}</li> }).collect_view()}</ul>
    }
}

/// The volume is the plan's, the strength and pH the last readings.
fn advice(book: &Book, bath: Ulid) -> Option<Vec<Message>> {
    let view = book.bath(bath)?;
    let latest = LatestReadings::of(book, bath);
    let plan = plan_of(book, view);
    let strength = latest.strip.map(|read| grams_per_litre(read.figure.value / 1000.0));
    let chlorine = view.oxidant == Oxidant::Hypochlorite;
    Some(disposal_advice(&SpentLiquor {
        volume: millilitres(plan.map_or(UNPLANNED_VOLUME_ML, |plan| plan.water_to_add_ml.value)),
        chlorine: strength.filter(|_| chlorine),
        peroxide: strength.filter(|_| !chlorine),
        ph: latest.ph.map(|read| read.figure.value),
        acid: false,
    }))
}
