//! Shelf: bleaches and chemicals, their age and strength.

mod cards;
mod day;
mod form;
mod history;
mod kind;
mod label;
mod new;
mod page;
mod state;
mod titrate;
mod truth;

use leptos::prelude::*;

pub use self::truth::{mark, strength_text};
use self::{cards::Shelf, new::NewProduct, page::ProductPage, titrate::Titrate};
use crate::route::Route;

/// The piece's entry point.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::NewProduct => view! { <NewProduct /> }.into_any(),
        Route::Product(id) => view! { <ProductPage id /> }.into_any(),
        Route::Titrate(id) => view! { <Titrate id /> }.into_any(),
        _ => view! { <Shelf /> }.into_any(),
    }
}
