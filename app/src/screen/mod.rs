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
    locale::word,
    part::{Notice, Page, Places, UpdateOffer},
    studio::Studio,
};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    Preferring::provide();
    Studio::provide();
    sink::Watching::provide();
    ServiceWorker::provide();
    exchange::provide_incoming();
    view! {
        <Notice>
            <Router>
                <sink::Watch />
                <exchange::Door />
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
                    <Route path=path!("/help") view=help::Help />
                </Routes>
                <Places />
            </Router>
            <UpdateOffer />
        </Notice>
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
