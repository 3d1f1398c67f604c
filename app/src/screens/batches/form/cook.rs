//! The cook, as it was done.

use bleachfield_core::journal::Body;
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, all_valid, trimmed};
use crate::{components::TextField, i18n::t, screens::calculator::sums::CookSum};

#[component]
pub fn CookForm(writer: BatchWriter) -> impl IntoView {
    let sum = writer.studio.book_now(|book| CookSum::new(book, book.batches.get(&writer.batch)));
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if all_valid(&sum.inputs())
            && let Some(entry) = sum.entry(trimmed(note))
        {
            writer.save(Body::Cooked(entry));
        }
    });
    view! {
        <div class="stack">
            {sum.view()}
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer label=t!("form-cook-do") run />
        </div>
    }
}
