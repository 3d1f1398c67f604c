//! Entries and photos on this device that cannot be read: how many, and their export as they are
//! stored. They are never deleted.

use bleachfield_core::{
    exchange::file::{Header, json_text_with},
    message::Message,
};
use leptos::{prelude::*, task::spawn_local};

use crate::{
    components::notify,
    i18n::{render, t, t_count, t_with},
    platform::{clock, demo, download},
    state::{AppState, app_state},
    storage::{StoreError, UnreadablePhoto},
};

/// The entries, if there are any, with a button that exports them.
#[component]
pub fn UnreadableEntries() -> impl IntoView {
    let state = app_state();
    let count = move || state.unreadable().len();
    view! {
        <Show when=move || { count() > 0 }>
            <div class="caution care">
                <p>{move || t_count!("help-unreadable", count())}</p>
                <p>{t!("help-unreadable_what")}</p>
                <button class="button plain" on:click=move |_| export_entries(state)>
                    {t!("help-unreadable_export")}
                </button>
            </div>
        </Show>
    }
}

/// An exchange file with these records alone: any version can import it, and stores again what
/// it cannot read either.
fn export_entries(state: AppState) {
    let header = Header {
        app: env!("CARGO_PKG_VERSION").to_owned(),
        exported_at: clock::now(),
        device: state.device(),
        demo: demo::is_open(),
    };
    let text = json_text_with(&header, &[], &state.unreadable_now());
    save(&format!("unreadable-entries-{}.bleachfield.json", clock::today()), &text);
}

fn save(name: &str, text: &str) {
    notify(
        if download::text(name, "application/json", text) {
            t_with!("exchange-send-saved", &[("name", name)])
        } else {
            t!("exchange-send-cannot_save")
        },
        None,
    );
}

#[derive(Clone)]
enum PhotoCheck {
    Before,
    Running,
    Done(Vec<UnreadablePhoto>),
    Failed(Message),
}

/// Checks the photos when asked to: each must be read, which takes a while.
#[component]
pub fn PhotoCheckSection() -> impl IntoView {
    let state = app_state();
    let check = RwSignal::new(PhotoCheck::Before);
    let run = move |_| {
        check.set(PhotoCheck::Running);
        spawn_local(async move {
            let found = match state.store() {
                Some(store) => store.unreadable_photos().await,
                None => Err(StoreError::Unavailable),
            };
            let done = found.map_or_else(|e| PhotoCheck::Failed(e.message()), PhotoCheck::Done);
            let _ = check.try_set(done);
        });
    };
    move || match check.get() {
        PhotoCheck::Before => view! {
            <button class="button plain" on:click=run>{t!("help-photos_check")}</button>
        }
        .into_any(),
        PhotoCheck::Running => {
            view! { <p role="status">{t!("help-photos_checking")}</p> }.into_any()
        }
        PhotoCheck::Done(unreadable) if unreadable.is_empty() => {
            view! { <p role="status">"✓ "{t!("help-photos_sound")}</p> }.into_any()
        }
        PhotoCheck::Done(unreadable) => unreadable_photos(unreadable),
        PhotoCheck::Failed(error) => view! {
            <p class="caution care" role="alert">{render(&error)}</p>
        }
        .into_any(),
    }
}

fn unreadable_photos(photos: Vec<UnreadablePhoto>) -> AnyView {
    let count = photos.len();
    // Encoding cannot fail: all keys are strings.
    let export = move |_| {
        let text = serde_json::to_string_pretty(&photos).unwrap_or_default();
        save(&format!("unreadable-photos-{}.bleachfield.json", clock::today()), &text);
    };
    view! {
        <div class="caution care" role="status">
            <p>{t_count!("help-photos_unreadable", count)}</p>
            <p>{t!("help-photos_what")}</p>
            <button class="button plain" on:click=export>{t!("help-photos_export")}</button>
        </div>
    }
    .into_any()
}
