//! The screens, and which address leads to which.

mod batches;
mod exchange;
mod form;
mod help;
mod mix;
mod plan;
mod shelf;
mod sink;
mod start;

use leptos::prelude::*;
use leptos_router::{
    components::{Route, Router, Routes},
    path,
};

use crate::{
    device::{preferences::Preferring, service_worker::ServiceWorker},
    locale::{said, word},
    part::{Notice, Page, Places, UpdateOffer},
    studio::{Opening, Studio},
};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    Preferring::provide();
    let studio = Studio::provide();
    sink::Watching::provide();
    ServiceWorker::provide();
    exchange::provide_incoming();
    let opening = Memo::new(move |_| studio.opening());
    view! {
        <Notice>
            <Router>
                <sink::Watch />
                <exchange::Door />
                {move || match opening.get() {
                    Opening::Reading => view! {
                        <main class="page"><p role="status">{word("app.opening")}</p></main>
                    }
                    .into_any(),
                    // The places come with the screens: a press on one before there
                    // are routes would be lost.
                    Opening::Open(_) => view! { <Screens /><Places /> }.into_any(),
                    Opening::Refused(why) => view! {
                        <Page title=word("app.refused")><p>{said(&why)}</p></Page>
                    }
                    .into_any(),
                }}
            </Router>
            <UpdateOffer />
        </Notice>
    }
}

/// Which address leads to which screen. Made once the book is open, so that
/// every screen finds it so.
#[component]
fn Screens() -> impl IntoView {
    view! {
        <Routes fallback=Nowhere>
            <Route path=path!("/") view=sink::Sink />
            <Route path=path!("/sink") view=sink::Sink />
            <Route path=path!("/mix") view=mix::Mix />
            <Route path=path!("/batches/new") view=start::NewBatch />
            <Route path=path!("/batch/:id/plan") view=plan::PlanBath />
            <Route path=path!("/batches") view=batches::Batches />
            <Route path=path!("/batches/send") view=exchange::Send />
            <Route path=path!("/batches/take") view=exchange::Take />
            <Route path=path!("/batch/:id") view=batches::BatchPage />
            <Route path=path!("/shelf") view=shelf::Shelf />
            <Route path=path!("/shelf/new") view=shelf::NewProduct />
            <Route path=path!("/shelf/:id/titrate") view=shelf::Titrate />
            <Route path=path!("/shelf/:id") view=shelf::ProductPage />
            <Route path=path!("/help/preferences") view=help::PreferencesScreen />
            <Route path=path!("/help") view=help::Help />
        </Routes>
    }
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
