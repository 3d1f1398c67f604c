//! A kept plan at its ready check: what to measure out, what changed since, and its start.

use bleachfield_core::{
    caution::Severity,
    derive::{BathToMeasure, KeptPlan, PlanChange},
    journal::{Batch, Body, PlanRecord, Subject},
    message::Value,
    quantity::{Basis, grams},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{
    answer_bar::{AnswerBar, answer},
    dangers::{Understood, one as danger},
    heat::HotAndColdForm,
    ready_check::ReadyCheck,
    schedule,
    signs::{CautionSigns, bath_cautions, heating_cautions},
    start::started,
};
use crate::{
    components::{Fact, Page, notify},
    i18n::{format_value, render, t, t_with},
    platform::clock,
    route::{self, Route},
    screens::station_bar::StationBar,
    state::app_state,
};

/// The screen of a batch whose plan waits.
#[component]
pub fn WaitingPlan(batch: Batch) -> impl IntoView {
    let id = batch.id;
    // Strengths change with time alone: read again when the start finds a change.
    let again = RwSignal::new(());
    let kept = Memo::new(move |_| {
        again.track();
        app_state().book(|book| KeptPlan::of(book, book.batches.get(&id)?, clock::now()))
    });
    view! {
        <Page title=t!("plan-kept_title") back=Route::batch(id)>
            <div class="stack wide">
                <StationBar batch=id />
                <p class="soft">{batch.name}</p>
                {move || match kept.get() {
                    Some(kept) => view! { <Ready batch=id kept again /> }.into_any(),
                    None => view! { <p role="status">{t!("plan-kept_over")}</p> }.into_any(),
                }}
            </div>
        </Page>
    }
}

#[component]
fn Ready(batch: Ulid, kept: KeptPlan, again: RwSignal<()>) -> impl IntoView {
    let stopped = kept.is_stopped();
    let bath = BathToMeasure::of(&kept.record);
    let mut all = bath_cautions(&kept.situation);
    heating_cautions(&mut all, bath.water_at.ok());
    let (dangers, below): (Vec<_>, Vec<_>) = all
        .into_iter()
        .partition(|caution| caution.id.is_of_this_bath() && caution.severity == Severity::Danger);
    let understood = Understood::new();
    let ticked = dangers.clone();
    let answered = Signal::derive(move || ticked.iter().all(|caution| understood.has(caution)));
    let dangers = dangers.into_iter().map(|caution| danger(understood, caution)).collect_view();
    let ready = RwSignal::new(false);
    let record = kept.record.clone();
    view! {
        {changed(&kept.changes, stopped)}
        <div class="stack plan-dangers">{dangers}</div>
        <p>{which_bath(&kept.record)}</p>
        // A plan that must not be started has nothing to measure out.
        {(!stopped).then(|| view! {
            <ReadyCheck record ph=None ready hot_and_cold=HotAndColdForm::new() />
        })}
        <details class="more">
            <summary>
                {t_with!("plan-kept_head", &[("date", &clock::local_date(kept.made))])}
            </summary>
            <div class="inside stack">
                <h2 class="visually-hidden">{t!("plan-comes_of_it")}</h2>
                {facts(&kept.record)}
                {(!stopped).then(|| schedule::view(&kept.record.schedule, None))}
            </div>
        </details>
        <CautionSigns cautions=Signal::stored(below) />
        <Choices batch kept again ready=Signal::derive(move || ready.get() && answered.get()) />
    }
}

/// What changed since the plan was made.
fn changed(changes: &[PlanChange], stopped: bool) -> Option<AnyView> {
    let what = changes.iter().map(|change| view! { <li>{render(&change.message())}</li> });
    let (class, ask) = if stopped {
        ("caution danger", t!("plan-kept_stopped"))
    } else {
        ("caution care", t!("plan-kept_ask"))
    };
    (!changes.is_empty()).then(|| {
        view! {
            <section class=class role="alert">
                <span class="severity">{t!("plan-kept_changed_head")}</span>
                <ul>{what.collect_view()}</ul>
                <p>{ask}</p>
            </section>
        }
        .into_any()
    })
}

/// Its bleach.
fn bleach(record: &PlanRecord) -> String {
    let oxidant = t(&format!("sink-oxidant-{}", <&str>::from(record.oxidant)));
    match &record.product.name {
        name if name.trim().is_empty() => t_with!("plan-kept_typed", &[("bleach", &oxidant)]),
        name => t_with!("plan-kept_product", &[("product", name), ("bleach", &oxidant)]),
    }
}

/// Which bath it is, in one line.
fn which_bath(record: &PlanRecord) -> String {
    let celsius = format_value(&Value::Celsius(record.celsius));
    let minutes = format_value(&Value::Minutes(record.minutes));
    format!("{} · {celsius} · {minutes}", bleach(record))
}

/// The plan.
fn facts(record: &PlanRecord) -> AnyView {
    let bleach = bleach(record);
    let assumed = |basis| basis == Basis::Assumed;
    let ph = record.ph.map(|ph| {
        let [value, low, high] = [ph.value, ph.low, ph.high].map(|ph| format_value(&Value::Ph(ph)));
        let value = format!("{value} ({low} – {high})");
        view! { <Fact name=t!("plan-kept_ph") value assumed=assumed(ph.basis) /> }
    });
    let of = |value| format_value(&value);
    view! {
        <dl class="facts">
            <Fact name=t!("plan-kept_bleach") value=bleach
                assumed=assumed(record.product.strength.figure.basis) />
            <Fact name=t!("plan-kept_temperature") value=of(Value::Celsius(record.celsius)) />
            <Fact name=t!("plan-kept_minutes") value=of(Value::Minutes(record.minutes)) />
            <Fact name=t!("plan-kept_pulp") value=of(Value::Mass(grams(record.wet_mass_g.value))) />
            <Fact name=t!("plan-dry_fibre") assumed=assumed(record.dry_fibre_g.basis)
                value=of(Value::Mass(grams(record.dry_fibre_g.value))) />
            <Fact name=t!("plan-charge") value=of(Value::Share(record.charge.value)) />
            {ph}
        </dl>
    }
    .into_any()
}

/// Start it, or change it. The start is the main choice only where nothing changed.
#[component]
fn Choices(
    batch: Ulid,
    kept: KeptPlan,
    again: RwSignal<()>,
    /// All is ticked.
    ready: Signal<bool>,
) -> impl IntoView {
    let state = app_state();
    let busy = RwSignal::new(false);
    let (stopped, unchanged) = (kept.is_stopped(), kept.changes.is_empty());
    let text = answer(&kept.record, kept.record.ph.map(|ph| ph.value));
    let shown = StoredValue::new(kept);
    let start = move |_| {
        if busy.get_untracked() {
            return;
        }
        let current =
            state.book_now(|book| KeptPlan::of(book, book.batches.get(&batch)?, clock::now()));
        let Some(plan) = current.filter(|now| shown.with_value(|shown| still_holds(shown, now)))
        else {
            notify(t!("plan-kept_just_changed"), None);
            again.notify();
            return;
        };
        busy.set(true);
        let from = route::current();
        let bath = started(state.fresh_id(), Some(plan.entry), &plan.record);
        spawn_local(async move {
            let about = Subject::Batch(batch);
            if state.write(about, Body::BathStarted(bath)).await.is_some() {
                route::go_from(&from, &Route::Sink);
            }
            let _ = busy.try_set(false);
        });
    };
    let change = Route::ChangePlan(batch).href();
    let (again_class, change_text) = if unchanged {
        ("button plain", t!("plan-kept_change"))
    } else {
        ("button touch", t!("plan-kept_again"))
    };
    let start_text = if unchanged { t!("plan-start_now") } else { t!("plan-kept_as_planned") };
    let start_class = if unchanged { "button touch start" } else { "button plain touch start" };
    let text = if stopped { t!("plan-bar_stopped") } else { text };
    view! {
        <a class=again_class href=change>{change_text}</a>
        <a class="button bare" href=Route::ClassSheet { batch: Some(batch) }.href()>
            {t!("class-for_class")}
        </a>
        <AnswerBar text=Signal::stored(text) lacking=Signal::stored(stopped)>
            {(!stopped).then(|| view! {
                <button class=start_class disabled=move || busy.get() || !ready.get()
                    on:click=start>
                    {start_text}
                </button>
                {move || (!ready.get()).then(|| view! {
                    <p class="small waits">{t!("plan-tick_first")}</p>
                })}
            })}
        </AnswerBar>
    }
}

/// Whether what the person read is still so: the same plan, no other kind of change, and none
/// that stops it.
fn still_holds(shown: &KeptPlan, now: &KeptPlan) -> bool {
    let kinds =
        |kept: &KeptPlan| kept.changes.iter().map(std::mem::discriminant).collect::<Vec<_>>();
    shown.entry == now.entry && kinds(shown) == kinds(now) && !now.is_stopped()
}
