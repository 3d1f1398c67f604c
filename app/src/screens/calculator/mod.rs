//! Mix: quick sums that need no batch.

mod dilute;
mod dry_fibre;
pub mod inputs;
mod liquor;
mod spoons;
pub mod sums;
mod warm;

use leptos::prelude::*;

use self::{dilute::Dilute, dry_fibre::DryFibre, liquor::Liquor, spoons::Spoons, warm::Warm};
use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t},
    route::{self, Route},
};

/// Sums for the steps before and after the bath, each on its own page.
const OTHER_STEPS: [(route::Sum, &str); 4] = [
    (route::Sum::Cook, key!("mix-cook")),
    (route::Sum::Wash, key!("mix-wash")),
    (route::Sum::Antichlor, key!("mix-antichlor")),
    (route::Sum::Sheets, key!("mix-sheets")),
];

#[derive(Clone, Copy, PartialEq)]
enum Sum {
    Dilute,
    DryFibre,
    Liquor,
    Warm,
    Spoons,
}

/// Entry point of the lazy piece.
pub fn screen(_: Route) -> AnyView {
    view! { <Mix /> }.into_any()
}

/// The screen at `/mix`.
#[component]
pub fn Mix() -> impl IntoView {
    let sum = RwSignal::new(Sum::Dilute);
    view! {
        <Page title=t!("place-mix")>
            <div class="stack wide">
                <RadioGroup label=t!("mix-which") quiet=true value=sum options=vec![
                    (Sum::Dilute, t!("mix-dilute")),
                    (Sum::DryFibre, t!("mix-dry_fibre")),
                    (Sum::Liquor, t!("mix-liquor")),
                    (Sum::Warm, t!("mix-warm")),
                    (Sum::Spoons, t!("mix-spoons")),
                ] />
                {move || match sum.get() {
                    Sum::Dilute => view! { <Dilute /> }.into_any(),
                    Sum::DryFibre => view! { <DryFibre /> }.into_any(),
                    Sum::Liquor => view! { <Liquor /> }.into_any(),
                    Sum::Warm => view! { <Warm /> }.into_any(),
                    Sum::Spoons => view! { <Spoons /> }.into_any(),
                }}
                <nav class="stack" aria-label=t!("mix-around")>
                    <h2>{t!("mix-around")}</h2>
                    <div class="row even">{OTHER_STEPS.map(|(sum, name)| view! {
                        <a href=Route::Sum(sum).href() class="button plain">{t(name)}</a>
                    }).collect_view()}</div>
                </nav>
            </div>
        </Page>
    }
}
