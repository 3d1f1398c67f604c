//! Why there is no class sheet, and beside which field that is shown.

use super::request::{CLASS_MINUTES, CLASS_START};
use crate::{
    bath::{PlanError, RefusedPlan},
    derive::Station,
    message::{Message, Value},
    pulp::{cook::CookError, wash::WashError},
    quantity::OutOfRange,
};

/// Why there is no sheet.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ClassError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error("no station was chosen")]
    NoStation,
    #[error("the bath is not known")]
    NoBath,
    #[error(transparent)]
    Plan(#[from] PlanError),
    #[error(transparent)]
    Cook(#[from] CookError),
    #[error(transparent)]
    Wash(#[from] WashError),
    /// The time of a station is below what it takes.
    #[error("{given} min for {station:?}; at least {least} min are needed")]
    TooShort { station: Station, given: f64, least: f64 },
    #[error("the class would end {minutes} min after midnight")]
    PastMidnight { minutes: f64 },
}

impl From<RefusedPlan> for ClassError {
    fn from(refused: RefusedPlan) -> Self {
        Self::Plan(refused.error)
    }
}

impl ClassError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::NoStation => Message::new("class-refusal-no_station"),
            Self::NoBath => Message::new("class-refusal-no_bath"),
            Self::Plan(error) => error.message(),
            Self::Cook(error) => error.message(),
            Self::Wash(error) => error.message(),
            Self::TooShort { given, least, .. } => Message::new("class-refusal-too_short")
                .beside(CLASS_MINUTES)
                .with("given", Value::Minutes(*given))
                .with("least", Value::Minutes(*least)),
            Self::PastMidnight { minutes } => Message::new("class-refusal-past_midnight")
                .beside(CLASS_START)
                .with("minutes", Value::Minutes(*minutes)),
        }
    }

    /// The station whose time is too short.
    pub fn station(&self) -> Option<Station> {
        match self {
            Self::TooShort { station, .. } => Some(*station),
            _ => None,
        }
    }
}
