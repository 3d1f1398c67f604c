//! The shelf: one card for each bottle and tub.

use bleachfield_core::journal::{Product, ProductKind};
use leptos::prelude::*;

use super::{
    kind::{ProductGroup, kind_name},
    state::age,
    truth::{mark, strength_text},
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
pub fn Shelf() -> impl IntoView {
    let studio = app_state();
    let standing = Memo::new(move |_| {
        studio.book(|book| {
            book.shelf().into_iter().map(ProductSummary::of).collect::<Vec<ProductSummary>>()
        })
    });
    let finished = Memo::new(move |_| {
        studio.book(|book| {
            let gone = book.products.values().filter(|product| product.finished.is_some());
            gone.map(ProductSummary::of).collect::<Vec<ProductSummary>>()
        })
    });
    view! {
        <Page title=t!("place-shelf")>
            <div class="stack">
                <a href=Route::NewProduct.href() class="button touch"><icon::Plus />{t!("shelf-add")}</a>
                {move || standing.with(Vec::is_empty).then(|| view! { <Empty /> })}
                {move || sorted(standing.get()).into_iter().map(|(sort, faces)| view! {
                    <section class="stack">
                        <h2>{sort.name()}</h2>
                        <ul class="cards">
                            {faces.into_iter().map(|face| view! { <li>{face.card()}</li> }).collect_view()}
                        </ul>
                    </section>
                }).collect_view()}
                {move || finished.with(|gone| !gone.is_empty()).then(|| {
                    let gone = finished.get();
                    view! {
                        <details class="more">
                            <summary>{t_count!("shelf-finished", gone.len())}</summary>
                            <ul class="cards inside">
                                {gone.into_iter().map(|face| view! { <li>{face.card()}</li> }).collect_view()}
                            </ul>
                        </details>
                    }
                })}
            </div>
        </Page>
    }
}

/// What a card shows.
#[derive(Clone, PartialEq)]
struct ProductSummary {
    product: Product,
}

impl ProductSummary {
    fn of(product: &Product) -> Self {
        Self { product: product.clone() }
    }

    fn card(self) -> AnyView {
        let now = clock::now();
        let (strength, when) = match self.product.finished {
            Some(at) => (None, t_with!("shelf-gone", &[("date", &clock::local_date(at))])),
            None => (strength_text(&self.product, now), age(&self.product, now)),
        };
        let Product { id, name, kind, .. } = self.product;
        let kind = Some(kind_name(kind)).filter(|kind| *kind != name);
        view! {
            <a href=Route::Product(id).href() class="card product-card">
                <h3>{name}</h3>
                {kind.map(|kind| view! { <p class="soft">{kind}</p> })}
                {strength.map(|now| view! {
                    <p class="now"><strong>{now.value}</strong>" "{mark(now.assumed)}</p>
                    {now.range.map(|range| view! { <p>{range}</p> })}
                    <p class="small soft">{now.rests_on}</p>
                })}
                <p class="small soft">{when}</p>
            </a>
        }
        .into_any()
    }
}

/// The faces by sort, in the order in which a person looks for them.
fn sorted(faces: Vec<ProductSummary>) -> Vec<(ProductGroup, Vec<ProductSummary>)> {
    let of = |kind: ProductKind| {
        ProductGroup::ALL
            .into_iter()
            .find(|sort| sort.kinds().contains(&kind))
            .unwrap_or(ProductGroup::Other)
    };
    let mut rest = faces;
    ProductGroup::ALL
        .into_iter()
        .filter_map(|sort| {
            let (mine, others) = rest.drain(..).partition(|face| of(face.product.kind) == sort);
            rest = others;
            let mine: Vec<ProductSummary> = mine;
            (!mine.is_empty()).then_some((sort, mine))
        })
        .collect()
}

/// Nothing stands there yet: what the shelf is for.
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
