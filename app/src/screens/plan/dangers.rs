//! Dangers that the figures of this very bath make. They stand first, and the next press waits
//! until the figures are changed or the danger is ticked as read.

use bleachfield_core::{
    caution::{Caution, CautionId, Fact, Severity},
    message::Message,
};
use leptos::prelude::*;

use super::{
    form::{PlanForm, PlanOutcome},
    steps::PlanStep,
};
use crate::{components::CautionCard, i18n::t};

/// The dangers that a person read and goes on with. A danger of other figures is another one.
#[derive(Clone, Copy)]
pub struct Understood(RwSignal<Vec<(CautionId, Message)>>);

impl Understood {
    pub fn new() -> Self {
        Self(RwSignal::new(Vec::new()))
    }

    /// Tracked.
    pub fn has(self, caution: &Caution) -> bool {
        self.0.with(|all| all.iter().any(|(id, m)| *id == caution.id && *m == caution.message))
    }

    pub fn set(self, caution: &Caution, understood: bool) {
        self.0.update(|all| {
            all.retain(|(id, _)| *id != caution.id);
            if understood {
                all.push((caution.id, caution.message.clone()));
            }
        });
    }
}

/// The cautions of this bath's own figures that are answered on a step. Tracked.
fn of_step(form: PlanForm, outcome: Memo<PlanOutcome>, step: PlanStep) -> Vec<Caution> {
    let of_bleach = |caution: &Caution| {
        caution.id == CautionId::BleachWithPeroxide || caution.id.fact() == Some(Fact::Bottle)
    };
    let here = |caution: &Caution| match step {
        PlanStep::Bleach => of_bleach(caution),
        // One that came up since the bleach was chosen is not left behind.
        PlanStep::Bath => {
            let danger = caution.severity == Severity::Danger;
            !of_bleach(caution) || (danger && !form.understood.has(caution))
        }
        PlanStep::Measure => caution.severity == Severity::Danger,
        PlanStep::Pulp => false,
    };
    let mut all = outcome.with(|outcome| outcome.cautions().to_vec());
    if step == PlanStep::Bleach {
        for caution in form.choosing.get() {
            if !all.iter().any(|known| known.id == caution.id) {
                all.push(caution);
            }
        }
    }
    all.retain(|caution| caution.id.is_of_this_bath() && here(caution));
    all
}

/// Whether every danger of a step is answered. Tracked.
pub fn answered(form: PlanForm, outcome: Memo<PlanOutcome>, step: PlanStep) -> bool {
    of_step(form, outcome, step)
        .iter()
        .all(|caution| caution.severity != Severity::Danger || form.understood.has(caution))
}

#[component]
pub fn Dangers(form: PlanForm, outcome: Memo<PlanOutcome>, step: PlanStep) -> impl IntoView {
    let all = Memo::new(move |_| of_step(form, outcome, step));
    move || {
        let all = all.get();
        (!all.is_empty()).then(|| {
            view! {
                <div class="stack plan-dangers">
                    {all.into_iter().map(|caution| one(form.understood, caution)).collect_view()}
                </div>
            }
        })
    }
}

/// A danger with its tick, or a milder caution.
pub fn one(understood: Understood, caution: Caution) -> AnyView {
    let is_danger = caution.severity == Severity::Danger;
    let card = view! { <CautionCard caution=caution.clone() /> };
    let caution = StoredValue::new(caution);
    let tick = is_danger.then(|| {
        view! {
            <label class="tick touch">
                <input type="checkbox"
                    prop:checked=move || caution.with_value(|caution| understood.has(caution))
                    on:change=move |event| {
                        let ticked = event_target_checked(&event);
                        caution.with_value(|caution| understood.set(caution, ticked));
                    } />
                <span>{t!("plan-understood")}</span>
            </label>
        }
    });
    view! { {card}{tick} }.into_any()
}
