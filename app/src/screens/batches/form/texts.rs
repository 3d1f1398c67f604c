//! The forms of a single text: a note, a new name, the reason to abandon the batch.

use bleachfield_core::{
    caution::Act,
    journal::{Abandoned, Body, Note, Renamed},
    message::Message,
};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, SaveButton, trimmed};
use crate::{
    components::TextField,
    i18n::{key, t},
};

#[component]
pub fn NoteForm(writer: BatchWriter) -> impl IntoView {
    let text = RwSignal::new(String::new());
    // An empty note is an error only once it was to be saved.
    let tried = RwSignal::new(false);
    let problem = Signal::derive(move || {
        (tried.get() && is_empty(text)).then(|| Message::new(key!("refusal-note-empty")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        if !is_empty(text) {
            writer.save(Body::Note(Note { text: trimmed(text) }));
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("form-note-text") text problem long=true />
            <SaveButton writer run />
        </div>
    }
}

#[component]
pub fn RenameForm(writer: BatchWriter) -> impl IntoView {
    let text = RwSignal::new(writer.read(|_, batch| batch.name.clone()).unwrap_or_default());
    let problem = Signal::derive(move || {
        is_empty(text).then(|| Message::new(key!("refusal-batch-nameless")))
    });
    let run = Callback::new(move |()| {
        if !is_empty(text) {
            writer.save(Body::Renamed(Renamed { name: trimmed(text) }));
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("form-rename-name") text problem />
            <SaveButton writer run />
        </div>
    }
}

#[component]
pub fn AbandonForm(writer: BatchWriter) -> impl IntoView {
    if writer.running_bath().is_some() {
        return view! { <p>{t!("form-give_up-running")}</p> }.into_any();
    }
    let why = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        writer.save(Body::Abandoned(Abandoned { why: trimmed(why) }));
    });
    view! {
        <div class="stack">
            <p>{t!("form-give_up-what")}</p>
            <Cautions act=Act::Draining situation=writer.situation() />
            <TextField label=t!("form-give_up-why") text=why long=true />
            <SaveButton writer label=t!("form-give_up-do") danger=true run />
        </div>
    }
    .into_any()
}

fn is_empty(text: RwSignal<String>) -> bool {
    text.with(|text| text.trim().is_empty())
}
