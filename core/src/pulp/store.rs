//! Putting pulp by: what the squeeze left, what the cook and the bath yielded,
//! and how long it keeps.

use jiff::civil::Date;
use jiff::{Span, ToSpan};

use crate::journal::StoredForm;
use crate::message::{Field, Message, Value};
use crate::quantity::{Basis, Known, Mass, Ratio, in_grams, share};

pub const WET_MASS: Field = Field("store-wet_mass");
pub const DRY_MASS: Field = Field("store-dry_mass");
pub const RAW_MASS: Field = Field("store-raw_mass");
pub const COOKED_MASS: Field = Field("store-cooked_mass");

/// How good the ground is under a figure, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Evidence {
    /// A published text that was seen.
    Read,
    /// What the trade does; no source.
    CommonPractice,
    /// Remembered; no print was seen.
    Memory,
    /// Our own estimate.
    OwnEstimate,
}

impl Evidence {
    /// Locale key.
    pub fn word(self) -> &'static str {
        match self {
            Self::Read => "evidence-read",
            Self::CommonPractice => "evidence-common_practice",
            Self::Memory => "evidence-memory",
            Self::OwnEstimate => "evidence-own_estimate",
        }
    }
}

/// What was weighed when the pulp was put by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PutBy {
    /// The squeezed lump.
    pub wet: Mass,
    /// Its oven-dry fibre.
    pub dry: Mass,
    /// Oven-dry raw fibre that it began as, where known.
    pub raw: Option<Mass>,
    /// Oven-dry pulp after the cook, before the bath, where known.
    pub cooked: Option<Mass>,
}

/// What those weights say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Yield {
    pub dryness: Ratio,
    pub from_raw: Option<Ratio>,
    pub from_cooked: Option<Ratio>,
}

/// Why there is no yield.
#[derive(Clone, Debug, PartialEq)]
pub enum StoreRefusal {
    NoMass {
        field: Field,
        given: Mass,
    },
    /// More dry fibre than the wet lump weighs.
    DrierThanDry {
        wet: Mass,
        dry: Mass,
    },
    /// More came out than went in.
    MoreThanAll {
        field: Field,
        started: Mass,
        ended: Mass,
    },
}

impl StoreRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::NoMass { field, given } => Message::new("store-refusal-no_mass")
                .beside(*field)
                .with("given", Value::Mass(*given)),
            Self::DrierThanDry { wet, dry } => Message::new("store-refusal-drier_than_dry")
                .beside(DRY_MASS)
                .with("wet", Value::Mass(*wet))
                .with("dry", Value::Mass(*dry)),
            Self::MoreThanAll { field, started, ended } => {
                Message::new("store-refusal-more_than_all")
                    .beside(*field)
                    .with("started", Value::Mass(*started))
                    .with("ended", Value::Mass(*ended))
            }
        }
    }
}

impl PutBy {
    /// Dryness of the squeeze, and yield from raw and from cooked.
    ///
    /// # Errors
    /// [`StoreRefusal`] names the field.
    pub fn yields(&self) -> Result<Yield, StoreRefusal> {
        let given = [
            (WET_MASS, Some(self.wet)),
            (DRY_MASS, Some(self.dry)),
            (RAW_MASS, self.raw),
            (COOKED_MASS, self.cooked),
        ];
        for (field, mass) in given {
            if let Some(given) = mass
                && !(in_grams(given).is_finite() && in_grams(given) > 0.0)
            {
                return Err(StoreRefusal::NoMass { field, given });
            }
        }
        if self.dry > self.wet {
            return Err(StoreRefusal::DrierThanDry { wet: self.wet, dry: self.dry });
        }
        let from = |field: Field, started: Option<Mass>| match started {
            Some(started) if self.dry > started => {
                Err(StoreRefusal::MoreThanAll { field, started, ended: self.dry })
            }
            Some(started) => Ok(Some(share(in_grams(self.dry) / in_grams(started)))),
            None => Ok(None),
        };
        Ok(Yield {
            dryness: share(in_grams(self.dry) / in_grams(self.wet)),
            from_raw: from(RAW_MASS, self.raw)?,
            from_cooked: from(COOKED_MASS, self.cooked)?,
        })
    }
}

