//! Numbers to read at arm's length.

use leptos::prelude::*;

use crate::i18n::t;

/// A number with its unit set smaller, its name above and its range below.
#[component]
pub fn Figure(
    #[prop(into)] name: String,
    #[prop(into)] number: Signal<String>,
    #[prop(into)] unit: Signal<String>,
    /// The honest band, in words, and what dominates it.
    #[prop(into, optional)]
    range: Signal<String>,
    /// Smaller, for a number that is read but not measured out.
    #[prop(optional)]
    mid: bool,
) -> impl IntoView {
    view! {
        <div class="figure" class:mid=mid>
            <span class="name">{name}</span>
            <span class="big">
                {move || number.get()}" "<span class="unit">{move || unit.get()}</span>
            </span>
            {move || Some(range.get()).filter(|range| !range.is_empty()).map(|range| {
                view! { <span class="range">{range}</span> }
            })}
        </div>
    }
}

/// The mark that a value was assumed, not measured.
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
