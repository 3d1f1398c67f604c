//! Looks after the running baths while the app is open, on whatever screen:
//! cues sound when they fall due, the screen stays on, and a clock that was
//! moved is noticed.

use std::collections::BTreeSet;

use bleachfield_core::derive::cue::{self, CueKind, CueState, CueStatus};
use jiff::{SignedDuration, Timestamp};
use leptos::prelude::*;

use super::running::called;
use crate::{
    components::icon,
    i18n::{format_duration, key, t, t_count, t_with},
    platform::{
        clock, notification,
        preferences::{PreferencesContext, preferences_context},
        sound::{Sound, Tone},
        speech, vibration,
        wake_lock::WakeLock,
    },
    route::{Route, use_route},
    state::{AppState, app_state},
};

/// For how long an overdue stop is sounded again each minute. Common practice,
/// no source: a bath that is forgotten goes on taking the fibre's strength.
const STOP_AGAIN_FOR: SignedDuration = SignedDuration::from_mins(10);

/// What is known from watching. Copied freely.
#[derive(Clone, Copy)]
pub struct CueMonitor {
    studio: AppState,
    preferences_context: PreferencesContext,
    pub sound: Sound,
    pub wake: WakeLock,
    /// By how much the wall clock was moved while the page watched it.
    moved: RwSignal<Option<SignedDuration>>,
    /// What a screen reader is told, once for each cue.
    told: RwSignal<String>,
    /// Rings that were given, or that came too late to be given.
    met: StoredValue<BTreeSet<String>>,
}

impl CueMonitor {
    /// Begins to watch, and puts itself in context. Make it once, at the root.
    pub fn provide() -> Self {
        let (studio, preferences_context) = (app_state(), preferences_context());
        let running = Memo::new(move |_| studio.book(|book| !book.running().is_empty()));
        let awake = Signal::derive(move || running.get() && preferences_context.get().stay_awake);
        let watching = Self {
            studio,
            preferences_context,
            sound: Sound::listen(),
            wake: WakeLock::follow(awake),
            moved: RwSignal::new(None),
            told: RwSignal::new(String::new()),
            met: StoredValue::new(BTreeSet::new()),
        };
        let mut before: Option<ClockSample> = None;
        Effect::new(move |_| {
            let now = studio.now();
            let glance = ClockSample::take(now);
            if let Some(moved) = before.replace(glance).and_then(|before| before.moved(glance)) {
                watching.moved.update(|sum| *sum = Some(sum.unwrap_or_default() + moved));
            }
            watching.meet(studio.book(|book| cue::pending_cues(book, now)));
        });
        provide_context(watching);
        watching
    }

    /// Rings for what fell due just now. What is late when it is first seen
    /// fell due while the page slept: it is told, never sounded after the fact.
    fn meet(self, waiting: Vec<CueState>) {
        let (mut loudest, mut told) = (None, Vec::new());
        for cue in &waiting {
            let key = format!("{}-{}", cue.bath, cue.id);
            let first = self.met.try_update_value(|met| met.insert(key.clone())).unwrap_or(false);
            if first {
                told.push(self.telling(cue));
            }
            let rings = match cue.status {
                CueStatus::Due(_) => first,
                CueStatus::Late(by) if cue.what == CueKind::Stop && by < STOP_AGAIN_FOR => {
                    let again = format!("{key}-{}", by.as_mins());
                    !first && self.met.try_update_value(|met| met.insert(again)).unwrap_or(false)
                }
                _ => false,
            };
            if rings {
                loudest = loudest.max(Some(if cue.what == CueKind::Stop {
                    AlarmTone::Stop
                } else {
                    AlarmTone::Cue
                }));
                if document().hidden() {
                    let title = t(&format!("sink-cue-{}", cue.what.key()));
                    notification::show(&title, &self.whose(cue), &key);
                }
            }
        }
        if !told.is_empty() {
            self.told.set(told.join(" "));
        }
        if let Some(ring) = loudest {
            self.ring(ring, &waiting);
        }
    }

    fn ring(self, ring: AlarmTone, waiting: &[CueState]) {
        let wished = self.preferences_context.get_untracked();
        if wished.sound {
            self.sound.play(ring.tones());
        }
        if wished.vibration {
            vibration::vibrate(ring.pattern());
        }
        if wished.speak {
            let due = waiting.iter().filter(|cue| matches!(cue.status, CueStatus::Due(_)));
            due.for_each(|cue| speech::speak(&self.telling(cue)));
        }
    }

