//! Why there are no sheets, and beside which field that is shown.
//! Not here: the limits themselves, which stand with what they limit.

use super::SheetAdditive;
use crate::message::{Field, Message, Value};
use crate::quantity::{Mass, Ratio, Volume, in_grams, in_millilitres, in_share};

pub const PULP: Field = Field("sheet-pulp");
pub const FORMAT: Field = Field("sheet-format");
pub const GRAMMAGE: Field = Field("sheet-grammage");
pub const MOISTURE: Field = Field("sheet-moisture");
pub const RETENTION: Field = Field("sheet-retention");
pub const SHRINKAGE: Field = Field("sheet-shrinkage");
pub const VAT: Field = Field("sheet-vat");
pub const CONSISTENCY: Field = Field("sheet-consistency");
pub const SHEETS: Field = Field("sheet-count");
pub const ADDITIVE: Field = Field("sheet-additive");

/// Longest side of a mould that one or two people can lift, mm (common practice, no source).
pub(super) const LONGEST_SIDE_MM: f64 = 3000.0;

/// Why there are no sheets.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SheetError {
    #[error("{} g of pulp; a mass above 0 is needed", in_grams(*.given))]
    NoPulp { given: Mass },
    #[error("a side of {millimetres} mm; above 0 and at most {LONGEST_SIDE_MM} mm is accepted")]
    BadFormat { millimetres: f64 },
    #[error("A{given}; A0 to A10 are the sizes of ISO 216")]
    NoSuchSize { given: u64 },
    #[error("{given} g/m²; 3 to 2000 g/m² is accepted")]
    BadGrammage { given: f64 },
    #[error("a moisture of {}; 0 to 0.3 is accepted", in_share(*.given))]
    BadMoisture { given: Ratio },
    #[error("a retention of {}; above 0 and at most 1 is accepted", in_share(*.given))]
    BadRetention { given: Ratio },
    #[error("a shrinkage of {}; 0 to 0.4 is accepted", in_share(*.given))]
    BadShrinkage { given: Ratio },
    #[error("a vat of {} mL; a volume above 0 is needed", in_millilitres(*.given))]
    NoVat { given: Volume },
    /// Sheets can be pulled from 0.01 to 5 %.
    #[error("a consistency of {}; 0.0001 to 0.05 is accepted", in_share(*.given))]
    BadConsistency { given: Ratio },
    #[error("stock of {} for topping up; it must be thicker than the vat", in_share(*.given))]
    StockTooThin { given: Ratio },
    #[error("the vat runs out after {after} sheets")]
    VatRunsOut { after: u64 },
    /// A dose outside ten times its usual range.
    #[error("a dose of {} of {}, or a product without it", in_share(*.given), .additive.word())]
    BadDose { additive: SheetAdditive, given: Ratio },
}

impl SheetError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        let new = |key, field, given| Message::new(key).beside(field).with("given", given);
        let share = |ratio| Value::Share(in_share(ratio));
        match *self {
            Self::NoPulp { given } => new("sheet-refusal-no_pulp", PULP, Value::Mass(given)),
            Self::BadFormat { millimetres } => {
                new("sheet-refusal-bad_format", FORMAT, Value::Number(millimetres))
                    .with("max", Value::Number(LONGEST_SIDE_MM))
            }
            Self::NoSuchSize { given } => {
                new("sheet-refusal-no_such_size", FORMAT, Value::Count(given))
            }
            Self::BadGrammage { given } => {
                new("sheet-refusal-bad_grammage", GRAMMAGE, Value::Number(given))
                    .with("min", Value::Number(3.0))
                    .with("max", Value::Number(2000.0))
            }
            Self::BadMoisture { given } => {
                new("sheet-refusal-bad_moisture", MOISTURE, share(given))
                    .with("max", Value::Share(0.3))
            }
            Self::BadRetention { given } => {
                new("sheet-refusal-bad_retention", RETENTION, share(given))
            }
            Self::BadShrinkage { given } => {
                new("sheet-refusal-bad_shrinkage", SHRINKAGE, share(given))
                    .with("max", Value::Share(0.4))
            }
            Self::NoVat { given } => new("sheet-refusal-no_vat", VAT, Value::Volume(given)),
            Self::BadConsistency { given } => {
                new("sheet-refusal-bad_consistency", CONSISTENCY, share(given))
                    .with("min", Value::Share(0.0001))
                    .with("max", Value::Share(0.05))
            }
            Self::StockTooThin { given } => {
                new("sheet-refusal-stock_too_thin", CONSISTENCY, share(given))
            }
            Self::VatRunsOut { after } => Message::new("sheet-refusal-vat_runs_out")
                .beside(SHEETS)
                .with("after", Value::Count(after)),
            Self::BadDose { additive, given } => Message::new("sheet-refusal-bad_dose")
                .beside(ADDITIVE)
                .with("additive", Value::Word(additive.word()))
                .with("given", share(given)),
        }
    }
}
