//! The label on a tub: what is in it, what it may do, and a code that opens it.

use bleachfield_core::{
    exchange::label::{Label, Qr, Tub, TubContents},
    journal::StoredForm,
    message::Message,
};
use jiff::civil::Date;
use leptos::prelude::*;
use ulid::Ulid;

use super::telling::name_of;
use crate::{
    components::{Page, TextField},
    i18n::{key, render, t, t_with},
    platform::{clock, print},
    route::Route,
    state::app_state,
};

/// The screen at `/batch/ID/label` and `/lot/ID/label`.
#[component]
pub fn LabelPage(id: Ulid, lot: bool) -> impl IntoView {
    let back = if lot { Route::Lot(id) } else { Route::batch(id) };
    match tub(id, lot) {
        Some(tub) => sheet(tub, back).into_any(),
        None => view! {
            <Page title=t!("label-title") back><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

/// What stands in the tub, by the book.
fn tub(id: Ulid, lot: bool) -> Option<Tub> {
    let origin = window().location().origin().ok()?;
    app_state().book_now(|book| {
        // A batch that was put by whole stands in the tub of its one lot.
        let put_by = match book.batches.get(&id).map(|batch| &batch.lots[..]) {
            Some([only]) if !lot => Some(*only),
            _ => None,
        };
        let (id, lot) = (put_by.unwrap_or(id), lot || put_by.is_some());
        let (holds, stored, path) = if lot {
            let lot = book.lots.get(&id)?;
            (TubContents::Lot(id), Some(lot.stored), Route::Lot(id))
        } else {
            (TubContents::Batch(id), None, Route::batch(id))
        };
        // A lot put by from one batch opens that batch.
        let path = match book.lots.get(&id).map(|lot| &lot.origin) {
            Some(bleachfield_core::journal::LotOrigin::Batch(batch)) => Route::batch(*batch),
            _ => path,
        };
        let made = stored.and_then(local_day).unwrap_or_else(clock::today);
        Tub::of_book(book, holds, made, format!("{origin}{path}"))
    })
}

/// The day of an instant, where the phone is.
fn local_day(at: jiff::Timestamp) -> Option<Date> {
    clock::to_field(at).get(..10)?.parse().ok()
}

fn sheet(tub: Tub, back: Route) -> AnyView {
    let name = RwSignal::new(tub.name.clone());
    let tub = StoredValue::new(tub);
    let label = move || {
        tub.with_value(|tub| Tub { name: name.get(), ..tub.clone() }.label())
            .map_err(|why| why.message())
    };
    let problem = Signal::derive(move || {
        label()
            .err()
            .filter(|why: &Message| why.field == Some(bleachfield_core::exchange::label::NAME))
    });
    let untested = tub.with_value(|tub| !tub.sign_off.as_ref().is_some_and(|s| s.clean));
    view! {
        <Page title=t!("label-title") back>
            <div class="stack wide">
                <div class="stack no-print">
                    {untested.then(|| view! {
                        <p class="caution care" role="note">{t!("label-untested_why")}</p>
                    })}
                    <TextField label=t!("field-label-name") text=name problem />
                    <button class="button touch" disabled=move || label().is_err()
                        on:click=move |_| print::page()>
                        {t!("label-print")}
                    </button>
                </div>
                {move || match label() {
                    Ok(label) => drawn(&label),
                    Err(why) => view! { <p class="caution care">{render(&why)}</p> }.into_any(),
                }}
            </div>
        </Page>
    }
    .into_any()
}

fn drawn(label: &Label) -> AnyView {
    let line = |key: &str, value: String| {
        (!value.is_empty()).then(|| view! { <dt>{t(key)}</dt><dd>{value}</dd> })
    };
    let treatment: Vec<String> = label.treatment.iter().map(|key| t(key)).collect();
    let statement = |code: &str, key: &str| {
        let code = (!code.is_empty()).then(|| format!("{code} "));
        view! { <li>{code}{t(key)}</li> }
    };
    let hazards = label.hazards.iter().map(|h| statement(h.code(), h.key())).collect_view();
    let precautions = label.precautions.iter().map(|p| statement(p.code(), p.key())).collect_view();
    let gaps = label.gaps.iter().map(|gap| view! { <li>{render(&gap.message())}</li> });
    let gaps: Vec<_> = gaps.collect();
    let keep_by = match (label.keep_by, label.form) {
        (Some(day), _) => clock::local_day(day),
        (None, StoredForm::Dried) => t!("label-keeps_dry"),
        (None, _) => String::new(),
    };
    view! {
        <article class="tub-label" aria-label=t!("label-title")>
            <header class="row top">
                <div class="grow">
                    <h2>{label.name.clone()}</h2>
                    {label.untested.then(|| view! {
                        <p class="untested">{t!("label-untested")}</p>
                    })}
                    // The short facts, which stand beside the code.
                    <dl>
                        {line(key!("label-made"), clock::local_day(label.made))}
                        {line(key!("label-kept"), name_of("stored_form", label.form))}
                        {line(key!("label-keep_by"), keep_by)}
                    </dl>
                </div>
                {code(&label.qr)}
            </header>
            <dl>
                {line(key!("label-fibre"), label.fibre.clone())}
                {line(key!("label-treated"), treatment.join(", "))}
                {line(key!("label-reason"), label.reason.clone())}
            </dl>
            {(!gaps.is_empty()).then(|| view! { <ul>{gaps}</ul> })}
            {label.signal.map(|signal| view! { <strong class="signal">{t(signal)}</strong> })}
            <ul>{hazards}{precautions}</ul>
            <p class="small">{t_with!("label-opens", &[("link", &label.link)])}</p>
        </article>
    }
    .into_any()
}

/// The code, as dark runs on white, its quiet margin included.
fn code(qr: &Qr) -> AnyView {
    let side = qr.side_with_quiet();
    let mut path = String::new();
    for (x, y, length) in qr.runs() {
        path.push_str(&format!("M{} {}h{length}v1h-{length}z", x + Qr::QUIET, y + Qr::QUIET));
    }
    view! {
        <svg class="code" viewBox=format!("0 0 {side} {side}") role="img"
            aria-label=t!("field-label-link") shape-rendering="crispEdges">
            <path fill="#fff" d=format!("M0 0h{side}v{side}h-{side}z") />
            <path fill="#000" d=path />
        </svg>
    }
    .into_any()
}
