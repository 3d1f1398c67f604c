//! The projection of entries about a shelf product.

use super::TimelineEntry;
use crate::journal::{Amount, Body, ProductAdded, ProductKind, Storage, Strength, StrengthFound};
use jiff::{Timestamp, civil::Date};
use ulid::Ulid;

/// A bottle, tub or jar on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    pub id: Ulid,
    pub name: String,
    pub kind: ProductKind,
    /// Strength on the label.
    pub label: Option<Strength>,
    pub size: Option<Amount>,
    pub bought: Option<Date>,
    pub made: Option<Date>,
    pub opened: Option<Date>,
    pub storage: Storage,
    /// What the whole package cost, in the person's own money.
    pub price: Option<f64>,
    /// Strengths found by test, oldest first.
    pub found: Vec<(Timestamp, StrengthFound)>,
    pub added: Timestamp,
    /// When it was used up or thrown out.
    pub finished: Option<Timestamp>,
    pub timeline: Vec<TimelineEntry>,
}

impl Product {
    /// The best known strength and the instant of its test: the last test, or
    /// else the label.
    pub fn strength(&self) -> Option<(&Strength, Option<Timestamp>)> {
        match self.found.last() {
            Some((at, found)) => Some((&found.strength, Some(*at))),
            None => self.label.as_ref().map(|label| (label, None)),
        }
    }

    pub(super) fn new(id: Ulid, added: &ProductAdded, at: Timestamp) -> Self {
        Product {
            id,
            name: added.name.clone(),
            kind: added.product,
            label: added.strength,
            size: added.size,
            bought: added.bought,
            made: added.made,
            opened: added.opened,
            storage: added.storage,
            price: added.price,
            found: Vec::new(),
            added: at,
            finished: None,
            timeline: Vec::new(),
        }
    }

    /// Applies a visible entry.
    pub(super) fn apply(&mut self, body: &Body, at: Timestamp) {
        match body {
            Body::ProductOpened(opened) => self.opened = Some(opened.on),
            Body::StrengthFound(found) => {
                let place = self.found.partition_point(|(t, _)| *t <= at);
                self.found.insert(place, (at, found.clone()));
            }
            Body::ProductFinished(_) => self.finished = Some(at),
            Body::Renamed(renamed) => self.name.clone_from(&renamed.name),
            _ => {}
        }
    }
}
