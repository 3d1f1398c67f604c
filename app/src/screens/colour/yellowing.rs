//! Yellowing: swatches measured again after a while, of all batches, with what is due
//! and whose rinse was short.

use bleachfield_core::{
    derive::{AgedSwatch, SignOffEvidence, Swatch, aged_swatches, next_recheck, swatches},
    journal::Batch,
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::{
    figures::{chip, plain, ranged},
    seen::look_told,
};
use crate::{
    components::Page,
    i18n::{t, t_count, t_with},
    platform::clock,
    route::{BatchForm, Route},
    screens::batches::called,
    state::app_state,
};

/// `/batches/yellowing`
pub fn page() -> AnyView {
    let studio = app_state();
    let cards = move || {
        let now = clock::now();
        studio.book(|book| {
            let mut sheets: Vec<Sheet> = book.batches.values().filter_map(Sheet::of).collect();
            // What is due first, then what comes next, then what is done.
            sheets.sort_by_key(|sheet| sheet.due.unwrap_or(Timestamp::MAX));
            sheets.iter().map(|sheet| sheet.card(now)).collect::<Vec<AnyView>>()
        })
    };
    view! {
        <Page title=t!("swatch-ageing-title") back=Route::Batches>
            <div class="stack">
                <p class="small">{t!("swatch-ageing-how")}</p>
                {move || {
                    let cards = cards();
                    if cards.is_empty() {
                        view! { <p class="card">{t!("swatch-ageing-none")}</p> }.into_any()
                    } else {
                        view! { <ul class="cards">{cards}</ul> }.into_any()
                    }
                }}
            </div>
        </Page>
    }
    .into_any()
}

/// A batch with a dried swatch.
struct Sheet<'a> {
    batch: &'a Batch,
    fresh: Swatch,
    aged: Vec<AgedSwatch>,
    due: Option<Timestamp>,
}

impl<'a> Sheet<'a> {
    fn of(batch: &'a Batch) -> Option<Self> {
        let all = swatches(batch);
        let dried = |s: &&Swatch| s.reading.pulp == bleachfield_core::journal::PulpState::Dried;
        let fresh = all.iter().find(dried)?.clone();
        Some(Self { batch, fresh, aged: aged_swatches(&all), due: next_recheck(&all) })
    }

    fn card(&self, now: Timestamp) -> AnyView {
        let Self { batch, fresh, aged, due } = self;
        let id = batch.id;
        let due = due.map(|due| {
            view! { <p class:marked=due <= now>{look_told(due, now)}</p> }
        });
        let made = t_with!("swatch-ageing-made", &[("day", &clock::local_date(fresh.at))]);
        let rows: Vec<AnyView> = aged.iter().map(row).collect();
        let table = (!rows.is_empty()).then(|| {
            let heads = ["after", "kept", "post_colour", "since_made"]
                .map(|key| view! { <th scope="col">{t(&format!("swatch-ageing-{key}"))}</th> });
            view! {
                <table class="loads">
                    <thead><tr>{heads.into_iter().collect_view()}</tr></thead>
                    <tbody>{rows}</tbody>
                </table>
            }
        });
        view! {
            <li class="card stack">
                <div class="row">
                    {chip(fresh.reading.lab(), "swatch large")}
                    {aged.last().map(|last| chip(last.now.reading.lab(), "swatch large"))}
                    <h2 class="grow"><a href=Route::Colour(id).href()>{called(batch)}</a></h2>
                </div>
                <p class="small">{made}</p>
                {rinse(batch)}
                {table}
                {due}
                <a class="button soft" href=Route::form(id, BatchForm::Photo).href()>{t!("swatch-ageing-again")}</a>
            </li>
        }
        .into_any()
    }
}

fn row(aged: &AgedSwatch) -> AnyView {
    let post = aged.post_colour.map_or("–".into(), |number| plain(number, 2));
    view! {
        <tr>
            <th scope="row">{t_count!("swatch-days", aged.days.round().max(0.0) as usize)}</th>
            <td>{t(aged.ageing.key())}</td>
            <td>{post}</td>
            <td>{ranged(aged.since_made, 1)}</td>
        </tr>
    }
    .into_any()
}

/// How the batch was rinsed, and what was never proven of it: what stayed in the pulp is
/// what yellows it first.
fn rinse(batch: &Batch) -> AnyView {
    let rinses = t_count!("swatch-rinses", batch.rinses.len());
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let short = !batch.baths.is_empty() && !gaps.is_empty();
    if !short {
        return view! { <p class="small">{rinses}</p> }.into_any();
    }
    let open: Vec<String> = gaps.iter().map(|gap| t(gap.test.word())).collect();
    let told = t_with!("swatch-ageing-short", &[("rinses", &rinses), ("open", &open.join(", "))]);
    view! { <p class="caution care small">{told}</p> }.into_any()
}
