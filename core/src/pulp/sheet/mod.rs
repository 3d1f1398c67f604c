//! From oven-dry pulp to sheets, and the vat that they are pulled from.

mod additive;
mod format;
mod vat;

pub use additive::{Additive, AdditiveDose, additive_dose};
pub use format::{Format, Size};
pub use vat::{PulledSheet, TopUp, Vat};

use crate::message::{Field, Message, Value};
use crate::quantity::{Basis, Known, Mass, Ratio, Volume, grams, in_grams, in_share};

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

/// Sheets to be made of some pulp.
///
/// Grammage is that of the finished, air-dry sheet, as ISO 536 has it: mass
/// over area, conditioned at 23 °C and 50 % humidity (ISO 187).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetJob {
    /// Size of the finished sheet.
    pub format: Format,
    /// Grams a square metre, air-dry.
    pub grammage: f64,
    /// Water in the air-dry sheet, of its mass: 7–8 % at 50 % humidity (from memory).
    pub moisture: Ratio,
    /// Fibre that stays on the mould: 85–98 % (no print seen; measure your own).
    pub retention: Known<Ratio>,
    /// Shortening of each side from wet to dry; beaten abaca or flax may reach
    /// a tenth (from memory).
    pub shrinkage: Ratio,
}

/// How far the pulp goes.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPlan {
    /// One finished sheet, air-dry.
    pub sheet: Mass,
    /// Fibre in one sheet, oven-dry.
    pub sheet_dry: Mass,
    /// Fibre to put in the vat for one sheet, what the mould loses included.
    pub sheet_from_vat: Mass,
    /// Whole sheets, with fewest and most.
    pub sheets: Known<u64>,
    /// Inside size of the deckle for that finished size.
    pub deckle: Size,
    /// Oven-dry grammage on the mould, before it shrinks, g/m².
    pub grammage_on_mould: f64,
}

/// Why there are no sheets.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetRefusal {
    NoPulp {
        given: Mass,
    },
    /// A side of nothing or less, or over 3 m.
    BadFormat {
        millimetres: f64,
    },
    /// A-sizes run from 0 to 10.
    NoSuchSize {
        given: u64,
    },
    /// Outside 3–2000 g/m².
    BadGrammage {
        given: f64,
    },
    /// Outside 0–30 %.
    BadMoisture {
        given: Ratio,
    },
    /// Outside 0–100 %.
    BadRetention {
        given: Ratio,
    },
    /// Outside 0–40 %.
    BadShrinkage {
        given: Ratio,
    },
    /// A vat of nothing or less.
    NoVat {
        given: Volume,
    },
    /// Outside 0.01–5 %, where stock can be pulled from.
    BadConsistency {
        given: Ratio,
    },
    /// The stock for topping up is no thicker than the vat.
    StockTooThin {
        given: Ratio,
    },
    /// More pulled than the vat holds.
    VatRunsOut {
        after: u64,
    },
    /// A dose outside its usual range by tenfold.
    BadDose {
        additive: Additive,
        given: Ratio,
    },
}

