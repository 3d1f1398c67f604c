//! How many sheets some pulp makes, and how much pulp some sheets need.
//! Not here: the vat, which is `vat`.

use super::{SheetError, SheetFormat, SheetSize};
use crate::pulp::consistency::check_positive;
use crate::quantity::{Basis, Estimate, Mass, Ratio, grams, in_grams, in_share};

/// Sheets that nobody measured: air-dry grammage (a handmade sheet for writing), moisture at 50 %
/// humidity, retention on the mould, and shrinkage of a little-beaten pulp (common practice, no
/// source).
pub const USUAL_GRAMMAGE: f64 = 100.0;
pub const USUAL_MOISTURE: f64 = 0.07;
pub const USUAL_RETENTION: f64 = 0.92;
pub const USUAL_SHRINKAGE: f64 = 0.02;

/// Error of a retention that was not measured, as a part of it (own estimate, no source).
const RETENTION_OFF: f64 = 0.05;

/// A retention on the mould that was not measured.
pub fn assumed_retention(retention: f64) -> Estimate<f64> {
    let within = Estimate::within(retention, RETENTION_OFF, Basis::Assumed);
    Estimate { high: within.high.min(1.0).max(retention), ..within }
}

/// Sheets to be made.
///
/// Grammage is that of the finished, air-dry sheet, as ISO 536 has it: mass
/// over area, conditioned at 23 °C and 50 % humidity (ISO 187).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetRequest {
    /// Size of the finished sheet.
    pub format: SheetFormat,
    /// Air-dry, g/m².
    pub grammage: f64,
    /// Water in the air-dry sheet, share of its mass: 7–8 % at 50 % humidity (from memory).
    pub moisture: Ratio,
    /// Share of the fibre that stays on the mould: 85–98 % (no print seen).
    pub retention: Estimate<Ratio>,
    /// Shortening of each side from wet to dry; beaten abaca or flax may reach
    /// a tenth (from memory).
    pub shrinkage: Ratio,
}

/// Sheets to expect, and what each needs.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPlan {
    /// One finished sheet, air-dry.
    pub sheet: Mass,
    /// Fibre in one sheet, oven-dry.
    pub sheet_dry: Mass,
    /// Fibre to put in the vat for one sheet, losses of the mould included.
    pub sheet_from_vat: Mass,
    /// Whole sheets, with their range.
    pub sheets: Estimate<u64>,
    /// Inside size of the deckle for the finished size.
    pub deckle: SheetSize,
    /// Oven-dry grammage on the mould, before shrinkage, g/m².
    pub grammage_on_mould: f64,
}

impl SheetRequest {
    /// How many sheets `pulp` (oven-dry) makes.
    ///
    /// # Errors
    /// [`SheetError`] names the field.
    pub fn plan(&self, pulp: Estimate<Mass>) -> Result<SheetPlan, SheetError> {
        check_positive(pulp).map_err(|given| SheetError::NoPulp { given })?;
        self.check()?;
        let finished = self.format.size()?;
        let sheet = self.grammage * finished.square_metres();
        let dry = sheet * (1.0 - in_share(self.moisture));
        let keep = 1.0 - in_share(self.shrinkage);
        let deckle = SheetSize { width: finished.width / keep, height: finished.height / keep };
        let count = |pulp: Mass, retention: Ratio| {
            (in_grams(pulp) * in_share(retention) / dry + 1e-9).floor() as u64
        };
        Ok(SheetPlan {
            sheet: grams(sheet),
            sheet_dry: grams(dry),
            sheet_from_vat: grams(dry / in_share(self.retention.value)),
            sheets: Estimate {
                value: count(pulp.value, self.retention.value),
                low: count(pulp.low, self.retention.low),
                high: count(pulp.high, self.retention.high),
                basis: Basis::Computed,
            },
            deckle,
            grammage_on_mould: dry / deckle.square_metres(),
        })
    }

    /// Oven-dry pulp for `sheets` sheets, losses of the mould included.
    ///
    /// # Errors
    /// [`SheetError`] names the field.
    pub fn pulp_for(&self, sheets: u32) -> Result<Estimate<Mass>, SheetError> {
        self.check()?;
        let area = self.format.size()?.square_metres();
        let dry = self.grammage * area * (1.0 - in_share(self.moisture)) * f64::from(sheets);
        let of = |retention: Ratio| grams(dry / in_share(retention));
        Ok(Estimate {
            value: of(self.retention.value),
            low: of(self.retention.high),
            high: of(self.retention.low),
            basis: self.retention.basis,
        })
    }

    fn check(&self) -> Result<(), SheetError> {
        if !(3.0..=2000.0).contains(&self.grammage) {
            return Err(SheetError::BadGrammage { given: self.grammage });
        }
        if !(0.0..=0.3).contains(&in_share(self.moisture)) {
            return Err(SheetError::BadMoisture { given: self.moisture });
        }
        for given in [self.retention.low, self.retention.value, self.retention.high] {
            if !(in_share(given) > 0.0 && in_share(given) <= 1.0) {
                return Err(SheetError::BadRetention { given });
            }
        }
        if !(0.0..=0.4).contains(&in_share(self.shrinkage)) {
            return Err(SheetError::BadShrinkage { given: self.shrinkage });
        }
        Ok(())
    }
}
