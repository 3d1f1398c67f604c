//! A list that changes: each line stays as it is while its key stays.

use crate::markup::prelude::*;

/// Shows `each` key of `keys`, in order. A line is made once, and keeps what the
/// person did to it until its key leaves. One such list is compiled for all screens:
/// keys are text, and the line finds its own subject by it.
#[component]
pub fn Each(
    #[prop(into)] keys: Signal<Vec<String>>,
    #[prop(into)] each: Callback<String, AnyView>,
) -> Markup {
    Markup::of(leptos::view! {
        <For each=move || keys.get() key=String::clone let:key>{each.run(key)}</For>
    })
}
