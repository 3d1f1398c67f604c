//! Colours in figures, with how sure each is.

use bleachfield_core::{
    colour::{display::DisplayColour, space::Lab},
    journal::{ColourReading, Figure},
};
use leptos::prelude::*;

use crate::{
    components::Fact,
    i18n::{t, t_with, with_decimal_mark},
};

/// A figure to so many decimals, and half its range: "78.3 ± 2.1".
pub fn ranged(figure: Figure, places: usize) -> String {
    let half = (figure.high - figure.low) / 2.0;
    if half == 0.0 {
        return plain(figure.value, places);
    }
    t_with!(
        "swatch-plus_minus",
        &[("value", &plain(figure.value, places)), ("half", &plain(half, places))],
    )
}

/// A number to so many decimals.
pub fn plain(value: f64, places: usize) -> String {
    with_decimal_mark(format!("{value:.places$}").replace('-', "−"))
}

/// A colour as it looks; for a colour that no screen shows, its nearest.
pub fn chip(lab: Lab, class: &'static str) -> AnyView {
    let css = DisplayColour::new(lab).css();
    view! { <span class=class style:background=css aria-hidden="true"></span> }.into_any()
}

/// The figures of a reading, each with its range; `lightness` where it is not said already.
pub fn facts(reading: &ColourReading, lightness: bool) -> AnyView {
    let figures = [
        ("lightness", Some(reading.lightness).filter(|_| lightness), 1),
        ("chroma", reading.chroma(), 1),
        // Near the grey axis a hue means nothing.
        ("hue", reading.hue().filter(|_| reading.chroma().is_some_and(|c| c.low > 0.0)), 0),
        ("yellowness", reading.yellowness, 1),
        ("blue", reading.blue_index, 1),
        ("k_over_s", reading.k_over_s(), 3),
        ("cie_whiteness", reading.cie_whiteness(), 0),
    ];
    let lines: Vec<AnyView> = figures
        .into_iter()
        .filter_map(|(name, figure, places)| {
            let value = ranged(figure?, places);
            Some(view! { <Fact name=t(&format!("swatch-figure-{name}")) value /> }.into_any())
        })
        .collect();
    view! {
        <dl class="facts">
            {lines}
        </dl>
        <p class="small soft">{t!("swatch-not_iso")}</p>
    }
    .into_any()
}
