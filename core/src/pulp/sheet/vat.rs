//! The vat: dipping depth, dilution sheet by sheet, topping up.
//! Not here: the number of sheets from some pulp, which is `request`.

use super::{SheetError, SheetSize};
use crate::quantity::{
    Mass, Ratio, Volume, grams, in_grams, in_millilitres, in_share, millilitres, share,
};

/// Oven-dry share of a couched wet sheet: about 15 % fresh off the mould;
/// hydraulically pressed posts reach 30–45 % (from memory).
const COUCHED: f64 = 0.15;

/// Lowest consistency that a sheet is pulled from, 0.01 % (own estimate, no source).
const THINNEST: f64 = 0.0001;

/// A vat of stock. The density of stock is taken as 1 g/mL; at 1 % it is 0.3 % higher.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vat {
    pub volume: Volume,
    /// Oven-dry fibre over total mass.
    pub consistency: Ratio,
}

/// One sheet of a series pulled without topping up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PulledSheet {
    /// 1 for the first.
    pub number: u32,
    /// Consistency that it was pulled from.
    pub consistency: Ratio,
    /// Oven-dry grammage on the mould, g/m².
    pub grammage: f64,
}

/// What to put back after each sheet to keep vat and sheets constant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopUp {
    /// Thicker stock.
    pub stock: Volume,
    /// Water; negative if the stock brings more than the sheet took away, so
    /// that the level of the vat rises by that volume.
    pub water: Volume,
}

impl Vat {
    /// Oven-dry fibre in it.
    ///
    /// # Errors
    /// [`SheetError::NoVat`] and [`SheetError::BadConsistency`].
    pub fn fibre(&self) -> Result<Mass, SheetError> {
        self.check()?;
        Ok(grams(in_millilitres(self.volume) * in_share(self.consistency)))
    }

    /// Depth of stock, mm, that must drain through the mould for a sheet of
    /// `grammage` oven-dry g/m² there: `g/m² / (10 × consistency %)`.
    /// `retention` is the share of fibre that stays on the mould.
    ///
    /// # Errors
    /// As [`Vat::fibre`], and for grammage and retention out of range.
    pub fn depth(&self, grammage: f64, retention: Ratio) -> Result<f64, SheetError> {
        self.check()?;
        if !(3.0..=2000.0).contains(&grammage) {
            return Err(SheetError::BadGrammage { given: grammage });
        }
        if !(in_share(retention) > 0.0 && in_share(retention) <= 1.0) {
            return Err(SheetError::BadRetention { given: retention });
        }
        Ok(grammage / in_share(retention) / (1000.0 * in_share(self.consistency)))
    }

    /// A series of `sheets` sheets, each by the same dip of `depth` mm on a
    /// mould of `size`, without topping up. What drains falls back into the vat;
    /// the sheet takes its fibre and its water with it.
    ///
    /// # Errors
    /// As [`Vat::depth`], and [`SheetError::VatRunsOut`].
    pub fn pull(
        &self,
        sheets: u32,
        size: SheetSize,
        depth: f64,
        retention: Ratio,
    ) -> Result<Vec<PulledSheet>, SheetError> {
        let mut fibre = in_grams(self.fibre()?);
        let mut volume = in_millilitres(self.volume);
        if !(in_share(retention) > 0.0 && in_share(retention) <= 1.0) {
            return Err(SheetError::BadRetention { given: retention });
        }
        if !(depth.is_finite() && depth > 0.0) {
            return Err(SheetError::BadFormat { millimetres: depth });
        }
        // mm × m² is litres.
        let dip = depth * size.square_metres() * 1000.0;
        let mut row = Vec::new();
        for number in 1..=sheets {
            // Too little to dip into, or too thin for a coherent sheet.
            if dip > volume || fibre / volume < THINNEST {
                return Err(SheetError::VatRunsOut { after: u64::from(number - 1) });
            }
            let consistency = fibre / volume;
            let caught = consistency * dip * in_share(retention);
            row.push(PulledSheet {
                number,
                consistency: share(consistency),
                grammage: caught / size.square_metres(),
            });
            fibre -= caught;
            volume -= caught / COUCHED;
        }
        Ok(row)
    }

    /// What to put back after each sheet of `sheet` oven-dry fibre, from stock
    /// of consistency `stock`.
    ///
    /// # Errors
    /// As [`Vat::fibre`], and [`SheetError::StockTooThin`].
    pub fn top_up(&self, sheet: Mass, stock: Ratio) -> Result<TopUp, SheetError> {
        self.check()?;
        let thick = in_share(stock);
        if !(thick > in_share(self.consistency) && thick <= 0.5) {
            return Err(SheetError::StockTooThin { given: stock });
        }
        let sheet = in_grams(sheet);
        if !(sheet.is_finite() && sheet > 0.0) {
            return Err(SheetError::NoPulp { given: grams(sheet) });
        }
        let volume = sheet / thick;
        Ok(TopUp { stock: millilitres(volume), water: millilitres(sheet / COUCHED - volume) })
    }

    fn check(&self) -> Result<(), SheetError> {
        let volume = in_millilitres(self.volume);
        if !(volume.is_finite() && volume > 0.0) {
            return Err(SheetError::NoVat { given: self.volume });
        }
        if !(THINNEST..=0.05).contains(&in_share(self.consistency)) {
            return Err(SheetError::BadConsistency { given: self.consistency });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn vat() -> Vat {
        Vat { volume: millilitres(20_000.0), consistency: share(0.005) }
    }

    const A4: SheetSize = SheetSize { width: 210.0, height: 297.0 };

    #[test]
    fn sheets_get_lighter_as_the_vat_is_diluted() {
        let depth = vat().depth(92.0, share(0.95)).unwrap();
        let row = vat().pull(10, A4, depth, share(0.95)).unwrap();
        assert!((row[0].grammage - 92.0).abs() < 1e-9);
        assert!(row.windows(2).all(|pair| pair[1].grammage < pair[0].grammage));
        assert!(row[9].grammage < 65.0, "ten sheets of 5.7 g out of 100 g");
    }

    #[test]
    fn topping_up_keeps_fibre_and_volume() {
        let sheet = 92.0 * A4.square_metres();
        let top = vat().top_up(grams(sheet), share(0.03)).unwrap();
        let stock = in_millilitres(top.stock);
        assert!((stock * 0.03 - sheet).abs() < 1e-9);
        assert!((stock + in_millilitres(top.water) - sheet / COUCHED).abs() < 1e-9);
        assert!(vat().top_up(grams(sheet), share(0.004)).is_err());
    }

    #[test]
    fn an_empty_vat_is_reported_with_the_number_of_sheets() {
        let little = Vat { volume: millilitres(3000.0), consistency: share(0.005) };
        let refused = little.pull(500, A4, 40.0, share(0.9)).unwrap_err();
        assert!(matches!(refused, SheetError::VatRunsOut { after } if after > 0));
    }
}
