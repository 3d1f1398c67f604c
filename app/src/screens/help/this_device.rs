//! State of this device: offline use, persistence and quota of storage, what cannot be read,
//! version, last panic.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::unreadable::{PhotoCheckSection, UnreadableEntries};
use crate::{
    i18n::{format_number, t, t_count, t_with},
    platform::{
        clock, panic,
        service_worker::{Offline, ServiceWorker},
        storage_manager,
    },
    state::app_state,
    storage::Persistence,
};

const MB: f64 = 1e6;

#[component]
pub fn ThisDevice() -> impl IntoView {
    let persisted = RwSignal::new(None::<bool>);
    let storage_use = RwSignal::new(None);
    spawn_local(async move {
        let _ = persisted.try_set(storage_manager::persisted().await);
        let _ = storage_use.try_set(storage_manager::estimate().await);
    });
    let persist = move |_| {
        spawn_local(async move {
            let _ = persisted.try_set(storage_manager::persist().await);
        });
    };
    let entries = move || t_count!("help-phone_entries", app_state().book(|book| book.len()));
    view! {
        <section class="card stack">
            <h2>{t!("help-phone_head")}</h2>
            <OfflineState />
            {move || match app_state().persistence() {
                Persistence::OnDisk => view! { <p>"✓ "{t!("help-phone_kept_disk")}</p> }.into_any(),
                Persistence::InMemory(_) => view! {
                    <p class="caution care">{t!("help-phone_kept_memory")}</p>
                }.into_any(),
            }}
            {move || match persisted.get() {
                Some(true) => view! { <p>"✓ "{t!("help-phone_promised")}</p> }.into_any(),
                _ => view! {
                    <p>{t!("help-phone_not_promised")}</p>
                    <button class="button plain" on:click=persist>{t!("help-phone_ask")}</button>
                }.into_any(),
            }}
            <p class="small soft">{entries}</p>
            <UnreadableEntries />
            <PhotoCheckSection />
            {move || storage_use.get().map(|storage| view! {
                <p class="small soft">{t_with!("help-phone_room", &[
                    ("used", &format_number(storage.used_bytes / MB, 3)),
                    ("quota", &format_number(storage.quota_bytes / MB, 3)),
                ])}</p>
            })}
            {panic::last().map(|last| view! {
                <p class="small soft">{t_with!("help-phone_stopped", &[
                    ("date", &clock::local(last.at)),
                    ("version", &last.version),
                    ("text", &last.text),
                ])}</p>
            })}
            <p class="small soft">
                {t_with!("help-phone_version", &[("version", env!("CARGO_PKG_VERSION"))])}
            </p>
        </section>
    }
}

/// Whether the app works offline, and the update if one waits.
#[component]
fn OfflineState() -> impl IntoView {
    let worker = ServiceWorker::provided();
    let running = Signal::derive(|| app_state().book(|book| !book.running().is_empty()));
    let offered = worker.update_offered(running);
    (move || match worker.state().get() {
        Offline::Preparing => view! { <p>{t!("help-phone_offline_preparing")}</p> }.into_any(),
        Offline::Ready => view! { <p>"✓ "{t!("help-phone_offline_ready")}</p> }.into_any(),
        Offline::UpdateWaiting if offered.get() => view! {
            <p>"✓ "{t!("help-phone_offline_ready")}</p>
            <p>{t!("help-phone_update")}</p>
            <button class="button" on:click=move |_| worker.apply_update()>
                {t!("help-phone_update_now")}
            </button>
        }
        .into_any(),
        Offline::UpdateWaiting => view! { <p>{t!("help-phone_update_wait")}</p> }.into_any(),
        Offline::Unsupported => view! { <p>{t!("help-phone_offline_unsupported")}</p> }.into_any(),
        Offline::Failed(why) => {
            view! { <p>{t_with!("help-phone_offline_failed", &[("why", &why)])}</p> }.into_any()
        }
    })
    .into_any()
}
