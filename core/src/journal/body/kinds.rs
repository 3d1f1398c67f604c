//! The body of an entry: one variant for each kind of event, and one for kinds unknown here.

use super::{
    Abandoned, AcidFinished, Added, Antichlored, BatchStarted, BathStarted, BathStopped,
    CameraTaught, ColourReading, ColourTarget, Cook, CueAnswered, DeviceNamed, EndTest, LotBlended,
    LotDrawn, OwnFigure, Photo, PhotoId, PlanRecord, ProductAdded, ProductFinished, ProductOpened,
    Reading, ReferenceCard, Reheated, Renamed, ReserveAdded, Rinsed, ScheduleChanged, Sheets,
    SignedOff, Stirred, Stored, StrengthFound, Tagged, TrialDesigned, VesselDescribed, Weighed,
};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use strum::{AsRefStr, VariantNames};
use ulid::Ulid;

/// The event that an entry records. In JSON an object: `kind` names the
/// variant, the other members are those of the variant's struct, with units in
/// their names. An absent member and a `null` one mean the same.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, AsRefStr, VariantNames)]
#[serde(tag = "kind", rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Body {
    // A batch, from raw fibre to sheets.
    BatchStarted(BatchStarted),
    Renamed(Renamed),
    Tagged(Tagged),
    Cooked(Cook),
    Weighed(Weighed),
    Planned(Box<PlanRecord>),
    // A bath within a batch.
    BathStarted(BathStarted),
    ScheduleChanged(ScheduleChanged),
    CueAnswered(CueAnswered),
    Stirred(Stirred),
    Reheated(Reheated),
    VesselDescribed(VesselDescribed),
    Added(Added),
    BathStopped(BathStopped),
    // Observations.
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
    #[serde(rename = "given_up")]
    #[strum(serialize = "given_up")]
    Abandoned(Abandoned),
    // A ladder trial with pulp of the batch.
    TrialDesigned(Box<TrialDesigned>),
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
    CameraTaught(Box<CameraTaught>),
    // Amendments of other entries.
    Withdrawn(Withdrawn),
    Corrected(Corrected),
    /// A kind that a newer version added, or a known kind with a member that
    /// cannot be decoded. Kept whole and written out unchanged.
    #[serde(untagged)]
    Unknown(Map<String, Value>),
}

impl Body {
    /// The `kind` as in JSON, such as `"bath_started"`; empty if an unknown
    /// body has none. The locale names it under `entry-<kind>`.
    pub fn kind(&self) -> &str {
        match self {
            Body::Unknown(members) => {
                members.get("kind").and_then(Value::as_str).unwrap_or_default()
            }
            known => known.as_ref(),
        }
    }

    /// The bath that this is about, if it names one.
    pub fn bath(&self) -> Option<Ulid> {
        match self {
            Body::BathStarted(b) => Some(b.bath),
            Body::ScheduleChanged(b) => Some(b.bath),
            Body::CueAnswered(b) => Some(b.bath),
            Body::Stirred(b) => Some(b.bath),
            Body::Reheated(b) => Some(b.bath),
            Body::VesselDescribed(b) => Some(b.bath),
            Body::BathStopped(b) => Some(b.bath),
            Body::Added(b) => b.bath,
            Body::Reading(b) => b.bath,
            Body::Photo(b) => b.bath,
            Body::ColourReading(b) => b.bath,
            Body::Corrected(c) => c.body.bath(),
            _ => None,
        }
    }

    /// The photo that this refers to, if any.
    pub fn photo(&self) -> Option<&PhotoId> {
        match self {
            Body::Photo(p) => Some(&p.photo),
            Body::Corrected(c) => c.body.photo(),
            _ => None,
        }
    }

    /// The shelf product that was used, if this names one.
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

/// Removes another entry from every projection. The entry itself stays in the
/// log; withdrawing the withdrawal restores it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Withdrawn {
    pub entry: Ulid,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub why: String,
}

/// Replaces the body of another entry. The newest correction by timestamp
/// counts; the instant of the event stays that of the corrected entry unless
/// `at` is given.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Corrected {
    pub entry: Ulid,
    pub body: Box<Body>,
    /// The true instant of the event, if that was wrong too.
    pub at: Option<jiff::Timestamp>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub why: String,
}
