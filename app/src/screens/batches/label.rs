//! The label of a tub: its contents, their hazards, and a QR code that opens them.

use bleachfield_core::{
    derive::Proof,
    exchange::label::{Label, NAME, Qr, Tub, TubContents},
    journal::{LotOrigin, StoredForm},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{entry::name_of, marks::past_mark};
use crate::{
    components::{Page, TextField},
    i18n::{key, render, t, t_with},
    platform::{clock, print},
    route::Route,
    screens::station_bar::StationBar,
    state::app_state,
};

/// `/batch/ID/label` and `/lot/ID/label`.
#[component]
pub fn LabelPage(id: Ulid, is_lot: bool) -> impl IntoView {
    let back = if is_lot { Route::Lot(id) } else { Route::batch(id) };
    match tub(id, is_lot) {
        Some(tub) => {
            let bar = (!is_lot).then(|| view! { <StationBar batch=id /> }.into_any());
            label_page(tub, proof(id, is_lot), past(id, is_lot), bar, back)
        }
        None => view! {
            <Page title=t!("label-title") back><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

/// The tub of a batch or lot; `None` if that is not in the book.
fn tub(id: Ulid, is_lot: bool) -> Option<Tub> {
    let origin = window().location().origin().ok()?;
    app_state().book_now(|book| {
        // A batch that is stored as one lot is in the tub of that lot.
        let lot_id = match book.batches.get(&id).map(|batch| &batch.lots[..]) {
            _ if is_lot => Some(id),
            Some([only]) => Some(*only),
            _ => None,
        };
        let lot = match lot_id {
            Some(lot) => Some(book.lots.get(&lot)?),
            None => None,
        };
        let (contents, route) = match lot {
            None => (TubContents::Batch(id), Route::batch(id)),
            // The code of a lot that comes from one batch opens that batch.
            Some(lot) => match lot.origin {
                LotOrigin::Batch(batch) => (TubContents::Lot(lot.id), Route::batch(batch)),
                _ => (TubContents::Lot(lot.id), Route::Lot(lot.id)),
            },
        };
        // The first ten characters of the field's value are the local date.
        let stored = lot.and_then(|lot| clock::to_field(lot.stored).get(..10)?.parse().ok());
        let made = stored.unwrap_or_else(clock::today);
        Tub::of_book(book, contents, made, format!("{origin}{}", route.href()))
    })
}

fn proof(id: Ulid, is_lot: bool) -> Proof {
    app_state().book_now(|book| {
        if is_lot {
            return Proof::of_lot(book, id);
        }
        book.batches.get(&id).map_or(Proof::Untested, Proof::of)
    })
}

/// That the lot, or the only lot of the batch, is past its date.
fn past(id: Ulid, is_lot: bool) -> Option<AnyView> {
    app_state().book_now(|book| {
        let only = match book.batches.get(&id).map(|batch| &batch.lots[..]) {
            Some([only]) => *only,
            _ => id,
        };
        book.lots.get(if is_lot { &id } else { &only }).and_then(past_mark)
    })
}

fn label_page(
    tub: Tub,
    proof: Proof,
    past: Option<AnyView>,
    bar: Option<AnyView>,
    back: Route,
) -> AnyView {
    let name = RwSignal::new(tub.name.clone());
    let untested = !tub.sign_off.as_ref().is_some_and(|sign_off| sign_off.clean);
    let tub = StoredValue::new(tub);
    let label = move || {
        tub.with_value(|tub| Tub { name: name.get(), ..tub.clone() }.label())
            .map_err(|error| error.message())
    };
    let problem = Signal::derive(move || label().err().filter(|why| why.field == Some(NAME)));
    view! {
        <Page title=t!("label-title") back>
            <div class="stack wide">
                <div class="stack no-print">
                    {bar}
                    {past}
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
                    Ok(label) => label_view(&label, proof),
                    Err(why) => view! { <p class="caution care">{render(&why)}</p> }.into_any(),
                }}
            </div>
        </Page>
    }
    .into_any()
}

fn label_view(label: &Label, proof: Proof) -> AnyView {
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
    let gaps = gaps.collect_view();
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
                        <p class="untested">
                            {if proof == Proof::Failed { t!("label-failed") } else { t!("label-untested") }}
                        </p>
                    })}
                    <dl>
                        {line(key!("label-made"), clock::local_day(label.made))}
                        {line(key!("label-kept"), name_of("stored_form", label.form))}
                        {line(key!("label-keep_by"), keep_by)}
                    </dl>
                </div>
                {qr_code(&label.qr)}
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

/// The dark runs of the code on white, with its quiet zone.
fn qr_code(qr: &Qr) -> AnyView {
    let side = qr.side_with_quiet();
    let dark = qr.runs().into_iter().map(|(x, y, length)| {
        format!("M{} {}h{length}v1h-{length}z", x + Qr::QUIET, y + Qr::QUIET)
    });
    let dark: String = dark.collect();
    view! {
        <svg class="code" viewBox=format!("0 0 {side} {side}") role="img"
            aria-label=t!("field-label-link") shape-rendering="crispEdges">
            <path fill="#fff" d=format!("M0 0h{side}v{side}h-{side}z") />
            <path fill="#000" d=dark />
        </svg>
    }
    .into_any()
}
