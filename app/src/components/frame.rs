//! The frame of every screen: title, back link, navigation, notice.

use std::{cell::Cell, mem};

use leptos::prelude::*;

use super::{DraftNote, icon};
use crate::{
    i18n::t,
    platform::clock,
    route::{Route, use_route},
};

/// A screen with its heading.
#[component]
pub fn Page(
    #[prop(into)] title: Signal<String>,
    /// Target of the back link; the five places have none.
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
            <DraftNote />
            {children()}
        </main>
    }
}

/// The navigation between the five places, along the bottom edge.
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

#[derive(Clone)]
struct NoticeState {
    text: String,
    undo: Option<Callback<()>>,
    /// When it was given, monotonic, in ms.
    at: f64,
}

/// A notice given less than this before a change of screen is kept on the next screen.
const KEPT_ON_LEAVING_MS: f64 = 300.0;

type NoticeSignal = RwSignal<Option<NoticeState>>;

thread_local! {
    /// The current notice of the app. Not a context: after an `await` there is none.
    static NOTICE: Cell<Option<NoticeSignal>> = const { Cell::new(None) };
}

/// Shows what was just done, with an undo button if `undo` is given. May be called anywhere,
/// also after an `await`.
pub fn notify(text: impl Into<String>, undo: Option<Callback<()>>) {
    if let Some(notice) = NOTICE.get() {
        notice.set(Some(NoticeState { text: text.into(), undo, at: clock::monotonic_ms() }));
    }
}

/// Shows the notices of the whole app.
#[component]
pub fn Notice(children: Children) -> impl IntoView {
    let notice: NoticeSignal = RwSignal::new(None);
    NOTICE.set(Some(notice));
    let route = use_route();
    let mut first = true;
    Effect::new(move |_| {
        route.track();
        let stale = |notice: &NoticeState| clock::monotonic_ms() - notice.at > KEPT_ON_LEAVING_MS;
        if !mem::take(&mut first) && notice.with_untracked(|n| n.as_ref().is_some_and(stale)) {
            notice.set(None);
        }
    });
    view! {
        {children()}
        <div role="status" aria-live="polite">
            {move || notice.get().map(|NoticeState { text, undo, .. }| view! {
                <div class="notice">
                    <p>{text}</p>
                    {undo.map(|undo| view! {
                        <button on:click=move |_| { notice.set(None); undo.run(()) }>{t!("do-undo")}</button>
                    })}
                    <button on:click=move |_| notice.set(None)>{t!("do-close")}</button>
                </div>
            })}
        </div>
    }
}
