//! What wants doing in a bath now. What fell due unseen stands here with its
//! own time until it is answered or the bath is stopped.

use bleachfield_core::{derive::cue::CueKind, journal::CueOutcome};
use jiff::Timestamp;
use leptos::prelude::*;

use super::{
    card::{CardSheets, stirred},
    running::{PendingCue, RunningBath},
};
use crate::{
    components::icon,
    i18n::{format_duration, key, t, t_count, t_with},
    platform::clock,
    route::{BatchForm, Route},
};

/// The cues that wait, one box for each kind.
#[component]
pub fn Cues(running: RunningBath, sheets: CardSheets) -> impl IntoView {
    let kinds = Memo::new(move |_| {
        running.waiting.with(|waiting| {
            // The stop first; then in the order in which they fell due.
            let mut kinds: Vec<CueKind> = Vec::new();
            for wait in waiting {
                if !kinds.contains(&wait.what) {
                    kinds.push(wait.what);
                }
            }
            kinds.sort_by_key(|kind| *kind != CueKind::Stop);
            kinds
        })
    });
    view! {
        {move || kinds.get().into_iter().map(|kind| {
            view! { <CueBox running sheets kind /> }
        }).collect_view()}
    }
}

/// All that waits of one kind: the latest large, those missed before it named.
#[component]
fn CueBox(running: RunningBath, sheets: CardSheets, kind: CueKind) -> impl IntoView {
    let waits = Memo::new(move |_| {
        running
            .waiting
            .with(|all| all.iter().filter(|w| w.what == kind).cloned().collect::<Vec<PendingCue>>())
    });
    let latest = Memo::new(move |_| waits.with(|waits| waits.last().map(|w| w.due)));
    let late = Memo::new(move |_| {
        let since = latest.get().map(|due| running.studio.now().duration_since(due));
        since.is_some_and(|since| since >= bleachfield_core::derive::cue::DUE_FOR)
    });
    let when = move || latest.get().map(|due| when(due, running.studio.now(), late.get()));
    let before = move || {
        waits.with(|waits| {
            let before = waits.len().saturating_sub(1);
            (before > 0).then(|| {
                view! {
                    <details class="missed">
                        <summary>{t_count!("sink-missed", before)}</summary>
                        <ul>{waits[..before].iter().map(|w| one(running, w)).collect_view()}</ul>
                    </details>
                }
            })
        })
    };
    let skip_key = if kind == CueKind::Stop { key!("sink-stop-run_on") } else { key!("sink-skip") };
    let skipped =
        t(if kind == CueKind::Stop { key!("sink-said-run_on") } else { key!("sink-said-skipped") });
    view! {
        <div class="cue" class:due=move || !late.get() class:late=move || late.get()>
            <h3 class="what"><icon::Clock />{t(&format!("sink-cue-{}", kind.key()))}</h3>
            <p>{when}</p>
            <div class="row even">
                {primary(running, sheets, kind)}
                <button class="button plain touch"
                    on:click=move |_| running.write(running.skips(kind), skipped.clone(), None)>
                    {t(skip_key)}
                </button>
            </div>
            {before}
        </div>
    }
}

/// The button that does what the cue asks.
fn primary(running: RunningBath, sheets: CardSheets, kind: CueKind) -> AnyView {
    let raise = |sheet: RwSignal<bool>, class: &'static str, key: &str| {
        view! { <button class=class on:click=move |_| sheet.set(true)>{t(key)}</button> }.into_any()
    };
    match kind {
        CueKind::Stir => view! {
            <button class="button touch" on:click=move |_| stirred(running)>{t!("sink-done")}</button>
        }
        .into_any(),
        CueKind::Reheat => raise(sheets.reheat, "button touch", key!("sink-done")),
        CueKind::Ph | CueKind::Strip => raise(sheets.reading, "button touch", key!("sink-read")),
        CueKind::Stop => raise(sheets.stop, "button stop touch", key!("sink-stop-press")),
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

/// One that was missed, answered by itself.
fn one(running: RunningBath, wait: &PendingCue) -> AnyView {
    let time = clock::local_time(wait.due);
    let answer = |outcome: CueOutcome, key: &'static str, said: &'static str| {
        let id = wait.id.clone();
        let label = format!("{} {time}", t(key));
        view! {
            <button class="button bare" aria-label=label on:click=move |_| {
                running.write(vec![running.answer(&id, outcome)], t(said), None);
            }>{t(key)}</button>
        }
    };
    let done = answer(CueOutcome::Done, key!("sink-done"), key!("sink-said-done"));
    let skip = answer(CueOutcome::Skipped, key!("sink-skip"), key!("sink-said-skipped"));
    view! { <li><span class="grow">{time}</span>{done}{skip}</li> }.into_any()
}
