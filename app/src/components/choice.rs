//! One out of a few, as large tabs that read as a radio group.

use std::sync::Arc;

use leptos::prelude::*;

/// A radio group. `options` are (value, words) pairs.
#[component]
pub fn RadioGroup<T: Copy + PartialEq + Send + Sync + 'static>(
    /// What is being chosen; `quiet` hides it from sight, never from a screen reader.
    #[prop(into)]
    label: String,
    value: RwSignal<T>,
    options: Vec<(T, String)>,
    #[prop(optional)] quiet: bool,
) -> impl IntoView {
    let (values, words): (Vec<T>, Vec<String>) = options.into_iter().unzip();
    let values = Arc::new(values);
    let among = Arc::clone(&values);
    let chosen = move || {
        let value = value.get();
        among.iter().position(|one| *one == value)
    };
    let choose = move |nth: usize| {
        if let Some(chosen) = values.get(nth) {
            value.set(*chosen);
        }
    };
    radio_buttons(label, words, Arc::new(chosen), Arc::new(choose), quiet)
}

type Chosen = Arc<dyn Fn() -> Option<usize> + Send + Sync>;
type Choose = Arc<dyn Fn(usize) + Send + Sync>;

/// The group itself, the same code for every kind of value.
fn radio_buttons(
    label: String,
    words: Vec<String>,
    chosen: Chosen,
    choose: Choose,
    quiet: bool,
) -> AnyView {
    let group = format!("choice-{}", next_number());
    let options = words.into_iter().enumerate().map(|(nth, words)| {
        let (chosen, choose) = (Arc::clone(&chosen), Arc::clone(&choose));
        view! {
            <label>
                <input type="radio" name=group.clone()
                    prop:checked=move || chosen() == Some(nth)
                    on:change=move |_| choose(nth) />
                <span>{words}</span>
            </label>
        }
    });
    let options = options.collect_view();
    view! {
        <fieldset class="radio-group">
            <legend class:visually-hidden=quiet>{label}</legend>
            <div class="options">{options}</div>
        </fieldset>
    }
    .into_any()
}

/// A number that no other control on the page has.
pub(super) fn next_number() -> u32 {
    use std::sync::atomic::{AtomicU32, Ordering};
    static NEXT: AtomicU32 = AtomicU32::new(0);
    NEXT.fetch_add(1, Ordering::Relaxed)
}
