//! Why typed text is refused, and what would be accepted instead.

use super::{QuantityKind, grams, grams_per_litre, grams_per_millilitre, millilitres};
use crate::message::{Field, Message, Value};

/// Text that cannot be read as a quantity.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("parameter '{field}' given as '{given}': {reason}")]
pub struct ParseError {
    pub field: Field,
    pub kind: QuantityKind,
    /// What was typed, cut to a length that fits beside a field.
    pub given: String,
    pub reason: ParseErrorKind,
}

/// The reason for a [`ParseError`]. Numbers are in the base unit of the kind.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ParseErrorKind {
    #[error("nothing was typed")]
    Empty,
    /// `two`, `NaN`, `inf`.
    #[error("no number")]
    NotANumber,
    /// `1.2.3`.
    #[error("decimal marks or group separators in the wrong place")]
    Separators,
    #[error("a fraction with the denominator 0")]
    ZeroDenominator,
    #[error("negative")]
    Negative,
    /// A unit of another kind: `5 kg` for a volume.
    #[error("a unit of {found:?}")]
    WrongKind { found: QuantityKind },
    #[error("unknown unit '{0}'")]
    UnknownUnit(String),
    /// A further amount without a unit, or not in descending order of units:
    /// `3 lb 4`, `4 oz 3 lb`.
    #[error("amounts that do not add up")]
    Compound,
    /// Two readings that are both possible here: `1,234`, `1:30`.
    #[error("may be {one} or {other}")]
    Ambiguous { one: f64, other: f64 },
    /// A pint, quart or gallon for a reader with metric measures. Millilitres
    /// of the amount in either system.
    #[error("{us} mL in US measures, {imperial} mL in imperial measures")]
    MeasuresUnknown { us: f64, imperial: f64 },
    #[error("not a whole number")]
    NotWhole,
    #[error("below {min}")]
    TooSmall { min: f64 },
    #[error("above {max}")]
    TooLarge { max: f64 },
}

impl ParseError {
    pub(super) fn new(
        text: &str,
        field: Field,
        kind: QuantityKind,
        reason: ParseErrorKind,
    ) -> Self {
        Self { field, kind, given: shortened(text.trim()), reason }
    }

    /// The message for a person, beside the field. All have `given` and `accept`.
    pub fn message(&self) -> Message {
        use ParseErrorKind as Reason;
        let value = |base: f64| self.kind.value(base);
        let message = |key| {
            Message::new(key)
                .beside(self.field)
                .with("given", Value::Text(self.given.clone()))
                .with("accept", Value::Word(self.kind.accepts()))
        };
        match &self.reason {
            Reason::Empty => message("refusal-typed-empty"),
            Reason::NotANumber => message("refusal-typed-not_a_number"),
            Reason::Separators => message("refusal-typed-marks"),
            Reason::ZeroDenominator => message("refusal-typed-zero_under_line"),
            Reason::Negative => message("refusal-typed-negative"),
            Reason::WrongKind { found } => message("refusal-typed-wrong_kind")
                .with("found", Value::Word(found.word()))
                .with("wanted", Value::Word(self.kind.word())),
            Reason::UnknownUnit(unit) => {
                message("refusal-typed-unknown_unit").with("unit", Value::Text(unit.clone()))
            }
            Reason::Compound => message("refusal-typed-parts"),
            Reason::Ambiguous { one, other } => message("refusal-typed-ambiguous")
                .with("one", value(*one))
                .with("other", value(*other)),
            Reason::MeasuresUnknown { us, imperial } => message("refusal-typed-which_measure")
                .with("us", value(*us))
                .with("imperial", value(*imperial)),
            Reason::NotWhole => message("refusal-typed-not_whole"),
            Reason::TooSmall { min } => message("refusal-typed-too_small").with("min", value(*min)),
            Reason::TooLarge { max } => message("refusal-typed-too_large").with("max", value(*max)),
        }
    }
}

impl QuantityKind {
    /// A message value of this kind, from its base unit.
    pub fn value(self, base: f64) -> Value {
        match self {
            QuantityKind::Mass => Value::Mass(grams(base)),
            QuantityKind::Volume => Value::Volume(millilitres(base)),
            QuantityKind::Share => Value::Share(base),
            QuantityKind::Temperature => Value::Celsius(base),
            QuantityKind::Duration => Value::Minutes(base),
            QuantityKind::Concentration => Value::Concentration(grams_per_litre(base)),
            QuantityKind::Density => Value::Density(grams_per_millilitre(base)),
            QuantityKind::Ph => Value::Ph(base),
            QuantityKind::Number | QuantityKind::Count => Value::Number(base),
        }
    }
}

/// Maximum length of repeated input, in characters.
pub(super) const GIVEN_LENGTH: usize = 24;

fn shortened(text: &str) -> String {
    let mut given: String = text.chars().take(GIVEN_LENGTH).collect();
    if text.chars().nth(GIVEN_LENGTH).is_some() {
        given.push('…');
    }
    given
}
