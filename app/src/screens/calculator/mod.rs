//! Mix: quick sums that need no batch, each on a screen of its own, behind a grid of tiles.

mod bench;
mod dilute;
mod dry_fibre;
pub mod inputs;
mod liquor;
mod percarbonate;
mod recent;
mod session;
mod spoons;
pub mod sums;
mod warm;

use leptos::prelude::*;

use self::{
    dilute::Dilute, dry_fibre::DryFibre, liquor::Liquor, percarbonate::Percarbonate,
    spoons::Spoons, warm::Warm,
};
use crate::{
    components::{Page, icon},
    i18n::t,
    route::{Route, Sum},
};

/// Entry point of the lazy piece. The sums around the bath come with the piece of the batches.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::Sum(Sum::Dilute) => view! { <Dilute /> }.into_any(),
        Route::Sum(Sum::DryFibre) => view! { <DryFibre /> }.into_any(),
        Route::Sum(Sum::Ph) => view! { <Liquor /> }.into_any(),
        Route::Sum(Sum::Warm) => view! { <Warm /> }.into_any(),
        Route::Sum(Sum::Spoons) => view! { <Spoons /> }.into_any(),
        Route::Sum(Sum::Percarbonate) => view! { <Percarbonate /> }.into_any(),
        _ => view! { <Mix /> }.into_any(),
    }
}

/// The screen at `/mix`.
#[component]
pub fn Mix() -> impl IntoView {
    let tiles = recent::in_order().into_iter().map(|sum| {
        view! {
            <li><a class="tile" href=Route::Sum(sum).href()>{picture(sum)}<span>{name(sum)}</span></a></li>
        }
    });
    view! {
        <Page title=t!("place-mix")>
            <ul class="tiles">{tiles.collect_view()}</ul>
        </Page>
    }
}

fn name(sum: Sum) -> String {
    t(&format!("mix-{}", <&str>::from(sum)))
}

fn picture(sum: Sum) -> AnyView {
    match sum {
        Sum::Dilute => view! { <icon::Dilute /> }.into_any(),
        Sum::DryFibre => view! { <icon::DryFibre /> }.into_any(),
        Sum::Ph => view! { <icon::Ph /> }.into_any(),
        Sum::Warm => view! { <icon::Warm /> }.into_any(),
        Sum::Spoons => view! { <icon::Spoons /> }.into_any(),
        Sum::Percarbonate => view! { <icon::Percarbonate /> }.into_any(),
        Sum::Cook => view! { <icon::Cook /> }.into_any(),
        Sum::Wash => view! { <icon::Wash /> }.into_any(),
        Sum::Antichlor => view! { <icon::Antichlor /> }.into_any(),
        Sum::Sheets => view! { <icon::Sheets /> }.into_any(),
    }
}
