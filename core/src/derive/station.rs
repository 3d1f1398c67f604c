//! Where the pulp of a batch is on the line of the job, from cook to sheets.
//! Not here: the steps of the wash and the proof, which are `ladder`.

use strum::{IntoStaticStr, VariantArray};

use super::ladder::{Ladder, RungKind};
use crate::journal::{Batch, BatchState, Book};

/// A station of the job, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, IntoStaticStr, VariantArray)]
#[strum(serialize_all = "snake_case")]
pub enum Station {
    Cook,
    /// The cook is rinsed out, and the pulp weighed.
    Rinse,
    Plan,
    Bath,
    Wash,
    /// End tests and sign-off.
    Prove,
    Store,
    Sheets,
}

impl Station {
    /// All of them, in order.
    pub const ALL: &'static [Self] = Self::VARIANTS;

    /// Where the pulp is now; `None` once the batch was abandoned.
    pub fn of(book: &Book, batch: &Batch) -> Option<Self> {
        Some(match batch.state {
            BatchState::Abandoned => return None,
            BatchState::Running => Self::Bath,
            BatchState::Stopped => Self::Wash,
            BatchState::Washing if !batch.baths.is_empty() => after_bath(book, batch),
            BatchState::Planning | BatchState::Washing => before_bath(batch),
            BatchState::Clean | BatchState::Unproven => Self::Store,
            BatchState::Stored | BatchState::Used => Self::Sheets,
        })
    }
}

fn before_bath(batch: &Batch) -> Station {
    match (&batch.weighed, &batch.plan) {
        // Raw fibre that nobody cooked yet.
        (None, _) if batch.cook.is_none() && batch.raw_dry_g.is_some() => Station::Cook,
        (None, _) => Station::Rinse,
        (Some(_), None) => Station::Plan,
        (Some(_), Some(_)) => Station::Bath,
    }
}

fn after_bath(book: &Book, batch: &Batch) -> Station {
    let now = Ladder::of(book, batch).and_then(|ladder| ladder.now());
    match now {
        None | Some(RungKind::Drain | RungKind::Rinse(_)) => Station::Wash,
        Some(RungKind::Antichlor | RungKind::Acid) => Station::Wash,
        Some(RungKind::Test(_) | RungKind::SignOff) => Station::Prove,
        Some(RungKind::Store) => Station::Store,
    }
}
