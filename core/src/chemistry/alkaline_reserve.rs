//! Alkaline reserve: calcium carbonate left in the sheet against later acid.
//!
//! ISO 9706 and ANSI/NISO Z39.48 ask for 20 g of CaCO3 in a kilogram of paper
//! (Library of Congress comparison of permanence standards), which takes up
//! 0.4 mol of acid: each CaCO3 takes two.

use super::substance::CALCIUM_CARBONATE;
use crate::message::{Field, Message, Value};
use crate::quantity::{Basis, Estimate, Mass, Ratio, grams, in_grams, in_share};

pub const FIBRE: Field = Field("reserve-fibre");
pub const SHARE: Field = Field("reserve-share");
pub const RETENTION: Field = Field("reserve-retention");

/// Reserve of the permanence standards, share of the finished paper.
pub const PERMANENT: f64 = 0.02;

/// Share of the chalk that stays in handmade sheets without a retention aid: often 30 to 60 %
/// (from memory).
pub const USUAL_RETENTION: Estimate<f64> =
    Estimate { value: 0.45, low: 0.30, high: 0.60, basis: Basis::Assumed };

/// Error of a retention that a person gives as their own, as a part of it (own estimate, no
/// source).
const OWN_RETENTION_OFF: f64 = 0.1;

/// Largest reserve, share of the finished paper: more than a tenth is a filler
/// (own estimate, no source).
const MOST: f64 = 0.10;

/// Lowest retention that is accepted.
const LEAST_RETENTION: f64 = 0.05;

/// A retention that a person gives as their own.
pub fn own_retention(retention: f64) -> Estimate<f64> {
    let within = Estimate::within(retention, OWN_RETENTION_OFF, Basis::OwnRecord);
    let low = within.low.max(LEAST_RETENTION).min(retention);
    Estimate { low, high: within.high.min(1.0).max(retention), ..within }
}

/// Calcium carbonate to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct ReserveDose {
    /// CaCO3 that stays in the sheets.
    pub retained: Estimate<Mass>,
    /// CaCO3 to weigh, losses through the mould included.
    pub dose: Estimate<Mass>,
    /// Acid that a kilogram of the paper neutralises, mol H+.
    pub acid_per_kilogram: f64,
    pub remarks: Vec<Message>,
}

/// Why there is no dose.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReserveError {
    #[error("fibre of {} g is not above zero", in_grams(*.given))]
    NoFibre { given: Mass },
    #[error("share {} of the paper is not between 0 and {}", in_share(*.given), MOST)]
    BadShare { given: Ratio },
    #[error("retention {} is not between {} and 1", in_share(*.given), LEAST_RETENTION)]
    BadRetention { given: Ratio },
}

impl ReserveError {
    /// The error as a message beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::NoFibre { given } => Message::new("reserve-refusal-no_fibre")
                .beside(FIBRE)
                .with("given", Value::Mass(*given)),
            Self::BadShare { given } => Message::new("reserve-refusal-bad_share")
                .beside(SHARE)
                .with("given", Value::Share(in_share(*given)))
                .with("max", Value::Share(MOST)),
            Self::BadRetention { given } => Message::new("reserve-refusal-bad_retention")
                .beside(RETENTION)
                .with("given", Value::Share(in_share(*given)))
                .with("min", Value::Share(LEAST_RETENTION)),
        }
    }
}

/// Calcium carbonate for `fibre` (oven-dry) that gives `share` of the finished
/// paper: `fibre × share / (1 − share) / retention`.
///
/// Retention without an aid: [`USUAL_RETENTION`].
///
/// # Errors
/// [`ReserveError`] names the field.
pub fn reserve_dose(
    fibre: Estimate<Mass>,
    share: Ratio,
    retention: Estimate<Ratio>,
) -> Result<ReserveDose, ReserveError> {
    for given in [fibre.low, fibre.value, fibre.high] {
        if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
            return Err(ReserveError::NoFibre { given });
        }
    }
    let part = in_share(share);
    if !(part > 0.0 && part <= MOST) {
        return Err(ReserveError::BadShare { given: share });
    }
    for given in [retention.low, retention.value, retention.high] {
        if !(LEAST_RETENTION..=1.0).contains(&in_share(given)) {
            return Err(ReserveError::BadRetention { given });
        }
    }
    let retained = fibre.map(|mass| mass * (part / (1.0 - part)));
    let over = |mass: Mass, retention: Ratio| grams(in_grams(mass) / in_share(retention));
    Ok(ReserveDose {
        retained,
        dose: Estimate {
            value: over(retained.value, retention.value),
            low: over(retained.low, retention.high),
            high: over(retained.high, retention.low),
            basis: Basis::Computed,
        },
        acid_per_kilogram: acid_per_kilogram(part),
        remarks: vec![
            Message::new("reserve-remark-last_of_all"),
            Message::new("reserve-remark-retention"),
        ],
    })
}

/// Acid, mol H+, that a kilogram of paper with this share of CaCO3 neutralises.
pub fn acid_per_kilogram(share: f64) -> f64 {
    2.0 * 1000.0 * share / CALCIUM_CARBONATE.grams_per_mole
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_own_retention_is_marked_as_own_and_stays_a_share() {
        let own = own_retention(0.95);
        assert_eq!((own.value, own.high, own.basis), (0.95, 1.0, Basis::OwnRecord));
        assert!(own.low < 0.9);
        assert_eq!(USUAL_RETENTION.basis, Basis::Assumed);
    }
}
