//! The projection of the entry of a ladder trial. Its pots are batches of their own.

use crate::journal::{TrialDesigned, TrialPot};
use jiff::Timestamp;
use ulid::Ulid;

/// A ladder trial.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    pub id: Ulid,
    /// The batch whose pulp it is made with.
    pub parent: Ulid,
    pub designed: Timestamp,
    pub seed: u32,
    /// In the order of their starts.
    pub pots: Vec<TrialPot>,
}

impl Trial {
    pub(super) fn new(parent: Ulid, designed: &TrialDesigned, at: Timestamp) -> Self {
        let TrialDesigned { trial, seed, pots, .. } = designed;
        Self { id: *trial, parent, designed: at, seed: *seed, pots: pots.clone() }
    }
}
