//! Messages of learning: one run at a time, which stops between two baths.

use bleachfield_core::learning::{Learning, LearningBatch};
use serde::{Deserialize, Serialize};

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LearningCommand {
    /// Go on from this state with these baths, in order of time. How far it is follows after
    /// each bath, and the state at the end.
    Run { learning: Box<Learning>, batches: Vec<LearningBatch> },
    /// End the run after the present bath.
    Stop,
}
