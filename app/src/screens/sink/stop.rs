//! Stopping a bath: the first press asks why, the second stops it.

use bleachfield_core::journal::{BathStopped, Body, StopReason};
use leptos::prelude::*;

use super::running::RunningBath;
use crate::{
    components::{BottomSheet, TextField, icon},
    i18n::t,
    platform::clock,
};

/// A second touch within this many milliseconds is taken for the bounce of a
/// wet finger, not for an answer. Common practice, no source.
const BOUNCE_MS: f64 = 500.0;

/// Why, the likeliest first; danger at the end, where it has its own look.
const REASONS: [(StopReason, &str); 6] = [
    (StopReason::ReachedColour, "reached_colour"),
    (StopReason::TimeUp, "time_up"),
    (StopReason::Spent, "spent"),
    (StopReason::FibreSuffering, "fibre_suffering"),
    (StopReason::Other, "other"),
    (StopReason::Unsafe, "unsafe"),
];

#[component]
pub fn StopSheet(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("sink-stop-title")>
            <StopForm running open />
        </BottomSheet>
    }
}

#[component]
fn StopForm(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    let raised = clock::monotonic_ms();
    let note = RwSignal::new(String::new());
    let stop = move |why: StopReason| {
        if clock::monotonic_ms() - raised < BOUNCE_MS {
            return;
        }
        let note = note.get_untracked().trim().to_owned();
        let stopped = BathStopped { bath: running.bath, why, note };
        running.write(vec![Body::BathStopped(stopped)], t!("sink-said-stopped"), Some(open));
    };
    view! {
        <div class="stack">
            <p>{t!("sink-stop-how")}</p>
            {REASONS.map(|(why, key)| {
                let danger = why == StopReason::Unsafe;
                view! {
                    <button class="button touch" class:stop=danger class:soft=!danger
                        disabled=move || running.busy.get() on:click=move |_| stop(why)>
                        {danger.then(|| view! { <icon::Hand /> })}
                        {t(&format!("sink-stop-{key}"))}
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
