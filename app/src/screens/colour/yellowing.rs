//! Yellowing over time: the dried swatches of all batches, measured again, with what is due and
//! whose rinse was short.

use bleachfield_core::{
    derive::{AgedSwatch, SignOffEvidence, Swatch, aged_swatches, next_recheck, swatches},
    journal::{Batch, PulpState},
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::{chip::chip, figures::plus_minus, timed_swatch::recheck_text};
use crate::{
    components::{FigureTable, Page},
    i18n::{fixed, t, t_count, t_with},
    platform::clock,
    route::{BatchForm, Route},
    screens::batches::batch_name,
    state::app_state,
};

/// `/batches/yellowing`
pub fn page() -> AnyView {
    let studio = app_state();
    let cards = move || {
        let now = clock::now();
        studio.book(|book| {
            let mut sheets: Vec<Sheet> = book.batches.values().filter_map(Sheet::of).collect();
            // By due date; those with nothing due last.
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
        let fresh = all.iter().find(|s| s.reading.pulp == PulpState::Dried)?.clone();
        Some(Self { batch, fresh, aged: aged_swatches(&all), due: next_recheck(&all) })
    }

    fn card(&self, now: Timestamp) -> AnyView {
        let Self { batch, fresh, aged, due } = self;
        let id = batch.id;
        let due = due.map(|due| {
            view! { <p class:marked=due <= now>{recheck_text(due, now)}</p> }
        });
        let made = t_with!("swatch-ageing-made", &[("day", &clock::local_date(fresh.at))]);
        view! {
            <li class="card stack">
                <div class="row">
                    {chip(fresh.reading.lab(), "swatch large")}
                    {aged.last().map(|last| chip(last.now.reading.lab(), "swatch large"))}
                    <h2 class="grow"><a href=Route::Colour(id).href()>{batch_name(batch)}</a></h2>
                </div>
                <p class="small">{made}</p>
                {rinse(batch)}
                {(!aged.is_empty()).then(|| table(aged))}
                {due}
                <a class="button soft" href=Route::form(id, BatchForm::Photo).href()>{t!("swatch-ageing-again")}</a>
            </li>
        }
        .into_any()
    }
}

fn table(aged: &[AgedSwatch]) -> impl IntoView + use<> {
    let heads = ["after", "kept", "post_colour", "since_made"]
        .map(|key| t(&format!("swatch-ageing-{key}")))
        .to_vec();
    let row = |aged: &AgedSwatch| {
        let days = t_count!("swatch-days", aged.days.round().max(0.0) as usize);
        let post_colour = aged.post_colour.map_or("–".into(), |number| fixed(number, 2));
        (days, vec![t(aged.ageing.key()), post_colour, plus_minus(aged.since_made, 1)])
    };
    view! { <FigureTable heads rows=aged.iter().map(row).collect() /> }
}

/// How the batch was rinsed, and which end tests were not met: residues in the pulp promote
/// yellowing.
fn rinse(batch: &Batch) -> AnyView {
    let rinses = t_count!("swatch-rinses", batch.rinses.len());
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    if batch.baths.is_empty() || gaps.is_empty() {
        return view! { <p class="small">{rinses}</p> }.into_any();
    }
    let open: Vec<String> = gaps.iter().map(|gap| t(gap.test.word())).collect();
    let text = t_with!("swatch-ageing-short", &[("rinses", &rinses), ("open", &open.join(", "))]);
    view! { <p class="caution care small">{text}</p> }.into_any()
}
