//! The inputs of the forms, and their values as an entry records them.

use bleachfield_core::{
    journal::{Figure, StoredForm},
    message::Field,
    quantity::{Basis, Estimate, QuantityKind, Unit, grams, in_grams, weighed},
};
use leptos::prelude::*;

use crate::{components::NumberInput, screens::batches::entry::name_of};

pub const RINSE_WATER: Field = Field("rinse_water");
pub const SOAKED: Field = Field("soaked");
pub const PH_SQUEEZED: Field = Field("ph_squeezed");
pub const STRIP: Field = Field("strip");
pub const GRAMS: Field = Field("grams");

/// A pH strip is read to half a unit either way, a meter to a tenth (common practice, no
/// source).
const STRIP_PH_ERROR: f64 = 0.5;
const METER_PH_ERROR: f64 = 0.1;

/// A test strip, 0 to 10 g/L, typed in mg/L.
pub fn strip_input() -> NumberInput {
    NumberInput::new(STRIP, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 10.0)
}

/// The value in the base unit of its kind; `None` if there is none.
pub fn figure(input: NumberInput, basis: Basis) -> Option<Figure> {
    input.base().map(|value| Estimate::exact(value, basis))
}

/// A strip's value, mg/L.
pub fn strip_figure(input: NumberInput) -> Option<Figure> {
    input.base().map(|g_per_l| Estimate::exact(g_per_l / 1e-3, Basis::Strip))
}

/// A pH off a strip ([`Basis::Strip`]) or else a meter, with its range.
pub fn ph_figure(input: NumberInput, basis: Basis) -> Option<Figure> {
    let error = if basis == Basis::Strip { STRIP_PH_ERROR } else { METER_PH_ERROR };
    input.base().map(|value| Estimate {
        value,
        low: (value - error).max(0.0),
        high: (value + error).min(14.0),
        basis,
    })
}

/// A weighed mass, g, with the range of its last digit.
pub fn weighed_figure(input: NumberInput) -> Option<Figure> {
    input.base().map(|value| weighed(grams(value)).map(in_grams))
}

/// Whether all inputs are valid. Checks each, so that each shows its own error.
pub fn all_valid(inputs: &[NumberInput]) -> bool {
    inputs.iter().filter(|input| !input.try_now()).count() == 0
}

/// What was typed, untracked, without the spaces around it.
pub fn trimmed(text: RwSignal<String>) -> String {
    text.with_untracked(|text| text.trim().to_owned())
}

/// The ways of storing pulp, for a radio group.
pub fn stored_form_options() -> Vec<(StoredForm, String)> {
    [StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried]
        .map(|form| (form, name_of("stored_form", form)))
        .to_vec()
}
