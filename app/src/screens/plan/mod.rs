//! The plan of a bath in four steps: pulp, bleach, bath, measure out; and its start.

mod again;
mod aim_form;
mod answer_bar;
mod bucket;
mod dangers;
mod figures;
mod form;
mod heat;
mod kept;
mod ph;
mod presets;
mod ready_check;
mod refused;
mod schedule;
mod signs;
mod start;
mod step_bar;
mod steps;

pub use self::{
    again::PlanAgain, answer_bar::answer, bucket::Bucket, form::PlanForm, ready_check::load_line,
};

use bleachfield_core::{
    bath::BathParts,
    derive::KeptPlan,
    journal::{Batch, PlanRecord},
};
use leptos::prelude::*;
use ulid::Ulid;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use self::{
    again::Earlier,
    answer_bar::AnswerBar,
    dangers::answered,
    form::PlanOutcome,
    kept::WaitingPlan,
    start::Writing,
    step_bar::StepBar,
    steps::{BathStep, BleachStep, MeasureStep, PlanStep, PulpStep, use_step},
};
pub use self::{
    form::{expressed_water, residual},
    signs::bath_cautions,
};
use crate::{
    components::{Page, to_first_wrong},
    i18n::{field_name, t, t_with},
    platform::clock,
    route::{self, PlanStart, Route},
    screens::{calculator::inputs::MissingLabel, station_bar::StationBar},
    state::app_state,
};

