//! The cook, as it was done.

use bleachfield_core::journal::Body;
use leptos::prelude::*;

use super::{BatchWriter, Save, asks};
use crate::{components::TextField, i18n::t, screens::calculator::sums::CookSum};

#[component]
pub fn CookForm(writing: BatchWriter) -> impl IntoView {
    let sum = writing.studio.book_now(|book| CookSum::new(book, book.batches.get(&writing.batch)));
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if asks::all_well(&sum.inputs())
            && let Some(entry) = sum.entry(note.get_untracked().trim().to_owned())
        {
            writing.save(Body::Cooked(entry));
        }
    });
    view! {
        <div class="stack">
            {sum.view()}
            <TextField label=t!("form-note-optional") text=note />
            <Save writing label=t!("form-cook-do") run />
        </div>
    }
}
