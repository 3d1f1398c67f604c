//! A sum on a page of its own, without a batch.

use bleachfield_core::{
    caution::Caution,
    journal::{BatchStarted, Body, Subject},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{AntichlorSum, CookSum, SheetsSum, WashSum, no_alkali};
use crate::{
    components::{ChoiceError, NumberInput},
    i18n::{sentence_case, t},
    route::{self, Route, Sum},
    screens::calculator::bench::{ActCautions, Bench},
    state::app_state,
};

/// The screen at `/mix/wash`, `/mix/antichlor`, `/mix/cook` and `/mix/sheets`.
#[component]
pub fn SumPage(of: Sum) -> impl IntoView {
    let studio = app_state();
    match of {
        Sum::Wash => {
            let sum = studio.book_now(|book| WashSum::new(book, None));
            sum.keep();
            let (short, full) = (move || sum.summary(), move || sum.full_answer());
            let ready = Signal::derive(move || sum.is_ready());
            view! {
                <Bench of short=short.into() full=full.into() ready>
                    <section class="card bench-fields">{sum.fields_view()}</section>
                    <ActCautions cautions=Signal::derive(move || sum.cautions())
                        standing=Signal::derive(move || standing(sum.cautions())) />
                </Bench>
            }
            .into_any()
        }
        Sum::Cook => {
            let sum = studio.book_now(|book| CookSum::new(book, None));
            sum.keep();
            let (short, full) = (move || sum.short_answer(), move || sum.full_answer());
            let ready = Signal::derive(move || sum.is_ready());
            view! {
                <Bench of short=short.into() full=full.into() ready>
                    <section class="card bench-fields">{sum.fields_view()}</section>
                    <ActCautions cautions=Signal::derive(move || sum.cautions())
                        standing=Signal::derive(move || standing(sum.cautions())) />
                    {sum.rinse_section()}
                    <StartBatch sum />
                </Bench>
            }
            .into_any()
        }
        Sum::Sheets => {
            let sum = SheetsSum::new(None);
            sum.keep();
            let (short, full) = (move || sum.short_answer(), move || sum.full_answer());
            let ready = Signal::derive(move || sum.is_ready());
            view! {
                <Bench of short=short.into() full=full.into() ready>
                    <section class="card stack">{sum.fields_view()}</section>
                    {sum.more_sections()}
                </Bench>
            }
            .into_any()
        }
        _ => {
            let sum = studio.book_now(|book| AntichlorSum::new(book, None));
            sum.keep();
            let (short, full) = (move || sum.short_answer(), move || sum.full_answer());
            let ready = Signal::derive(move || sum.is_ready());
            view! {
                <Bench of=Sum::Antichlor short=short.into() full=full.into() ready>
                    <section class="card stack">{sum.fields_view()}</section>
                    <ActCautions cautions=Signal::derive(move || sum.cautions())
                        standing=Signal::derive(move || sum.standing_cautions()) />
                </Bench>
            }
            .into_any()
        }
    }
}

/// Those that hold whatever the numbers are.
fn standing(mut all: Vec<Caution>) -> Vec<Caution> {
    all.retain(|caution| !caution.id.is_of_this_bath());
    all
}

/// Starts a batch with this cook.
#[component]
fn StartBatch(sum: CookSum) -> impl IntoView {
    let studio = app_state();
    let tried = RwSignal::new(false);
    let start = move |_| {
        tried.set(true);
        if sum.inputs().map(NumberInput::try_now).contains(&false) {
            return;
        }
        let Some(entry) = sum.entry(String::new()) else { return };
        let fibre = sum.fibre.get_untracked().trim().to_owned();
        let started = BatchStarted {
            name: sentence_case(fibre.clone()),
            fibre,
            fibre_key: sum.fibre_key(),
            cook: None,
            raw_dry_g: sum.raw_dry(),
            note: String::new(),
        };
        let from = route::current();
        spawn_local(async move {
            let batch = studio.fresh_id();
            let subject = Subject::Batch(batch);
            let bodies =
                vec![(subject, Body::BatchStarted(started)), (subject, Body::Cooked(entry))];
            if studio.write_all(bodies).await.is_some() {
                route::go_from(&from, &Route::batch(batch));
            }
        });
    };
    view! {
        <ChoiceError problem=Signal::derive(move || no_alkali(sum, tried)) />
        <button class="button touch" on:click=start>{t!("cook-begin")}</button>
    }
}
