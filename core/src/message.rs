//! What the core has to tell a person, before any language has touched it.
//!
//! A refusal, a caution or a remark is a [`Message`]: a key that the app's
//! locale files know, the field it belongs beside (if any), and the values to
//! fill in, still typed, so that each reader sees them in units of their own.

use crate::quantity::{Mass, MassConcentration, MassDensity, Volume};

/// A thing to say: which words, beside which field, with which values.
#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    /// Key into the locale files, for instance `"refusal-missing"`.
    pub key: &'static str,
    /// The input field that this is about, where there is one.
    pub field: Option<Field>,
    /// Named values for the gaps in the words.
    pub values: Vec<(&'static str, Value)>,
}

impl Message {
    /// A message with no field and no values yet.
    pub fn new(key: &'static str) -> Self {
        Self { key, field: None, values: Vec::new() }
    }

    /// The same message, to be shown beside `field`.
    #[must_use]
    pub fn beside(mut self, field: Field) -> Self {
        self.field = Some(field);
        self
    }

    /// The same message with one more gap filled.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: Value) -> Self {
        self.values.push((name, value));
        self
    }
}

/// An input that a message can be about. Each module declares its own, as
/// `pub const WET_MASS: Field = Field("wet_mass");`; the locale names it under
/// `field-wet_mass`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Field(pub &'static str);

/// A value inside a message, with enough of its kind left for the app to
/// write it in the reader's units.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    Mass(Mass),
    Volume(Volume),
    Concentration(MassConcentration),
    Density(MassDensity),
    /// A share between 0 and 1, written as a percentage.
    Share(f64),
    /// Degrees Celsius.
    Celsius(f64),
    Ph(f64),
    Minutes(f64),
    Days(f64),
    Count(u64),
    /// A plain number without a unit.
    Number(f64),
    /// Something the person typed or named, repeated as it was.
    Text(String),
    /// Another locale key, for a word inside the sentence.
    Word(&'static str),
}
