//! What the forms ask for, and how an answer becomes a figure.

use bleachfield_core::{
    journal::Figure,
    message::Field,
    quantity::{Basis, Estimate, QuantityKind, Unit, grams, in_grams, weighed},
};

use crate::components::NumberInput;

pub const RINSE_WATER: Field = Field("rinse_water");
pub const SOAKED: Field = Field("soaked");
pub const PH_SQUEEZED: Field = Field("ph_squeezed");
pub const STRIP: Field = Field("strip");
pub const GRAMS: Field = Field("grams");

/// A strip's answer in mg/L.
pub fn strip() -> NumberInput {
    NumberInput::new(STRIP, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 10.0)
}

/// What was typed as a figure in the entry's own unit, of which one is `base`
/// base units of its kind. `None` where nothing was typed.
pub fn figure(ask: NumberInput, base: f64, basis: Basis) -> Option<Figure> {
    ask.base().map(|value| Estimate::exact(value / base, basis))
}

/// A mass off a studio's scale, with the range of its last digit.
pub fn on_scale(ask: NumberInput) -> Option<Figure> {
    ask.base().map(|value| weighed(grams(value)).map(in_grams))
}

/// Whether the form may go on: tries every question, so that each one that is
/// wrong says so.
pub fn all_well(asks: &[NumberInput]) -> bool {
    asks.iter().filter(|ask| !ask.try_now()).count() == 0
}
