//! One out of a few, as large tabs that read as a radio group.

use leptos::prelude::*;

/// A radio group. `options` are (value, words) pairs.
#[component]
pub fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    /// What is being chosen; `quiet` hides it from sight, never from a screen reader.
    #[prop(into)]
    label: String,
    value: RwSignal<T>,
    options: Vec<(T, String)>,
    #[prop(optional)] quiet: bool,
) -> impl IntoView {
    let group = format!("choice-{}", next_number());
    let options = options
        .into_iter()
        .map(|(option, words)| {
            view! {
                <label>
                    <input type="radio" name=group.clone()
                        prop:checked=move || value.get() == option
                        on:change=move |_| value.set(option) />
                    <span>{words}</span>
                </label>
            }
        })
        .collect_view();
    view! {
        <fieldset class="choice">
            <legend class:unseen=quiet>{label}</legend>
            <div class="options">{options}</div>
        </fieldset>
    }
}

/// A number that no other control on the page has.
pub(super) fn next_number() -> u32 {
    use std::sync::atomic::{AtomicU32, Ordering};
    static NEXT: AtomicU32 = AtomicU32::new(0);
    NEXT.fetch_add(1, Ordering::Relaxed)
}
