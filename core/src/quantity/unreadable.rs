//! Why what was typed cannot be taken, and what would be.

use super::{Asked, Kind, grams, grams_per_litre, grams_per_millilitre, millilitres};
use crate::message::{Field, Message, Value};

/// A text that could not be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Unreadable {
    pub field: Field,
    pub kind: Kind,
    /// What was typed, cut to a length that fits beside a field.
    pub given: String,
    pub why: Why,
}

/// Why a text could not be taken. Numbers are in the base unit of the kind.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    Empty,
    /// No number where one was looked for: `two`, `NaN`, `inf`.
    NotANumber,
    /// Digits and marks that make no number: `1.2.3`.
    Marks,
    /// Nothing under the fraction line.
    ZeroUnderLine,
    Negative,
    /// A unit of another kind: `5 kg` for a volume.
    WrongKind {
        found: Kind,
    },
    UnknownUnit(String),
    /// A second amount without a unit, or out of order: `3 lb 4`, `4 oz 3 lb`.
    Parts,
    /// Two readings that are both possible here: `1,234`, `1:30`.
    Ambiguous {
        one: f64,
        other: f64,
    },
    /// A pint, quart or gallon, by a reader who has not said whose. Millilitres
    /// of one of each.
    WhichMeasure {
        us: f64,
        imperial: f64,
    },
    NotWhole,
    TooSmall {
        min: f64,
    },
    TooLarge {
        max: f64,
    },
}

impl Unreadable {
    pub(super) fn new(text: &str, asked: &Asked, why: Why) -> Self {
        let mut given: String = text.trim().chars().take(GIVEN + 1).collect();
        if given.chars().count() > GIVEN {
            given = given.chars().take(GIVEN).chain(['…']).collect();
        }
        Self { field: asked.field, kind: asked.kind, given, why }
    }

    /// What to say beside the field. Every message has `given` and `accept`.
    pub fn message(&self) -> Message {
        let value = |base: f64| self.kind.value(base);
        let say = |key| {
            Message::new(key)
                .beside(self.field)
                .with("given", Value::Text(self.given.clone()))
                .with("accept", Value::Word(self.kind.accepts()))
        };
        match &self.why {
            Why::Empty => say("refusal-typed-empty"),
            Why::NotANumber => say("refusal-typed-not_a_number"),
            Why::Marks => say("refusal-typed-marks"),
            Why::ZeroUnderLine => say("refusal-typed-zero_under_line"),
            Why::Negative => say("refusal-typed-negative"),
            Why::WrongKind { found } => say("refusal-typed-wrong_kind")
                .with("found", Value::Word(found.word()))
                .with("wanted", Value::Word(self.kind.word())),
            Why::UnknownUnit(unit) => {
                say("refusal-typed-unknown_unit").with("unit", Value::Text(unit.clone()))
            }
            Why::Parts => say("refusal-typed-parts"),
            Why::Ambiguous { one, other } => {
                say("refusal-typed-ambiguous").with("one", value(*one)).with("other", value(*other))
            }
            Why::WhichMeasure { us, imperial } => say("refusal-typed-which_measure")
                .with("us", value(*us))
                .with("imperial", value(*imperial)),
            Why::NotWhole => say("refusal-typed-not_whole"),
            Why::TooSmall { min } => say("refusal-typed-too_small").with("min", value(*min)),
            Why::TooLarge { max } => say("refusal-typed-too_large").with("max", value(*max)),
        }
    }
}

impl Kind {
    /// A value of this kind for a message, from its base unit.
    pub fn value(self, base: f64) -> Value {
        match self {
            Kind::Mass => Value::Mass(grams(base)),
            Kind::Volume => Value::Volume(millilitres(base)),
            Kind::Share => Value::Share(base),
            Kind::Temperature => Value::Celsius(base),
            Kind::Duration => Value::Minutes(base),
            Kind::Concentration => Value::Concentration(grams_per_litre(base)),
            Kind::Density => Value::Density(grams_per_millilitre(base)),
            Kind::Ph => Value::Ph(base),
            Kind::Number | Kind::Count => Value::Number(base),
        }
    }
}

/// Longest echo of what was typed, in characters.
pub(super) const GIVEN: usize = 24;
