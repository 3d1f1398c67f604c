//! Mix: quick sums that need no batch.

use leptos::prelude::*;

use crate::{locale::word, part::Page};

#[component]
pub fn Mix() -> impl IntoView {
    view! { <Page title=word("place.mix")>""</Page> }
}
