//! The projection of entries about a lot of stored pulp.

use super::TimelineEntry;
use crate::journal::{Body, LotBlended, LotPart, Stored, StoredForm};
use jiff::{Timestamp, civil::Date};
use ulid::Ulid;

/// A lot of stored pulp.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    pub id: Ulid,
    pub name: String,
    pub origin: LotOrigin,
    pub form: StoredForm,
    pub place: String,
    pub keep_by: Option<Date>,
    pub stored: Timestamp,
    /// Oven-dry mass when it was stored, g.
    pub dry_g_stored: f64,
    /// Oven-dry mass drawn since, g; more than was stored if the weighings
    /// disagree.
    pub dry_g_drawn: f64,
    /// Lots that were made with some of this one.
    pub went_into: Vec<Ulid>,
    pub timeline: Vec<TimelineEntry>,
}

/// Where a lot came from.
#[derive(Clone, Debug, PartialEq)]
pub enum LotOrigin {
    Batch(Ulid),
    /// Split off or blended from other lots.
    Lots(Vec<LotPart>),
}

impl Lot {
    /// Oven-dry mass left, g; at least 0.
    pub fn dry_g_left(&self) -> f64 {
        (self.dry_g_stored - self.dry_g_drawn).max(0.0)
    }

    /// The lot that a batch was stored as; it takes the name of the batch.
    pub(super) fn of_batch(batch: Ulid, stored: &Stored, at: Timestamp, name: String) -> Self {
        Lot {
            id: stored.lot,
            name,
            origin: LotOrigin::Batch(batch),
            form: stored.form,
            place: stored.place.clone(),
            keep_by: stored.keep_by,
            stored: at,
            dry_g_stored: stored.wet_mass_g.value * stored.dryness.value,
            dry_g_drawn: 0.0,
            went_into: Vec::new(),
            timeline: Vec::new(),
        }
    }

    pub(super) fn of_blend(id: Ulid, blend: &LotBlended, at: Timestamp) -> Self {
        Lot {
            id,
            name: blend.name.clone(),
            origin: LotOrigin::Lots(blend.parts.clone()),
            form: blend.form,
            place: blend.place.clone(),
            keep_by: blend.keep_by,
            stored: at,
            dry_g_stored: blend.parts.iter().map(|p| p.dry_g.value).sum(),
            dry_g_drawn: 0.0,
            went_into: Vec::new(),
            timeline: Vec::new(),
        }
    }

    /// Applies a visible entry.
    pub(super) fn apply(&mut self, body: &Body) {
        let drawn = match body {
            Body::LotDrawn(drawn) => Some(drawn.dry_g),
            Body::Sheets(sheets) => sheets.dry_g,
            _ => None,
        };
        self.dry_g_drawn += drawn.map_or(0.0, |dry_g| dry_g.value);
    }
}
