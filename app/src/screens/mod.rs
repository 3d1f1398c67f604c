//! The screens, and the screen of each route. Routes and their addresses are in `route`; shared
//! controls are in `components`.

mod batches;
mod calculator;
mod class_sheet;
mod colour;
pub mod demo;
mod help;
pub mod lazy;
mod photo_choice;
mod plan;
mod rests_on;
mod shelf;
mod sink;
mod station_bar;
mod trial;
mod ways;

use std::rc::Rc;

use leptos::{html, prelude::*, task::spawn_local};
use leptos_router::{components::Router, hooks::use_location};

use self::lazy::Screen;
use crate::{
    components::{FormReset, Notice, Page, Places, UpdateOffer, notify_failure},
    i18n::{render, t, t_count},
    platform::{
        draft::DraftScope, panic, preferences::PreferencesContext, service_worker::ServiceWorker,
    },
    route::{self, Route, Sum, use_completion, use_route},
    state::{AppState, LearningState, LoadState},
    storage::StoreError,
};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    view! { <Router><Shell /></Router> }
}

/// What stays while screens change: contexts, notices, and the navigation bar.
#[component]
fn Shell() -> impl IntoView {
    route::provide();
    PreferencesContext::provide();
    let state = AppState::provide(Callback::new(|error: StoreError| {
        notify_failure(render(&error.message()));
    }));
    LearningState::provide(state);
    sink::CueMonitor::provide();
    sink::keep_for_stop();
    ServiceWorker::provide();
    batches::exchange::provide_incoming();
    batches::exchange::open_incoming();
    let load_state = Memo::new(move |_| state.load_state());
    Effect::new(move |_| {
        let unreadable = state.unreadable_now().len();
        if matches!(load_state.get(), LoadState::Ready(_)) && unreadable > 0 {
            notify_failure(t_count!("help-unreadable_notice", unreadable));
        }
    });
    view! {
        <Notice>
            <demo::DemoRibbon />
            <sink::CueAlerts />
            {move || match load_state.get() {
                LoadState::Loading => view! {
                    <main class="page"><p role="status">{t!("app-opening")}</p></main>
                }
                .into_any(),
                // Screens may rely on a loaded book.
                LoadState::Ready(_) => view! { <CurrentScreen /><Places /> }.into_any(),
                LoadState::Failed(why) => {
                    // The book is closed, and a bath may run on.
                    let running = NodeRef::<html::Div>::new();
                    running.on_load(|place| panic::show_running_baths(&place));
                    view! {
                        <Page title=t!("app-refused")>
                            <div class="stack wide">
                                <p>{render(&why)}</p>
                                <div class="stack wide" node_ref=running></div>
                            </div>
                        </Page>
                    }
                    .into_any()
                }
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
    let complete = Rc::new(use_completion());
    Effect::new(move |_| {
        again.track();
        // Two addresses may be one route: the address bar follows all the same.
        location.pathname.with(|_| ());
        let complete = complete.clone();
        match route.get() {
            None | Some(Route::Sink | Route::Bath(_)) => {
                shown.set(Some((route.get(), sink_screen)));
                complete();
            }
            Some(to) => spawn_local(async move {
                let screen = load_screen(&to).await;
                if route.try_get_untracked() == Some(Some(to.clone())) {
                    let _ = shown.try_set(Some((Some(to), screen)));
                    complete();
                }
            }),
        }
    });
    // A step of a form changes the query alone: the screen stays, the address bar follows.
    let follow = use_completion();
    Effect::new(move |_| {
        location.search.with(|_| ());
        let now = route.get_untracked();
        if shown.with_untracked(|shown| shown.as_ref().is_some_and(|(route, _)| *route == now)) {
            follow();
        }
    });
    move || {
        shown.get().map(|(route, screen)| match route {
            Some(route) => {
                if route.is_form() {
                    DraftScope::provide(&route.href());
                    provide_context(FormReset(Callback::new(move |()| again.notify())));
                } else {
                    DraftScope::provide_none();
                }
                screen(route)
            }
            None => not_found(),
        })
    }
}

/// The Sink comes with the first piece.
fn sink_screen(route: Route) -> AnyView {
    let bath = match route {
        Route::Bath(bath) => Some(bath),
        _ => None,
    };
    view! { <sink::Sink bath /> }.into_any()
}

/// The screen of a route; its piece is loaded if need be.
async fn load_screen(route: &Route) -> Screen {
    let piece = match route {
        Route::Sink | Route::Bath(_) => return sink_screen,
        Route::Calculator
        | Route::Sum(
            Sum::Dilute | Sum::DryFibre | Sum::Ph | Sum::Warm | Sum::Spoons | Sum::Percarbonate,
        ) => lazy::calculator().await,
        Route::Colour(_)
        | Route::ColourTarget(_)
        | Route::ColourCompare { .. }
        | Route::ColourMeasure { .. }
        | Route::Teach
        | Route::Yellowing => lazy::colour().await,
        Route::Shelf | Route::NewProduct | Route::Product(_) | Route::Titrate(_) => {
            lazy::shelf().await
        }
        Route::ClassSheet { .. } => lazy::class_sheet().await,
        Route::Help | Route::Preferences | Route::Glossary => lazy::help().await,
        Route::WaysToColour(_) => lazy::ways().await,
        Route::NewTrial(_) | Route::Trial(_) => lazy::trial().await,
        Route::RestsOn => lazy::rests_on().await,
        // Their forms are those of a batch.
        Route::Sum(Sum::Cook | Sum::Wash | Sum::Antichlor | Sum::Sheets)
        | Route::Batches
        | Route::Compare(_)
        | Route::Season
        | Route::NewBatch
        | Route::Send { .. }
        | Route::Import
        | Route::Batch { .. }
        | Route::BatchLabel(_)
        | Route::NewPlan
        | Route::PlanAgain(_)
        | Route::Plan(_)
        | Route::ChangePlan(_)
        | Route::StartPlan { .. }
        | Route::Lots
        | Route::Lot(_)
        | Route::LotLabel(_) => lazy::batches().await,
    };
    piece.unwrap_or(|_| view! { <NotLoaded /> }.into_any())
}

/// No screen has the address.
fn not_found() -> AnyView {
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

/// Notified to load the current screen's piece again.
#[derive(Clone, Copy)]
struct Retry(RwSignal<()>);

/// Shown where a piece cannot be fetched: not yet on this device, and no network.
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
