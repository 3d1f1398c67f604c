//! While a bath runs: how this phone calls, and what it cannot do.

use bleachfield_core::derive::cue::{self, CueKind, CueState, CueStatus};
use bleachfield_core::exchange::calendar::{CalendarWords, calendar};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{running::called, watch::CueMonitor};
use crate::{
    components::{icon, notify},
    i18n::{key, t, t_with},
    platform::{
        clock, download,
        notification::{self, NotificationPermission},
        preferences::{Preferences, preferences_context},
        speech, vibration,
        wake_lock::WakeLockState,
    },
    state::{AppState, app_state},
};

#[component]
pub fn Tending() -> impl IntoView {
    let studio = app_state();
    let watching: CueMonitor = expect_context();
    let awake = move || match watching.wake.state() {
        WakeLockState::Held => t!("sink-awake-kept"),
        WakeLockState::NotRequested => t!("sink-awake-not_wanted"),
        WakeLockState::Denied => t!("sink-awake-refused"),
        WakeLockState::Unsupported => t!("sink-awake-unable"),
    };
    let silent = move || preferences_context().get().sound && !watching.sound.ready();
    view! {
        <section class="stack" aria-labelledby="tending">
            <h2 id="tending">{t!("sink-tending")}</h2>
            <Show when=silent><p class="card">{t!("sink-touch_first")}</p></Show>
            <p>{awake}" "{t!("sink-locked")}</p>
            <button class="button plain" on:click=move |_| offer_calendar(studio)>
                <icon::Clock />{t!("sink-calendar-offer")}
            </button>
            <Permission />
            <details class="more">
                <summary>{t!("sink-calls")}</summary>
                <div class="inside">
                    {tick(key!("sink-call-sound"), |p| p.sound, |p, on| p.sound = on)}
                    {vibration::is_supported().then(|| {
                        tick(key!("sink-call-vibration"), |p| p.vibration, |p, on| p.vibration = on)
                    })}
                    {speech::is_supported().then(|| {
                        tick(key!("sink-call-speak"), |p| p.speak, |p, on| p.speak = on)
                    })}
                    {tick(key!("sink-call-awake"), |p| p.stay_awake, |p, on| p.stay_awake = on)}
                </div>
            </details>
        </section>
    }
}

/// A preference as a box to tick.
fn tick(
    key: &'static str,
    is_on: fn(&Preferences) -> bool,
    set: fn(&mut Preferences, bool),
) -> AnyView {
    let preferences_context = preferences_context();
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=move || is_on(&preferences_context.get())
                on:change=move |event| {
                    let on = event_target_checked(&event);
                    preferences_context.change(|preferences| set(preferences, on));
                } />
            <span>{t(key)}</span>
        </label>
    }
    .into_any()
}

/// Asks, by a press, for leave to show notices while the page is out of sight.
#[component]
fn Permission() -> impl IntoView {
    let allowed = RwSignal::new(notification::permission());
    let ask = move |_| {
        spawn_local(async move {
            let answer = notification::request_permission().await;
            let _ = allowed.try_set(answer);
        });
    };
    (move || match allowed.get() {
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

/// Hands over the stops and checks to come as a file for the phone's calendar.
fn offer_calendar(studio: AppState) {
    let now = clock::now();
    let file = studio.book_now(|book| {
        let cues: Vec<CueState> = book
            .running()
            .into_iter()
            .flat_map(|bath| cue::cues(bath, now))
            .filter(|cue| matches!(cue.status, CueStatus::Upcoming(_)))
            // Stirring comes too often for a calendar.
            .filter(|cue| !matches!(cue.what, CueKind::Stir | CueKind::Reheat))
            .collect();
        let whose = |cue: &CueState| book.batches.get(&cue.batch).map(called).unwrap_or_default();
        (!cues.is_empty()).then(|| {
            calendar(&cues, now, |cue| {
                let what = t(&format!("sink-cue-{}", cue.what.key()));
                let gaps = [("what", &*what), ("batch", &*whose(cue))];
                CalendarWords {
                    summary: t_with!("sink-calendar-summary", &gaps),
                    description: t!("sink-calendar-description"),
                }
            })
        })
    });
    let saved =
        file.is_some_and(|file| download::text("bleachfield-cues.ics", "text/calendar", &file));
    notify(t(if saved { key!("sink-calendar-given") } else { key!("sink-calendar-none") }), None);
}
