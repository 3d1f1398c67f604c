//! The cues of a bath that ask for action. One that fell due unseen stays here with its own
//! time until it is answered or the bath is stopped.

use bleachfield_core::{
    derive::cue::{CueKind, DUE_FOR},
    journal::CueOutcome,
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::running_bath::{BathCue, RunningBath, cue_name};
use crate::{
    components::icon,
    i18n::{format_duration, key, t, t_count, t_with},
    platform::clock,
    route::{BatchForm, Route},
};

/// One box for each kind of cue: the stop first, then by due time.
#[component]
pub fn PendingCues(running: RunningBath) -> impl IntoView {
    let kinds = Memo::new(move |_| {
        running.pending.with(|pending| {
            let mut kinds: Vec<CueKind> = Vec::new();
            for cue in pending {
                if !kinds.contains(&cue.what) {
                    kinds.push(cue.what);
                }
            }
            kinds.sort_by_key(|kind| *kind != CueKind::Stop);
            kinds
        })
    });
    move || kinds.get().into_iter().map(|kind| view! { <CueBox running kind /> }).collect_view()
}

/// All pending cues of one kind: the latest large, those missed before it in a list.
#[component]
fn CueBox(running: RunningBath, kind: CueKind) -> impl IntoView {
    let cues = Memo::new(move |_| {
        running.pending.with(|all| {
            all.iter().filter(|cue| cue.what == kind).cloned().collect::<Vec<BathCue>>()
        })
    });
    let latest = Memo::new(move |_| cues.with(|cues| cues.last().map(|cue| cue.due)));
    let late = Memo::new(move |_| {
        latest.get().is_some_and(|due| running.state.now().duration_since(due) >= DUE_FOR)
    });
    let when = move || latest.get().map(|due| when(due, running.state.now(), late.get()));
    let missed = move || {
        cues.with(|cues| {
            let (_, missed) = cues.split_last().filter(|(_, missed)| !missed.is_empty())?;
            Some(view! {
                <details class="missed">
                    <summary>{t_count!("sink-missed", missed.len())}</summary>
                    <ul>{missed.iter().map(|cue| missed_cue(running, cue)).collect_view()}</ul>
                </details>
            })
        })
    };
    let (skip, skipped) = match kind {
        CueKind::Stop => (t!("sink-stop-run_on"), t!("sink-said-run_on")),
        _ => (t!("sink-skip"), t!("sink-said-skipped")),
    };
    view! {
        <div class="cue" class:due=move || !late.get() class:late=move || late.get()>
            <h3 class="what"><icon::Clock />{cue_name(kind)}</h3>
            <p>{when}</p>
            <div class="row even">
                {primary_action(running, kind)}
                <button class="button plain touch"
                    on:click=move |_| running.write(running.skips(kind), skipped.clone(), None)>
                    {skip}
                </button>
            </div>
            {missed}
        </div>
    }
}

/// The button that does what the cue asks.
fn primary_action(running: RunningBath, kind: CueKind) -> AnyView {
    let sheets = running.sheets;
    let opens = |sheet: RwSignal<bool>, class: &'static str, key: &str| {
        view! { <button class=class on:click=move |_| sheet.set(true)>{t(key)}</button> }.into_any()
    };
    match kind {
        CueKind::Stir => view! {
            <button class="button touch" on:click=move |_| running.write_stirred()>
                {t!("sink-done")}
            </button>
        }
        .into_any(),
        CueKind::Reheat => opens(sheets.reheat, "button touch", key!("sink-done")),
        CueKind::Ph | CueKind::Strip => opens(sheets.reading, "button touch", key!("sink-read")),
        CueKind::Stop => opens(sheets.stop, "button stop touch", key!("sink-stop-press")),
        CueKind::Photo => view! {
            <a href=Route::form(running.batch, BatchForm::Photo).href() class="button touch">
                {t!("sink-do-photo")}
            </a>
            <button class="button plain touch" on:click=move |_| {
                running.write(running.answers(CueKind::Photo), t!("sink-said-done"), None);
            }>{t!("sink-done")}</button>
        }
        .into_any(),
    }
}

/// "Due now, 14:05", or "Was due 14:05, 12 min ago".
fn when(due: Timestamp, now: Timestamp, late: bool) -> String {
    let time = clock::local_time(due);
    if late {
        let by = format_duration(now.duration_since(due));
        t_with!("sink-was_due", &[("time", &time), ("by", &by)])
    } else {
        t_with!("sink-due_now", &[("time", &time)])
    }
}

/// A missed cue with its own buttons.
fn missed_cue(running: RunningBath, cue: &BathCue) -> AnyView {
    let time = clock::local_time(cue.due);
    let answer = |outcome: CueOutcome, key: &'static str, saved: &'static str| {
        let id = cue.id.clone();
        let label = format!("{} {time}", t(key));
        view! {
            <button class="button bare" aria-label=label on:click=move |_| {
                running.write(vec![running.answer(&id, outcome)], t(saved), None);
            }>{t(key)}</button>
        }
    };
    let done = answer(CueOutcome::Done, key!("sink-done"), key!("sink-said-done"));
    let skip = answer(CueOutcome::Skipped, key!("sink-skip"), key!("sink-said-skipped"));
    view! { <li><span class="grow">{time}</span>{done}{skip}</li> }.into_any()
}
