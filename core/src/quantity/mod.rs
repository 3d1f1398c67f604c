//! Physical quantities: units, parsing of typed text, bounded types, estimates
//! with uncertainty, rounding to what a scale or jug resolves.
//!
//! Quantities are `uom` types; the functions below convert from and to bare
//! numbers. No chemistry, no pulp and no formatting for display lives here.

mod bounds;
mod estimate;
mod interval;
mod number;
mod parse;
mod parse_error;
mod resolution;
mod spoon;
mod uncertainty;
mod unit;

pub use bounds::{Celsius, OutOfRange, PH, Ph, TEMPERATURE};
pub use estimate::{Basis, Estimate};
pub use interval::Interval;
pub use parse::{NumberSpec, ParsedQuantity};
pub use parse_error::{ParseError, ParseErrorKind};
pub use resolution::{
    BY_SOLUTION_BELOW, LEAST_DOSE, Measurable, Resolution, in_bucket, in_jug, measured_out,
    on_scale, weighed,
};
pub use spoon::{
    DECAHYDRATE_PER_CARBONATE, MONOHYDRATE_PER_CARBONATE, SPOON_BAND, SPOON_POWDERS, SPOONS,
    SpoonPowder, spoon_powder, spooned,
};
pub use uncertainty::{ComputedEstimate, UncertainInput, propagate_uncertainty};
pub use unit::{Measures, QuantityKind, Unit, offered_units};
pub use uom::si::f64::{Mass, MassConcentration, MassDensity, Ratio, Volume};

use uom::si::{
    mass::gram, mass_concentration::gram_per_liter, mass_density::gram_per_cubic_centimeter,
    ratio::ratio, volume::milliliter,
};

pub fn grams(value: f64) -> Mass {
    Mass::new::<gram>(value)
}

pub fn in_grams(mass: Mass) -> f64 {
    mass.get::<gram>()
}

pub fn millilitres(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

pub fn in_millilitres(volume: Volume) -> f64 {
    volume.get::<milliliter>()
}

pub fn grams_per_litre(value: f64) -> MassConcentration {
    MassConcentration::new::<gram_per_liter>(value)
}

pub fn in_grams_per_litre(concentration: MassConcentration) -> f64 {
    concentration.get::<gram_per_liter>()
}

pub fn grams_per_millilitre(value: f64) -> MassDensity {
    MassDensity::new::<gram_per_cubic_centimeter>(value)
}

pub fn in_grams_per_millilitre(density: MassDensity) -> f64 {
    density.get::<gram_per_cubic_centimeter>()
}

/// A ratio from a number between 0 and 1 (not a percentage).
pub fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// A ratio as a number between 0 and 1 (not a percentage).
pub fn in_share(value: Ratio) -> f64 {
    value.get::<ratio>()
}
