//! Running a trial on one screen: the next act as one large button, and every pot's time.

use bleachfield_core::{
    caution::{Caution, Residual, Situation},
    derive::{PotAct, PotStage, PotStatus, TrialAct, TrialStatus},
    journal::{BathStarted, BathStopped, Body, Oxidant, Stirred, StopReason, Subject, Withdrawn},
};
use jiff::{SignedDuration, Timestamp};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::words::{dose_lines, pot_title, treatment};
use crate::{
    components::{CautionList, notify},
    i18n::{format_elapsed, t, t_with},
    platform::clock,
    screens::{plan::bath_cautions, sink::WetTouch},
    state::{AppState, app_state},
};

/// An act may be done so long before it is due: what one start takes to prepare.
const EARLY: SignedDuration = SignedDuration::from_secs(20);

#[component]
pub fn Run(status: Memo<Option<TrialStatus>>) -> impl IntoView {
    let touch = WetTouch::provide();
    let cautions = status.get_untracked().map(|status| trial_cautions(&status)).unwrap_or_default();
    // Rendered again when the act changes, not every second.
    let next = Memo::new(move |_| status.get().and_then(|now| now.next_act(app_state().now())));
    let running = Memo::new(move |_| {
        status.get().is_some_and(|status| {
            status.pots.iter().any(|pot| matches!(pot.stage, PotStage::Running { .. }))
        })
    });
    let started = Memo::new(move |_| status.get().is_some_and(|status| status.has_started()));
    view! {
        {(!cautions.is_empty()).then(|| view! {
            <details class="more" open=!started.get_untracked()>
                <summary>{t!("trial-safety")}</summary>
                <div class="inside"><CautionList cautions=Signal::stored(cautions) /></div>
            </details>
        })}
        {move || {
            let status = status.get()?;
            Some(match next.get() {
                Some(act) => next_card(&status, act, touch),
                None => view! { <p class="card" role="status">{t!("trial-all_done")}</p> }.into_any(),
            })
        }}
        {move || running.get().then(|| view! {
            <button class="button soft touch" on:click=move |_| stir(status, touch)>
                {t!("trial-stirred")}
            </button>
        })}
        <ul class="trial-run">
            {move || status.get().map(|status| status.pots.iter().map(row).collect_view())}
        </ul>
    }
}

/// The cautions of all pots, each once, the gravest first.
pub fn trial_cautions(status: &TrialStatus) -> Vec<Caution> {
    let mut all: Vec<Caution> = Vec::new();
    for pot in &status.pots {
        let situation = Situation::of_record(&pot.record, Residual::None);
        for caution in bath_cautions(&situation) {
            if !all.iter().any(|known| known.id == caution.id) {
                all.push(caution);
            }
        }
    }
    all.sort_by_key(|caution| std::cmp::Reverse(caution.severity));
    all
}

