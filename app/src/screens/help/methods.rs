//! Methods in numbered steps, one fold each.

use leptos::prelude::*;

use crate::{
    components::{PhotoSetup, StripReading},
    i18n::t,
};

/// Name and number of steps, in the order in which a batch needs them. The messages are
/// `help-method-<name>-head` and `help-method-<name>-<step>`.
const METHODS: [(&str, usize); 8] = [
    ("dryness", 4),
    ("strength", 4),
    ("make_up", 4),
    ("run", 5),
    ("stop", 4),
    ("wash", 4),
    ("prove", 4),
    ("photo", 4),
];

/// The drawing of a method.
fn drawing(name: &str) -> Option<AnyView> {
    match name {
        "photo" => Some(view! { <PhotoSetup /> }.into_any()),
        "prove" => Some(view! { <StripReading /> }.into_any()),
        _ => None,
    }
}

#[component]
pub fn Methods() -> impl IntoView {
    let method = |(name, steps): (&str, usize)| {
        let steps = (1..=steps)
            .map(|n| view! { <li>{t(&format!("help-method-{name}-{n}"))}</li> })
            .collect_view();
        view! {
            <details class="more">
                <summary>{t(&format!("help-method-{name}-head"))}</summary>
                <div class="inside stack"><ol>{steps}</ol>{drawing(name)}</div>
            </details>
        }
    };
    view! {
        <section class="stack">
            <h2>{t!("help-methods_head")}</h2>
            {METHODS.map(method).collect_view()}
        </section>
    }
}
