//! The demo studio as a place of its own: the ways in, and the ribbon that leads out.
//!
//! It has a database of its own, so that nothing of it reaches the person's book, shelf,
//! learning or cues. While a bath of their own runs it cannot be entered: its page would not call.

use std::sync::Arc;

use bleachfield_core::{exchange::file::ExchangeFile, message::Message};
use leptos::{prelude::*, task::spawn_local};

use crate::{
    i18n::{key, render, t},
    platform::{
        base, clock, demo,
        file::{self, FetchError},
    },
    route::Route,
    state::{AppState, app_state},
    storage::{self, EntryRecord, NewPhoto},
    worker,
};

/// The demo studio's file, where it is served with the app.
const PATH: &str = "demo/estuary-studio.bleachfield.zip";

#[derive(Clone)]
enum Opening {
    Waiting,
    Running,
    Refused(Message),
}

/// Says what the demo studio is, and opens it with one press.
#[component]
pub fn EnterDemo() -> impl IntoView {
    view! {
        <p>{t!("demo-what")}</p>
        <p class="soft">{t!("demo-apart")}</p>
        {open_button("button soft", fetched)}
    }
}

/// Opens a file that a person chose as the demo studio.
#[component]
pub fn OpenDemo(file: Arc<ExchangeFile>) -> impl IntoView {
    view! {
        <p class="soft">{t!("demo-apart")}</p>
        {open_button("button touch", move || {
            let file = file.clone();
            async move { Ok(ExchangeFile::clone(&file)) }
        })}
    }
}

/// Where one is, on every screen of the demo studio, and the way out.
#[component]
pub fn DemoRibbon() -> impl IntoView {
    demo::follow_history();
    if demo::is_forgotten() {
        spawn_local(async {
            if storage::delete_demo().await.is_ok() {
                demo::forget();
            }
        });
    }
    let leaving = RwSignal::new(false);
    let leave = move |_| {
        leaving.set(true);
        spawn_local(async move {
            // If another tab holds it open, the next visit makes it anew.
            let _ = storage::delete_demo().await;
            demo::close(&Route::Sink.href());
        });
    };
    demo::is_open().then(|| {
        view! {
            <aside class="demo-ribbon" aria-label=t!("demo-name")>
                <p><b>{t!("demo-name")}</b>" · "{t!("demo-ribbon")}</p>
                <button class="no-print" disabled=move || leaving.get() on:click=leave>
                    {move || if leaving.get() { t!("demo-leaving") } else { t!("demo-leave") }}
                </button>
            </aside>
        }
    })
}

fn open_button<F>(class: &'static str, file: impl Fn() -> F + Clone + 'static) -> impl IntoView
where
    F: Future<Output = Result<ExchangeFile, Message>> + 'static,
{
    let state = app_state();
    let opening = RwSignal::new(Opening::Waiting);
    let press = move |_| {
        opening.set(Opening::Running);
        let file = file.clone();
        spawn_local(async move {
            if let Err(why) = enter(state, file()).await {
                opening.try_set(Opening::Refused(why));
            }
        });
    };
    let is_running = move || matches!(opening.get(), Opening::Running);
    view! {
        <button class=class disabled=is_running on:click=press>{t!("demo-enter")}</button>
        <div role="status">
            {move || match opening.get() {
                Opening::Waiting => ().into_any(),
                Opening::Running => view! { <p>{t!("demo-opening")}</p> }.into_any(),
                Opening::Refused(why) => {
                    view! { <p class="caution care">{render(&why)}</p> }.into_any()
                }
            }}
        </div>
    }
}

/// Puts the file, dated from now, into the database of the demo studio, and goes there.
async fn enter(
    state: AppState,
    file: impl Future<Output = Result<ExchangeFile, Message>>,
) -> Result<(), Message> {
    if state.book_now(|book| !book.running().is_empty()) {
        return Err(Message::new(key!("demo-refused-running")));
    }
    let file = file.await?.dated(clock::now());
    let entries: Vec<EntryRecord> = file.entries.iter().map(EntryRecord::of).collect();
    let photos: Vec<NewPhoto> =
        file.photos.iter().map(|(id, photo)| NewPhoto::of_file(id, photo)).collect();
    storage::make_demo(&entries, &photos).await.map_err(|error| error.message())?;
    demo::open(&Route::Sink.href());
    Ok(())
}

async fn fetched() -> Result<ExchangeFile, Message> {
    let file = file::fetched(&base::of_file(PATH)).await.map_err(|error| {
        Message::new(match error {
            FetchError::Missing => key!("demo-refused-missing"),
            FetchError::NoNetwork => key!("demo-refused-no_network"),
        })
    })?;
    worker::read_exchange_file(&file).await
}
