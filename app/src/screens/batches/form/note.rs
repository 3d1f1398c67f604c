//! A free remark.

use bleachfield_core::{
    journal::{Body, Note},
    message::Message,
};
use leptos::prelude::*;

use super::{BatchWriter, Save};
use crate::{
    components::TextField,
    i18n::{key, t},
};

#[component]
pub fn NoteForm(writing: BatchWriter) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let empty = move || text.with(|t| t.trim().is_empty());
    let problem = Signal::derive(move || {
        (tried.get() && empty()).then(|| Message::new(key!("refusal-note-empty")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        if !empty() {
            writing.save(Body::Note(Note { text: text.get_untracked().trim().to_owned() }));
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("form-note-text") text problem long=true />
            <Save writing run />
        </div>
    }
}
