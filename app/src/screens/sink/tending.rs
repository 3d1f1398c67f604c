//! While a bath runs: how this phone calls, and what it cannot do.

use bleachfield_core::cue::{self, CalendarWords, CueKind, CueState, State};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{running::called, watch::Watching};
use crate::{
    components::{icon, notify},
    i18n::{key, t, t_with},
    platform::{
        clock, download,
        notification::{self, Allowed},
        preferences::{Preferences, preferring},
        speech, vibration,
        wake_lock::Awake,
    },
    state::{Studio, studio},
};

#[component]
pub fn Tending() -> impl IntoView {
    let studio = studio();
    let watching: Watching = expect_context();
    let awake = move || match watching.wake.awake() {
        Awake::Kept => t!("sink-awake-kept"),
        Awake::NotWanted => t!("sink-awake-not_wanted"),
        Awake::Refused => t!("sink-awake-refused"),
        Awake::Unable => t!("sink-awake-unable"),
    };
    let silent = move || preferring().get().sound && !watching.sound.ready();
    view! {
        <section class="stack" aria-labelledby="tending">
            <h2 id="tending">{t!("sink-tending")}</h2>
            <Show when=silent><p class="card">{t!("sink-touch_first")}</p></Show>
            <p>{awake}" "{t!("sink-locked")}</p>
            <button class="press plain" on:click=move |_| offer_calendar(studio)>
                <icon::Clock />{t!("sink-calendar-offer")}
            </button>
            <Permission />
            <details class="more">
                <summary>{t!("sink-calls")}</summary>
                <div class="inside">
                    {tick(key!("sink-call-sound"), |p| p.sound, |p, on| p.sound = on)}
                    {vibration::able().then(|| {
                        tick(key!("sink-call-vibration"), |p| p.vibration, |p, on| p.vibration = on)
                    })}
                    {speech::able().then(|| {
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
    let preferring = preferring();
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=move || is_on(&preferring.get())
                on:change=move |event| {
                    let on = event_target_checked(&event);
                    preferring.change(|preferences| set(preferences, on));
                } />
            <span>{t(key)}</span>
        </label>
    }
    .into_any()
}

/// Asks, by a press, for leave to show notices while the page is out of sight.
#[component]
fn Permission() -> impl IntoView {
    let allowed = RwSignal::new(notification::allowed());
    let ask = move |_| {
        spawn_local(async move {
            let answer = notification::ask().await;
            let _ = allowed.try_set(answer);
        });
    };
    (move || match allowed.get() {
        Allowed::NotAsked => view! {
            <div class="stack">
                <button class="press plain" on:click=ask>{t!("sink-notices-ask")}</button>
                <p class="small soft">{t!("sink-notices-why")}</p>
            </div>
        }
        .into_any(),
        Allowed::Yes => view! { <p class="small soft">{t!("sink-notices-yes")}</p> }.into_any(),
        Allowed::No => view! { <p class="small soft">{t!("sink-notices-no")}</p> }.into_any(),
        Allowed::Unable => ().into_any(),
    })
    .into_any()
}

/// Hands over the stops and checks to come as a file for the phone's calendar.
fn offer_calendar(studio: Studio) {
    let now = clock::now();
    let file = studio.book_now(|book| {
        let cues: Vec<CueState> = book
            .running()
            .into_iter()
            .flat_map(|bath| cue::cues(bath, now))
            .filter(|cue| matches!(cue.state, State::Upcoming(_)))
            // Stirring comes too often for a calendar.
            .filter(|cue| !matches!(cue.what, CueKind::Stir | CueKind::Reheat))
            .collect();
        let whose = |cue: &CueState| book.batches.get(&cue.batch).map(called).unwrap_or_default();
        (!cues.is_empty()).then(|| {
            cue::calendar(&cues, now, |cue| {
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
