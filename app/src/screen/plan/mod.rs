//! The plan of a bath: choose the bleach and the aim, read what to measure out,
//! and start the clock.

mod ask;
mod result;
mod start;

use bleachfield_core::{
    bath::{Plan, Refused, Request, plan},
    caution::{Act, Residual, Situation, cautions},
    journal::{Batch, BatchState, Oxidant},
};
use leptos::prelude::*;
use ulid::Ulid;

use self::ask::AimForm;
use super::form::{BleachForm, Chosen, LumpForm};
use crate::{
    locale::word,
    part::{CautionList, Page},
    studio::studio,
};

/// The screen at `/batch/ID/plan`.
#[component]
pub fn PlanBath(id: Option<Ulid>) -> impl IntoView {
    let batch = id.and_then(|id| studio().book_now(|book| book.batches.get(&id).cloned()));
    match batch {
        Some(batch) => view! { <Planning batch /> }.into_any(),
        None => view! {
            <Page title=word("plan.title") back="/batches"><p>{word("batch.unknown")}</p></Page>
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
        <Page title=word("plan.title") back=format!("/batch/{}", batch.id)>
            <div class="stack wide">
                <p class="soft">{batch.name}</p>
                <details class="more">
                    <summary>{word("plan.lump_head")}</summary>
                    <div class="inside">{form.lump.view()}</div>
                </details>
                <section class="card stack">
                    <h2>{word("plan.bleach_head")}</h2>
                    {form.bleach.view()}
                </section>
                <CautionList cautions=choosing />
                <section class="card stack">
                    <h2>{word("plan.aim_head")}</h2>
                    {form.aim.view(form.bleach, outcome)}
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
        let request = Request {
            pulp: lump.pulp,
            bleach: chosen.bleach,
            aim: aims.aim,
            size: aims.size,
            temperature: aims.temperature,
            carried: self.carried,
            squeezed: None,
            company: Vec::new(),
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
