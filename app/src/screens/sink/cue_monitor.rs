//! Monitors the cues of the running baths while the app is open, on whatever screen: alerts when
//! one falls due, keeps the screen on, and notices when the wall clock is changed.

use std::collections::{BTreeMap, BTreeSet};

use bleachfield_core::{
    derive::cue::{self, CueKind, CueState, CueStatus, STOP_REPEATED_FOR},
    journal::Book,
};
use jiff::{SignedDuration, Timestamp};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    cue_tone::CueTone,
    running_bath::{act_name, batch_name, cue_name},
};
use crate::{
    components::icon,
    i18n::{format_duration, key, t, t_count, t_with},
    platform::{
        clock, demo, notification,
        preferences::{PreferencesContext, preferences_context},
        sound::{Sound, Tone},
        speech, vibration,
        wake_lock::WakeLock,
    },
    route::{Place, Route, use_route},
    state::{AppState, app_state},
};

/// Copied freely.
#[derive(Clone, Copy)]
pub struct CueMonitor {
    state: AppState,
    preferences: PreferencesContext,
    pub sound: Sound,
    pub wake_lock: WakeLock,
    /// Sum of the changes of the wall clock, until the person has seen the notice.
    clock_shift: RwSignal<Option<SignedDuration>>,
    /// For screen readers.
    announcement: RwSignal<String>,
    /// Alerts that were given, or that came too late to be given: `BATH-CUE`, and
    /// `BATH-CUE-MINUTE` for a repeated stop.
    handled: StoredValue<BTreeSet<String>>,
}

impl CueMonitor {
    /// Starts the monitor and provides the context. Once, at the root.
    pub fn provide() -> Self {
        let (state, preferences) = (app_state(), preferences_context());
        let running = Memo::new(move |_| state.book(|book| !book.running().is_empty()));
        let awake = Signal::derive(move || running.get() && preferences.get().stay_awake);
        let monitor = Self {
            state,
            preferences,
            sound: Sound::listen(),
            wake_lock: WakeLock::follow(awake),
            clock_shift: RwSignal::new(None),
            announcement: RwSignal::new(String::new()),
            handled: StoredValue::new(BTreeSet::new()),
        };
        Effect::new(move |before: Option<ClockSample>| {
            let now = state.now();
            let sample = ClockSample::take(now);
            if let Some(shift) = before.and_then(|before| before.shift_to(sample)) {
                monitor.clock_shift.update(|sum| *sum = Some(sum.unwrap_or_default() + shift));
            }
            monitor.alert(&state.book(|book| cue::pending_cues(book, now)));
            sample
        });
        provide_context(monitor);
        monitor
    }

    /// Alerts once to each cue that falls due. One that is late when it is first seen fell due
    /// while the page slept: it is announced, without sound. An overdue stop sounds repeatedly.
    fn alert(self, pending: &[CueState]) {
        // Of each bath and kind the latest cue speaks for those before it.
        let (mut tones, mut announced) = (BTreeSet::new(), BTreeMap::new());
        for cue in pending {
            let key = format!("{}-{}", cue.bath, cue.id);
            let first = self.is_new(key.clone());
            if first {
                announced.insert((cue.bath, cue.what), self.announcement_of(cue));
            }
            let sounds = match cue.status {
                CueStatus::Due(_) => first,
                CueStatus::Late(by) if cue.what == CueKind::Stop && by < STOP_REPEATED_FOR => {
                    !first && self.is_new(format!("{key}-{}", by.as_mins()))
                }
                _ => false,
            };
            // In the demo studio nothing calls whoever looks elsewhere.
            if sounds && !(demo::is_open() && document().hidden()) {
                tones.insert(CueTone::of(cue.what));
                if document().hidden() {
                    notification::show(&cue_name(cue.what), &self.batch_name(cue), &key);
                }
            }
        }
        if pending.is_empty() && !self.announcement.with_untracked(String::is_empty) {
            self.announcement.set(String::new());
        }
        if !announced.is_empty() {
            let texts: Vec<String> = announced.into_values().collect();
            self.announcement.set(texts.join(" "));
        }
        if !tones.is_empty() {
            self.play(&tones, pending);
        }
    }

    /// Whether an alert was not handled before; it is from now on.
    fn is_new(self, alert: String) -> bool {
        self.handled.try_update_value(|handled| handled.insert(alert)).unwrap_or(false)
    }

