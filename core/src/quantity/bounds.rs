//! Bounded types (pH, temperature) and the error that names the bound.

use super::{Estimate, QuantityKind};
use crate::message::{Field, Message};
use serde::{Deserialize, Serialize};

/// A value outside its limits. Displayed as a report for files and logs; a
/// person reads [`OutOfRange::message`].
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("parameter '{subject}' with value {given} is not in the required range of {min}..={max}")]
pub struct OutOfRange {
    /// The parameter that the value was for.
    pub subject: Field,
    /// The value, in the base unit of `kind`, as are both limits.
    pub given: f64,
    pub min: f64,
    pub max: f64,
    pub kind: QuantityKind,
}

impl OutOfRange {
    /// Checks that `given` lies in `min..=max`. NaN never does.
    ///
    /// # Errors
    /// [`OutOfRange`], if it does not.
    pub fn check(
        subject: Field,
        kind: QuantityKind,
        given: f64,
        min: f64,
        max: f64,
    ) -> Result<f64, Self> {
        let error = Self { subject, given, min, max, kind };
        (min..=max).contains(&given).then_some(given).ok_or(error)
    }

    /// The message for a person, beside the field.
    pub fn message(&self) -> Message {
        Message::new("refusal-out_of_range")
            .beside(self.subject)
            .with("given", self.kind.value(self.given))
            .with("min", self.kind.value(self.min))
            .with("max", self.kind.value(self.max))
    }
}

impl Estimate<f64> {
    /// Checks that the value and both ends lie in `min..=max` and in order.
    ///
    /// # Errors
    /// [`OutOfRange`] for the first that does not.
    pub fn check(
        self,
        subject: Field,
        kind: QuantityKind,
        min: f64,
        max: f64,
    ) -> Result<Self, OutOfRange> {
        OutOfRange::check(subject, kind, self.value, min, max)?;
        OutOfRange::check(subject, kind, self.low, min, self.value)?;
        OutOfRange::check(subject, kind, self.high, self.value, max)?;
        Ok(self)
    }
}

/// The members that every bounded type has.
macro_rules! bounded {
    ($name:ident, $subject:ident, $kind:ident, $min:literal, $max:literal) => {
        impl $name {
            /// # Errors
            /// [`OutOfRange`], naming the type, outside its limits.
            pub fn new(value: f64) -> Result<Self, OutOfRange> {
                OutOfRange::check($subject, QuantityKind::$kind, value, $min, $max).map(Self)
            }

            pub fn get(self) -> f64 {
                self.0
            }
        }

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
    };
}

/// A pH, 0 to 14.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Ph(f64);

/// A temperature of water or liquor in degrees Celsius, 0 to 100.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Celsius(f64);

bounded!(Ph, PH, Ph, 0.0, 14.0);
bounded!(Celsius, TEMPERATURE, Temperature, 0.0, 100.0);

pub const PH: Field = Field("ph");
pub const TEMPERATURE: Field = Field("temperature");

impl Celsius {
    /// The temperature of a running bath, 0 to 95 °C (below the boil), with the
    /// error beside `subject`.
    ///
    /// # Errors
    /// [`OutOfRange`] outside 0 to 95 °C.
    pub fn of_bath(subject: Field, value: f64) -> Result<Self, OutOfRange> {
        OutOfRange::check(subject, QuantityKind::Temperature, value, 0.0, 95.0).map(Self)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn limits_are_inclusive_and_the_error_names_the_parameter() {
        assert!(Ph::new(0.0).is_ok() && Ph::new(14.0).is_ok());
        let error = Ph::new(14.1).unwrap_err();
        assert_eq!((error.subject, error.given, error.max), (PH, 14.1, 14.0));
        assert_eq!(error.message().field, Some(PH));
        let report = "parameter 'ph' with value 14.1 is not in the required range of 0..=14";
        assert_eq!(error.to_string(), report);
        let bath = Field("bath_temperature");
        assert_eq!(Celsius::of_bath(bath, 96.0).unwrap_err().subject, bath);
        assert!(Celsius::new(96.0).is_ok() && Celsius::new(100.1).is_err());
    }

    #[test]
    fn nan_and_infinity_are_refused() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(Ph::new(value).is_err() && Celsius::new(value).is_err());
        }
    }

    #[test]
    fn deserialization_checks_the_limits() {
        assert!(serde_json::from_str::<Ph>("10.5").is_ok());
        assert!(serde_json::from_str::<Ph>("15").is_err());
        assert_eq!(serde_json::to_string(&Celsius::new(40.0).unwrap()).unwrap(), "40.0");
    }
}
