//! While a bath runs: how this device alerts, and what it cannot do, which is said once.

use bleachfield_core::derive::cue::{self, CueKind, CueState, CueStatus};
use bleachfield_core::exchange::calendar::{CalendarWords, calendar};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{
    cue_monitor::CueMonitor,
    running_bath::{batch_name, cue_name},
};
use crate::{
    components::{icon, notify},
    i18n::{key, t, t_with},
    platform::{
        clock, download,
        notification::{self, NotificationPermission},
        preferences::preferences_context,
        speech::{self, Voice},
        vibration,
        wake_lock::WakeLockState,
    },
    screens::help::preference_tick,
    state::{AppState, app_state},
};

/// What a locked phone cannot do, until it was read once, with the calendar file beside it.
#[component]
pub fn LockedPhone() -> impl IntoView {
    let state = app_state();
    let preferences = preferences_context();
    view! {
        <Show when=move || !preferences.get().lock_read>
            <section class="card stack" aria-label=t!("sink-locked-head")>
                <p><strong>{t!("sink-locked-head")}</strong>" "{t!("sink-locked")}</p>
                <div class="row even">
                    <CalendarButton state />
                    <button class="button plain touch" on:click=move |_| {
                        preferences.change(|p| p.lock_read = true);
                    }>{t!("sink-locked-read")}</button>
                </div>
            </section>
        </Show>
    }
}

#[component]
fn CalendarButton(state: AppState) -> impl IntoView {
    view! {
        <button class="button soft touch" on:click=move |_| save_calendar(state)>
            <icon::Clock />{t!("sink-calendar-offer")}
        </button>
    }
}

#[component]
pub fn AlertSettings() -> impl IntoView {
    let state = app_state();
    let monitor: CueMonitor = expect_context();
    let preferences = preferences_context();
    let awake = move || match monitor.wake_lock.state() {
        WakeLockState::Held => t!("sink-awake-kept"),
        WakeLockState::NotRequested => t!("sink-awake-not_wanted"),
        WakeLockState::Denied => t!("sink-awake-refused"),
        WakeLockState::Unsupported => t!("sink-awake-unable"),
    };
    let silent = move || preferences.get().sound && !monitor.sound.ready();
    view! {
        <Show when=silent><p class="card">{t!("sink-touch_first")}</p></Show>
        <details class="more">
            <summary>{t!("sink-calls")}</summary>
            <div class="inside stack">
                {preference_tick(key!("sink-call-sound"), |p| &mut p.sound)}
                {vibration::is_supported().then(|| {
                    preference_tick(key!("sink-call-vibration"), |p| &mut p.vibration)
                })}
                {match speech::voice() {
                    Voice::None => None,
                    Voice::OnlineOnly => {
                        Some(view! { <p class="small soft">{t!("sink-call-no_voice")}</p> }.into_any())
                    }
                    Voice::Offline => Some(preference_tick(key!("sink-call-speak"), |p| &mut p.speak)),
                }}
                {preference_tick(key!("sink-call-awake"), |p| &mut p.stay_awake)}
                <p>{awake}</p>
                <Show when=move || preferences.get().lock_read>
                    <p>{t!("sink-locked")}</p>
                    <CalendarButton state />
                </Show>
                <Permission />
            </div>
        </details>
    }
}

/// Notifications while the page is hidden: a button that asks the browser, or its answer.
#[component]
fn Permission() -> impl IntoView {
    let permission = RwSignal::new(notification::permission());
    let ask = move |_| {
        spawn_local(async move {
            let answer = notification::request_permission().await;
            let _ = permission.try_set(answer);
        });
    };
    (move || match permission.get() {
        NotificationPermission::NotAsked => view! {
            <div class="stack">
                <button class="button plain" on:click=ask>{t!("sink-notices-ask")}</button>
                <p class="small soft">{t!("sink-notices-why")}</p>
            </div>
        }
        .into_any(),
        NotificationPermission::Granted => {
            view! { <p class="small soft">{t!("sink-notices-yes")}</p> }.into_any()
        }
        NotificationPermission::Denied => {
            view! { <p class="small soft">{t!("sink-notices-no")}</p> }.into_any()
        }
        NotificationPermission::Unsupported => ().into_any(),
    })
    .into_any()
}

/// Offers the upcoming cues as a calendar file, except stirring and reheating: those come too
/// often for a calendar.
fn save_calendar(state: AppState) {
    let now = clock::now();
    let file = state.book_now(|book| {
        let cues: Vec<CueState> = book
            .running()
            .into_iter()
            .flat_map(|bath| cue::cues(bath, now))
            .filter(|cue| matches!(cue.status, CueStatus::Upcoming(_)))
            .filter(|cue| !matches!(cue.what, CueKind::Stir | CueKind::Reheat))
            .collect();
        let batch =
            |cue: &CueState| book.batches.get(&cue.batch).map(batch_name).unwrap_or_default();
        (!cues.is_empty()).then(|| {
            calendar(&cues, now, |cue| CalendarWords {
                summary: t_with!(
                    "sink-calendar-summary",
                    &[("what", &cue_name(cue.what)), ("batch", &batch(cue))]
                ),
                description: t!("sink-calendar-description"),
            })
        })
    });
    let saved =
        file.is_some_and(|file| download::text("bleachfield-cues.ics", "text/calendar", &file));
    notify(if saved { t!("sink-calendar-given") } else { t!("sink-calendar-none") }, None);
}
