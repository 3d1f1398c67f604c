//! The plan of a bath: choose the bleach and the aim, read what to measure out,
//! and start the clock.

mod ask;
mod ph;
mod result;
mod start;

use bleachfield_core::{
    bath::{CARRY_OVER_PH, CookedIn, Plan, Refused, Request, Squeezed, plan},
    caution::{Act, Residual, Situation, cautions},
    chemistry::alkali::Alkali,
    journal::{Alkali as Cooked, Batch, BatchState, Oxidant},
    quantity::{Basis, Kind, Known},
};
use leptos::prelude::*;
use ulid::Ulid;

use self::ask::AimForm;
use super::calculator::inputs::{BleachForm, Chosen, CompanyForm, LumpForm};
use crate::{
    components::{Ask, AskField, CautionList, Page},
    i18n::{format_number, t},
    state::studio,
};

/// The screen at `/batch/ID/plan`.
#[component]
pub fn PlanBath(id: Option<Ulid>) -> impl IntoView {
    let batch = id.and_then(|id| studio().book_now(|book| book.batches.get(&id).cloned()));
    match batch {
        Some(batch) => view! { <Planning batch /> }.into_any(),
        None => view! {
            <Page title=t!("plan-title") back="/batches"><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

/// The answers from which a plan is worked out. Copied freely.
#[derive(Clone, Copy)]
struct Form {
    batch: Ulid,
    lump: LumpForm,
    bleach: BleachForm,
    aim: AimForm,
    carried: Residual,
    squeezed: Ask,
    cooked_in: CookedIn,
    company: CompanyForm,
    /// With what the pH is helped up.
    alkali: RwSignal<Alkali>,
}

/// What came of the answers so far.
#[derive(Clone, PartialEq)]
enum Outcome {
    /// Something is still empty or cannot be read.
    Waiting,
    Refused(Box<Request>, Refused),
    Planned(Box<Made>),
}

/// A plan with the answers that it was made from.
#[derive(Clone, PartialEq)]
struct Made {
    request: Request,
    plan: Plan,
    chosen: Chosen,
}

#[component]
fn Planning(batch: Batch) -> impl IntoView {
    let form = Form {
        batch: batch.id,
        lump: batch.weighed.as_ref().map_or_else(LumpForm::new, LumpForm::of),
        bleach: BleachForm::new(),
        aim: AimForm::new(),
        carried: carried(&batch),
        squeezed: squeezed(&batch),
        cooked_in: cooked_in(&batch),
        company: CompanyForm::new(),
        alkali: RwSignal::new(Alkali::SodaAsh),
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
        <Page title=t!("plan-title") back=format!("/batch/{}", batch.id)>
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
                    <AskField ask=form.squeezed hint=t!("plan-squeezed_hint") />
                    {move || form.company.view(form.bleach.oxidant())}
                </section>
                {move || result::view(form, outcome.get())}
            </div>
        </Page>
    }
}

impl Form {
    fn outcome(self) -> Outcome {
        let (Some(lump), Some(chosen)) = (self.lump.lump(), self.bleach.chosen()) else {
            return Outcome::Waiting;
        };
        let Some(aims) = self.aim.read() else { return Outcome::Waiting };
        if self.squeezed.wrong().is_some() {
            return Outcome::Waiting;
        }
        let request = Request {
            pulp: lump.pulp,
            bleach: chosen.bleach,
            aim: aims.aim,
            size: aims.size,
            temperature: aims.temperature,
            carried: self.carried,
            squeezed: self.squeezed.base().map(|ph| Squeezed {
                ph: Known {
                    value: ph,
                    low: (ph - STRIP_OFF).max(0.0),
                    high: (ph + STRIP_OFF).min(14.0),
                    basis: Basis::Strip,
                },
                cooked_in: self.cooked_in,
            }),
            company: self.company.with(self.bleach.oxidant()),
            on_hand: None,
            vessel: aims.vessel,
            minutes: aims.minutes,
            cooling: None,
        };
        match plan(&request) {
            Ok(plan) => Outcome::Planned(Box::new(Made { request, plan, chosen })),
            Err(refused) => Outcome::Refused(Box::new(request), refused),
        }
    }
}

/// A strip is read to half a unit (common practice, no source).
const STRIP_OFF: f64 = 0.5;

/// The pH of what is squeezed out, as it was noted after the cook was rinsed off.
fn squeezed(batch: &Batch) -> Ask {
    let ask = Ask::new(CARRY_OVER_PH, Kind::Ph).optional();
    match batch.cook.as_ref().and_then(|cook| cook.ph_after_rinse) {
        Some(ph) => ask.filled(format_number(ph.value, 3)),
        None => ask,
    }
}

fn cooked_in(batch: &Batch) -> CookedIn {
    match batch.cook.as_ref().and_then(|cook| cook.alkali) {
        Some(Cooked::SodaAsh | Cooked::WashingSoda | Cooked::WoodAsh) => CookedIn::Soda,
        Some(Cooked::Lye | Cooked::Lime) => CookedIn::Lye,
        _ => CookedIn::Unknown,
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
