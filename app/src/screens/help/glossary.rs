//! The glossary: every term of the trade with its meaning.

use leptos::prelude::*;
use strum::IntoEnumIterator;

use crate::{
    components::{Page, Term},
    i18n::t,
    route::Route,
};

/// The screen at `/help/glossary`.
#[component]
pub fn Glossary() -> impl IntoView {
    let mut terms: Vec<(String, String)> =
        Term::iter().map(|term| (term.name(), term.meaning())).collect();
    terms.sort_by_key(|(name, _)| name.to_lowercase());
    let terms = terms
        .into_iter()
        .map(|(name, meaning)| view! { <div><dt>{name}</dt><dd>{meaning}</dd></div> })
        .collect_view();
    view! {
        <Page title=t!("glossary-title") back=Route::Help>
            <p class="soft">{t!("glossary-what")}</p>
            <dl class="glossary">{terms}</dl>
        </Page>
    }
}
