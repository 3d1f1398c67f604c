//! The inputs of the forms, and their values as an entry records them.

use bleachfield_core::{
    chemistry::{
        alkali::{meter_ph, strip_ph},
        oxidant_strip,
    },
    journal::{Figure, StoredForm},
    message::Field,
    pulp::wash::own_dryness,
    quantity::{Basis, Estimate, QuantityKind, Unit, grams, in_grams, in_share, share, weighed},
};
use leptos::prelude::*;

use crate::{components::NumberInput, screens::batches::entry::name_of};

pub const RINSE_WATER: Field = Field("rinse_water");
pub const SOAKED: Field = Field("soaked");
pub const PH_SQUEEZED: Field = Field("ph_squeezed");
pub const STRIP: Field = Field("strip");
pub const GRAMS: Field = Field("grams");

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

/// A strip's reading of chlorine or peroxide, mg/L, with its range.
pub fn strip_figure(input: NumberInput) -> Option<Figure> {
    input.base().map(|g_per_l| oxidant_strip(g_per_l / 1e-3))
}

/// A pH off a strip, or a meter, with its range. Where nobody says by what, it is a strip: the
/// wider range.
pub fn ph_figure(input: NumberInput, by_strip: bool) -> Option<Figure> {
    input.base().map(if by_strip { strip_ph } else { meter_ph })
}

/// A dryness that a person gives as their own, as a share, with its range.
pub fn own_dryness_figure(dryness: f64) -> Figure {
    own_dryness(share(dryness)).map(in_share)
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
pub fn stored_form_options() -> Vec<(Option<StoredForm>, String)> {
    [StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried]
        .map(|form| (Some(form), name_of("stored_form", form)))
        .to_vec()
}
