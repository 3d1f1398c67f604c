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

use crate::json::{Json, Misread, members};
use crate::record;
use serde_json::{Map, Value};
use ulid::Ulid;

/// What happened. In a file it is an object whose `kind` says which variant
/// it is; the other members are those of the variant's struct, units in their
/// names. An absent member and a `null` one mean the same.
#[derive(Clone, Debug, PartialEq)]
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
    Unknown(Map<String, Value>),
}

impl Body {
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

/// Ties each variant to its `kind` in files.
macro_rules! kinds {
    ($($variant:ident = $kind:literal,)*) => {
        impl Body {
            /// The `kind` as files have it, such as `"bath_started"`; empty where a
            /// foreign entry has none. Locale files name it under `entry-<kind>`.
            pub fn kind(&self) -> &str {
                match self {
                    $(Body::$variant(_) => $kind,)*
                    Body::Unknown(members) => kind_in(members),
                }
            }

            fn record(&self) -> &dyn Json {
                match self {
                    $(Body::$variant(record) => record,)*
                    Body::Unknown(members) => members,
                }
            }

            /// None for a kind that we do not have.
            fn read(kind: &str, value: &Value) -> Option<Result<Self, Misread>> {
                Some(match kind {
                    $($kind => Json::from_json(value).map(Body::$variant),)*
                    _ => return None,
                })
            }
        }
    };
}

kinds! {
    BatchStarted = "batch_started",
    Renamed = "renamed",
    Cooked = "cooked",
    Weighed = "weighed",
    Planned = "planned",
    BathStarted = "bath_started",
    ScheduleChanged = "schedule_changed",
    CueAnswered = "cue_answered",
    Stirred = "stirred",
    Reheated = "reheated",
    Added = "added",
    BathStopped = "bath_stopped",
    Reading = "reading",
    Photo = "photo",
    ColourReading = "colour_reading",
    ColourTarget = "colour_target",
    Note = "note",
    Rinsed = "rinsed",
    Antichlored = "antichlored",
    EndTest = "end_test",
    AcidFinished = "acid_finished",
    ReserveAdded = "reserve_added",
    SignedOff = "signed_off",
    Stored = "stored",
    Sheets = "sheets",
    GivenUp = "given_up",
    LotDrawn = "lot_drawn",
    LotBlended = "lot_blended",
    ProductAdded = "product_added",
    ProductOpened = "product_opened",
    StrengthFound = "strength_found",
    ProductFinished = "product_finished",
    OwnFigure = "own_figure",
    DeviceNamed = "device_named",
    ReferenceCard = "reference_card",
    Withdrawn = "withdrawn",
    Corrected = "corrected",
}

impl Json for Body {
    fn to_json(&self) -> Value {
        let mut value = self.record().to_json();
        if let (Value::Object(members), false) = (&mut value, matches!(self, Body::Unknown(_))) {
            members.insert("kind".to_owned(), Value::from(self.kind()));
        }
        value
    }

    /// Anything that is an object is a body, if only [`Body::Unknown`].
    fn from_json(value: &Value) -> Result<Self, Misread> {
        let members = members(value)?;
        match Self::read(kind_in(members), value) {
            Some(Ok(body)) => Ok(body),
            _ => Ok(Body::Unknown(members.clone())),
        }
    }
}

fn kind_in(members: &Map<String, Value>) -> &str {
    members.get("kind").and_then(Value::as_str).unwrap_or_default()
}

/// A free remark on a batch, product, lot or the studio.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Note {
    pub text: String,
}

record!(Note { text });

/// Takes another entry out of every projection. The entry itself stays, and
/// withdrawing this withdrawal brings it back: that is how undo is undone.
#[derive(Clone, Debug, PartialEq)]
pub struct Withdrawn {
    pub entry: Ulid,
    pub why: String,
}

record!(Withdrawn { entry, why: blank });

/// Says what another entry should have said. The newest correction by stamp
/// is the one shown; the instant at which the thing happened stays that of the
/// entry corrected unless `at` is given.
#[derive(Clone, Debug, PartialEq)]
pub struct Corrected {
    pub entry: Ulid,
    pub body: Box<Body>,
    /// When it truly happened, if that was wrong too.
    pub at: Option<jiff::Timestamp>,
    pub why: String,
}

record!(Corrected { entry, body, at, why: blank });
