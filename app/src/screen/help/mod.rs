//! Help: cautions, methods, sources, this phone and its preferences.

use leptos::prelude::*;

use crate::{locale::word, part::Page};

#[component]
pub fn Help() -> impl IntoView {
    view! { <Page title=word("place.help")>""</Page> }
}
