//! The form that stops a bath: the first press asks why, the second stops it.

use bleachfield_core::journal::{BathStopped, Body, StopReason};
use leptos::prelude::*;

use super::running_bath::RunningBath;
use crate::{
    components::{TextField, icon},
    i18n::t,
    platform::clock,
};

/// A second touch within so many milliseconds is ignored: a wet finger may bounce. Common
/// practice, no source.
const BOUNCE_MS: f64 = 500.0;

/// The likeliest first; danger last, where it has its own look.
const REASONS: [StopReason; 6] = [
    StopReason::ReachedColour,
    StopReason::TimeUp,
    StopReason::Spent,
    StopReason::FibreSuffering,
    StopReason::Other,
    StopReason::Unsafe,
];

#[component]
pub fn StopForm(running: RunningBath) -> impl IntoView {
    let open = running.sheets.stop;
    let opened_ms = clock::monotonic_ms();
    let note = RwSignal::new(String::new());
    let stop = move |why: StopReason| {
        if clock::monotonic_ms() - opened_ms < BOUNCE_MS {
            return;
        }
        let note = note.get_untracked().trim().to_owned();
        let stopped = BathStopped { bath: running.bath, why, note };
        running.write(vec![Body::BathStopped(stopped)], t!("sink-said-stopped"), Some(open));
    };
    view! {
        <div class="stack">
            <p>{t!("sink-stop-how")}</p>
            {REASONS.map(|why| {
                let danger = why == StopReason::Unsafe;
                view! {
                    <button class="button touch" class:stop=danger class:soft=!danger
                        disabled=move || running.busy.get() on:click=move |_| stop(why)>
                        {danger.then(|| view! { <icon::Hand /> })}
                        {t(&format!("sink-stop-{}", <&str>::from(why)))}
                    </button>
                }
            }).collect_view()}
            <TextField label=t!("sink-stop-note") text=note />
            <button class="button plain touch" on:click=move |_| open.set(false)>
                {t!("sink-stop-not_yet")}
            </button>
        </div>
    }
}