    /// "Stir, Cattail May: due now."
    fn telling(self, cue: &CueState) -> String {
        let what = t(&format!("sink-cue-{}", cue.what.key()));
        let time = clock::local_time(cue.due);
        let gaps = [("what", &*what), ("batch", &*self.whose(cue)), ("time", &*time)];
        t_with(
            if matches!(cue.status, CueStatus::Due(_)) {
                key!("sink-told-due")
            } else {
                key!("sink-told-late")
            },
            &gaps,
        )
    }

    fn whose(self, cue: &CueState) -> String {
        self.studio.book_now(|book| book.batches.get(&cue.batch).map(called)).unwrap_or_default()
    }
}

/// Tells screen readers of each cue once, and shows a way to the Sink from the
/// other places while something is due.
#[component]
pub fn Watch() -> impl IntoView {
    let studio = app_state();
    let watching: CueMonitor = expect_context();
    let due = Memo::new(move |_| {
        let now = studio.now();
        studio.book(|book| cue::pending_cues(book, now).len())
    });
    let route = use_route();
    let elsewhere = move || route.get() != Some(Route::Sink);
    view! {
        <div role="alert" class="visually-hidden">{move || watching.told.get()}</div>
        <Show when=move || { due.get() > 0 && elsewhere() }>
            <aside>
                <a href=Route::Sink.href() class="alarm no-print">
                    <icon::Clock />{move || t_count!("sink-elsewhere", due.get())}
                </a>
            </aside>
        </Show>
    }
}

/// That the wall clock was moved: elapsed times are read off it.
#[component]
pub fn ClockMoved() -> impl IntoView {
    let watching: CueMonitor = expect_context();
    (move || {
        let moved = watching.moved.get()?;
        let key = if moved.is_negative() { key!("sink-moved-back") } else { key!("sink-moved-on") };
        Some(view! {
            <div class="caution care" role="status">
                <span class="severity">{t!("sink-moved-head")}</span>
                <p>{t_with(key, &[("by", &format_duration(moved.abs()))])}</p>
                <button class="button plain" on:click=move |_| watching.moved.set(None)>
                    {t!("sink-moved-seen")}
                </button>
            </div>
        })
    })
    .into_any()
}

/// Both clocks at one instant.
#[derive(Clone, Copy)]
struct ClockSample {
    wall: Timestamp,
    /// Of the steady clock, in milliseconds.
    steady: f64,
    hidden: bool,
}

impl ClockSample {
    fn take(wall: Timestamp) -> Self {
        Self { wall, steady: clock::monotonic_ms(), hidden: document().hidden() }
    }

    /// By how much the wall clock was moved between two glances. A page that
    /// was out of sight may have slept, and some phones stop the steady clock
    /// meanwhile: nothing is said of that.
    fn moved(self, later: Self) -> Option<SignedDuration> {
        if self.hidden || later.hidden {
            return None;
        }
        let steady = SignedDuration::from_millis((later.steady - self.steady) as i64);
        cue::clock_shift(later.wall.duration_since(self.wall), steady)
    }
}

/// How a cue sounds and feels.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum AlarmTone {
    Cue,
    Stop,
}

impl AlarmTone {
    /// Two tones up for a cue; for the stop, high and low in turn, longer.
    fn tones(self) -> &'static [Tone] {
        const fn tone(hertz: f32, seconds: f64, rest: f64) -> Tone {
            Tone { hertz, seconds, rest }
        }
        const CUE: [Tone; 4] = [
            tone(660.0, 0.18, 0.04),
            tone(880.0, 0.3, 0.4),
            tone(660.0, 0.18, 0.04),
            tone(880.0, 0.3, 0.0),
        ];
        const STOP: [Tone; 6] = [
            tone(988.0, 0.3, 0.05),
            tone(740.0, 0.3, 0.05),
            tone(988.0, 0.3, 0.05),
            tone(740.0, 0.3, 0.05),
            tone(988.0, 0.3, 0.05),
            tone(740.0, 0.5, 0.0),
        ];
        match self {
            AlarmTone::Cue => &CUE,
            AlarmTone::Stop => &STOP,
        }
    }

    fn pattern(self) -> &'static [u32] {
        match self {
            AlarmTone::Cue => &[200, 100, 200],
            AlarmTone::Stop => &[500, 150, 500, 150, 500],
        }
    }
}