/// The screen at `/batch/ID/plan`: the kept plan, which is what starts; the form where there is
/// none, or where `change` asks for it.
#[component]
pub fn PlanBath(id: Ulid, change: bool) -> impl IntoView {
    let found = app_state().book_now(|book| {
        let batch = book.batches.get(&id)?;
        let kept = KeptPlan::of(book, batch, clock::now()).map(|kept| kept.record);
        Some((batch.clone(), kept))
    });
    match found {
        Some((batch, Some(_))) if !change => view! { <WaitingPlan batch /> }.into_any(),
        Some((batch, kept)) => {
            let route = if change { Route::ChangePlan(id) } else { Route::Plan(id) };
            batch_plan(&batch, kept.as_ref(), route)
        }
        None => view! {
            <Page title=t!("plan-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

/// The form of a batch's plan, filled with proposed values.
#[component]
pub fn PlanFrom(batch: Ulid, start: PlanStart) -> impl IntoView {
    match app_state().book_now(|book| book.batches.get(&batch).cloned()) {
        Some(of) => batch_plan(&of, None, Route::StartPlan { batch, start }),
        None => view! { <PlanBath id=batch change=false /> }.into_any(),
    }
}

/// The screen at `/plan`: a plan that begins its batch.
#[component]
pub fn NewPlan() -> impl IntoView {
    let form = PlanForm::without_batch();
    view! {
        <PlanSteps form route=Route::NewPlan back=Route::Sink title=t!("plan-title")
            first=PlanStep::Pulp again=None />
    }
}

fn batch_plan(batch: &Batch, kept: Option<&PlanRecord>, route: Route) -> AnyView {
    let form = PlanForm::of(batch);
    if let Some(kept) = kept {
        form.fill(kept);
    }
    if let Route::StartPlan { start, .. } = &route {
        form.begin_with(start);
    }
    // Pulp that was just weighed is not asked for again; its step is a tap away.
    let weighed = untrack(|| form.wet_pulp.weighed_pulp().is_some());
    let first = if weighed { PlanStep::Bleach } else { PlanStep::Pulp };
    let title = t_with!("plan-title_of", &[("batch", &batch.name)]);
    view! { <PlanSteps form route back=Route::batch(batch.id) title first again=None /> }.into_any()
}

/// The last step that can be opened: the first that lacks an answer. A refusal leads no step
/// back: who types a number may be on the way to another. Tracked.
fn reach(form: PlanForm, outcome: Memo<PlanOutcome>) -> PlanStep {
    if let Some((step, _)) = form.missing() {
        return step;
    }
    let planned = outcome.with(|outcome| matches!(outcome, PlanOutcome::Planned(_)));
    let ready = planned
        && [PlanStep::Bleach, PlanStep::Bath].into_iter().all(|step| answered(form, outcome, step));
    if ready { PlanStep::Measure } else { PlanStep::Bath }
}

/// Whether a step lets one go on. Tracked.
fn is_open(form: PlanForm, outcome: Memo<PlanOutcome>, step: PlanStep) -> bool {
    outcome.with(PlanOutcome::refused_at) != Some(step) && answered(form, outcome, step)
}

#[component]
fn PlanSteps(
    form: PlanForm,
    route: Route,
    back: Route,
    #[prop(into)] title: String,
    /// Shown until the address asks for another.
    first: PlanStep,
    /// A plan that this one repeats.
    #[prop(into)]
    again: Option<Earlier>,
) -> impl IntoView {
    let outcome = Memo::new(move |_| form.outcome());
    let asked = use_step(first);
    let reach = Memo::new(move |_| reach(form, outcome));
    // A step that lacks what it rests on is not shown.
    let step = Memo::new(move |_| asked.get().min(reach.get()));
    let writing = Writing::of(form, outcome);
    let is_at = move |one: PlanStep| Signal::derive(move || step.get() == one);
    let at = [PlanStep::Pulp, PlanStep::Bleach, PlanStep::Bath, PlanStep::Measure].map(is_at);
    let hidden = move |nth: usize| move || !at[nth].get();
    // The reason stands on the step of its field, and where one may be led by it.
    let refused_at = move |here: PlanStep| {
        Signal::derive(move || {
            let at = outcome.with(PlanOutcome::refused_at)?;
            let shown = step.get() == here && (at == here || here == PlanStep::Bath);
            outcome.with(|outcome| match outcome {
                PlanOutcome::Refused(refused) if shown => Some(refused.clone()),
                _ => None,
            })
        })
    };
    let parts = Memo::new(move |_| {
        outcome.with(|outcome| match outcome {
            PlanOutcome::Planned(made) => Some(made.plan.parts()),
            _ => form.wet_pulp.weighed_pulp().map(|weighed| BathParts::of_pulp(&weighed.pulp)),
        })
    });
    view! {
        <Page title back>
            {form.batch.map(|batch| view! {
                <div class="plan-station"><StationBar batch /></div>
            })}
            <StepBar route=route.clone() step reach />
            <div class="stack plan">
                <section class="stack" hidden=hidden(0) aria-label=PlanStep::Pulp.name()>
                    <PulpStep form refused=refused_at(PlanStep::Pulp) />
                </section>
                <section class="stack" hidden=hidden(1) aria-label=PlanStep::Bleach.name()>
                    <BleachStep form outcome refused=refused_at(PlanStep::Bleach) />
                </section>
                <section class="stack" hidden=hidden(2) aria-label=PlanStep::Bath.name()>
                    <BathStep form outcome refusal=refused_at(PlanStep::Bath) />
                </section>
                <section class="stack" hidden=hidden(3) aria-label=PlanStep::Measure.name()>
                    <MeasureStep form outcome shown=at[3] writing />
                </section>
                {again.map(|earlier| again::beside(earlier, outcome))}
                {move || (step.get() != PlanStep::Measure)
                    .then(|| parts.get().map(|parts| view! { <Bucket parts /> }))}
            </div>
            {bar(form, outcome, route, step, reach, writing)}
        </Page>
    }
}

/// The answer so far, and the next press.
fn bar(
    form: PlanForm,
    outcome: Memo<PlanOutcome>,
    route: Route,
    step: Memo<PlanStep>,
    reach: Memo<PlanStep>,
    writing: Writing,
) -> AnyView {
    let text = Signal::derive(move || bar_text(form, outcome));
    let lacking =
        Signal::derive(move || outcome.with(|made| !matches!(made, PlanOutcome::Planned(_))));
    let next = move |_| {
        let here = step.get_untracked();
        match here.next() {
            Some(next)
                if next <= reach.get_untracked() && untrack(|| is_open(form, outcome, here)) =>
            {
                route::go_step(&route, next.key());
            }
            _ => {
                form.try_step(here);
                if !to_reason() {
                    to_first_wrong();
                }
            }
        }
    };
    let is_last = Memo::new(move |_| step.get() == PlanStep::Measure);
    let waits = move || {
        let here = step.get();
        here < PlanStep::Measure && (here == reach.get() || !is_open(form, outcome, here))
    };
    view! {
        <AnswerBar text lacking>
            <button class="button touch" class:waiting=waits hidden=move || is_last.get()
                on:click=next>
                {move || step.get().next().map(|next| {
                    t_with!("plan-next", &[("step", &next.name())])
                })}
            </button>
            <button class="button touch start" hidden=move || !is_last.get()
                disabled=move || writing.busy.get() || !writing.ready.get()
                on:click=move |_| writing.start.run(())>
                {t!("plan-start_now")}
            </button>
            {move || (is_last.get() && !writing.ready.get()).then(|| view! {
                <p class="small waits">{t!("plan-tick_first")}</p>
            })}
        </AnswerBar>
    }
    .into_any()
}

/// Scrolls to a danger that is not ticked, or to why there is no plan; whether there is one.
fn to_reason() -> bool {
    let reasons = [
        "section:not([hidden]) .plan-dangers input:not(:checked)",
        "section:not([hidden]) [role=alert]",
    ];
    let found = reasons.iter().find_map(|one| document().query_selector(one).ok().flatten());
    let Some(element) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) else {
        return false;
    };
    element.scroll_into_view_with_bool(false);
    let _ = element.focus();
    true
}

/// Tracked.
fn bar_text(form: PlanForm, outcome: Memo<PlanOutcome>) -> String {
    if let Some((_, missing)) = form.missing() {
        let what = match missing {
            MissingLabel::Field(field) => field_name(field),
            MissingLabel::Basis => t!("plan-bar_basis"),
        };
        return t_with!("plan-bar_missing", &[("what", &what)]);
    }
    if let Some(step) = outcome.with(PlanOutcome::refused_at) {
        return t_with!("plan-bar_refused", &[("step", &step.name())]);
    }
    let ph = outcome.with(PlanOutcome::cooled_ph);
    match outcome.with(PlanOutcome::record) {
        None => t!("plan-waiting"),
        Some(record) => {
            let unread = [PlanStep::Bleach, PlanStep::Bath]
                .into_iter()
                .any(|step| !answered(form, outcome, step));
            let answer = answer(&record, ph);
            if unread { t_with!("plan-bar_danger", &[("answer", &answer)]) } else { answer }
        }
    }
}
