//! Why a bath is stopped. The stop is held (`hold_button`) and counts at once, and the reason is
//! asked after it; whoever cannot hold a button is asked first, and the answer stops the bath.

use bleachfield_core::journal::{BathStopped, Body, Corrected, StopReason};
use leptos::prelude::*;
use ulid::Ulid;

use super::{running_bath::RunningBath, wet_touch::WetTouch};
use crate::{
    components::{TextField, icon},
    i18n::{t, t_with},
    platform::clock,
};

/// A touch within so many milliseconds of opening is ignored: it was meant for what was there
/// before. Common practice, no source.
const OPENING_MS: f64 = 500.0;

/// The likeliest first; danger last, where it has its own look.
const REASONS: [StopReason; 6] = [
    StopReason::ReachedColour,
    StopReason::TimeUp,
    StopReason::Spent,
    StopReason::FibreSuffering,
    StopReason::Other,
    StopReason::Unsafe,
];

/// Stops the bath by the answer.
#[component]
pub fn StopForm(running: RunningBath) -> impl IntoView {
    let note = RwSignal::new(String::new());
    let stop = Callback::new(move |why: StopReason| {
        let stopped = BathStopped { bath: running.bath, why, note: trimmed(note) };
        running.write(vec![Body::BathStopped(stopped)], t!("sink-said-stopped"));
    });
    view! {
        <div class="stack">
            <p>{t!("sink-stop-how")}</p>
            <Reasons running answer=stop />
            <TextField label=t!("sink-stop-note") text=note />
            <button class="button plain touch" on:click=move |_| running.sheets.close()>
                {t!("sink-stop-not_yet")}
            </button>
        </div>
    }
}

/// Adds the reason to a stop that was made by holding. Without an answer none is recorded.
#[component]
pub fn StopReasonForm(running: RunningBath, entry: Ulid) -> impl IntoView {
    let note = RwSignal::new(String::new());
    let correct = Callback::new(move |why: StopReason| {
        let stopped = BathStopped { bath: running.bath, why, note: trimmed(note) };
        let body = Box::new(Body::BathStopped(stopped));
        let corrected = Corrected { entry, body, at: None, why: String::new() };
        running.write(vec![Body::Corrected(corrected)], t!("sink-said-stopped"));
    });
    let time = running.view(|bath| bath.stopped.as_ref().map(|stopped| stopped.at)).flatten();
    let time = clock::local_time(time.unwrap_or_else(clock::now));
    view! {
        <div class="stack">
            <p class="stopped-at">{t_with!("sink-stopped-at", &[("time", &time)])}</p>
            <Reasons running answer=correct />
            <TextField label=t!("sink-stop-note") text=note />
            <div class="row even">
                <button class="button plain touch" on:click=move |_| running.sheets.close()>
                    {t!("sink-stopped-no_answer")}
                </button>
                <button class="button plain touch" on:click=move |_| running.withdraw(entry)>
                    {t!("sink-stopped-undo")}
                </button>
            </div>
        </div>
    }
}

#[component]
fn Reasons(running: RunningBath, answer: Callback<StopReason>) -> impl IntoView {
    let touch: WetTouch = expect_context();
    let opened_ms = clock::monotonic_ms();
    let press = move |why: StopReason| {
        if clock::monotonic_ms() - opened_ms >= OPENING_MS && touch.is_press("stop reason") {
            answer.run(why);
        }
    };
    REASONS
        .map(|why| {
            let danger = why == StopReason::Unsafe;
            view! {
                <button class="button touch" class:stop=danger class:soft=!danger
                    disabled=move || running.sheets.busy.get() on:click=move |_| press(why)>
                    {danger.then(|| view! { <icon::Hand /> })}
                    {t(&format!("sink-stop-{}", <&str>::from(why)))}
                </button>
            }
        })
        .collect_view()
}

fn trimmed(text: RwSignal<String>) -> String {
    text.get_untracked().trim().to_owned()
}
