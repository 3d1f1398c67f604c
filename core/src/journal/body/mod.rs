//! What an entry says happened: one variant for each kind of thing that is
//! written down, and a last one for what a newer version wrote.

mod batch;
mod bath;
mod lot;
mod part;
mod plan;
mod shelf;
mod studio;

pub use batch::*;
pub use bath::*;
pub use lot::*;
pub use part::*;
pub use plan::*;
pub use shelf::*;
pub use studio::*;

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use ulid::Ulid;

/// What happened. In a file it is an object whose `kind` says which variant
/// it is; the other members are those of the variant's struct, units in their
/// names. An absent member and a `null` one mean the same.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Body {
    // A batch, from the raw fibre to the sheet.
    BatchStarted(BatchStarted),
    Renamed(Renamed),
    Cooked(Cook),
    Weighed(Weighed),
    Planned(Box<PlanRecord>),
    // A bath within a batch.
    BathStarted(BathStarted),
    ScheduleChanged(ScheduleChanged),
    CueAnswered(CueAnswered),
    Stirred(Stirred),
    Reheated(Reheated),
    Added(Added),
    BathStopped(BathStopped),
    // What was seen and measured.
    Reading(Reading),
    Photo(Photo),
    ColourReading(Box<ColourReading>),
    ColourTarget(Box<ColourTarget>),
    Note(Note),
    // After the bath.
    Rinsed(Rinsed),
    Antichlored(Antichlored),
    EndTest(EndTest),
    AcidFinished(AcidFinished),
    ReserveAdded(ReserveAdded),
    SignedOff(SignedOff),
    Stored(Stored),
    Sheets(Sheets),
    GivenUp(GivenUp),
    // Lots of stored pulp.
    LotDrawn(LotDrawn),
    LotBlended(LotBlended),
    // The shelf.
    ProductAdded(ProductAdded),
    ProductOpened(ProductOpened),
    StrengthFound(StrengthFound),
    ProductFinished(ProductFinished),
    // The studio.
    OwnFigure(OwnFigure),
    DeviceNamed(DeviceNamed),
    ReferenceCard(ReferenceCard),
    // About another entry.
    Withdrawn(Withdrawn),
    Corrected(Corrected),
    /// What this version cannot read: a kind that a newer version added, or
    /// a known kind with a member it cannot make sense of. Kept whole, and
    /// written out again as it came in.
    #[serde(untagged)]
    Unknown(Map<String, Value>),
}

impl Body {
    /// The `kind` as files have it, such as `"bath_started"`; empty where a
    /// foreign entry has none. Locale files name it under `entry.<kind>`.
    pub fn kind(&self) -> String {
        let written = match self {
            Body::Unknown(members) => members.get("kind").cloned(),
            known => serde_json::to_value(known)
                .ok()
                .and_then(|mut v| v.get_mut("kind").map(Value::take)),
        };
        match written {
            Some(Value::String(kind)) => kind,
            _ => String::new(),
        }
    }

    /// The bath that this is about, where it names one.
    pub fn bath(&self) -> Option<Ulid> {
        match self {
            Body::BathStarted(b) => Some(b.bath),
            Body::ScheduleChanged(b) => Some(b.bath),
            Body::CueAnswered(b) => Some(b.bath),
            Body::Stirred(b) => Some(b.bath),
            Body::Reheated(b) => Some(b.bath),
            Body::BathStopped(b) => Some(b.bath),
            Body::Added(b) => b.bath,
            Body::Reading(b) => b.bath,
            Body::Photo(b) => b.bath,
            Body::ColourReading(b) => b.bath,
            Body::Corrected(c) => c.body.bath(),
            _ => None,
        }
    }

    /// The photo whose bytes belong with this, where there is one.
    pub fn photo(&self) -> Option<&PhotoId> {
        match self {
            Body::Photo(p) => Some(&p.photo),
            Body::Corrected(c) => c.body.photo(),
            _ => None,
        }
    }

    /// The shelf product that this drew on, where it names one.
    pub fn product(&self) -> Option<Ulid> {
        match self {
            Body::Planned(p) => p.product.shelf,
            Body::BathStarted(b) => b.product,
            Body::Added(a) => a.product,
            Body::Antichlored(a) => a.product,
            Body::AcidFinished(a) => a.product,
            Body::Corrected(c) => c.body.product(),
            _ => None,
        }
    }
}

/// A free remark on a batch, product, lot or the studio.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Note {
    pub text: String,
}

/// Takes another entry out of every projection. The entry itself stays, and
/// withdrawing this withdrawal brings it back: that is how undo is undone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Withdrawn {
    pub entry: Ulid,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}

/// Says what another entry should have said. The newest correction by stamp
/// is the one shown; the instant at which the thing happened stays that of the
/// entry corrected unless `at` is given.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Corrected {
    pub entry: Ulid,
    pub body: Box<Body>,
    /// When it truly happened, if that was wrong too.
    pub at: Option<jiff::Timestamp>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}
