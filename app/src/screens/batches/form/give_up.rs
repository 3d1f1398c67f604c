//! The batch is given up: spilt, spoilt, thrown out.

use bleachfield_core::journal::{Abandoned, Body};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, Save};
use crate::{components::TextField, i18n::t};
use bleachfield_core::caution::Act;

#[component]
pub fn AbandonForm(writing: BatchWriter) -> impl IntoView {
    let why = RwSignal::new(String::new());
    let running = writing
        .studio
        .book_now(|book| book.batches.get(&writing.batch).is_some_and(|b| b.running().is_some()));
    let situation = Signal::stored(writing.situation());
    let run = Callback::new(move |()| {
        writing.save(Body::Abandoned(Abandoned { why: why.get_untracked().trim().to_owned() }));
    });
    if running {
        return view! { <p>{t!("form-give_up-running")}</p> }.into_any();
    }
    view! {
        <div class="stack">
            <p>{t!("form-give_up-what")}</p>
            <Cautions act=Act::Draining situation />
            <TextField label=t!("form-give_up-why") text=why long=true />
            <Save writing label=t!("form-give_up-do") grave=true run />
        </div>
    }
    .into_any()
}
