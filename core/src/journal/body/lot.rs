//! Pulp put by: lots, what is drawn from them, and sheets.

use super::Figure;
pub use crate::pulp::storage::StoredForm;
use crate::record;
use jiff::civil::Date;
use ulid::Ulid;

/// Pulp was put by, and became a lot. Written about the batch it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// The new lot's own id.
    pub lot: Ulid,
    pub wet_mass_g: Figure,
    /// Oven-dry over wet, as a share.
    pub dryness: Figure,
    pub form: StoredForm,
    pub place: String,
    pub keep_by: Option<Date>,
    pub note: String,
}

record!(Stored { lot, wet_mass_g, dryness, form, place: blank, keep_by, note: blank });

/// Some of a lot was taken out.
#[derive(Clone, Debug, PartialEq)]
pub struct LotDrawn {
    /// Oven-dry mass taken.
    pub dry_g: Figure,
    /// What for, in the person's words.
    pub purpose: String,
}

record!(LotDrawn { dry_g, purpose: blank });

/// A new lot was made of parts of others: a blend of several, or a split of
/// one. Written about the new lot.
#[derive(Clone, Debug, PartialEq)]
pub struct LotBlended {
    pub name: String,
    pub parts: Vec<LotPart>,
    pub form: StoredForm,
    pub place: String,
    pub keep_by: Option<Date>,
}

record!(LotBlended { name: blank, parts, form, place: blank, keep_by });

/// What one lot gave to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LotPart {
    pub lot: Ulid,
    /// Oven-dry mass given.
    pub dry_g: Figure,
}

record!(LotPart { lot, dry_g });

/// Sheets were made, from a lot or straight from a batch.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheets {
    pub count: u32,
    /// "A4", or the mould's own name.
    pub format: String,
    pub width_mm: Option<f64>,
    pub height_mm: Option<f64>,
    pub grammage_g_per_m2: Option<Figure>,
    /// Oven-dry pulp that went into them.
    pub dry_g: Option<Figure>,
    pub note: String,
}

record!(Sheets {
    count,
    format: blank,
    width_mm,
    height_mm,
    grammage_g_per_m2,
    dry_g,
    note: blank,
});
