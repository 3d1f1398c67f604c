//! The screen: what is missing, or the ways, as they are worked out in small parts.

use std::time::Duration;

use bleachfield_core::{
    derive::{WaysMissing, WaysOfBatch},
    forecast::ways::{WayAdvice, WayOption, WaySearch, WaySearchState, way_advice},
    journal::Batch,
    quantity::Basis,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    card::card,
    table::table,
    words::{kind_name, lightness, odds},
};
use crate::{
    components::Page,
    i18n::{format_number, t, t_count, t_with},
    platform::clock,
    route::{BatchForm, Route},
    screens::{
        batches::batch_name,
        plan::{expressed_water, residual},
    },
    state::app_state,
};

/// Draws in all; and when the screen shows what there is.
const DRAWS: u32 = 120;
const SHOWN_AT: [u32; 3] = [24, 60, DRAWS];
/// Time that one part of the search takes, ms: the page answers in between.
const PART: f64 = 12.0;
/// The same ways each time the screen opens.
const SEED: u32 = 1;

/// `/batch/ID/ways`.
#[component]
pub fn WaysToColour(batch: Ulid) -> impl IntoView {
    let Some(of) = app_state().book_now(|book| book.batches.get(&batch).cloned()) else {
        return view! {
            <Page title=t!("ways-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any();
    };
    let title = t_with!("ways-title_of", &[("batch", &batch_name(&of))]);
    let (left, water) = (residual(&of), expressed_water(&of));
    let found = app_state().book_now(|book| WaysOfBatch::of(book, &of, clock::now(), left, water));
    let body = match found {
        Err(missing) => missing_view(batch, missing),
        Ok(found) => ways(&of, found),
    };
    view! {
        <Page title back=Route::batch(batch)>
            <div class="stack wide ways">{body}</div>
        </Page>
    }
    .into_any()
}

fn missing_view(batch: Ulid, missing: WaysMissing) -> AnyView {
    let (why, link, act) = match missing {
        WaysMissing::Target => {
            (t!("ways-no_target"), Route::ColourTarget(batch), t!("ways-choose_target"))
        }
        WaysMissing::Weight => {
            (t!("ways-no_weight"), Route::form(batch, BatchForm::Weigh), t!("next-weigh"))
        }
        WaysMissing::Bleach => (t!("ways-no_bleach"), Route::NewProduct, t!("trial-to_shelf")),
    };
    view! { <p>{why}</p><a class="button touch" href=link.href()>{act}</a> }.into_any()
}

/// What the screen shows of a search.
#[derive(Clone)]
struct Found {
    options: Vec<WayOption>,
    advice: WayAdvice,
    state: WaySearchState,
}

fn ways(batch: &Batch, of: WaysOfBatch) -> AnyView {
    let id = batch.id;
    let request = of.request.clone();
    let Ok(search) = WaySearch::new(request.clone(), SEED) else {
        return view! { <p class="refused" role="alert">{t!("ways-impossible")}</p> }.into_any();
    };
    let found = RwSignal::new_local(None::<Found>);
    let search = StoredValue::new_local(search);
    go_on(search, found);
    let measured = request.lightness.basis != Basis::Assumed;
    let target = format_number(request.target, 3);
    let [now, low, high] = [request.lightness.value, request.lightness.low, request.lightness.high]
        .map(|l| format!("{l:.0}"));
    let from_to = t_with!(
        "ways-from_to",
        &[("now", &now), ("low", &low), ("high", &high), ("target", &target)]
    );
    let of = StoredValue::new(of);
    view! {
        <p>{from_to}</p>
        {(!measured).then(|| view! {
            <p class="caution note" role="note">
                {t!("ways-measure_first")}" "
                <a href=Route::form(id, BatchForm::Photo).href()>{t!("ways-measure")}</a>
            </p>
        })}
        <div role="status">
            {move || match found.get() {
                None => view! { <p>{t!("ways-working")}</p> }.into_any(),
                Some(found) => advice_view(id, &found),
            }}
        </div>
        {move || found.get().map(|found| {
            let take = match found.advice {
                WayAdvice::Take(nth) => Some(nth),
                _ => None,
            };
            of.with_value(|of| found.options.iter().enumerate().map(|(nth, option)| {
                card(id, of, option, take == Some(nth))
            }).collect_view())
        })}
        {move || found.get().filter(|found| found.options.len() > 1).map(|found| view! {
            <details class="more">
                <summary>{t!("ways-side_by_side")}</summary>
                <div class="inside">{of.with_value(|of| table(of, &found.options))}</div>
            </details>
        })}
        {move || found.get().map(|found| rests_on(found.state))}
    }
    .into_any()
}

/// Goes on with the search in parts until all draws are made or the screen is left.
fn go_on(
    search: StoredValue<WaySearch, LocalStorage>,
    found: RwSignal<Option<Found>, LocalStorage>,
) {
    let part = search.try_update_value(|search| {
        let (began, before) = (clock::monotonic_ms(), search.state().draws);
        while clock::monotonic_ms() - began < PART && search.state().draws < DRAWS {
            if search.state().tried == 0 {
                return (0, DRAWS);
            }
            search.advance();
        }
        (before, search.state().draws)
    });
    let Some((before, draws)) = part else { return };
    if SHOWN_AT.iter().any(|at| before < *at && *at <= draws) {
        let shown = search.try_with_value(|search| {
            let options = search.options();
            let advice = way_advice(search.request(), &options);
            Found { options, advice, state: search.state() }
        });
        let _ = found.try_set(shown);
    }
    if draws < DRAWS {
        set_timeout(move || go_on(search, found), Duration::ZERO);
    }
}

fn advice_view(batch: Ulid, found: &Found) -> AnyView {
    let trial = view! {
        <a class="button plain" href=Route::NewTrial(batch).href()>{t!("ways-try_pots")}</a>
    };
    let text = match found.advice {
        WayAdvice::LeaveNatural => t!("ways-leave_natural"),
        WayAdvice::Take(nth) => {
            let name = found.options.get(nth).map(|one| kind_name(one.kind)).unwrap_or_default();
            let odds = found.options.get(nth).map(|one| odds(one.odds)).unwrap_or_default();
            t_with!("ways-take", &[("way", &name), ("odds", &odds)])
        }
        WayAdvice::Unlikely { best, .. } => {
            let lightness = found.options.get(best).map(lightness).unwrap_or_default();
            t_with!("ways-unlikely", &[("lightness", &lightness)])
        }
        WayAdvice::CookAgain => t!("ways-cook_again"),
        WayAdvice::KeepItsColour => t!("ways-keep_its_colour"),
        WayAdvice::NoWay => t!("ways-no_way"),
    };
    let narrow = matches!(found.advice, WayAdvice::Unlikely { .. } | WayAdvice::Take(_));
    view! {
        <section class="card stack tight">
            <h2>{t!("ways-serves")}</h2>
            <p>{text}</p>
            {narrow.then_some(trial)}
        </section>
    }
    .into_any()
}

/// How many baths were tried and how many were not; what odds rest on.
fn rests_on(state: WaySearchState) -> AnyView {
    let not_tried = state.refused + state.dangerous;
    view! {
        <section class="stack tight soft small">
            <p>{t_with!("ways-rests_on", &[("draws", &state.draws.to_string())])}</p>
            {(not_tried > 0).then(|| view! { <p>{t_count!("ways-not_tried", not_tried)}</p> })}
        </section>
    }
    .into_any()
}