    /// The tones one after the other; a stop drowns the others.
    fn play(self, tones: &BTreeSet<CueTone>, pending: &[CueState]) {
        let preferences = self.preferences.get_untracked();
        let Some(loudest) = tones.last() else { return };
        if preferences.sound {
            let all = tones.iter().filter(|tone| *loudest != CueTone::Stop || *tone == loudest);
            let pause = Tone { hertz: 0.0, seconds: 0.0, rest: 0.5 };
            let tones: Vec<Tone> =
                all.flat_map(|tone| tone.tones().iter().copied().chain([pause])).collect();
            self.sound.play(&tones);
        }
        if preferences.vibration {
            vibration::vibrate(loudest.vibration_ms());
        }
        if preferences.speak {
            let due = pending.iter().filter(|cue| matches!(cue.status, CueStatus::Due(_)));
            due.for_each(|cue| speech::speak(&self.announcement_of(cue)));
        }
    }

    /// "Stir, Cattail May: due now."
    fn announcement_of(self, cue: &CueState) -> String {
        let key = if matches!(cue.status, CueStatus::Due(_)) {
            key!("sink-told-due")
        } else {
            key!("sink-told-late")
        };
        let (what, batch) = (cue_name(cue.what), self.batch_name(cue));
        t_with(key, &[("what", &what), ("batch", &batch), ("time", &clock::local_time(cue.due))])
    }

    fn batch_name(self, cue: &CueState) -> String {
        self.state.book_now(|book| book.batches.get(&cue.batch).map(batch_name)).unwrap_or_default()
    }
}

/// Most lines of cues on other places.
const MAX_LINES: usize = 3;

/// Announces each cue once to screen readers, and on other places than the Sink shows one line
/// for each act that is due, with a link to its bath.
#[component]
pub fn CueAlerts() -> impl IntoView {
    let state = app_state();
    let monitor: CueMonitor = expect_context();
    let due = Memo::new(move |_| {
        let now = state.now();
        state.book(|book| due_lines(book, now))
    });
    let route = use_route();
    let elsewhere =
        Memo::new(move |_| route.with(|r| r.as_ref().is_none_or(|r| r.place() != Place::Sink)));
    let lines = move || {
        let due = due.get();
        let more = due.len().saturating_sub(MAX_LINES);
        let line = |(bath, text): (Ulid, String)| {
            view! {
                <a href=Route::Bath(bath).href() class="alarm"><icon::Clock /><span>{text}</span></a>
            }
        };
        view! {
            {due.into_iter().take(MAX_LINES).map(line).collect_view()}
            {(more > 0).then(|| view! {
                <a href=Route::Sink.href() class="alarm">{t_count!("sink-elsewhere", more)}</a>
            })}
        }
    };
    view! {
        <div role="alert" class="visually-hidden">{move || monitor.announcement.get()}</div>
        <Show when=move || { elsewhere.get() && due.with(|due| !due.is_empty()) }>
            <aside class="alarms no-print" aria-label=t!("sink-due_list")>{lines}</aside>
        </Show>
    }
}

/// "Stir: Cattail May", for each act that is pending, by bath.
fn due_lines(book: &Book, now: Timestamp) -> Vec<(Ulid, String)> {
    let mut lines = Vec::new();
    for bath in book.running() {
        let batch = book.batches.get(&bath.batch).map(batch_name).unwrap_or_default();
        for act in cue::pending_acts(&cue::cues(bath, now)) {
            let what = act_name(act.act);
            let line = t_with!("sink-due_line", &[("what", &what), ("batch", &batch)]);
            lines.push((bath.id, line));
        }
    }
    lines
}

/// Says that the wall clock was changed: elapsed times depend on it.
#[component]
pub fn ClockShiftNotice() -> impl IntoView {
    let monitor: CueMonitor = expect_context();
    (move || {
        let shift = monitor.clock_shift.get()?;
        let key = if shift.is_negative() { key!("sink-moved-back") } else { key!("sink-moved-on") };
        Some(view! {
            <div class="caution care" role="status">
                <span class="severity">{t!("sink-moved-head")}</span>
                <p>{t_with(key, &[("by", &format_duration(shift.abs()))])}</p>
                <button class="button plain" on:click=move |_| monitor.clock_shift.set(None)>
                    {t!("sink-moved-seen")}
                </button>
            </div>
        })
    })
    .into_any()
}

/// The wall clock and the monotonic clock at one instant.
#[derive(Clone, Copy)]
struct ClockSample {
    wall: Timestamp,
    monotonic_ms: f64,
    hidden: bool,
}

impl ClockSample {
    fn take(wall: Timestamp) -> Self {
        Self { wall, monotonic_ms: clock::monotonic_ms(), hidden: document().hidden() }
    }

    /// By how much the wall clock was changed between two samples. `None` if the page was hidden:
    /// it may have slept, and some phones stop the monotonic clock meanwhile.
    fn shift_to(self, later: Self) -> Option<SignedDuration> {
        if self.hidden || later.hidden {
            return None;
        }
        let passed = SignedDuration::from_millis((later.monotonic_ms - self.monotonic_ms) as i64);
        cue::clock_shift(later.wall.duration_since(self.wall), passed)
    }
}
