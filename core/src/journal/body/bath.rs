//! Entries about a running bath: start, schedule, cues, stirring, heating, additions, stop.

pub use crate::bath::{BathCover, VesselMaterial, VesselShape};

use super::{Amount, Figure, Oxidant, Schedule};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use strum::IntoStaticStr;
use ulid::Ulid;

/// Oxidant was added to pulp: the bath's time counts from the entry's `at`.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathStarted {
    /// Id of the new bath.
    pub bath: Ulid,
    /// The entry with the plan that is followed, if there is one.
    pub plan: Option<Ulid>,
    pub oxidant: Oxidant,
    /// The shelf product used, if it came from the shelf.
    pub product: Option<Ulid>,
    /// The amount that went in. Computed or assumed: that of the plan, which nobody measured.
    pub product_amount: Option<Amount>,
    pub water_added_ml: Option<Figure>,
    pub celsius: Option<Figure>,
    pub schedule: Schedule,
}

/// The cues of a bath follow another schedule from here on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ScheduleChanged {
    pub bath: Ulid,
    /// Minutes still count from the start of the bath.
    pub schedule: Schedule,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub why: String,
}

/// A cue was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CueAnswered {
    pub bath: Ulid,
    /// Id of the cue, such as `stir-900`.
    pub cue: String,
    pub outcome: CueOutcome,
}

/// How a cue was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum CueOutcome {
    Done,
    Skipped,
}

/// The pulp was stirred.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stirred {
    pub bath: Ulid,
}

/// The bath was reheated.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reheated {
    pub bath: Ulid,
    pub from_celsius: Option<Figure>,
    pub to_celsius: Option<Figure>,
}

/// What a bath stands in, as far as somebody said; the newest counts.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct VesselDescribed {
    pub bath: Ulid,
    pub shape: Option<VesselShape>,
    pub material: Option<VesselMaterial>,
    pub cover: Option<BathCover>,
    pub room_celsius: Option<Figure>,
}

/// Something was added to a bath, or to pulp outside one.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Added {
    pub bath: Option<Ulid>,
    pub what: Additive,
    /// The shelf product that it came from.
    pub product: Option<Ulid>,
    pub amount: Amount,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The substance added.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
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

/// The bath was drained or quenched: its time ends at the entry's `at`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathStopped {
    pub bath: Ulid,
    pub why: StopReason,
    /// What was done and seen, in the person's words.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Why a bath was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
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
