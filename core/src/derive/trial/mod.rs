//! Ladder trials of a book: setting one up as entries, where each pot is now, and what the pots
//! show. Not here: design, doses and fit, which are `crate::trial`.

mod result;
mod setup;
mod status;
#[cfg(test)]
mod tests;

pub use result::{PotResult, TrialResult};
pub use setup::{DraftPot, TrialBleach, TrialDraft, TrialError, TrialSetup};
pub use status::{PotAct, PotStage, PotStatus, TrialAct, TrialStatus};