fn next_card(status: &TrialStatus, act: TrialAct, touch: WetTouch) -> AnyView {
    let Some(pot) = status.pots.get(act.pot).cloned() else { return ().into_any() };
    let busy = RwSignal::new(false);
    let number = pot.number.to_string();
    let (text, early) = match act.act {
        PotAct::Start => (
            t_with!("trial-start_pot", &[("n", &number)]),
            t_with!("trial-start_early", &[("n", &number)]),
        ),
        PotAct::Stop => (
            t_with!("trial-stop_pot", &[("n", &number)]),
            t_with!("trial-stop_early", &[("n", &number)]),
        ),
    };
    let lines = match act.act {
        PotAct::Start => status.dose(act.pot).map(|dose| dose_lines(&pot, dose)),
        PotAct::Stop => Some(vec![t!("trial-stop_how")]),
    };
    let two = two_oxidants(status);
    let due = act.due;
    let is_due = Memo::new(move |_| due.is_none_or(|due| app_state().now() + EARLY >= due));
    let what = treatment(&pot.record);
    let prepared = status.started(act.pot, Ulid::nil());
    let pot = StoredValue::new(pot);
    let press = move |_| {
        if busy.get_untracked() || !touch.is_press("trial") {
            return;
        }
        busy.set(true);
        let (state, pot, prepared) = (app_state(), pot.get_value(), prepared.clone());
        spawn_local(async move {
            write_act(state, &pot, prepared, act.act).await;
            let _ = busy.try_set(false);
        });
    };
    let press = StoredValue::new(press);
    let press = move |event: leptos::ev::MouseEvent| press.with_value(|press| press(event));
    view! {
        <section class="card stack trial-next" class:stop=act.act == PotAct::Stop>
            <div class="trial-due" role="timer">{move || due_text(due, app_state().now())}</div>
            <p>{what}</p>
            <ul>{lines.unwrap_or_default().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
            {two.then(|| view! {
                <p class="small">{t!("trial-two_bleaches")}</p>
            })}
            <button class="button touch" class:stop=act.act == PotAct::Stop
                disabled=move || busy.get() || !is_due.get() on:click=press>
                {text}
            </button>
            {move || (!is_due.get()).then(|| view! {
                <button class="button bare" disabled=move || busy.get() on:click=press>
                    {early.clone()}
                </button>
            })}
        </section>
    }
    .into_any()
}

/// Writes the act, and offers to undo it.
async fn write_act(state: AppState, pot: &PotStatus, prepared: Option<BathStarted>, act: PotAct) {
    let about = Subject::Batch(pot.batch);
    let body = match (act, pot.stage, prepared) {
        (PotAct::Start, _, Some(started)) => {
            let bath = state.fresh_id();
            Body::BathStarted(BathStarted { bath, ..started })
        }
        (PotAct::Stop, PotStage::Running { bath, .. }, _) => {
            Body::BathStopped(BathStopped { bath, why: StopReason::TimeUp, note: String::new() })
        }
        _ => return,
    };
    if let Some(entry) = state.write(about, body).await {
        let pot = pot_title(pot.number);
        let said = match act {
            PotAct::Start => t_with!("trial-started", &[("pot", &pot)]),
            PotAct::Stop => t_with!("trial-stopped", &[("pot", &pot)]),
        };
        let undo = Callback::new(move |()| {
            spawn_local(async move {
                let withdrawn = Withdrawn { entry, why: String::new() };
                state.write(about, Body::Withdrawn(withdrawn)).await;
            });
        });
        notify(said, Some(undo));
    }
}

/// That all running pots were stirred.
fn stir(status: Memo<Option<TrialStatus>>, touch: WetTouch) {
    if !touch.is_press("trial stir") {
        return;
    }
    let state = app_state();
    let bodies: Vec<(Subject, Body)> = status
        .get_untracked()
        .map(|status| {
            status
                .pots
                .iter()
                .filter_map(|pot| match pot.stage {
                    PotStage::Running { bath, .. } => {
                        Some((Subject::Batch(pot.batch), Body::Stirred(Stirred { bath })))
                    }
                    _ => None,
                })
                .collect()
        })
        .unwrap_or_default();
    spawn_local(async move {
        if state.write_all(bodies).await.is_some() {
            notify(t!("trial-stirred_said"), None);
        }
    });
}

fn two_oxidants(status: &TrialStatus) -> bool {
    let chlorine = |pot: &PotStatus| pot.record.oxidant == Oxidant::Hypochlorite;
    status.pots.iter().any(chlorine) && !status.pots.iter().all(chlorine)
}

/// "in 2:10", "now", "late by 0:40".
fn due_text(due: Option<Timestamp>, now: Timestamp) -> String {
    let Some(due) = due else { return t!("trial-when_ready") };
    let left = due.duration_since(now);
    if left > EARLY {
        t_with!("trial-due_in", &[("time", &format_elapsed(left))])
    } else if left < -EARLY {
        t_with!("trial-late", &[("time", &format_elapsed(-left))])
    } else {
        t!("trial-due_now")
    }
}

/// One pot: its number, what it is, and its time.
fn row(pot: &PotStatus) -> AnyView {
    let stage = pot.stage;
    let time = move || {
        let now = app_state().now();
        match stage {
            PotStage::Waiting { due: None } => t!("trial-waits"),
            PotStage::Waiting { due: Some(due) } => {
                t_with!("trial-waits_until", &[("time", &clock::local_time(due))])
            }
            PotStage::Running { due, .. } => {
                let left = due.duration_since(now);
                if left.is_negative() {
                    t_with!("trial-over_by", &[("time", &format_elapsed(-left))])
                } else {
                    t_with!("trial-left", &[("time", &format_elapsed(left))])
                }
            }
            PotStage::Stopped { minutes } => {
                t_with!("trial-ran", &[("n", &minutes.round().to_string())])
            }
            PotStage::Abandoned => t!("trial-abandoned"),
        }
    };
    let running = matches!(stage, PotStage::Running { .. });
    view! {
        <li class:running=running>
            <b>{pot.number}</b>
            <span>{treatment(&pot.record)}</span>
            <span class="time">{time}</span>
        </li>
    }
    .into_any()
}
