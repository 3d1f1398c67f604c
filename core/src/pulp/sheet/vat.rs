//! The vat: how deep to dip, how it thins, what to put back.

use super::{SheetRefusal, Size};
use crate::quantity::{
    Mass, Ratio, Volume, grams, in_grams, in_millilitres, in_share, millilitres, share,
};

/// Oven-dry share of a couched wet sheet: hydraulic posts reach 30–45 %, a
/// sheet fresh off the mould about 15 % (from memory).
const COUCHED: f64 = 0.15;

/// Thinnest stock that a sheet is pulled from, 0.01 % (own estimate, no source).
const THINNEST: f64 = 0.0001;

/// A vat of stock. Stock is counted as 1 g/mL: at 1 % it is 0.3 % heavier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vat {
    pub volume: Volume,
    /// Oven-dry fibre over all.
    pub consistency: Ratio,
}

/// One sheet out of a row pulled without topping up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PulledSheet {
    /// 1 for the first.
    pub number: u32,
    /// Consistency that it was pulled from.
    pub consistency: Ratio,
    /// Oven-dry grammage on the mould, g/m².
    pub grammage: f64,
}

/// What to put back after each sheet, to keep vat and sheets as they are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopUp {
    /// Thicker stock.
    pub stock: Volume,
    /// Water; below zero, the stock brings more than the sheet took away and
    /// the vat rises by that much.
    pub water: Volume,
}

impl Vat {
    /// Oven-dry fibre in it.
    ///
    /// # Errors
    /// [`SheetRefusal::NoVat`] and [`SheetRefusal::BadConsistency`].
    pub fn fibre(&self) -> Result<Mass, SheetRefusal> {
        self.check()?;
        Ok(grams(in_millilitres(self.volume) * in_share(self.consistency)))
    }

    /// Depth of stock, mm, that must drain through the mould for a sheet of
    /// `grammage` oven-dry g/m² there: `g/m² / (10 × consistency %)`.
    /// `retention` is the share of fibre that stays on the mould.
    ///
    /// # Errors
    /// As [`Vat::fibre`], and for grammage and retention out of range.
    pub fn depth(&self, grammage: f64, retention: Ratio) -> Result<f64, SheetRefusal> {
        self.check()?;
        if !(3.0..=2000.0).contains(&grammage) {
            return Err(SheetRefusal::BadGrammage { given: grammage });
        }
        if !(in_share(retention) > 0.0 && in_share(retention) <= 1.0) {
            return Err(SheetRefusal::BadRetention { given: retention });
        }
        Ok(grammage / in_share(retention) / (1000.0 * in_share(self.consistency)))
    }

    /// A row of `sheets` sheets, each by the same dip of `depth` mm on a mould
    /// of `size`, with nothing put back. What drains falls back into the vat;
    /// the sheet takes its fibre and its wetness with it.
    ///
    /// # Errors
    /// As [`Vat::depth`], and [`SheetRefusal::VatRunsOut`].
    pub fn pull(
        &self,
        sheets: u32,
        size: Size,
        depth: f64,
        retention: Ratio,
    ) -> Result<Vec<PulledSheet>, SheetRefusal> {
        let mut fibre = in_grams(self.fibre()?);
        let mut volume = in_millilitres(self.volume);
        if !(in_share(retention) > 0.0 && in_share(retention) <= 1.0) {
            return Err(SheetRefusal::BadRetention { given: retention });
        }
        if !(depth.is_finite() && depth > 0.0) {
            return Err(SheetRefusal::BadFormat { millimetres: depth });
        }
        // mm × m² is litres.
        let dip = depth * size.square_metres() * 1000.0;
        let mut row = Vec::new();
        for number in 1..=sheets {
            // Too little to dip into, or too thin for a sheet to hold together.
            if dip > volume || fibre / volume < THINNEST {
                return Err(SheetRefusal::VatRunsOut { after: u64::from(number - 1) });
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
    /// As [`Vat::fibre`], and [`SheetRefusal::StockTooThin`].
    pub fn top_up(&self, sheet: Mass, stock: Ratio) -> Result<TopUp, SheetRefusal> {
        self.check()?;
        let thick = in_share(stock);
        if !(thick > in_share(self.consistency) && thick <= 0.5) {
            return Err(SheetRefusal::StockTooThin { given: stock });
        }
        let sheet = in_grams(sheet);
        if !(sheet.is_finite() && sheet > 0.0) {
            return Err(SheetRefusal::NoPulp { given: grams(sheet) });
        }
        let volume = sheet / thick;
        Ok(TopUp { stock: millilitres(volume), water: millilitres(sheet / COUCHED - volume) })
    }

    fn check(&self) -> Result<(), SheetRefusal> {
        let volume = in_millilitres(self.volume);
        if !(volume.is_finite() && volume > 0.0) {
            return Err(SheetRefusal::NoVat { given: self.volume });
        }
        if !(THINNEST..=0.05).contains(&in_share(self.consistency)) {
            return Err(SheetRefusal::BadConsistency { given: self.consistency });
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

    const A4: Size = Size { width: 210.0, height: 297.0 };

    #[test]
    fn sheets_get_lighter_as_the_vat_thins() {
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
    fn an_empty_vat_says_after_how_many() {
        let little = Vat { volume: millilitres(3000.0), consistency: share(0.005) };
        let refused = little.pull(500, A4, 40.0, share(0.9)).unwrap_err();
        assert!(matches!(refused, SheetRefusal::VatRunsOut { after } if after > 0));
    }
}
