//! Batches: the book, one batch after another.

use leptos::prelude::*;

use crate::{locale::word, part::Page};

#[component]
pub fn Batches() -> impl IntoView {
    view! { <Page title=word("place.batches")>""</Page> }
}
