//! The search field of the list, its filters and its order.

use std::collections::BTreeMap;

use bleachfield_core::{
    derive::find::{BatchOrder, folded_name},
    journal::{BatchState, Book},
};
use leptos::prelude::*;

use super::state::{ListState, OXIDANTS};
use crate::{
    components::TextField,
    i18n::{key, t, t_count},
    screens::batches::entry::name_of,
    state::app_state,
};

/// A value in the address, and its name on screen.
type Options = Vec<(String, String)>;

#[component]
pub fn Filter(list: ListState) -> impl IntoView {
    let open = list.filters() > 0;
    let options = |of: fn(&Book) -> Options| Memo::new(move |_| app_state().book(of));
    let summary = move || match list.filters() {
        0 => t!("find-filters"),
        filters => t_count!("find-filters_set", filters),
    };
    view! {
        <search class="stack tight">
            <TextField label=t!("batches-seek") text=list.words hint=t!("find-hint") />
            <details class="more" open=open>
                <summary>{summary}</summary>
                <div class="inside plan-grid">
                    {select(key!("find-fibre"), t!("find-any_fibre"), options(fibres), list.fibre)}
                    {select(key!("find-oxidant"), t!("find-any_oxidant"), options(oxidants), list.oxidant)}
                    {select(key!("find-state"), t!("batches-any_state"), options(states), list.state)}
                    {select(key!("find-tag"), t!("find-any_tag"), options(tags), list.tag)}
                </div>
            </details>
            {order(list.order)}
        </search>
    }
}

/// A list to choose one from; the first option is any. Hidden where there is nothing to choose.
fn select(
    key: &'static str,
    any: String,
    options: Memo<Options>,
    value: RwSignal<String>,
) -> AnyView {
    let hidden = move || options.with(Vec::is_empty) && value.with(String::is_empty);
    view! {
        <div class="field" hidden=hidden>
            <label for=key>{t(key)}</label>
            <select id=key on:change=move |event| value.set(event_target_value(&event))>
                <option value="" selected=move || value.with(String::is_empty)>{any}</option>
                {move || options.get().into_iter().map(|(option, name)| {
                    let mine = option.clone();
                    view! {
                        <option value=option selected=move || value.with(|value| *value == mine)>
                            {name}
                        </option>
                    }
                }).collect_view()}
            </select>
        </div>
    }
    .into_any()
}

fn order(value: RwSignal<String>) -> AnyView {
    let options = BatchOrder::ALL.iter().map(|order| {
        let key = order.key();
        let is_default = *order == BatchOrder::default();
        let selected = move || value.with(|value| value == key || (is_default && value.is_empty()));
        view! { <option value=key selected=selected>{t(&format!("find-order-{key}"))}</option> }
    });
    let choose = move |event| {
        let key = event_target_value(&event);
        value.set(if key == BatchOrder::default().key() { String::new() } else { key });
    };
    view! {
        <div class="field">
            <label for="find-order">{t!("find-order")}</label>
            <select id="find-order" on:change=choose>{options.collect_view()}</select>
        </div>
    }
    .into_any()
}

/// Each fibre once, however it is written.
fn fibres(book: &Book) -> Options {
    let named = book.batches.values().map(|batch| batch.fibre.trim());
    let names: BTreeMap<String, &str> =
        named.filter(|name| !name.is_empty()).map(|name| (folded_name(name), name)).collect();
    names.into_iter().map(|(folded, name)| (folded, name.to_owned())).collect()
}

fn oxidants(book: &Book) -> Options {
    let used = |oxidant| {
        book.batches.values().flat_map(|batch| &batch.baths).any(|bath| bath.oxidant == oxidant)
    };
    let used = OXIDANTS.into_iter().filter(|oxidant| used(*oxidant));
    used.map(|oxidant| (<&str>::from(oxidant).to_owned(), name_of("oxidant", oxidant))).collect()
}

fn states(book: &Book) -> Options {
    let is_there = |state: &&BatchState| book.batches.values().any(|b| b.state == **state);
    let states = BatchState::ALL.iter().filter(is_there);
    states.map(|state| (state.key().to_owned(), t(&format!("state-{}", state.key())))).collect()
}

fn tags(book: &Book) -> Options {
    let mut tags: Vec<&String> = book.batches.values().flat_map(|batch| &batch.tags).collect();
    tags.sort();
    tags.dedup();
    tags.into_iter().map(|tag| (tag.clone(), tag.clone())).collect()
}
