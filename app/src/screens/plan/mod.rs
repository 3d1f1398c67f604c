//! The plan of a bath: choose the bleach and the aim, read what to measure out,
//! and start the clock.

mod ask;
mod ph;
mod result;
mod start;

use bleachfield_core::{
    bath::{CARRY_OVER_PH, ExpressedWater, Plan, PlanRequest, RefusedPlan, ResidualAlkali, plan},
    caution::{Act, Residual, Situation, cautions},
    chemistry::alkali::AlkaliReagent,
    journal::{Alkali as Cooked, Batch, BatchState, Oxidant},
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use ulid::Ulid;

use self::ask::AimForm;
use super::calculator::inputs::{BleachForm, ChosenBleach, CoSolutesForm, WetPulpForm};
use crate::{
    components::{CautionList, NumberField, NumberInput, Page},
    i18n::{format_number, t},
    route::Route,
    state::app_state,
};

/// The screen at `/batch/ID/plan`.
#[component]
pub fn PlanBath(id: Ulid) -> impl IntoView {
    let batch = app_state().book_now(|book| book.batches.get(&id).cloned());
    match batch {
        Some(batch) => view! { <Planning batch /> }.into_any(),
        None => view! {
            <Page title=t!("plan-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

/// The answers from which a plan is worked out. Copied freely.
#[derive(Clone, Copy)]
struct PlanForm {
    batch: Ulid,
    lump: WetPulpForm,
    bleach: BleachForm,
    aim: AimForm,
    carried: Residual,
    squeezed: NumberInput,
    cooked_in: ResidualAlkali,
    company: CoSolutesForm,
    /// With what the pH is helped up.
    alkali: RwSignal<AlkaliReagent>,
}

/// What came of the answers so far.
#[derive(Clone, PartialEq)]
enum PlanOutcome {
    /// Something is still empty or cannot be read.
    Waiting,
    Refused(Box<PlanRequest>, RefusedPlan),
    Planned(Box<MadePlan>),
}

/// A plan with the answers that it was made from.
#[derive(Clone, PartialEq)]
struct MadePlan {
    request: PlanRequest,
    plan: Plan,
    chosen: ChosenBleach,
}

#[component]
fn Planning(batch: Batch) -> impl IntoView {
    let form = PlanForm {
        batch: batch.id,
        lump: batch.weighed.as_ref().map_or_else(WetPulpForm::new, WetPulpForm::of),
        bleach: BleachForm::new(),
        aim: AimForm::new(),
        carried: carried(&batch),
        squeezed: squeezed(&batch),
        cooked_in: cooked_in(&batch),
        company: CoSolutesForm::new(),
        alkali: RwSignal::new(AlkaliReagent::SodaAsh),
    };
    let outcome = Memo::new(move |_| form.outcome());
    let choosing = Signal::derive(move || {
        let oxidant = Some(form.bleach.oxidant());
        cautions(
            Act::ChoosingBleach,
            &Situation { oxidant, residual: form.carried, ..Situation::default() },
        )
    });
    view! {
        <Page title=t!("plan-title") back=Route::batch(batch.id)>
            <div class="stack wide">
                <p class="soft">{batch.name}</p>
                <details class="more">
                    <summary>{t!("plan-lump_head")}</summary>
                    <div class="inside">{form.lump.view()}</div>
                </details>
                <section class="card stack">
                    <h2>{t!("plan-bleach_head")}</h2>
                    {form.bleach.view()}
                </section>
                <CautionList cautions=choosing />
                <section class="card stack">
                    <h2>{t!("plan-aim_head")}</h2>
                    {form.aim.view(form.bleach, outcome)}
                    <NumberField ask=form.squeezed hint=t!("plan-squeezed_hint") />
                    {move || form.company.view(form.bleach.oxidant())}
                </section>
                {move || result::view(form, outcome.get())}
            </div>
        </Page>
    }
}

impl PlanForm {
    fn outcome(self) -> PlanOutcome {
        let (Some(lump), Some(chosen)) = (self.lump.weighed_pulp(), self.bleach.chosen()) else {
            return PlanOutcome::Waiting;
        };
        let Some(aims) = self.aim.read() else { return PlanOutcome::Waiting };
        if self.squeezed.wrong().is_some() {
            return PlanOutcome::Waiting;
        }
        let request = PlanRequest {
            pulp: lump.pulp,
            bleach: chosen.bleach,
            aim: aims.aim,
            size: aims.size,
            temperature: aims.temperature,
            residual: self.carried,
            expressed_water: self.squeezed.base().map(|ph| ExpressedWater {
                ph: Estimate {
                    value: ph,
                    low: (ph - STRIP_OFF).max(0.0),
                    high: (ph + STRIP_OFF).min(14.0),
                    basis: Basis::Strip,
                },
                alkali: self.cooked_in,
            }),
            other_ingredients: self.company.with(self.bleach.oxidant()),
            on_hand: None,
            vessel: aims.vessel,
            minutes: aims.minutes,
            cooling: None,
        };
        match plan(&request) {
            Ok(plan) => PlanOutcome::Planned(Box::new(MadePlan { request, plan, chosen })),
            Err(refused) => PlanOutcome::Refused(Box::new(request), refused),
        }
    }
}

/// A strip is read to half a unit (common practice, no source).
const STRIP_OFF: f64 = 0.5;

/// The pH of what is squeezed out, as it was noted after the cook was rinsed off.
fn squeezed(batch: &Batch) -> NumberInput {
    let ask = NumberInput::new(CARRY_OVER_PH, QuantityKind::Ph).optional();
    match batch.cook.as_ref().and_then(|cook| cook.ph_after_rinse) {
        Some(ph) => ask.filled(format_number(ph.value, 3)),
        None => ask,
    }
}

fn cooked_in(batch: &Batch) -> ResidualAlkali {
    match batch.cook.as_ref().and_then(|cook| cook.alkali) {
        Some(Cooked::SodaAsh | Cooked::WashingSoda | Cooked::WoodAsh) => ResidualAlkali::Soda,
        Some(Cooked::Lye | Cooked::Lime) => ResidualAlkali::Lye,
        _ => ResidualAlkali::Unknown,
    }
}

/// What an earlier bath of this batch may have left in the pulp.
fn carried(batch: &Batch) -> Residual {
    match (batch.baths.last(), batch.state) {
        (None, _) | (_, BatchState::Clean) => Residual::None,
        (Some(bath), _) => match bath.oxidant {
            Oxidant::Hypochlorite => Residual::Hypochlorite,
            Oxidant::Percarbonate | Oxidant::Peroxide => Residual::Peroxide,
        },
    }
}
