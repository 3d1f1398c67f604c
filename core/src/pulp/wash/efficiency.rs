//! Efficiency of real rinses against perfect mixing, fitted to readings between rinses.
//! Not here: the readings of a book, which `derive::wash_efficiency` collects.

use super::WashError;
use crate::quantity::{
    Basis, Estimate, MassConcentration, Volume, in_grams_per_litre, in_millilitres,
};

/// One rinse is taken to leave `ideal^exponent`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Efficiency {
    /// 1 is perfect mixing; a rinse with less leaves more behind.
    pub exponent: Estimate<f64>,
    /// Pairs of readings that it was fitted to; 0 when it is assumed.
    pub pairs: u32,
}

impl Efficiency {
    /// Without readings: 0.8, with a range of 0.6 to 1. Own estimate; no
    /// published value for hand washing was found.
    pub fn assumed() -> Self {
        Self {
            exponent: Estimate { value: 0.8, low: 0.6, high: 1.0, basis: Basis::Assumed },
            pairs: 0,
        }
    }

    /// Perfect mixing, as textbooks calculate.
    pub fn ideal() -> Self {
        Self { exponent: Estimate::exact(1.0, Basis::Computed), pairs: 0 }
    }

    /// Share of a solute that one rinse leaves where perfect mixing leaves `ideal`.
    pub fn left(&self, ideal: f64) -> f64 {
        ideal.powf(self.exponent.value)
    }
}

/// Largest exponent that a wash is calculated with.
pub(super) const MOST_EXPONENT: f64 = 2.0;

/// One solute in the squeezed-out liquor before and after one rinse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinsePair {
    pub before: MassConcentration,
    pub after: MassConcentration,
    /// Its concentration in the tap water.
    pub tap: MassConcentration,
    /// Water that the pulp holds after a squeeze.
    pub held: Volume,
    /// Clean water added for the rinse.
    pub water: Volume,
}

impl RinsePair {
    /// `(ln ideal, ln observed)`, or `None` for an unusable pair: no fall,
    /// nothing above the tap, or no water.
    fn logs(&self) -> Option<(f64, f64)> {
        let tap = in_grams_per_litre(self.tap);
        let before = in_grams_per_litre(self.before) - tap;
        let after = in_grams_per_litre(self.after) - tap;
        let (held, water) = (in_millilitres(self.held), in_millilitres(self.water));
        let usable = [before, after, held, water].iter().all(|x| x.is_finite() && *x > 0.0);
        (usable && after < before).then(|| ((held / (held + water)).ln(), (after / before).ln()))
    }
}

/// Fits the exponent to pairs of readings by least squares on the logarithms,
/// through the origin (no water, no change): `e = Σxy / Σx²`.
///
/// Unusable pairs are left out. With three or more usable pairs the range is
/// the 95 % interval of the fit (Student's t), with one or two it is ± 25 % (a
/// strip is read to about one step; own estimate). `Ok(None)` if no pair is
/// usable.
///
/// Readings are of squeezed-out liquor, which clears before the water inside
/// the fibre does: with short soaks, early pairs give too high an efficiency,
/// and the low end of the range is the better estimate. Later pairs and longer
/// soaks are more accurate.
///
/// # Errors
/// [`WashError::BadEfficiency`] if the fit falls outside 0.05 to 1.5, where
/// readings were swapped or mistyped.
pub fn fit(pairs: &[RinsePair]) -> Result<Option<Efficiency>, WashError> {
    let logs: Vec<_> = pairs.iter().filter_map(RinsePair::logs).collect();
    let squares: f64 = logs.iter().map(|(x, _)| x * x).sum();
    if logs.is_empty() || squares <= 0.0 {
        return Ok(None);
    }
    let exponent = logs.iter().map(|(x, y)| x * y).sum::<f64>() / squares;
    if !(0.05..=1.5).contains(&exponent) {
        return Err(WashError::BadEfficiency { given: exponent });
    }
    let half = if logs.len() < 3 {
        0.25 * exponent
    } else {
        let misfit: f64 = logs.iter().map(|(x, y)| (y - exponent * x).powi(2)).sum();
        student(logs.len() - 1) * (misfit / (logs.len() - 1) as f64 / squares).sqrt()
    };
    Ok(Some(Efficiency {
        exponent: Estimate {
            value: exponent,
            low: (exponent - half).max(0.01),
            high: (exponent + half).min(MOST_EXPONENT),
            basis: Basis::OwnRecord,
        },
        pairs: u32::try_from(logs.len()).unwrap_or(u32::MAX),
    }))
}

/// Student's t, two-sided 95 %, by degrees of freedom (any statistics table).
fn student(freedom: usize) -> f64 {
    const TABLE: [f64; 10] =
        [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
    TABLE.get(freedom.saturating_sub(1)).copied().unwrap_or(2.2)
}
