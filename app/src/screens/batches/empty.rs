//! What the list of batches shows while there are none.

use leptos::{prelude::*, task::spawn_local};

use super::exchange::{IncomingFile, incoming};
use crate::{
    components::{icon, notify},
    i18n::t,
    platform::file,
    route::{Route, go},
};

/// The demo studio, where it is served with the app.
const DEMO_PATH: &str = "/demo/estuary-studio.bleachfield.zip";
const DEMO_NAME: &str = "estuary-studio.bleachfield.zip";

/// Explains what a batch is; offers the demo studio.
#[component]
pub fn Empty() -> impl IntoView {
    let busy = RwSignal::new(false);
    let incoming = incoming();
    let load = move |_| {
        busy.set(true);
        spawn_local(async move {
            let file = file::fetched(DEMO_PATH).await;
            busy.try_set(false);
            match file {
                Some(file) => {
                    incoming.set(Some(IncomingFile { name: DEMO_NAME.into(), file }));
                    go(&Route::Import);
                }
                None => notify(t!("batches-demo_failed"), None),
            }
        });
    };
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
            <p class="soft">{t!("batches-demo-what")}</p>
            <button class="button soft" disabled=move || busy.get() on:click=load>
                {t!("batches-demo-load")}
            </button>
        </section>
    }
}
