//! What the list of batches shows while there are none.

use leptos::prelude::*;

use crate::{components::icon, i18n::t, screens::demo::EnterDemo};

/// Explains what a batch is; offers the demo studio.
#[component]
pub fn Empty() -> impl IntoView {
    view! {
        <section class="card empty">
            <icon::Batches />
            <h2>{t!("batches-empty-title")}</h2>
            <p>{t!("batches-empty-what")}</p>
            <ol class="left">
                <li>{t!("batches-empty-first")}</li>
                <li>{t!("batches-empty-second")}</li>
                <li>{t!("batches-empty-third")}</li>
                <li>{t!("batches-empty-fourth")}</li>
            </ol>
            <EnterDemo />
        </section>
    }
}
