//! The frame round every screen: title, way back, the five places, the notice.

use std::mem;

use std::cell::Cell;

use leptos::prelude::*;

use super::icon;
use crate::{
    i18n::t,
    platform::clock,
    route::{Route, use_route},
};

/// A screen: its heading, the way back if it has one, and its content.
#[component]
pub fn Page(
    #[prop(into)] title: Signal<String>,
    /// Where "back" leads; the five places themselves have none.
    #[prop(into, optional)]
    back: Option<Route>,
    children: Children,
) -> impl IntoView {
    Effect::new(move |_| document().set_title(&format!("{} · Bleachfield", title.get())));
    view! {
        <main class="page">
            <div class="page-head">
                {back.map(|back| view! {
                    <a href=back.href() class="button bare back">
                        <icon::Back /><span class="visually-hidden">{t!("do-back")}</span>
                    </a>
                })}
                <h1>{move || title.get()}</h1>
            </div>
            {children()}
        </main>
    }
}

/// The five places, along the bottom edge.
#[component]
pub fn Places() -> impl IntoView {
    let route = use_route();
    let here = Memo::new(move |_| route.with(|route| route.as_ref().map(Route::place)));
    let place = move |to: Route, icon: AnyView| {
        let place = to.place();
        let here = move || here.get() == Some(place);
        view! {
            <a href=to.href() aria-current=move || if here() { "page" } else { "false" }>
                {icon}
                <span>{t(&format!("place-{}", <&str>::from(place)))}</span>
            </a>
        }
    };
    view! {
        <nav class="places" aria-label=t!("place-all")>
            {place(Route::Sink, view! { <icon::Sink /> }.into_any())}
            {place(Route::Calculator, view! { <icon::Mix /> }.into_any())}
            {place(Route::Batches, view! { <icon::Batches /> }.into_any())}
            {place(Route::Shelf, view! { <icon::Shelf /> }.into_any())}
            {place(Route::Help, view! { <icon::Help /> }.into_any())}
        </nav>
    }
}

/// What was just done, said once, with a way to take it back.
#[derive(Clone)]
struct NoticeState {
    words: String,
    undo: Option<Callback<()>>,
    /// On the steady clock, milliseconds.
    at: f64,
}

/// What was said so shortly before a screen is left belongs to the leaving.
const LEAVING_MS: f64 = 300.0;

type NoticeSignal = RwSignal<Option<NoticeState>>;

thread_local! {
    /// The one notice of the app. What is said is often said after waiting for
    /// the store, where no context can be asked for.
    static SAYING: Cell<Option<NoticeSignal>> = const { Cell::new(None) };
}

/// Says what was just done; `undo` offers to take it back. May be called from
/// anywhere, also after waiting.
pub fn notify(words: impl Into<String>, undo: Option<Callback<()>>) {
    if let Some(saying) = SAYING.get() {
        saying.set(Some(NoticeState { words: words.into(), undo, at: clock::monotonic_ms() }));
    }
}

/// Holds the notices of the whole app; children may call [`notify`].
#[component]
pub fn Notice(children: Children) -> impl IntoView {
    let saying: NoticeSignal = RwSignal::new(None);
    SAYING.set(Some(saying));
    let route = use_route();
    // On another screen it would stand in the way. What is said in leaving goes along.
    let mut first = true;
    Effect::new(move |_| {
        route.track();
        let stale = |said: &NoticeState| clock::monotonic_ms() - said.at > LEAVING_MS;
        if !mem::take(&mut first) && saying.with_untracked(|said| said.as_ref().is_some_and(stale))
        {
            saying.set(None);
        }
    });
    view! {
        {children()}
        <div role="status" aria-live="polite">
            {move || saying.get().map(|said| view! {
                <div class="notice">
                    <p>{said.words}</p>
                    {said.undo.map(|undo| view! {
                        <button on:click=move |_| { saying.set(None); undo.run(()) }>{t!("do-undo")}</button>
                    })}
                    <button on:click=move |_| saying.set(None)>{t!("do-close")}</button>
                </div>
            })}
        </div>
    }
}
