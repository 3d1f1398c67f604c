//! The next act of a bath as one large button, its stop, and cues that were missed. A cue that
//! fell due unseen stays with its own time until it is answered or the bath is stopped.

use bleachfield_core::{
    derive::cue::{CueAct, DUE_FOR, PendingAct},
    journal::CueOutcome,
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::{
    hold_button::HoldButton,
    running_bath::{BathCue, RunningBath, cue_name},
    sheets::SheetKind,
    wet_touch::WetTouch,
};
use crate::{
    i18n::{format_duration, key, t, t_count, t_with},
    platform::clock,
};

/// The act of the large button: stirring or checking, whichever is due, else checking. Copied
/// freely.
#[derive(Clone, Copy)]
pub struct LargeAct {
    pending: Memo<Option<PendingAct>>,
    pub act: Memo<CueAct>,
    /// When it became this act, monotonic, in ms.
    changed: StoredValue<f64>,
}

impl LargeAct {
    pub fn of(running: RunningBath) -> Self {
        let pending = Memo::new(move |_| {
            running.acts.with(|acts| acts.iter().find(|act| act.act != CueAct::Stop).cloned())
        });
        let act =
            Memo::new(move |_| pending.with(|act| act.as_ref().map_or(CueAct::Check, |a| a.act)));
        let changed = StoredValue::new(f64::NEG_INFINITY);
        Effect::watch(
            move || act.get(),
            move |now, before, _| {
                if before.is_some_and(|before| before != now) {
                    changed.set_value(clock::monotonic_ms());
                }
            },
            false,
        );
        Self { pending, act, changed }
    }

    /// Whether a click counts, on the large button or on one that changes with it.
    pub fn is_press(self, touch: WetTouch, act: &str) -> bool {
        touch.is_press_after(act, self.changed.get_value())
    }
}

/// The large button, and the other answer to it. While the stop is due, that is the larger one.
#[component]
pub fn NextAct(running: RunningBath, large: LargeAct) -> impl IntoView {
    let touch: WetTouch = expect_context();
    let LargeAct { pending, act, .. } = large;
    let is_late = Memo::new(move |_| pending.with(|act| late(running, act.as_ref())));
    let name = move || match act.get() {
        CueAct::Stir => t!("sink-do-stirred"),
        _ => t!("sink-do-check_now"),
    };
    let why = move || match pending.get() {
        Some(act) => {
            let kinds: Vec<String> = act.kinds.iter().map(|kind| cue_name(*kind)).collect();
            format!("{} · {}", kinds.join(", "), when(act.due, running, is_late.get()))
        }
        None => t!("sink-check-parts"),
    };
    let press = move |_| match act.get_untracked() {
        CueAct::Stir if large.is_press(touch, "stir") => running.write_stirred(),
        CueAct::Check if large.is_press(touch, "check") => {
            running.sheets.open(running.bath, SheetKind::Check);
        }
        _ => {}
    };
    let skip = move |_| {
        if large.is_press(touch, "skip") {
            running.write(running.skips_act(act.get_untracked()), t!("sink-said-skipped"));
        }
    };
    view! {
        <div class="next-act" class:cue=move || pending.with(Option::is_some)
            class:late=move || is_late.get()>
            <button class="button touch act" on:click=press>
                <span class="lines">
                    <span class="what">{name}</span>" "<span class="line small">{why}</span>
                </span>
            </button>
            <Show when=move || pending.with(Option::is_some)>
                <button class="button plain touch skip" on:click=skip>{t!("sink-skip")}</button>
            </Show>
        </div>
    }
}

/// Held to stop; once the stop is due, it may run on.
#[component]
pub fn StopAct(running: RunningBath) -> impl IntoView {
    let touch: WetTouch = expect_context();
    let pending = Memo::new(move |_| {
        running.acts.with(|acts| acts.iter().find(|act| act.act == CueAct::Stop).cloned())
    });
    let due = Memo::new(move |_| pending.with(Option::is_some));
    let hint = move || match pending.get() {
        Some(act) => {
            let late = late(running, Some(&act));
            format!("{} · {}", t!("sink-hold"), when(act.due, running, late))
        }
        None => t!("sink-hold"),
    };
    let run_on = move |_| {
        if touch.is_press("run on") {
            running.write(running.skips_act(CueAct::Stop), t!("sink-said-run_on"));
        }
    };
    view! {
        <div class="stop-act" class:cue=move || due.get()>
            <HoldButton label=t!("sink-stop-press") hint=Signal::derive(hint) due
                done=Callback::new(move |()| running.stop_now())
                ask=Callback::new(move |()| running.sheets.open(running.bath, SheetKind::Stop)) />
            <Show when=move || due.get()>
                <button class="button plain touch skip" on:click=run_on>
                    {t!("sink-stop-run_on")}
                </button>
            </Show>
        </div>
    }
}

/// Cues that fell due before the latest of their kind, each to be answered by itself.
#[component]
pub fn MissedCues(running: RunningBath) -> impl IntoView {
    let missed = Memo::new(move |_| {
        running.pending.with(|pending| {
            let is_last = |cue: &BathCue| {
                pending.iter().rev().find(|other| other.what == cue.what) == Some(cue)
            };
            pending.iter().filter(|cue| !is_last(cue)).cloned().collect::<Vec<_>>()
        })
    });
    move || {
        let missed = missed.get();
        (!missed.is_empty()).then(|| view! {
            <details class="more missed">
                <summary>{t_count!("sink-missed", missed.len())}</summary>
                <ul class="inside">{missed.iter().map(|cue| missed_cue(running, cue)).collect_view()}</ul>
            </details>
        })
    }
}

fn late(running: RunningBath, act: Option<&PendingAct>) -> bool {
    act.is_some_and(|act| running.state.now().duration_since(act.due) >= DUE_FOR)
}

/// "due now, 14:05", or "was due at 14:05, 12 min ago".
fn when(due: Timestamp, running: RunningBath, late: bool) -> String {
    let time = clock::local_time(due);
    if late {
        let by = format_duration(running.state.now().duration_since(due));
        t_with!("sink-was_due", &[("time", &time), ("by", &by)])
    } else {
        t_with!("sink-due_now", &[("time", &time)])
    }
}

/// A missed cue with its own buttons.
fn missed_cue(running: RunningBath, cue: &BathCue) -> AnyView {
    let touch: WetTouch = expect_context();
    let time = format!("{} {}", cue_name(cue.what), clock::local_time(cue.due));
    let answer = |outcome: CueOutcome, key: &'static str, saved: &'static str| {
        let id = cue.id.clone();
        let label = format!("{} {time}", t(key));
        view! {
            <button class="button bare touch" aria-label=label on:click=move |_| {
                if touch.is_press(&id) {
                    running.write(vec![running.answer(&id, outcome)], t(saved));
                }
            }>{t(key)}</button>
        }
    };
    let done = answer(CueOutcome::Done, key!("sink-done"), key!("sink-said-done"));
    let skip = answer(CueOutcome::Skipped, key!("sink-skip"), key!("sink-said-skipped"));
    view! { <li><span class="grow">{time.clone()}</span>{done}{skip}</li> }.into_any()
}
