//! The cook, as it was done.

use bleachfield_core::journal::Body;
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, all_valid, trimmed};
use crate::{
    components::{ChoiceError, TextField},
    i18n::t,
    screens::calculator::sums::{CookSum, no_alkali},
};

#[component]
pub fn CookForm(writer: BatchWriter) -> impl IntoView {
    let sum = writer.studio.book_now(|book| CookSum::new(book, book.batches.get(&writer.batch)));
    let note = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let run = Callback::new(move |()| {
        tried.set(true);
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
            <ChoiceError problem=Signal::derive(move || no_alkali(sum, tried)) />
            <SaveButton writer label=t!("form-cook-do") run />
        </div>
    }
}
