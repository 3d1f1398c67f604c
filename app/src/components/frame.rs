//! The frame round every screen: title, way back, the five places, the notice.

use std::mem;

use std::cell::Cell;

use leptos::prelude::*;

use super::icon;
use crate::{i18n::t, platform::clock, route};

/// A screen: its heading, the way back if it has one, and its content.
#[component]
pub fn Page(
    #[prop(into)] title: Signal<String>,
    /// Where "back" leads; the five places themselves have none.
    #[prop(into, optional)]
    back: Option<String>,
    children: Children,
) -> impl IntoView {
    Effect::new(move |_| document().set_title(&format!("{} · Bleachfield", title.get())));
    view! {
        <main class="page">
            <div class="page-head">
                {back.map(|back| view! {
                    <a href=back class="press bare back">
                        <icon::Back /><span class="unseen">{t!("do-back")}</span>
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
    let here = Memo::new(|_| route::here().parts()[0].to_owned());
    let place = move |root: &'static str, href: &'static str, icon: AnyView| {
        let here = move || place_of(&here.get()) == root;
        view! {
            <a href=href aria-current=move || if here() { "page" } else { "false" }>
                {icon}
                <span>{t(&format!("place-{root}"))}</span>
            </a>
        }
    };
    view! {
        <nav class="places" aria-label=t!("place-all")>
            {place("sink", "/sink", view! { <icon::Sink /> }.into_any())}
            {place("mix", "/mix", view! { <icon::Mix /> }.into_any())}
            {place("batches", "/batches", view! { <icon::Batches /> }.into_any())}
            {place("shelf", "/shelf", view! { <icon::Shelf /> }.into_any())}
            {place("help", "/help", view! { <icon::Help /> }.into_any())}
        </nav>
    }
}

/// The place that a path with this first part belongs to.
fn place_of(first: &str) -> &str {
    match first {
        "" => "sink",
        "batch" | "lot" | "lots" => "batches",
        place => place,
    }
}

/// What was just done, said once, with a way to take it back.
#[derive(Clone)]
struct Said {
    words: String,
    undo: Option<Callback<()>>,
    /// On the steady clock, milliseconds.
    at: f64,
}

/// What was said so shortly before a screen is left belongs to the leaving.
const LEAVING_MS: f64 = 300.0;

type Saying = RwSignal<Option<Said>>;

thread_local! {
    /// The one notice of the app. What is said is often said after waiting for
    /// the store, where no context can be asked for.
    static SAYING: Cell<Option<Saying>> = const { Cell::new(None) };
}

/// Says what was just done; `undo` offers to take it back. May be called from
/// anywhere, also after waiting.
pub fn notify(words: impl Into<String>, undo: Option<Callback<()>>) {
    if let Some(saying) = SAYING.get() {
        saying.set(Some(Said { words: words.into(), undo, at: clock::steady() }));
    }
}

/// Holds the notices of the whole app; children may call [`notify`].
#[component]
pub fn Notice(children: Children) -> impl IntoView {
    let saying: Saying = RwSignal::new(None);
    SAYING.set(Some(saying));
    // On another screen it would stand in the way. What is said in leaving goes along.
    let mut first = true;
    Effect::new(move |_| {
        route::here();
        let stale = |said: &Said| clock::steady() - said.at > LEAVING_MS;
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
