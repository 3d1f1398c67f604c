//! From oven-dry pulp to sheets: how many, the vat they are pulled from, size and filler.
//! Not here: the pulp in store, which is `derive::lot`.

mod additive;
mod additive_dose;
mod error;
mod format;
mod request;
mod vat;

pub use additive::SheetAdditive;
pub use additive_dose::{AdditiveDose, additive_dose};
pub use error::{
    ADDITIVE, CONSISTENCY, FORMAT, GRAMMAGE, MOISTURE, PULP, RETENTION, SHEETS, SHRINKAGE,
    SheetError, VAT,
};
pub use format::{SheetFormat, SheetSize};
pub use request::{
    SheetPlan, SheetRequest, USUAL_GRAMMAGE, USUAL_MOISTURE, USUAL_RETENTION, USUAL_SHRINKAGE,
    assumed_retention,
};
pub use vat::{PulledSheet, TopUp, Vat};
