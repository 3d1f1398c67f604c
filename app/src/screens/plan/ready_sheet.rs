//! The ready check before a bath starts: goggles and gloves, and in which order it all goes in.

use leptos::prelude::*;

use crate::{components::BottomSheet, i18n::t};

/// The second of the two presses that start a bath.
#[component]
pub fn ReadySheet(
    open: RwSignal<bool>,
    /// The start is being written.
    busy: RwSignal<bool>,
    /// Soda ash goes in with the peroxide.
    with_soda: bool,
    start: Callback<()>,
) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("plan-start_head")>
            <div class="stack">
                <ul>
                    <li>{t!("plan-ready_wear")}</li>
                    <li>{t!("plan-ready_air")}</li>
                    <li>{if with_soda { t!("plan-ready_add_soda") } else { t!("plan-ready_add") }}</li>
                    <li>{t!("plan-ready_tests")}</li>
                </ul>
                <p class="small soft">{t!("plan-start_clock")}</p>
                <button class="button touch" disabled=move || busy.get()
                    on:click=move |_| start.run(())>
                    {t!("plan-start_now")}
                </button>
            </div>
        </BottomSheet>
    }
}
