//! The entry of a ladder trial: small pots from one lump. Each pot is an ordinary batch, whose
//! own entries hold its plan, its bath and its colour.

use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull};
use ulid::Ulid;

/// A ladder trial was set up with pulp of the batch that the entry is about.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TrialDesigned {
    pub trial: Ulid,
    /// Seed of the random order: the same seed and levels give the same design again.
    pub seed: u32,
    /// In the order in which the bleach goes in.
    pub pots: Vec<TrialPot>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// One pot of a trial.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TrialPot {
    /// On its label.
    pub number: u32,
    /// The batch that the pot is; its plan has charge, temperature and time.
    pub batch: Ulid,
    /// Planned start, minutes after that of the first pot.
    pub starts_at_min: f64,
}
