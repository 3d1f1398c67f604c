//! A sum on a page of its own, without a batch.

use bleachfield_core::journal::{BatchStarted, Body, Subject};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{AntichlorSum, CookSum, SheetsSum, WashSum};
use crate::{
    components::Page,
    i18n::{sentence_case, t},
    route::{Route, Sum, go},
    state::app_state,
};

/// The screen at `/mix/wash`, `/mix/antichlor`, `/mix/cook` and `/mix/sheets`.
#[component]
pub fn SumPage(of: Sum) -> impl IntoView {
    let book = app_state();
    let inside = match of {
        Sum::Wash => book.book_now(|book| WashSum::new(book, None)).view(),
        Sum::Antichlor => book.book_now(|book| AntichlorSum::new(book, None)).view(),
        Sum::Cook => {
            let sum = book.book_now(|book| CookSum::new(book, None));
            view! { {sum.view()}<Begin sum /> }.into_any()
        }
        Sum::Sheets => SheetsSum::new(None).view(),
    };
    let title = t(&format!("mix-{}", <&str>::from(of)));
    view! {
        <Page title back=Route::Calculator>
            <section class="card stack">{inside}</section>
        </Page>
    }
}

/// Begins a batch with the cook as it stands.
#[component]
fn Begin(sum: CookSum) -> impl IntoView {
    let studio = app_state();
    let begin = move |_| {
        let asks = sum.asks();
        let well = asks.iter().filter(|ask| !ask.try_now()).count() == 0;
        let Some(entry) = sum.entry(String::new()).filter(|_| well) else { return };
        let fibre = sum.fibre.get_untracked().trim().to_owned();
        let begun = BatchStarted {
            name: sentence_case(fibre.clone()),
            fibre,
            fibre_key: sum.fibre_key(),
            cook: None,
            raw_dry_g: sum.raw_dry(),
            note: String::new(),
        };
        spawn_local(async move {
            let batch = studio.fresh_id();
            let about = Subject::Batch(batch);
            let bodies = vec![(about, Body::BatchStarted(begun)), (about, Body::Cooked(entry))];
            if studio.write_all(bodies).await.is_some() {
                go(&Route::batch(batch));
            }
        });
    };
    view! { <button class="button touch" on:click=begin>{t!("cook-begin")}</button> }
}
