//! Controls that several forms share.

use bleachfield_core::caution::{Act, Situation, cautions};
use leptos::prelude::*;

use super::BatchWriter;
use crate::{
    components::{CautionList, to_first_wrong},
    i18n::t,
};

/// The cautions of an act.
#[component]
pub fn Cautions(act: Act, situation: Signal<Situation>) -> impl IntoView {
    view! { <CautionList cautions=Signal::derive(move || situation.with(|s| cautions(act, s))) /> }
}

/// The button that ends a form.
#[component]
pub fn SaveButton(
    writer: BatchWriter,
    /// In place of "Save".
    #[prop(into, optional)]
    label: Option<String>,
    /// In the colour of danger.
    #[prop(optional)]
    danger: bool,
    run: Callback<()>,
) -> impl IntoView {
    let label = label.unwrap_or_else(|| t!("do-save"));
    view! {
        <div class="save">
            <button class="button touch" class:stop=danger disabled=move || writer.busy.get()
                on:click=move |_| { run.run(()); to_first_wrong() }>
                {label}
            </button>
        </div>
    }
}
