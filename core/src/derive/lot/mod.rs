//! Lots of stored pulp: split, blended, drawn from, and traced to their batches.
//! Not here: yield and shelf life of stored pulp, which are `pulp::storage`.

mod error;
mod ledger;
mod movement;
mod trace;

pub use error::{DRAWN, LotError, PARTS};
pub use ledger::{LotAccount, LotLedger};
pub use movement::{LotMovement, movements};
pub use trace::{BatchShare, source_batches};

#[cfg(test)]
mod tests;
