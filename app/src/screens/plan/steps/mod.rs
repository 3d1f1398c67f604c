//! The four steps of a plan.

mod bath;
mod bleach;
mod measure;
mod pulp;

use leptos::prelude::*;
use leptos_router::hooks::use_location;
use strum::{EnumString, IntoStaticStr, VariantArray};

pub use self::{bath::BathStep, bleach::BleachStep, measure::MeasureStep, pulp::PulpStep};
use crate::i18n::t;

/// A step. Its name stands in addresses (`?step=bath`).
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, EnumString, IntoStaticStr, VariantArray,
)]
#[strum(serialize_all = "snake_case")]
pub enum PlanStep {
    Pulp,
    Bleach,
    Bath,
    Measure,
}

impl PlanStep {
    pub const ALL: &[Self] = <Self as VariantArray>::VARIANTS;

    pub fn name(self) -> String {
        match self {
            Self::Pulp => t!("plan-step_pulp"),
            Self::Bleach => t!("plan-step_bleach"),
            Self::Bath => t!("plan-step_bath"),
            Self::Measure => t!("plan-step_measure"),
        }
    }

    pub fn next(self) -> Option<Self> {
        Self::ALL.iter().copied().find(|step| *step > self)
    }

    /// In the address.
    pub fn key(self) -> &'static str {
        self.into()
    }
}

/// The step that the address asks for, or `first`.
pub fn use_step(first: PlanStep) -> Memo<PlanStep> {
    let query = use_location().query;
    Memo::new(move |_| query.with(|query| query.get_str("step")?.parse().ok()).unwrap_or(first))
}
