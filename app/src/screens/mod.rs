//! The screens, and which route shows which.
//!
//! Addresses are in `route`; what several screens share is in `components`.

mod batches;
mod calculator;
mod colour;
mod help;
pub mod lazy;
mod plan;
mod shelf;
mod sink;

use leptos::{prelude::*, task::spawn_local};
use leptos_router::{components::Router, hooks::use_location};

use self::lazy::Screen;
use crate::{
    components::{Notice, Page, Places, UpdateOffer, notify},
    i18n::{render, t},
    platform::{preferences::PreferencesContext, service_worker::ServiceWorker},
    route::{self, Route, use_completion, use_route},
    state::{AppState, LoadState},
    storage::StoreError,
};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    view! { <Router><Shell /></Router> }
}

/// What stays while screens change: the state of the app, notices, the five places.
#[component]
fn Shell() -> impl IntoView {
    route::provide();
    PreferencesContext::provide();
    let studio = AppState::provide(Callback::new(|error: StoreError| {
        notify(render(&error.message()), None);
    }));
    sink::CueMonitor::provide();
    ServiceWorker::provide();
    batches::exchange::provide_incoming();
    batches::exchange::open_door();
    let opening = Memo::new(move |_| studio.load_state());
    view! {
        <Notice>
            <sink::Watch />
            {move || match opening.get() {
                LoadState::Loading => view! {
                    <main class="page"><p role="status">{t!("app-opening")}</p></main>
                }
                .into_any(),
                // Only once the book is open, so that every screen finds it so.
                LoadState::Ready(_) => view! { <CurrentScreen /><Places /> }.into_any(),
                LoadState::Failed(why) => view! {
                    <Page title=t!("app-refused")><p>{render(&why)}</p></Page>
                }
                .into_any(),
            }}
            <UpdateOffer />
        </Notice>
    }
}

/// The screen of the current route. A screen stays until the next one's code is loaded.
#[component]
fn CurrentScreen() -> impl IntoView {
    let (route, location) = (use_route(), use_location());
    let again = RwSignal::new(());
    let shown = RwSignal::new(None::<(Option<Route>, Screen)>);
    provide_context(Retry(again));
    let complete = use_completion();
    let complete = std::rc::Rc::new(complete);
    Effect::new(move |_| {
        again.track();
        // Two addresses may be one route: the address bar follows all the same.
        location.pathname.track();
        let to = route.get();
        let complete = complete.clone();
        if matches!(to, Some(Route::Sink) | None) {
            shown.set(Some((to, at_hand)));
            complete();
            return;
        }
        spawn_local(async move {
            let screen = piece_of(&to).await;
            if route.try_get_untracked() == Some(to.clone()) {
                let _ = shown.try_set(Some((to, screen)));
                complete();
            }
        });
    });
    move || {
        shown.get().map(|(route, screen)| match route {
            Some(route) => screen(route),
            None => nowhere(),
        })
    }
}

/// The screens that come with the first piece.
fn at_hand(_: Route) -> AnyView {
    view! { <sink::Sink /> }.into_any()
}

/// What shows a route, loaded if need be.
async fn piece_of(route: &Option<Route>) -> Screen {
    let Some(route) = route else { return at_hand };
    let piece = match route {
        Route::Sink => return at_hand,
        Route::Calculator => lazy::calculator().await,
        Route::Colour(_)
        | Route::ColourTarget(_)
        | Route::ColourCompare { .. }
        | Route::ColourMeasure { .. }
        | Route::Yellowing => lazy::colour().await,
        Route::Shelf | Route::NewProduct | Route::Product(_) | Route::Titrate(_) => {
            lazy::shelf().await
        }
        Route::Help | Route::Preferences => lazy::help().await,
        Route::Sum(_)
        | Route::Batches
        | Route::NewBatch
        | Route::Send { .. }
        | Route::Import
        | Route::Batch { .. }
        | Route::BatchLabel(_)
        | Route::Plan(_)
        | Route::Lots
        | Route::Lot(_)
        | Route::LotLabel(_) => lazy::batches().await,
    };
    piece.unwrap_or(|_| view! { <NotLoaded /> }.into_any())
}

/// No screen has the address.
fn nowhere() -> AnyView {
    view! {
        <Page title=t!("nowhere-title")>
            <div class="stack">
                <p>{t!("nowhere-why")}</p>
                <a class="button" href=Route::Sink.href()>{t!("nowhere-home")}</a>
            </div>
        </Page>
    }
    .into_any()
}

/// Loads the current screen's piece once more.
#[derive(Clone, Copy)]
struct Retry(RwSignal<()>);

/// A screen whose piece could not be fetched: not yet on the phone, and no network.
#[component]
fn NotLoaded() -> impl IntoView {
    let Retry(again) = expect_context();
    view! {
        <Page title=t!("not_here-title")>
            <div class="stack">
                <p>{t!("not_here-why")}</p>
                <button class="button" on:click=move |_| again.notify()>{t!("not_here-again")}</button>
            </div>
        </Page>
    }
}
