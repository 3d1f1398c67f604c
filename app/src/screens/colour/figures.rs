//! Colour figures as text.

use bleachfield_core::journal::{ColourReading, Figure};
use leptos::prelude::*;

use crate::{
    components::Fact,
    i18n::{t, t_with, with_decimal_mark},
};

/// A figure and half its range: "78.3 ± 2.1".
pub fn plus_minus(figure: Figure, decimals: usize) -> String {
    let half = (figure.high - figure.low) / 2.0;
    if half == 0.0 {
        return fixed(figure.value, decimals);
    }
    t_with!(
        "swatch-plus_minus",
        &[("value", &fixed(figure.value, decimals)), ("half", &fixed(half, decimals))],
    )
}

/// A number with fixed decimals.
pub fn fixed(value: f64, decimals: usize) -> String {
    with_decimal_mark(format!("{value:.decimals$}").replace('-', "−"))
}

/// The figures of a reading with their ranges; `lightness` is left out where it is shown already.
pub fn facts(reading: &ColourReading, lightness: bool) -> AnyView {
    let figures = [
        ("lightness", Some(reading.lightness).filter(|_| lightness), 1),
        ("chroma", reading.chroma(), 1),
        // Undefined near the grey axis.
        ("hue", reading.hue().filter(|_| reading.chroma().is_some_and(|c| c.low > 0.0)), 0),
        ("yellowness", reading.yellowness, 1),
        ("blue", reading.blue_index, 1),
        ("k_over_s", reading.k_over_s(), 3),
        ("cie_whiteness", reading.cie_whiteness(), 0),
    ];
    let facts = figures.into_iter().filter_map(|(name, figure, decimals)| {
        let value = plus_minus(figure?, decimals);
        Some(view! { <Fact name=t(&format!("swatch-figure-{name}")) value /> })
    });
    view! {
        <dl class="facts">{facts.collect_view()}</dl>
        <p class="small soft">{t!("swatch-not_iso")}</p>
    }
    .into_any()
}
