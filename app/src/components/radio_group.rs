//! A choice of one out of a few, shown as large tabs.

use std::sync::Arc;

use leptos::prelude::*;

use crate::platform::draft::DraftScope;

/// A radio group. `options` are (value, label) pairs.
#[component]
pub fn RadioGroup<T: Copy + PartialEq + Send + Sync + 'static>(
    #[prop(into)] label: String,
    value: RwSignal<T>,
    options: Vec<(T, String)>,
    /// Hides the label from sight, not from a screen reader.
    #[prop(optional)]
    quiet: bool,
) -> impl IntoView {
    let (values, labels): (Vec<T>, Vec<String>) = options.into_iter().unzip();
    let values = StoredValue::new(values);
    let selected = move || {
        let value = value.get();
        values.with_value(|values| values.iter().position(|one| *one == value))
    };
    let select = move |nth: usize| {
        if let Some(chosen) = values.with_value(|values| values.get(nth).copied()) {
            value.set(chosen);
        }
    };
    keep_choice(&label, Arc::new(selected), Arc::new(select));
    radio_buttons(label, labels, Arc::new(selected), Arc::new(select), quiet)
}

/// Restores a choice that was made before and not saved, and keeps the next ones.
fn keep_choice(
    label: &str,
    selected: Arc<dyn Fn() -> Option<usize> + Send + Sync>,
    select: Arc<dyn Fn(usize) + Send + Sync>,
) {
    let Some(draft) = DraftScope::current() else { return };
    if let Some(kept) = draft.restore_once(label).and_then(|nth| nth.parse().ok()) {
        select(kept);
    }
    let label = label.to_owned();
    Effect::new(move |earlier: Option<()>| {
        let nth = selected();
        if earlier.is_some() {
            draft.keep(&label, nth.map(|nth| nth.to_string()));
        }
    });
}

/// The group by index: compiled once for all value types.
fn radio_buttons(
    label: String,
    labels: Vec<String>,
    selected: Arc<dyn Fn() -> Option<usize> + Send + Sync>,
    select: Arc<dyn Fn(usize) + Send + Sync>,
    quiet: bool,
) -> AnyView {
    let group = format!("choice-{}", unique_number());
    let options = labels.into_iter().enumerate().map(|(nth, label)| {
        let (selected, select) = (Arc::clone(&selected), Arc::clone(&select));
        view! {
            <label>
                <input type="radio" name=group.clone()
                    prop:checked=move || selected() == Some(nth)
                    on:change=move |_| select(nth) />
                <span>{label}</span>
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

/// A number for element ids, unique on the page.
pub(super) fn unique_number() -> u32 {
    use std::sync::atomic::{AtomicU32, Ordering};
    static NEXT: AtomicU32 = AtomicU32::new(0);
    NEXT.fetch_add(1, Ordering::Relaxed)
}
