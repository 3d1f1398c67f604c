//! A product's page: strength, actions, label and storage, history.

use std::sync::Arc;

use bleachfield_core::{
    journal::{Amount, Batch, Body, Product, ProductKind},
    quantity::QuantityKind,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    age::age,
    cautions,
    form::{FormHost, ProductForm},
    history::History,
    kind::{is_titrated, kind_name},
    label_comparison::LabelComparison,
    strength::{stated, strength_card},
    writer::ProductWriter,
};
use crate::{
    components::{CautionList, Fact, Page},
    i18n::{format_value, key, t, t_with},
    platform::clock,
    route::Route,
    screens::batches::batch_name,
    state::app_state,
};

/// `/shelf/ID`.
#[component]
pub fn ProductPage(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let exists = Memo::new(move |_| studio.book(|book| book.products.contains_key(&id)));
    (move || match exists.get() {
        true => view! { <Found id /> }.into_any(),
        false => view! { <NoSuchProduct /> }.into_any(),
    })
    .into_any()
}

#[component]
pub fn NoSuchProduct() -> impl IntoView {
    view! {
        <Page title=t!("shelf-missing") back=Route::Shelf>
            <p>{t!("shelf-missing_why")}</p>
        </Page>
    }
}

#[component]
fn Found(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let writer = ProductWriter::new(studio, id);
    let form = RwSignal::new(None::<ProductForm>);
    let product =
        Memo::new(move |_| studio.book(|book| book.products.get(&id).cloned().map(Arc::new)));
    let name = Signal::derive(move || product.get().map(|p| p.name.clone()).unwrap_or_default());
    view! {
        <Page title=name back=Route::Shelf>
            <div class="stack wide">
                {move || product.get().map(|product| view! {
                    {head(&product)}
                    {product.finished.is_none().then(|| strength_card(&product))}
                    {actions(&product, form)}
                    {label_and_storage(&product)}
                    <h2>{t!("shelf-history")}</h2>
                    <History product writer />
                    <UsedIn id />
                })}
                <FormHost form writer product />
            </div>
        </Page>
    }
}

fn head(product: &Product) -> AnyView {
    let kind = Some(kind_name(product.kind)).filter(|kind| *kind != product.name);
    view! {
        <p class="soft">
            {kind.map(|kind| format!("{kind} · "))}{age(product, clock::now())}
        </p>
        {product.finished.map(|at| view! {
            <p class="good">{t_with!("shelf-gone", &[("date", &clock::local_date(at))])}</p>
        })}
    }
    .into_any()
}

fn actions(product: &Product, form: RwSignal<Option<ProductForm>>) -> AnyView {
    let button = move |opens: ProductForm| {
        view! {
            <button class="button soft" on:click=move |_| form.set(Some(opens))>{opens.title()}</button>
        }
    };
    let in_use = product.finished.is_none();
    let strip = in_use && product.kind == ProductKind::Hypochlorite;
    let titrate = in_use && is_titrated(product.kind);
    view! {
        <nav class="row even no-print" aria-label=t!("shelf-doing")>
            {(in_use && product.opened.is_none()).then(|| button(ProductForm::Opened))}
            {strip.then(|| button(ProductForm::Strip))}
            {titrate.then(|| view! {
                <a href=Route::Titrate(product.id).href() class="button soft">
                    {t!("shelf-do-titrate")}
                </a>
            })}
            {in_use.then(|| button(ProductForm::UsedUp))}
            {button(ProductForm::Note)}
            {button(ProductForm::Rename)}
        </nav>
    }
    .into_any()
}

fn label_and_storage(product: &Product) -> AnyView {
    let storage = product.storage;
    let date = |date: Option<_>| date.map(clock::local_day);
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
        (key!("shelf-fact-made"), date(product.made)),
        (key!("shelf-fact-bought"), date(product.bought)),
        (key!("shelf-fact-opened"), date(product.opened)),
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
    view! {
        <section class="card stack">
            <h2>{t!("shelf-kept_head")}</h2>
            <dl class="facts">
                {facts.into_iter().filter_map(|(name, value)| value.map(|value| view! {
                    <Fact name=t(name) value />
                })).collect_view()}
            </dl>
            {bottle.map(|bottle| view! { <LabelComparison bottle /> })}
            <CautionList cautions=Signal::stored(cautions::storing(product)) />
        </section>
    }
    .into_any()
}

/// Links to the batches that the product was used in.
#[component]
fn UsedIn(id: Ulid) -> Option<impl IntoView> {
    let used = |batch: &&Batch| {
        batch.visible_entries().any(|entry| {
            entry.body.product() == Some(id) && !matches!(entry.body, Body::Planned(_))
        })
    };
    let batches: Vec<(Ulid, String)> = app_state().book(|book| {
        let batches = book.batches_by_change();
        batches.into_iter().filter(used).map(|batch| (batch.id, batch_name(batch))).collect()
    });
    (!batches.is_empty()).then(|| {
        view! {
            <h2>{t!("shelf-used_in")}</h2>
            <ul class="cards">
                {batches.into_iter().map(|(batch, name)| view! {
                    <li><a href=Route::batch(batch).href() class="card"><h3>{name}</h3></a></li>
                }).collect_view()}
            </ul>
        }
    })
}
