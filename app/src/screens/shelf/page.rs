//! A product's page: how strong it is, what to do with it, and all that happened to it.

use std::sync::Arc;

use bleachfield_core::{
    caution::{Act, Residual, Situation, cautions},
    journal::{Amount, Product, ProductKind},
    quantity::QuantityKind,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    form::{FormHost, ProductForm},
    history::History,
    kind::{is_acid, is_titrated, kind_name, oxidant},
    state::{ProductWriter, age},
    truth::{Traps, Truth, stated},
};
use crate::{
    components::{CautionList, Fact, Page},
    i18n::{format_value, key, t, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

/// `/shelf/ID`.
#[component]
pub fn ProductPage(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let here = Memo::new(move |_| studio.book(|book| book.products.contains_key(&id)));
    (move || match here.get() {
        true => view! { <Open id /> }.into_any(),
        false => view! { <Missing /> }.into_any(),
    })
    .into_any()
}

/// The address names a product that is not on this shelf.
#[component]
pub fn Missing() -> impl IntoView {
    view! {
        <Page title=t!("shelf-missing") back=Route::Shelf>
            <p>{t!("shelf-missing_why")}</p>
        </Page>
    }
}

#[component]
fn Open(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let writing = ProductWriter { studio, product: id, busy: RwSignal::new(false) };
    let form = RwSignal::new(None::<ProductForm>);
    let product =
        Memo::new(move |_| studio.book(|book| book.products.get(&id).cloned().map(Arc::new)));
    let name = Signal::derive(move || product.get().map(|p| p.name.clone()).unwrap_or_default());
    view! {
        <Page title=name back=Route::Shelf>
            <div class="stack wide">
                {move || product.get().map(|product| view! {
                    <Head product=(*product).clone() />
                    {product.finished.is_none().then(|| view! {
                        <Truth product=(*product).clone() />
                    })}
                    <Doing product=(*product).clone() form />
                    <Kept product=(*product).clone() />
                    <h2>{t!("shelf-history")}</h2>
                    <History product writing />
                    <UsedIn id />
                })}
                <FormHost form writing product />
            </div>
        </Page>
    }
}

#[component]
fn Head(product: Product) -> impl IntoView {
    let kind = (kind_name(product.kind) != product.name).then(|| kind_name(product.kind));
    view! {
        <p class="soft">
            {kind.map(|kind| format!("{kind} · "))}{age(&product, clock::now())}
        </p>
        {product.finished.map(|at| view! {
            <p class="good">{t_with!("shelf-gone", &[("date", &clock::local_date(at))])}</p>
        })}
    }
}

/// What can be done with it.
#[component]
fn Doing(product: Product, form: RwSignal<Option<ProductForm>>) -> impl IntoView {
    let button = move |opens: ProductForm| {
        view! {
            <button class="button soft" on:click=move |_| form.set(Some(opens))>{opens.short()}</button>
        }
    };
    let id = product.id;
    let standing = product.finished.is_none();
    let open = standing && product.opened.is_none();
    let strip = standing && product.kind == ProductKind::Hypochlorite;
    let titrate = standing && is_titrated(product.kind);
    view! {
        <nav class="row even no-print" aria-label=t!("shelf-doing")>
            {open.then(|| button(ProductForm::Opened))}
            {strip.then(|| button(ProductForm::Strip))}
            {titrate.then(|| view! {
                <a href=Route::Titrate(id).href() class="button soft">
                    {t!("shelf-do-titrate")}
                </a>
            })}
            {standing.then(|| button(ProductForm::UsedUp))}
            {button(ProductForm::Note)}
            {button(ProductForm::Rename)}
        </nav>
    }
}

/// What its label says, how it is kept, and what to mind.
#[component]
fn Kept(product: Product) -> impl IntoView {
    let storage = product.storage;
    let day = |day: Option<_>| day.map(clock::local_day);
    let yes_no = |value: Option<bool>, yes: &str, no: &str| {
        value.map(|value| t(if value { yes } else { no }))
    };
    let size = product.size.map(|size| match size {
        Amount::MassG(g) => format_value(&QuantityKind::Mass.value(g.value)),
        Amount::VolumeMl(ml) => format_value(&QuantityKind::Volume.value(ml.value)),
    });
    let facts = [
        (key!("shelf-fact-label"), product.label.as_ref().map(stated)),
        (key!("shelf-fact-size"), size),
        (key!("shelf-fact-made"), day(product.made)),
        (key!("shelf-fact-bought"), day(product.bought)),
        (key!("shelf-fact-opened"), day(product.opened)),
        (
            key!("shelf-fact-kept_at"),
            storage.celsius.map(|c| format_value(&QuantityKind::Temperature.value(c))),
        ),
        (
            key!("shelf-fact-light"),
            yes_no(storage.dark, key!("shelf-new-dark_yes"), key!("shelf-new-dark_no")),
        ),
        (
            key!("shelf-fact-lid"),
            yes_no(storage.closed, key!("shelf-new-closed_yes"), key!("shelf-new-closed_no")),
        ),
    ];
    let bottle = product.label.and_then(|label| label.bottle());
    let found = keeping_cautions(&product);
    view! {
        <section class="card stack">
            <h2>{t!("shelf-kept_head")}</h2>
            <dl class="facts">
                {facts.into_iter().filter_map(|(name, value)| value.map(|value| view! {
                    <Fact name=t(name) value />
                })).collect_view()}
            </dl>
            {bottle.map(|bottle| view! { <Traps bottle /> })}
            <CautionList cautions=Signal::stored(found) />
        </section>
    }
}

fn keeping_cautions(product: &Product) -> Vec<bleachfield_core::caution::Caution> {
    if let Some(oxidant) = oxidant(product.kind) {
        return cautions(Act::Storing, &situation(product, oxidant));
    }
    if is_acid(product.kind) {
        return cautions(Act::AddingAcid, &Situation::default());
    }
    let clean = Situation { residual: Residual::None, ..Situation::default() };
    cautions(Act::Storing, &clean)
}

/// What the hazard rules should know of a bleach.
pub fn situation(product: &Product, oxidant: bleachfield_core::bath::Oxidant) -> Situation {
    let strength = product.strength_now(clock::now()).ok();
    Situation {
        oxidant: Some(oxidant),
        bottle_strength: strength.map(|strength| strength.available_chlorine.value),
        ..Situation::default()
    }
}

/// The batches that this was used in.
#[component]
fn UsedIn(id: Ulid) -> Option<impl IntoView> {
    let used = app_state().book(|book| {
        let used = |b: &&bleachfield_core::journal::Batch| {
            b.visible_entries().any(|told| {
                told.body.product() == Some(id)
                    && !matches!(told.body, bleachfield_core::journal::Body::Planned(_))
            })
        };
        book.batches_by_change()
            .into_iter()
            .filter(used)
            .map(|b| (b.id, crate::screens::batches::called(b)))
            .collect::<Vec<_>>()
    });
    (!used.is_empty()).then(|| {
        view! {
            <h2>{t!("shelf-used_in")}</h2>
            <ul class="cards">
                {used.into_iter().map(|(batch, name)| view! {
                    <li><a href=Route::batch(batch).href() class="card"><h3>{name}</h3></a></li>
                }).collect_view()}
            </ul>
        }
    })
}
