//! An alkaline reserve: calcium carbonate left in the sheet against acid to come.
//!
//! ISO 9706 and ANSI/NISO Z39.48 ask for 20 g of CaCO3 in a kilogram of paper
//! (Library of Congress comparison of permanence standards), which takes up
//! 0.4 mol of acid: each CaCO3 takes two.

use super::substance::CALCIUM_CARBONATE;
use crate::message::{Field, Message, Value};
use crate::quantity::{Basis, Known, Mass, Ratio, grams, in_grams, in_share};

pub const FIBRE: Field = Field("reserve-fibre");
pub const SHARE: Field = Field("reserve-share");
pub const RETENTION: Field = Field("reserve-retention");

/// The reserve that the permanence standards ask for, of the finished paper.
pub const PERMANENT: f64 = 0.02;

/// Most that a sheet is given, of the finished paper: beyond a tenth it is a
/// filled paper, not a reserve (own estimate, no source).
const MOST: f64 = 0.10;

/// How much to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct ReserveDose {
    /// CaCO3 that has to stay in the sheets.
    pub retained: Known<Mass>,
    /// CaCO3 to weigh, what washes through included.
    pub dose: Known<Mass>,
    /// Acid that a kilogram of paper can then take up, mol H+.
    pub acid_per_kilogram: f64,
    pub remarks: Vec<Message>,
}

/// Why there is no dose.
#[derive(Clone, Debug, PartialEq)]
pub enum ReserveRefusal {
    NoFibre {
        given: Mass,
    },
    /// Outside 0–10 % of the paper.
    BadShare {
        given: Ratio,
    },
    /// Outside 5–100 %.
    BadRetention {
        given: Ratio,
    },
}

impl ReserveRefusal {
    /// The refusal as something to say beside its field.
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
                .with("min", Value::Share(0.05)),
        }
    }
}

/// Calcium carbonate for `fibre` (oven-dry) so that it makes up `share` of the
/// finished paper: `fibre × share / (1 − share) / retention`.
///
/// Retention without an aid is often 30–60 % by hand (from memory).
///
/// # Errors
/// [`ReserveRefusal`] names the field.
pub fn reserve_dose(
    fibre: Known<Mass>,
    share: Ratio,
    retention: Known<Ratio>,
) -> Result<ReserveDose, ReserveRefusal> {
    for given in [fibre.low, fibre.value, fibre.high] {
        if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
            return Err(ReserveRefusal::NoFibre { given });
        }
    }
    let part = in_share(share);
    if !(part > 0.0 && part <= MOST) {
        return Err(ReserveRefusal::BadShare { given: share });
    }
    for given in [retention.low, retention.value, retention.high] {
        if !(0.05..=1.0).contains(&in_share(given)) {
            return Err(ReserveRefusal::BadRetention { given });
        }
    }
    let retained = fibre.map(|mass| mass * (part / (1.0 - part)));
    let over = |mass: Mass, retention: Ratio| grams(in_grams(mass) / in_share(retention));
    Ok(ReserveDose {
        retained,
        dose: Known {
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

/// Acid, mol H+, that a kilogram of paper with this share of CaCO3 takes up.
pub fn acid_per_kilogram(share: f64) -> f64 {
    2.0 * 1000.0 * share / CALCIUM_CARBONATE.grams_per_mole
}