/// What kind of fibre is put by, as far as keeping goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Keeper {
    /// Cotton linters, unbeaten and bought clean.
    Linter,
    /// Anything cooked from a plant.
    Plant,
}

/// How long it keeps, and how we know.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepBy {
    /// Days, with range; `None` where dryness, not time, is what counts.
    pub days: Option<Known<f64>>,
    pub evidence: Evidence,
    pub remarks: Vec<Message>,
}

/// Keep-by guidance. Guidance: smell, slime and specks decide.
///
/// Wet and cold, plant pulp "won't last more than a week or two" and unopened
/// linter several months; frozen up to a year (supplier's advice relayed on an
/// art teachers' list, August 1999). Beaten pulp keeps worse than unbeaten (from
/// memory): the short end is taken for it.
pub fn keep_by(form: StoredForm, keeper: Keeper, beaten: bool) -> KeepBy {
    let days = |low: f64, value: f64, high: f64| {
        let value = if beaten { low } else { value };
        Some(Known { value, low, high, basis: Basis::Assumed })
    };
    let (days, evidence) = match (form, keeper) {
        (StoredForm::WetCold, Keeper::Plant) => (days(7.0, 10.0, 14.0), Evidence::Read),
        (StoredForm::WetCold, Keeper::Linter) => (days(30.0, 60.0, 120.0), Evidence::Read),
        (StoredForm::Frozen, _) => (days(180.0, 365.0, 365.0), Evidence::Read),
        (StoredForm::Dried, _) => (None, Evidence::CommonPractice),
    };
    let mut remarks = vec![Message::new(match form {
        StoredForm::WetCold => "store-remark-wet_cold",
        StoredForm::Frozen => "store-remark-frozen",
        StoredForm::Dried => "store-remark-dried",
    })];
    if beaten {
        remarks.push(Message::new(match form {
            StoredForm::Dried => "store-remark-beaten_dried",
            _ => "store-remark-beaten_wet",
        }));
    }
    remarks.push(Message::new("store-remark-no_bleach_to_preserve"));
    KeepBy { days, evidence, remarks }
}

impl KeepBy {
    /// The day to write on the tub, counted from the day it was put by.
    pub fn date(&self, put_by: Date) -> Option<Date> {
        let days: Span = (self.days?.value as i64).days();
        put_by.checked_add(days).ok()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::{grams, in_share};

    #[test]
    fn yields_from_raw_and_cooked() {
        let put_by = PutBy {
            wet: grams(500.0),
            dry: grams(100.0),
            raw: Some(grams(250.0)),
            cooked: Some(grams(110.0)),
        };
        let found = put_by.yields().unwrap();
        assert!((in_share(found.dryness) - 0.2).abs() < 1e-12);
        assert!((in_share(found.from_raw.unwrap()) - 0.4).abs() < 1e-12);
        assert!((in_share(found.from_cooked.unwrap()) - 100.0 / 110.0).abs() < 1e-12);
        let swapped = PutBy { raw: Some(grams(90.0)), ..put_by };
        assert_eq!(swapped.yields().unwrap_err().message().field, Some(RAW_MASS));
        let impossible = PutBy { dry: grams(501.0), ..put_by };
        assert_eq!(impossible.yields().unwrap_err().message().field, Some(DRY_MASS));
    }

    #[test]
    fn beaten_pulp_keeps_the_short_end_and_dry_pulp_has_no_date() {
        let made = jiff::civil::date(2026, 2, 25);
        let plain = keep_by(StoredForm::WetCold, Keeper::Plant, false);
        let beaten = keep_by(StoredForm::WetCold, Keeper::Plant, true);
        assert_eq!(beaten.date(made), Some(jiff::civil::date(2026, 3, 4)));
        assert!(plain.date(made) > beaten.date(made));
        assert_eq!(keep_by(StoredForm::Dried, Keeper::Plant, false).date(made), None);
    }
}
