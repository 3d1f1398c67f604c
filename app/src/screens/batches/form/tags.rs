//! The tags of a batch: put on one by one, taken off, written in one entry.

use std::collections::BTreeSet;

use bleachfield_core::{
    derive::find::folded_name,
    journal::{Body, Tagged},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, trimmed};
use crate::{
    components::{TextField, icon},
    i18n::{t, t_with},
};

#[component]
pub fn TagsForm(writer: BatchWriter) -> impl IntoView {
    let before: BTreeSet<String> = writer.read(|_, batch| batch.tags.clone()).unwrap_or_default();
    let known = writer.read(|book, _| {
        book.batches.values().flat_map(|batch| batch.tags.iter().cloned()).collect()
    });
    let known: BTreeSet<String> = known.unwrap_or_default();
    let tags = RwSignal::new(before.clone());
    let text = RwSignal::new(String::new());
    let offered = known.clone();
    let put = move |tag: String| {
        // As it is written on other batches, so that they are found together.
        let same = |other: &&String| folded_name(other) == folded_name(&tag);
        let tag = known.iter().find(same).cloned().unwrap_or(tag);
        if !tag.is_empty() {
            tags.update(|tags| {
                tags.insert(tag);
            });
        }
    };
    let put = StoredValue::new(put);
    let add = move || {
        put.with_value(|put| put(trimmed(text)));
        text.set(String::new());
    };
    let run = Callback::new(move |()| {
        // What stands in the field was meant to be a tag.
        add();
        let now = tags.get_untracked();
        let add: Vec<String> = now.difference(&before).cloned().collect();
        let remove: Vec<String> = before.difference(&now).cloned().collect();
        if add.is_empty() && remove.is_empty() {
            return writer.close();
        }
        writer.save(Body::Tagged(Tagged { add, remove }));
    });
    let others = move || {
        let now = tags.get();
        offered.iter().filter(|tag| !now.contains(*tag)).cloned().collect::<Vec<_>>()
    };
    view! {
        <div class="stack">
            <p class="soft small">{t!("form-tags-what")}</p>
            <ul class="tags">
                <For each=move || tags.get() key=String::clone let:tag>
                    {tag_button(tags, tag)}
                </For>
            </ul>
            <TextField label=t!("form-tags-new") text hint=t!("form-tags-hint") />
            <button type="button" class="button plain" on:click=move |_| add()>
                <icon::Plus />{t!("form-tags-add")}
            </button>
            {move || Some(others()).filter(|others| !others.is_empty()).map(|others| view! {
                <fieldset class="tags-offered">
                    <legend>{t!("form-tags-others")}</legend>
                    <div class="row tight">
                        {others.into_iter().map(|tag| {
                            let label = tag.clone();
                            view! {
                                <button type="button" class="button soft"
                                    on:click=move |_| put.with_value(|put| put(tag.clone()))>
                                    {label}
                                </button>
                            }
                        }).collect_view()}
                    </div>
                </fieldset>
            })}
            <SaveButton writer run />
        </div>
    }
}

/// A tag that is on, with the button that takes it off.
fn tag_button(tags: RwSignal<BTreeSet<String>>, tag: String) -> AnyView {
    let label = t_with!("form-tags-off", &[("tag", &tag)]);
    let shown = tag.clone();
    view! {
        <li>
            <span class="tag">{shown}</span>
            <button type="button" class="button bare" on:click=move |_| {
                tags.update(|tags| {
                    tags.remove(&tag);
                });
            }>
                <icon::Cross /><span class="visually-hidden">{label}</span>
            </button>
        </li>
    }
    .into_any()
}
