//! Messages for a person as data: a key of the locale files and typed values.
//!
//! No sentence, no language and no unit choice lives here; those are the app's.
//! Lowest layer: depends on no other module of this crate.

use uom::si::f64::{Mass, MassConcentration, MassDensity, Volume};

/// A locale key, the input field it belongs beside, and the values to fill in.
#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    /// Key into the locale files, for instance `"refusal-missing"`.
    pub key: &'static str,
    /// The input field that the message is about, if any.
    pub field: Option<Field>,
    /// Named values for the placeholders of the text.
    pub values: Vec<(&'static str, Value)>,
}

impl Message {
    /// A message with no field and no values yet.
    pub fn new(key: &'static str) -> Self {
        Self { key, field: None, values: Vec::new() }
    }

    /// Sets the input field that the message is shown beside.
    #[must_use]
    pub fn beside(mut self, field: Field) -> Self {
        self.field = Some(field);
        self
    }

    /// Adds a value for the placeholder `name`.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: Value) -> Self {
        self.values.push((name, value));
        self
    }
}

/// Identifier of an input field. Each module declares its own, for instance
/// `pub const WET_MASS: Field = Field("wet_mass");`; the locale has its name
/// under `field-wet_mass`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Field(pub &'static str);

impl std::fmt::Display for Field {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.0)
    }
}

/// A value inside a message. Its kind is kept, so that the app can format it in
/// the reader's units.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    Mass(Mass),
    Volume(Volume),
    Concentration(MassConcentration),
    Density(MassDensity),
    /// A ratio from 0 to 1, shown as a percentage.
    Share(f64),
    /// Degrees Celsius.
    Celsius(f64),
    Ph(f64),
    Minutes(f64),
    Days(f64),
    Count(u64),
    /// A number without a unit.
    Number(f64),
    /// Text that the person entered, repeated verbatim.
    Text(String),
    /// Another locale key, for a term inside the sentence.
    Word(&'static str),
}
