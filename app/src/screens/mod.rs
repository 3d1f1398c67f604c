//! The screens, and which address leads to which.

mod batches;
mod calculator;
mod colour;
mod help;
mod plan;
mod shelf;
mod sink;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::{
    components::{Notice, Page, Places, UpdateOffer},
    i18n::{render, t},
    platform::{preferences::Preferring, service_worker::ServiceWorker},
    route::lazy,
    route::{self, Address},
    state::{Opening, Studio},
};

/// Shows the screen at an address.
pub type Show = fn(&Address) -> AnyView;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    route::provide();
    Preferring::provide();
    let studio = Studio::provide();
    sink::Watching::provide();
    ServiceWorker::provide();
    batches::exchange::provide_incoming();
    batches::exchange::open_door();
    let opening = Memo::new(move |_| studio.opening());
    view! {
        <Notice>
            <sink::Watch />
            {move || match opening.get() {
                Opening::Reading => view! {
                    <main class="page"><p role="status">{t!("app-opening")}</p></main>
                }
                .into_any(),
                // Only once the book is open, so that every screen finds it so.
                Opening::Open(_) => view! { <Screens /><Places /> }.into_any(),
                Opening::Refused(why) => view! {
                    <Page title=t!("app-refused")><p>{render(&why)}</p></Page>
                }
                .into_any(),
            }}
            <UpdateOffer />
        </Notice>
    }
}

/// The screen of the address. One screen stays until the next one's code is there.
#[component]
fn Screens() -> impl IntoView {
    let shown = RwSignal::new(None::<(Address, Show)>);
    Effect::new(move |_| {
        let at = route::here();
        if matches!(at.parts()[..], ["" | "sink"]) {
            shown.set(Some((at, |_| view! { <sink::Sink /> }.into_any())));
            return;
        }
        spawn_local(async move {
            let show = code_for(&at).await;
            if route::here_now() == at {
                let _ = shown.try_set(Some((at, show)));
            }
        });
    });
    let show = |(at, show): (Address, Show)| show(&at);
    (move || shown.get().map(show)).into_any()
}

/// What shows the screen at an address.
async fn code_for(at: &Address) -> Show {
    let come = match at.parts()[..] {
        ["mix"] => lazy::mix().await,
        ["batch", _, "colour", ..] | ["batches", "yellowing"] => lazy::colour().await,
        ["mix", _] | ["batch" | "batches" | "lot" | "lots", ..] => lazy::batches().await,
        ["shelf", ..] => lazy::shelf().await,
        ["help", ..] => lazy::help().await,
        _ => return |_| nowhere(),
    };
    come.unwrap_or(|_| view! { <NotHere /> }.into_any())
}

pub fn under_way() -> AnyView {
    view! { <sink::UnderWay /> }.into_any()
}

pub fn mix_at(_: &Address) -> AnyView {
    view! { <calculator::Mix /> }.into_any()
}

pub fn batches_at(at: &Address) -> AnyView {
    match at.parts()[..] {
        ["batches"] => view! { <batches::Batches /> }.into_any(),
        ["batches", "new"] => view! { <batches::NewBatch /> }.into_any(),
        ["batches", "send"] => {
            let asked = at.asked("batch").and_then(|id| id.parse().ok());
            view! { <batches::exchange::Send asked /> }.into_any()
        }
        ["batches", "take"] => view! { <batches::exchange::Take /> }.into_any(),
        ["batch", _] => {
            let asked = at.asked("do").and_then(|form| batches::Form::named(&form));
            view! { <batches::BatchPage id=at.id() asked /> }.into_any()
        }
        ["batch", _, "label"] => view! { <batches::LabelPage id=at.id() lot=false /> }.into_any(),
        ["lots"] => view! { <batches::Lots /> }.into_any(),
        ["lot", _] => view! { <batches::LotPage id=at.id() /> }.into_any(),
        ["lot", _, "label"] => view! { <batches::LabelPage id=at.id() lot=true /> }.into_any(),
        ["mix", sum @ ("wash" | "antichlor" | "cook" | "sheets")] => {
            view! { <calculator::sums::SumPage of=sum.to_owned() /> }.into_any()
        }
        ["batch", _, "plan"] => view! { <plan::PlanBath id=at.id() /> }.into_any(),
        _ => nowhere(),
    }
}

pub fn colour_at(at: &Address) -> AnyView {
    colour::at(at)
}

pub fn shelf_at(at: &Address) -> AnyView {
    match at.parts()[..] {
        ["shelf"] => view! { <shelf::Shelf /> }.into_any(),
        ["shelf", "new"] => view! { <shelf::NewProduct /> }.into_any(),
        ["shelf", _] => view! { <shelf::ProductPage id=at.id() /> }.into_any(),
        ["shelf", _, "titrate"] => view! { <shelf::Titrate id=at.id() /> }.into_any(),
        _ => nowhere(),
    }
}

pub fn help_at(at: &Address) -> AnyView {
    match at.parts()[..] {
        ["help"] => view! { <help::Help /> }.into_any(),
        ["help", "preferences"] => view! { <help::PreferencesScreen /> }.into_any(),
        _ => nowhere(),
    }
}

/// An address that leads nowhere: say so, and offer the way home.
fn nowhere() -> AnyView {
    view! {
        <Page title=t!("nowhere-title")>
            <div class="stack">
                <p>{t!("nowhere-why")}</p>
                <a class="press" href="/sink">{t!("nowhere-home")}</a>
            </div>
        </Page>
    }
    .into_any()
}

/// A screen whose code could not be fetched: not yet kept on the phone, and no network.
#[component]
fn NotHere() -> impl IntoView {
    view! {
        <Page title=t!("not_here-title")>
            <div class="stack">
                <p>{t!("not_here-why")}</p>
                <button class="press" on:click=|_| route::again()>{t!("not_here-again")}</button>
            </div>
        </Page>
    }
}
