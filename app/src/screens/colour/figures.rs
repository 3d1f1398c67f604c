//! Colour figures as text.

use bleachfield_core::{
    colour::{difference::ColourDifference, space::Lab, words},
    journal::{ColourReading, Figure},
};
use leptos::prelude::*;

use crate::{
    components::Fact,
    i18n::{fixed, render, sentence_case, t, t_with},
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

/// "lighter by 6.2 ± 0.8".
pub fn by_lightness(difference: &ColourDifference) -> String {
    let (lighter, by, half) = words::by_lightness(difference);
    let by = t_with!("swatch-plus_minus", &[("value", &fixed(by, 1)), ("half", &fixed(half, 1))]);
    if lighter {
        t_with!("swatch-lighter_by", &[("by", &by)])
    } else {
        t_with!("swatch-darker_by", &[("by", &by)])
    }
}

/// A colour in words, with its change from an earlier one: "Straw, 2 shades lighter than
/// before".
pub fn in_words(lab: Lab, since: Option<&ColourDifference>) -> String {
    let name = sentence_case(render(&words::named(lab)));
    match since {
        Some(since) => format!("{name}, {}", render(&words::change(since))),
        None => name,
    }
}

/// The figures of a reading with their ranges.
pub fn facts(reading: &ColourReading) -> AnyView {
    let untaught = reading.untaught();
    let figures = [
        ("lightness", Some(reading.lightness), 1),
        ("a", Some(reading.a), 1),
        ("b", Some(reading.b), 1),
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
    let untaught = untaught.map(|figures| {
        let [l, a, b] = figures.map(|figure| plus_minus(figure, 1));
        let text = t_with!("swatch-untaught", &[("l", &l), ("a", &a), ("b", &b)]);
        view! { <p class="small">{text}</p> }
    });
    view! {
        <dl class="facts">{facts.collect_view()}</dl>
        {untaught}
        <p class="small soft">{t!("swatch-not_iso")}</p>
    }
    .into_any()
}
