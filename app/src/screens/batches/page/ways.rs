//! Links from a batch to the ways to its colour and to its trials; from a pot to its trial.

use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    i18n::{t, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

#[component]
pub fn Ways(batch: Ulid) -> impl IntoView {
    let links = Memo::new(move |_| app_state().book(|book| links(book, batch)));
    move || {
        let links = links.get().into_iter().map(|(text, href)| {
            view! { <a class="button soft" href=href>{text}</a> }
        });
        links.collect_view()
    }
}

fn links(book: &bleachfield_core::journal::Book, batch: Ulid) -> Vec<(String, String)> {
    if let Some((trial, number)) = book.trial_of_pot(batch) {
        let text = t_with!("trial-is_pot", &[("n", &number.to_string())]);
        return vec![(text, Route::Trial(trial.id).href())];
    }
    let mut links = vec![
        (t!("ways-title"), Route::WaysToColour(batch).href()),
        (t!("trial-title"), Route::NewTrial(batch).href()),
    ];
    links.extend(book.trials_of(batch).into_iter().map(|trial| {
        let date = clock::local_date(trial.designed);
        (t_with!("trial-of_batch", &[("date", &date)]), Route::Trial(trial.id).href())
    }));
    links
}