impl SheetRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        let of = |ratio: &Ratio| Value::Share(in_share(*ratio));
        match self {
            Self::NoPulp { given } => {
                new("sheet-refusal-no_pulp").beside(PULP).with("given", Value::Mass(*given))
            }
            Self::BadFormat { millimetres } => new("sheet-refusal-bad_format")
                .beside(FORMAT)
                .with("given", Value::Number(*millimetres))
                .with("max", Value::Number(format::LARGEST)),
            Self::NoSuchSize { given } => {
                new("sheet-refusal-no_such_size").beside(FORMAT).with("given", Value::Count(*given))
            }
            Self::BadGrammage { given } => new("sheet-refusal-bad_grammage")
                .beside(GRAMMAGE)
                .with("given", Value::Number(*given))
                .with("min", Value::Number(3.0))
                .with("max", Value::Number(2000.0)),
            Self::BadMoisture { given } => new("sheet-refusal-bad_moisture")
                .beside(MOISTURE)
                .with("given", of(given))
                .with("max", Value::Share(0.3)),
            Self::BadRetention { given } => {
                new("sheet-refusal-bad_retention").beside(RETENTION).with("given", of(given))
            }
            Self::BadShrinkage { given } => new("sheet-refusal-bad_shrinkage")
                .beside(SHRINKAGE)
                .with("given", of(given))
                .with("max", Value::Share(0.4)),
            Self::NoVat { given } => {
                new("sheet-refusal-no_vat").beside(VAT).with("given", Value::Volume(*given))
            }
            Self::BadConsistency { given } => new("sheet-refusal-bad_consistency")
                .beside(CONSISTENCY)
                .with("given", of(given))
                .with("min", Value::Share(0.0001))
                .with("max", Value::Share(0.05)),
            Self::StockTooThin { given } => {
                new("sheet-refusal-stock_too_thin").beside(CONSISTENCY).with("given", of(given))
            }
            Self::VatRunsOut { after } => {
                new("sheet-refusal-vat_runs_out").beside(SHEETS).with("after", Value::Count(*after))
            }
            Self::BadDose { additive, given } => new("sheet-refusal-bad_dose")
                .beside(ADDITIVE)
                .with("additive", Value::Word(additive.word()))
                .with("given", of(given)),
        }
    }
}

impl SheetJob {
    /// How many sheets `pulp` (oven-dry) makes.
    ///
    /// # Errors
    /// [`SheetRefusal`] names the field.
    pub fn plan(&self, pulp: Known<Mass>) -> Result<SheetPlan, SheetRefusal> {
        for given in [pulp.low, pulp.value, pulp.high] {
            if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
                return Err(SheetRefusal::NoPulp { given });
            }
        }
        self.check()?;
        let finished = self.format.size()?;
        let sheet = self.grammage * finished.square_metres();
        let dry = sheet * (1.0 - in_share(self.moisture));
        let keep = 1.0 - in_share(self.shrinkage);
        let deckle = Size { width: finished.width / keep, height: finished.height / keep };
        let count = |pulp: Mass, retention: Ratio| {
            (in_grams(pulp) * in_share(retention) / dry + 1e-9).floor() as u64
        };
        Ok(SheetPlan {
            sheet: grams(sheet),
            sheet_dry: grams(dry),
            sheet_from_vat: grams(dry / in_share(self.retention.value)),
            sheets: Known {
                value: count(pulp.value, self.retention.value),
                low: count(pulp.low, self.retention.low),
                high: count(pulp.high, self.retention.high),
                basis: Basis::Computed,
            },
            deckle,
            grammage_on_mould: dry / deckle.square_metres(),
        })
    }

    /// Oven-dry pulp for `sheets` sheets, mould losses included.
    ///
    /// # Errors
    /// [`SheetRefusal`] names the field.
    pub fn pulp_for(&self, sheets: u32) -> Result<Known<Mass>, SheetRefusal> {
        self.check()?;
        let area = self.format.size()?.square_metres();
        let dry = self.grammage * area * (1.0 - in_share(self.moisture)) * f64::from(sheets);
        let of = |retention: Ratio| grams(dry / in_share(retention));
        Ok(Known {
            value: of(self.retention.value),
            low: of(self.retention.high),
            high: of(self.retention.low),
            basis: self.retention.basis,
        })
    }

    fn check(&self) -> Result<(), SheetRefusal> {
        if !(3.0..=2000.0).contains(&self.grammage) {
            return Err(SheetRefusal::BadGrammage { given: self.grammage });
        }
        if !(0.0..=0.3).contains(&in_share(self.moisture)) {
            return Err(SheetRefusal::BadMoisture { given: self.moisture });
        }
        for given in [self.retention.low, self.retention.value, self.retention.high] {
            if !(in_share(given) > 0.0 && in_share(given) <= 1.0) {
                return Err(SheetRefusal::BadRetention { given });
            }
        }
        if !(0.0..=0.4).contains(&in_share(self.shrinkage)) {
            return Err(SheetRefusal::BadShrinkage { given: self.shrinkage });
        }
        Ok(())
    }
}
