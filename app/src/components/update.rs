//! The offer to update the app, made when no bath is running.

use leptos::prelude::*;

use crate::i18n::t;
use crate::platform::service_worker::ServiceWorker;
use crate::state::app_state;

#[component]
pub fn UpdateOffer() -> impl IntoView {
    let worker = ServiceWorker::provided();
    let postponed = RwSignal::new(false);
    let bath_running = Signal::derive(|| app_state().book(|book| !book.running().is_empty()));
    let offered = worker.update_offered(bath_running);
    view! {
        <div role="status">
            <Show when=move || { offered.get() && !postponed.get() }>
                <div class="notice">
                    <p>{t!("update-here")}</p>
                    <button on:click=move |_| worker.apply_update()>{t!("update-now")}</button>
                    <button on:click=move |_| postponed.set(true)>{t!("update-later")}</button>
                </div>
            </Show>
        </div>
    }
}
