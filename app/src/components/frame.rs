//! The frame of every screen: title, back link, navigation.

use leptos::prelude::*;

use super::{DraftNote, icon};
use crate::{
    i18n::t,
    route::{Route, back_href, use_route},
};

/// A screen with its heading.
#[component]
pub fn Page(
    #[prop(into)] title: Signal<String>,
    /// Target of the back link; the five places have none.
    #[prop(into, optional)]
    back: MaybeProp<Route>,
    /// What the back link is called, if not "Back".
    #[prop(into, optional)]
    back_name: MaybeProp<String>,
    children: Children,
) -> impl IntoView {
    Effect::new(move |_| document().set_title(&format!("{} · Bleachfield", title.get())));
    view! {
        <main class="page">
            <div class="page-head">
                {move || back.get().map(|back| {
                    let name = move || back_name.get().unwrap_or_else(|| t!("do-back"));
                    view! {
                        <a href=back_href(&back) class="button bare back">
                            <icon::Back /><span class="visually-hidden">{name}</span>
                        </a>
                    }
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
