//! Sink: what is running now, what it asks for next, and how to stop it.

use leptos::prelude::*;

use crate::{locale::word, part::Page};

#[component]
pub fn Sink() -> impl IntoView {
    view! { <Page title=word("place.sink")>""</Page> }
}
