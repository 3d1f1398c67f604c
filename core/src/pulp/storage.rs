//! Storing pulp: its yield from raw and from cooked fibre, and its shelf life.
//! Not here: the lots of stored pulp, which are `derive::lot`.

use jiff::civil::Date;
use jiff::{Span, ToSpan};

use crate::message::{Field, Message, Value};
use crate::quantity::{Basis, Estimate, Mass, Ratio, in_grams, share};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

pub const WET_MASS: Field = Field("store-wet_mass");
pub const DRY_MASS: Field = Field("store-dry_mass");
pub const RAW_MASS: Field = Field("store-raw_mass");
pub const COOKED_MASS: Field = Field("store-cooked_mass");

/// The form in which pulp is stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum StoredForm {
    WetCold,
    Frozen,
    Dried,
}

/// The source of a figure, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SourceQuality {
    /// A published text that was read.
    Read,
    /// Common practice, no source.
    CommonPractice,
    /// From memory; no print was seen.
    Memory,
    /// Own estimate.
    OwnEstimate,
}

impl SourceQuality {
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

/// Pulp as weighed for storage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StoredPulp {
    /// The squeezed pulp.
    pub wet: Mass,
    /// Its oven-dry fibre.
    pub dry: Mass,
    /// Oven-dry raw fibre that it was made of, where known.
    pub raw: Option<Mass>,
    /// Oven-dry pulp after the cook, before the bath, where known.
    pub cooked: Option<Mass>,
}

/// Dryness and yields of stored pulp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Yield {
    pub dryness: Ratio,
    pub from_raw: Option<Ratio>,
    pub from_cooked: Option<Ratio>,
}

/// Why there is no yield.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum StorageError {
    #[error("`{}` is {} g; a mass above 0 is needed", .field.0, in_grams(*.given))]
    NoMass { field: Field, given: Mass },
    #[error("{} g of dry fibre in {} g of wet pulp", in_grams(*.dry), in_grams(*.wet))]
    DrierThanDry { wet: Mass, dry: Mass },
    #[error(
        "{} g of dry fibre out of {} g (`{}`)",
        in_grams(*.ended), in_grams(*.started), .field.0
    )]
    MoreThanAll { field: Field, started: Mass, ended: Mass },
}

impl StorageError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        let new = |key, field| Message::new(key).beside(field);
        match *self {
            Self::NoMass { field, given } => {
                new("store-refusal-no_mass", field).with("given", Value::Mass(given))
            }
            Self::DrierThanDry { wet, dry } => new("store-refusal-drier_than_dry", DRY_MASS)
                .with("wet", Value::Mass(wet))
                .with("dry", Value::Mass(dry)),
            Self::MoreThanAll { field, started, ended } => {
                new("store-refusal-more_than_all", field)
                    .with("started", Value::Mass(started))
                    .with("ended", Value::Mass(ended))
            }
        }
    }
}

impl StoredPulp {
    /// Dryness of the squeeze, and yield from raw and from cooked.
    ///
    /// # Errors
    /// [`StorageError`] names the field.
    pub fn yields(&self) -> Result<Yield, StorageError> {
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
                return Err(StorageError::NoMass { field, given });
            }
        }
        if self.dry > self.wet {
            return Err(StorageError::DrierThanDry { wet: self.wet, dry: self.dry });
        }
        let from = |field: Field, started: Option<Mass>| match started {
            Some(started) if self.dry > started => {
                Err(StorageError::MoreThanAll { field, started, ended: self.dry })
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

/// Kinds of fibre that differ in shelf life.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FibreClass {
    /// Cotton linters, unbeaten and bought clean.
    Linter,
    /// Anything cooked from a plant.
    Plant,
}

/// How long pulp keeps, and the source of that.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfLife {
    /// Days, with range; `None` for dried pulp, which keeps as long as it is dry.
    pub days: Option<Estimate<f64>>,
    pub source: SourceQuality,
    pub remarks: Vec<Message>,
}

/// Shelf life, as guidance: smell, slime and specks decide.
///
/// Wet and cold, plant pulp "won't last more than a week or two" and unopened
/// linter several months; frozen up to a year (supplier's advice relayed on an
/// art teachers' list, August 1999). Beaten pulp keeps worse than unbeaten (from
/// memory): the short end is taken for it.
pub fn shelf_life(form: StoredForm, fibre: FibreClass, beaten: bool) -> ShelfLife {
    let days = |low: f64, value: f64, high: f64| {
        let value = if beaten { low } else { value };
        Some(Estimate { value, low, high, basis: Basis::Assumed })
    };
    let (days, source) = match (form, fibre) {
        (StoredForm::WetCold, FibreClass::Plant) => (days(7.0, 10.0, 14.0), SourceQuality::Read),
        (StoredForm::WetCold, FibreClass::Linter) => (days(30.0, 60.0, 120.0), SourceQuality::Read),
        (StoredForm::Frozen, _) => (days(180.0, 365.0, 365.0), SourceQuality::Read),
        (StoredForm::Dried, _) => (None, SourceQuality::CommonPractice),
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
    ShelfLife { days, source, remarks }
}

impl ShelfLife {
    /// The date for the label, counted from the day of storing.
    pub fn keep_by(&self, stored: Date) -> Option<Date> {
        let days: Span = (self.days?.value as i64).days();
        stored.checked_add(days).ok()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::{grams, in_share};

    #[test]
    fn yields_from_raw_and_cooked() {
        let pulp = StoredPulp {
            wet: grams(500.0),
            dry: grams(100.0),
            raw: Some(grams(250.0)),
            cooked: Some(grams(110.0)),
        };
        let found = pulp.yields().unwrap();
        assert!((in_share(found.dryness) - 0.2).abs() < 1e-12);
        assert!((in_share(found.from_raw.unwrap()) - 0.4).abs() < 1e-12);
        assert!((in_share(found.from_cooked.unwrap()) - 100.0 / 110.0).abs() < 1e-12);
        let swapped = StoredPulp { raw: Some(grams(90.0)), ..pulp };
        assert_eq!(swapped.yields().unwrap_err().message().field, Some(RAW_MASS));
        let impossible = StoredPulp { dry: grams(501.0), ..pulp };
        assert_eq!(impossible.yields().unwrap_err().message().field, Some(DRY_MASS));
    }

    #[test]
    fn beaten_pulp_has_the_short_shelf_life_and_dried_pulp_no_date() {
        let made = jiff::civil::date(2026, 2, 25);
        let plain = shelf_life(StoredForm::WetCold, FibreClass::Plant, false);
        let beaten = shelf_life(StoredForm::WetCold, FibreClass::Plant, true);
        assert_eq!(beaten.keep_by(made), Some(jiff::civil::date(2026, 3, 4)));
        assert!(plain.keep_by(made) > beaten.keep_by(made));
        assert_eq!(shelf_life(StoredForm::Dried, FibreClass::Plant, false).keep_by(made), None);
    }
}
