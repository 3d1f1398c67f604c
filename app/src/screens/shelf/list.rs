//! The list of all products.

use bleachfield_core::journal::{Book, Product};
use leptos::prelude::*;

use super::{
    age::age,
    kind::{ProductGroup, kind_name},
    strength::{assumed_mark, strength_text},
};
use crate::{
    components::{Page, icon},
    i18n::{t, t_count, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

/// `/shelf`.
#[component]
pub fn ShelfList() -> impl IntoView {
    let studio = app_state();
    let products = Memo::new(move |_| {
        studio.book(|book| book.shelf().into_iter().cloned().collect::<Vec<Product>>())
    });
    let finished = Memo::new(move |_| studio.book(finished));
    view! {
        <Page title=t!("place-shelf")>
            <div class="stack">
                <a href=Route::NewProduct.href() class="button touch"><icon::Plus />{t!("shelf-add")}</a>
                {move || products.with(Vec::is_empty).then(|| view! { <Empty /> })}
                {move || products.with(|products| by_group(products))}
                {move || finished.with(|finished| (!finished.is_empty()).then(|| view! {
                    <details class="more">
                        <summary>{t_count!("shelf-finished", finished.len())}</summary>
                        <ul class="cards inside">{finished.iter().map(card).collect_view()}</ul>
                    </details>
                }))}
            </div>
        </Page>
    }
}

fn finished(book: &Book) -> Vec<Product> {
    book.products.values().filter(|product| product.finished.is_some()).cloned().collect()
}

fn by_group(products: &[Product]) -> Vec<AnyView> {
    let section = |group: ProductGroup| {
        let products: Vec<&Product> =
            products.iter().filter(|product| ProductGroup::of(product.kind) == group).collect();
        (!products.is_empty()).then(|| {
            view! {
                <section class="stack">
                    <h2>{group.name()}</h2>
                    <ul class="cards">{products.into_iter().map(card).collect_view()}</ul>
                </section>
            }
            .into_any()
        })
    };
    ProductGroup::ALL.into_iter().filter_map(section).collect()
}

fn card(product: &Product) -> AnyView {
    let now = clock::now();
    let (strength, when) = match product.finished {
        Some(at) => (None, t_with!("shelf-gone", &[("date", &clock::local_date(at))])),
        None => (strength_text(product, now), age(product, now)),
    };
    let kind = Some(kind_name(product.kind)).filter(|kind| *kind != product.name);
    view! {
        <li>
            <a href=Route::Product(product.id).href() class="card product-card">
                <h3>{product.name.clone()}</h3>
                {kind.map(|kind| view! { <p class="soft">{kind}</p> })}
                {strength.map(|now| view! {
                    <p class="now"><strong>{now.value}</strong>" "{assumed_mark(now.assumed)}</p>
                    {now.range.map(|range| view! { <p>{range}</p> })}
                    <p class="small soft">{now.rests_on}</p>
                })}
                <p class="small soft">{when}</p>
            </a>
        </li>
    }
    .into_any()
}

/// What the shelf is for, while it is empty.
#[component]
fn Empty() -> impl IntoView {
    view! {
        <section class="card empty">
            <icon::Shelf />
            <h2>{t!("shelf-empty-title")}</h2>
            <p>{t!("shelf-empty-what")}</p>
            <ul class="left">
                <li>{t!("shelf-empty-age")}</li>
                <li>{t!("shelf-empty-label")}</li>
                <li>{t!("shelf-empty-test")}</li>
            </ul>
        </section>
    }
}
