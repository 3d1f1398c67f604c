//! A lot's page: what is left, where it came from and went, and what can be done with it.

use bleachfield_core::{
    derive::{Proof, lot::source_batches},
    journal::{Body, Book, Lot, TimelineEntry},
    message::Value,
    quantity::grams,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    actions::LotActions,
    summary::{card, ledger, lot_name, remaining_g},
};
use crate::{
    components::{Fact, Page},
    i18n::{format_value, key, render, t, t_count, t_with},
    platform::clock,
    route::Route,
    screens::batches::{entry::name_of, facts::batch_name, marks::lot_marks},
    state::app_state,
};

/// `/lot/ID`.
#[component]
pub fn LotPage(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let name = Memo::new(move |_| studio.book(|book| book.lots.get(&id).map(lot_name)));
    let title = Signal::derive(move || name.get().unwrap_or_else(|| t!("lot-missing")));
    view! {
        <Page title back=Route::Lots>
            {move || {
                match name.get() {
                    Some(_) => view! {
                        <div class="stack wide">
                            {move || studio.book(|book| book.lots.get(&id).map(|lot| details(book, lot)))}
                            <a href=Route::LotLabel(id).href() class="button touch">{t!("label-make")}</a>
                            <LotActions lot=id />
                        </div>
                    }
                    .into_any(),
                    None => view! { <p>{t!("lot-not_here")}</p> }.into_any(),
                }
            }}
        </Page>
    }
}

fn details(book: &Book, lot: &Lot) -> AnyView {
    let (ledger, errors) = ledger(book);
    let facts = [
        (key!("lot-began"), mass(lot.dry_g_stored)),
        (key!("lot-holds"), mass(remaining_g(&ledger, lot))),
        (key!("lot-kept"), name_of("stored_form", lot.form)),
        (key!("lot-place"), lot.place.clone()),
        (key!("lot-since"), clock::local_date(lot.stored)),
        (key!("lot-keep_by"), lot.keep_by.map(clock::local_day).unwrap_or_default()),
    ];
    let facts = facts.into_iter().filter(|(_, value)| !value.is_empty());
    let sources = ledger.batches_in(lot.id).into_iter().map(|part| {
        let name = book.batches.get(&part.batch).map(batch_name);
        let name = name.unwrap_or_else(|| t!("batch-missing"));
        let share = format_value(&Value::Share(part.share));
        view! { <li><a href=Route::batch(part.batch).href()>{name}</a>" "{share}</li> }
    });
    let descendants = ledger.descendants(lot.id).into_iter().filter_map(|id| book.lots.get(&id));
    let descendants: Vec<_> = descendants.map(|lot| card(book, &ledger, lot)).collect();
    let drawn = lot.timeline.iter().filter(|entry| entry.is_visible());
    let drawn: Vec<_> = drawn.filter_map(drawn_line).collect();
    view! {
        <section class="card stack">
            {lot_marks(book, lot)}
            {untested_reasons(book, lot.id).into_iter().map(|why| view! {
                <p>{t_with!("store-untested_line", &[("why", &why)])}</p>
            }).collect_view()}
            <dl class="facts">
                {facts.map(|(name, value)| view! { <Fact name=t(name) value /> }).collect_view()}
            </dl>
            {errors.iter().map(|error| view! { <p class="caution care">{render(error)}</p> }).collect_view()}
            <h2>{t!("lot-from")}</h2>
            <ul>{sources.collect_view()}</ul>
            {(!descendants.is_empty()).then(|| view! {
                <h2>{t!("lot-into")}</h2>
                <ul class="cards">{descendants}</ul>
            })}
            {(!drawn.is_empty()).then(|| view! {
                <h2>{t!("lot-drawn_head")}</h2>
                <ul>{drawn}</ul>
            })}
        </section>
    }
    .into_any()
}

/// Why the pulp in the lot was stored without proof that it is clean.
fn untested_reasons(book: &Book, lot: Ulid) -> Vec<String> {
    let batches = source_batches(book, lot);
    let batches = batches.iter().filter_map(|id| book.batches.get(id));
    let reasons = batches.filter(|batch| Proof::of(batch) != Proof::Clean).flat_map(|batch| {
        batch.visible_entries().filter_map(|entry| match &entry.body {
            Body::Stored(stored) if !stored.untested_why.is_empty() => {
                Some(stored.untested_why.clone())
            }
            _ => None,
        })
    });
    reasons.collect()
}

/// What was drawn from the lot, when and for what.
fn drawn_line(entry: &TimelineEntry) -> Option<impl IntoView + use<>> {
    let text = match &entry.body {
        Body::LotDrawn(drawn) => {
            t_with!("lot-drawn_for", &[("mass", &mass(drawn.dry_g.value)), ("why", &drawn.purpose)],)
        }
        Body::Sheets(sheets) => {
            let count = t_count!("entry_line-sheets", sheets.count as usize);
            format!("{count} {}", sheets.format)
        }
        _ => return None,
    };
    Some(view! { <li>{clock::local(entry.at)}": "{text}</li> })
}

fn mass(g: f64) -> String {
    format_value(&Value::Mass(grams(g)))
}
