//! Shelf: bleaches and chemicals, their age and strength.

use leptos::prelude::*;

use crate::{locale::word, part::Page};

#[component]
pub fn Shelf() -> impl IntoView {
    view! { <Page title=word("place.shelf")>""</Page> }
}
