//! The screens, and which address leads to which.

use leptos::prelude::*;
use leptos_router::{
    components::{Route, Router, Routes},
    path,
};

use crate::{
    device::preferences::Preferring,
    locale::word,
    part::{Notice, Page, Places},
};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    Preferring::provide();
    view! {
        <Notice>
            <Router>
                <Routes fallback=Nowhere>
                    <Route path=path!("/") view=|| place("place.sink") />
                    <Route path=path!("/sink") view=|| place("place.sink") />
                    <Route path=path!("/mix") view=|| place("place.mix") />
                    <Route path=path!("/batches") view=|| place("place.batches") />
                    <Route path=path!("/shelf") view=|| place("place.shelf") />
                    <Route path=path!("/help") view=|| place("place.help") />
                </Routes>
                <Places />
            </Router>
        </Notice>
    }
}

fn place(key: &'static str) -> impl IntoView {
    view! { <Page title=word(key)>""</Page> }
}

/// An address that leads nowhere: say so, and offer the way home.
#[component]
fn Nowhere() -> impl IntoView {
    view! {
        <Page title=word("nowhere.title")>
            <div class="stack">
                <p>{word("nowhere.why")}</p>
                <a class="press" href="/sink">{word("nowhere.home")}</a>
            </div>
        </Page>
    }
}
