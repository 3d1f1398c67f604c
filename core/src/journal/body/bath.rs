//! What is written while a bath runs.

use super::{Amount, Oxidant, Schedule};
use crate::journal::Figure;
use crate::{record, words};
use ulid::Ulid;

/// Oxidant met pulp: the clock of this bath starts at the entry's `at`.
#[derive(Clone, Debug, PartialEq)]
pub struct BathStarted {
    /// The new bath's own id.
    pub bath: Ulid,
    /// The entry that holds the plan followed, if there was one.
    pub plan: Option<Ulid>,
    pub oxidant: Oxidant,
    /// The shelf product poured from, if it came from the shelf.
    pub product: Option<Ulid>,
    /// What was truly measured out, where it differs from the plan.
    pub product_amount: Option<Amount>,
    pub water_added_ml: Option<Figure>,
    pub celsius: Option<Figure>,
    pub schedule: Schedule,
}

record!(BathStarted {
    bath,
    plan,
    oxidant,
    product,
    product_amount,
    water_added_ml,
    celsius,
    schedule,
});

/// A cue was seen to.
#[derive(Clone, Debug, PartialEq)]
pub struct CueAnswered {
    pub bath: Ulid,
    /// The cue's id, as [`crate::derive::cue`] gives it.
    pub cue: String,
    pub outcome: CueOutcome,
}

record!(CueAnswered { bath, cue, outcome });

/// What became of a cue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CueOutcome {
    Done,
    Skipped,
}

words!(CueOutcome {
    Done = "done",
    Skipped = "skipped",
});

/// The pulp was stirred.
#[derive(Clone, Debug, PartialEq)]
pub struct Stirred {
    pub bath: Ulid,
}

record!(Stirred { bath });

/// The bath was warmed again.
#[derive(Clone, Debug, PartialEq)]
pub struct Reheated {
    pub bath: Ulid,
    pub from_celsius: Option<Figure>,
    pub to_celsius: Option<Figure>,
}

record!(Reheated { bath, from_celsius, to_celsius });

/// Something was added: to a bath, or to the pulp outside one.
#[derive(Clone, Debug, PartialEq)]
pub struct Added {
    pub bath: Option<Ulid>,
    pub what: Additive,
    /// The shelf product it came from.
    pub product: Option<Ulid>,
    pub amount: Amount,
    pub note: String,
}

record!(Added { bath, what, product, amount, note: blank });

/// What was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Additive {
    Hypochlorite,
    Percarbonate,
    Peroxide,
    Water,
    SodaAsh,
    WashingSoda,
    Lye,
    BakingSoda,
    /// Silicate, magnesium salt or the like.
    Stabiliser,
    /// Named in the note.
    Other,
}

words!(Additive {
    Hypochlorite = "hypochlorite",
    Percarbonate = "percarbonate",
    Peroxide = "peroxide",
    Water = "water",
    SodaAsh = "soda_ash",
    WashingSoda = "washing_soda",
    Lye = "lye",
    BakingSoda = "baking_soda",
    Stabiliser = "stabiliser",
    Other = "other",
});

/// The bath was drained or quenched: its clock stops at the entry's `at`.
#[derive(Clone, Debug, PartialEq)]
pub struct BathStopped {
    pub bath: Ulid,
    pub why: StopReason,
    /// What was done and seen, in the person's words.
    pub note: String,
}

record!(BathStopped { bath, why, note: blank });

/// Why a bath was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StopReason {
    /// White enough.
    ReachedColour,
    /// The planned time was up.
    TimeUp,
    /// No oxidant left.
    Spent,
    /// The fibre was weakening.
    FibreSuffering,
    /// Gas, heat or smell.
    Unsafe,
    Other,
}

words!(StopReason {
    ReachedColour = "reached_colour",
    TimeUp = "time_up",
    Spent = "spent",
    FibreSuffering = "fibre_suffering",
    Unsafe = "unsafe",
    Other = "other",
});
