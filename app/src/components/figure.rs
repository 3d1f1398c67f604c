//! Figures and facts of a result.

use leptos::prelude::*;

use super::{Term, field::explained};
use crate::i18n::t;

/// A number with its name above, its unit set smaller, and its range below.
#[component]
pub fn Figure(
    #[prop(into)] name: String,
    #[prop(into)] number: Signal<String>,
    #[prop(into)] unit: Signal<String>,
    /// The range in words, and the input that dominates it.
    #[prop(into, optional)]
    range: Signal<String>,
    /// Smaller, for a number that is read but not measured out.
    #[prop(optional)]
    mid: bool,
    /// A term of the name, explained on tap.
    #[prop(optional)]
    term: Option<Term>,
) -> impl IntoView {
    view! {
        <div class="figure" class:mid=mid>
            {explained(view! { <span class="name">{name}</span> }, term)}
            <span class="big">
                {move || number.get()}" "<span class="unit">{move || unit.get()}</span>
            </span>
            {move || Some(range.get()).filter(|range| !range.is_empty()).map(|range| {
                view! { <span class="range">{range}</span> }
            })}
        </div>
    }
}

/// Marks a value as assumed, not measured.
#[component]
pub fn Assumed() -> impl IntoView {
    view! { <span class="assumed">{t!("mark-assumed")}</span> }
}

/// A line of a fact list (`<dl class="facts">`).
#[component]
pub fn Fact(
    #[prop(into)] name: String,
    #[prop(into)] value: String,
    #[prop(optional)] assumed: bool,
) -> impl IntoView {
    view! {
        <dt>{name}</dt>
        <dd>{value}{assumed.then(|| view! { " "<Assumed /> })}</dd>
    }
}

/// A table of figures. Each row is its heading and its cells; `heads` are the columns'
/// headings, that of the row headings first.
#[component]
pub fn FigureTable(heads: Vec<String>, rows: Vec<(String, Vec<String>)>) -> impl IntoView {
    let heads = heads.into_iter().map(|head| view! { <th scope="col">{head}</th> });
    let rows = rows.into_iter().map(|(head, cells)| {
        let cells = cells.into_iter().map(|cell| view! { <td>{cell}</td> });
        view! { <tr><th scope="row">{head}</th>{cells.collect_view()}</tr> }
    });
    view! {
        <table class="loads">
            <thead><tr>{heads.collect_view()}</tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

/// A [`FigureTable`] that may be wider than the screen: it scrolls by itself, by keys as well.
#[component]
pub fn WideTable(
    label: String,
    heads: Vec<String>,
    rows: Vec<(String, Vec<String>)>,
) -> impl IntoView {
    view! {
        <div class="wide-table" role="region" aria-label=label tabindex="0">
            <FigureTable heads rows />
        </div>
    }
}
