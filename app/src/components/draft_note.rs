//! Says that a form has come back as it was left, and offers to begin it anew.

use leptos::prelude::*;

use crate::{
    i18n::{t, t_with},
    platform::{clock, draft::DraftScope},
};

/// How a form is made anew after its draft was discarded.
#[derive(Clone, Copy)]
pub struct FormReset(pub Callback<()>);

/// The note, in a form that found a draft; nothing otherwise.
#[component]
pub fn DraftNote() -> impl IntoView {
    let draft = DraftScope::current();
    let reset = use_context::<FormReset>();
    move || {
        let (draft, FormReset(reset)) = draft.zip(reset)?;
        let since = clock::local(draft.found()?);
        Some(view! {
            <p class="draft" role="status">
                <span>{t_with!("draft-found", &[("since", &since)])}</span>
                <button class="button bare" type="button" on:click=move |_| {
                    draft.clear();
                    reset.run(());
                }>{t!("draft-discard")}</button>
            </p>
        })
    }
}
