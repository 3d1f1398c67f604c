//! What is worked out from the book alone: current strengths, the wash record, sign-off
//! evidence, lots, swatches, cues, and the records of a plan, a test or a measurement.
//! Not here: sums that know no record (`pulp`, `bath`, `chemistry`), and files (`exchange`).

mod batch_result;
mod bath_to_measure;
mod bath_warmth;
mod bleach;
mod bottle_strength;
mod camera_lesson;
mod colour_reading;
mod comparison;
mod cook_history;
pub mod cue;
mod error;
pub mod find;
mod forecast_dose;
mod forecast_of_bath;
mod kept_plan;
pub mod ladder;
mod last_plan;
mod learning_history;
pub mod lot;
mod oxidant_left;
mod plan_again;
mod plan_record;
mod product_age;
mod proof;
mod run_of_batch;
#[cfg(test)]
pub(crate) mod sample;
pub mod season;
mod sign_off;
mod stated_strength;
mod station;
mod strength_course;
mod strength_found;
mod swatch;
mod trial;
mod wash_efficiency;
mod wash_record;
mod ways_of_batch;

pub use batch_result::{BatchResult, Cost, last_plan};
pub use bath_to_measure::BathToMeasure;
pub use bath_warmth::BathWarmth;
pub use comparison::{ComparedFact, ComparedLine, FactGroup, FactValue, compare};
pub use cook_history::{own_cooks, table_yield};
pub use error::DeriveError;
pub use forecast_dose::{AdvisedDose, SodaPoint, advised_redose, advised_soda};
pub use forecast_of_bath::{
    AssumedInput, BathForecast, BathForecastError, BathReading, ReadBy, USUAL_CHAIN_LOSS,
    learnt_losses, plan_of_bath, vessel_of_bath,
};
pub use kept_plan::{KeptPlan, PlanChange, PulpWaterPh};
pub use last_plan::last_started_plan;
pub use learning_history::{learning_fibre, learning_history};
pub use oxidant_left::oxidant_left;
pub use plan_again::{PlanFigure, differences, figures_beside};
pub use plan_record::plan_record;
pub use product_age::{AgeReference, BOUGHT, MADE, OPENED, ProductDateError};
pub use proof::{Proof, is_past_keep_by};
pub use run_of_batch::{RunAct, RunMark, RunOfBatch, RunQuantity, RunReading, RunTime};
pub use sign_off::{SignOffEvidence, end_test_result};
pub use station::Station;
pub use strength_course::{StrengthCourse, StrengthMark, StrengthPoint};
pub use strength_found::TitrationSample;
pub use swatch::{
    AgedSwatch, RECHECK_DAYS, Swatch, aged_swatches, colour_target, drying_shift, next_recheck,
    swatches,
};
pub use trial::{
    DraftPot, PotAct, PotResult, PotStage, PotStatus, TrialAct, TrialBleach, TrialDraft,
    TrialError, TrialResult, TrialSetup, TrialStatus,
};
pub use wash_efficiency::wash_efficiency;
pub use wash_record::WashRecord;
pub use ways_of_batch::{WaysMissing, WaysOfBatch};
