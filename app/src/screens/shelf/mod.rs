//! Shelf: bleaches and chemicals, their age and strength.

mod age;
mod cautions;
mod date_input;
mod form;
mod history;
mod household;
mod kind;
mod label;
mod label_comparison;
mod list;
mod new;
mod page;
mod stock_solution;
mod strength;
mod strength_chart;
mod titrate;
mod writer;

use leptos::prelude::*;

pub use self::strength::{assumed_mark, strength_text};
use self::{list::ShelfList, new::NewProduct, page::ProductPage, titrate::Titrate};
use crate::route::Route;

/// Entry point of the lazily loaded piece.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::NewProduct => view! { <NewProduct /> }.into_any(),
        Route::Product(id) => view! { <ProductPage id /> }.into_any(),
        Route::Titrate(id) => view! { <Titrate id /> }.into_any(),
        _ => view! { <ShelfList /> }.into_any(),
    }
}
