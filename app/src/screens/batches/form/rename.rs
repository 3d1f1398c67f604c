//! Another name for the batch.

use bleachfield_core::{
    journal::{Body, Renamed},
    message::Message,
};
use leptos::prelude::*;

use super::{BatchWriter, Save};
use crate::{
    components::TextField,
    i18n::{key, t},
};

#[component]
pub fn Rename(writing: BatchWriter) -> impl IntoView {
    let name = writing.studio.book_now(|book| {
        book.batches.get(&writing.batch).map(|b| b.name.clone()).unwrap_or_default()
    });
    let text = RwSignal::new(name);
    let empty = move || text.with(|t| t.trim().is_empty());
    let problem =
        Signal::derive(move || empty().then(|| Message::new(key!("refusal-batch-nameless"))));
    let run = Callback::new(move |()| {
        if !empty() {
            writing.save(Body::Renamed(Renamed { name: text.get_untracked().trim().to_owned() }));
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("form-rename-name") text problem />
            <Save writing run />
        </div>
    }
}
