//! Values that cannot be outside what they mean.

use super::{Kind, Known, Ratio, share};
use crate::message::{Field, Message};
use serde::{Deserialize, Serialize};

/// A value outside its limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// What the value was for.
    pub subject: Field,
    /// What was given and what is allowed, in the base unit of `kind`.
    pub given: f64,
    pub min: f64,
    pub max: f64,
    pub kind: Kind,
}

impl OutOfRange {
    /// Checks that `given` lies in `min..=max`, which a NaN never does.
    ///
    /// # Errors
    /// Itself, if it does not.
    pub fn check(subject: Field, kind: Kind, given: f64, min: f64, max: f64) -> Result<f64, Self> {
        if given >= min && given <= max {
            Ok(given)
        } else {
            Err(Self { subject, given, min, max, kind })
        }
    }

    pub fn message(&self) -> Message {
        Message::new("refusal-out_of_range")
            .beside(self.subject)
            .with("given", self.kind.value(self.given))
            .with("min", self.kind.value(self.min))
            .with("max", self.kind.value(self.max))
    }
}

impl Known<f64> {
    /// Checks that the value and both ends lie in `min..=max` and in order.
    ///
    /// # Errors
    /// [`OutOfRange`] for the first that does not.
    pub fn check(self, subject: Field, kind: Kind, min: f64, max: f64) -> Result<Self, OutOfRange> {
        OutOfRange::check(subject, kind, self.value, min, max)?;
        OutOfRange::check(subject, kind, self.low, min, self.value)?;
        OutOfRange::check(subject, kind, self.high, self.value, max)?;
        Ok(self)
    }
}

/// A pH, 0 to 14.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Ph(f64);

impl Ph {
    /// # Errors
    /// [`OutOfRange`] outside 0 to 14.
    pub fn new(value: f64) -> Result<Self, OutOfRange> {
        Self::of(PH, value)
    }

    /// As [`Ph::new`], with the error beside a field of the caller's.
    pub fn of(subject: Field, value: f64) -> Result<Self, OutOfRange> {
        OutOfRange::check(subject, Kind::Ph, value, 0.0, 14.0).map(Self)
    }

    pub fn get(self) -> f64 {
        self.0
    }
}

/// A share of a whole, 0 to 1, written as a percentage.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Share(f64);

impl Share {
    /// # Errors
    /// [`OutOfRange`] outside 0 to 1.
    pub fn new(value: f64) -> Result<Self, OutOfRange> {
        Self::of(SHARE, value)
    }

    /// As [`Share::new`], with the error beside a field of the caller's.
    pub fn of(subject: Field, value: f64) -> Result<Self, OutOfRange> {
        OutOfRange::check(subject, Kind::Share, value, 0.0, 1.0).map(Self)
    }

    /// From a percentage, 0 to 100.
    ///
    /// # Errors
    /// [`OutOfRange`] outside that.
    pub fn percent(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value / 100.0)
    }

    pub fn get(self) -> f64 {
        self.0
    }

    pub fn ratio(self) -> Ratio {
        share(self.0)
    }
}

/// A temperature of water or liquor in degrees Celsius, 0 to 100.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Celsius(f64);

/// What a temperature is of; each use has limits of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TemperatureOf {
    /// Any liquid water at studio pressure: 0 to 100 °C.
    Water,
    /// A running bath: 0 to 95 °C, below the boil.
    Bath,
    /// The room or a shelf: 0 to 50 °C.
    Room,
}

impl Celsius {
    /// # Errors
    /// [`OutOfRange`] outside 0 to 100 °C.
    pub fn new(value: f64) -> Result<Self, OutOfRange> {
        Self::of(TEMPERATURE, TemperatureOf::Water, value)
    }

    /// A temperature of `what`, with the error beside a field of the caller's.
    ///
    /// # Errors
    /// [`OutOfRange`] outside the limits of that use.
    pub fn of(subject: Field, what: TemperatureOf, value: f64) -> Result<Self, OutOfRange> {
        let max = match what {
            TemperatureOf::Water => 100.0,
            TemperatureOf::Bath => 95.0,
            TemperatureOf::Room => 50.0,
        };
        OutOfRange::check(subject, Kind::Temperature, value, 0.0, max).map(Self)
    }

    pub fn get(self) -> f64 {
        self.0
    }

    pub fn kelvin(self) -> f64 {
        self.0 + 273.15
    }
}

pub const PH: Field = Field("ph");
pub const SHARE: Field = Field("share");
pub const TEMPERATURE: Field = Field("temperature");

macro_rules! through_f64 {
    ($($name:ident),*) => {$(
        impl TryFrom<f64> for $name {
            type Error = OutOfRange;
            fn try_from(value: f64) -> Result<Self, OutOfRange> {
                Self::new(value)
            }
        }
        impl From<$name> for f64 {
            fn from(value: $name) -> f64 {
                value.0
            }
        }
    )*};
}
through_f64!(Ph, Share, Celsius);

impl std::fmt::Display for OutOfRange {
    /// For a file that will not open; a person reads [`OutOfRange::message`].
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {} outside {} to {}", self.subject.0, self.given, self.min, self.max)
    }
}

impl std::error::Error for OutOfRange {}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn limits_are_inside_and_beyond_is_refused_by_name() {
        assert!(Ph::new(0.0).is_ok() && Ph::new(14.0).is_ok());
        let error = Ph::of(Field("end_ph"), 14.1).unwrap_err();
        assert_eq!((error.subject, error.given, error.max), (Field("end_ph"), 14.1, 14.0));
        assert_eq!(error.message().field, Some(Field("end_ph")));
        assert!(Share::percent(101.0).is_err() && Share::percent(-0.1).is_err());
        assert!(Celsius::of(TEMPERATURE, TemperatureOf::Bath, 96.0).is_err());
        assert!(Celsius::of(TEMPERATURE, TemperatureOf::Water, 96.0).is_ok());
    }

    #[test]
    fn nothing_that_is_not_a_number_gets_in() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(Ph::new(value).is_err() && Share::new(value).is_err());
            assert!(Celsius::new(value).is_err());
        }
    }

    #[test]
    fn a_file_cannot_smuggle_one_in_either() {
        assert!(serde_json::from_str::<Ph>("10.5").is_ok());
        assert!(serde_json::from_str::<Ph>("15").is_err());
        assert_eq!(serde_json::to_string(&Celsius::new(40.0).unwrap()).unwrap(), "40.0");
    }
}
