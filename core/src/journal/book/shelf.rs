//! Shelf products, lots and the studio, as their entries tell them.

use super::TimelineEntry;
use crate::journal::{
    Amount, CardRole, DeviceId, Figure, LotPart, OwnFigureOf, ProductKind, ReferenceCard, Storage,
    StoredForm, Strength, StrengthFound,
};
use jiff::Timestamp;
use jiff::civil::Date;
use std::collections::BTreeMap;
use ulid::Ulid;

/// A bottle, tub or jar.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    pub id: Ulid,
    pub name: String,
    pub kind: ProductKind,
    /// What its label says.
    pub label: Option<Strength>,
    pub size: Option<Amount>,
    pub bought: Option<Date>,
    pub made: Option<Date>,
    pub opened: Option<Date>,
    pub storage: Storage,
    /// Strengths found by test, oldest first.
    pub found: Vec<(Timestamp, StrengthFound)>,
    pub added: Timestamp,
    /// When it was used up or thrown out.
    pub finished: Option<Timestamp>,
    pub timeline: Vec<TimelineEntry>,
}

impl Product {
    /// The best statement of its strength and since when it holds: the last
    /// test, else the label.
    pub fn strength(&self) -> Option<(&Strength, Option<Timestamp>)> {
        match self.found.last() {
            Some((at, found)) => Some((&found.strength, Some(*at))),
            None => self.label.as_ref().map(|label| (label, None)),
        }
    }
}

/// Pulp put by.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    pub id: Ulid,
    pub name: String,
    pub origin: LotOrigin,
    pub form: StoredForm,
    pub place: String,
    pub keep_by: Option<Date>,
    pub stored: Timestamp,
    /// Oven-dry mass when it was put by, in grams.
    pub dry_g_stored: f64,
    /// Oven-dry mass drawn since, in grams; more than was stored when a
    /// person weighed otherwise than the book.
    pub dry_g_drawn: f64,
    /// Lots that were made with some of this one.
    pub went_into: Vec<Ulid>,
    pub timeline: Vec<TimelineEntry>,
}

impl Lot {
    /// Oven-dry mass left, in grams; never less than nothing.
    pub fn dry_g_left(&self) -> f64 {
        (self.dry_g_stored - self.dry_g_drawn).max(0.0)
    }
}

/// Where a lot came from.
#[derive(Clone, Debug, PartialEq)]
pub enum LotOrigin {
    Batch(Ulid),
    /// Split off or blended from other lots.
    Lots(Vec<LotPart>),
}

/// What is known of the studio itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Studio {
    /// Figures in force, each with the instant it was noted.
    pub figures: BTreeMap<OwnFigureOf, (Figure, Timestamp)>,
    /// Reference cards with their own values, the newest for each role.
    pub cards: BTreeMap<CardRole, ReferenceCard>,
    /// What people call the devices.
    pub devices: BTreeMap<DeviceId, String>,
    pub timeline: Vec<TimelineEntry>,
}
