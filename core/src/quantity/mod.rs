//! Quantities as a person meets them: on a scale, a jug, a strip or a label.
//!
//! Inside the core a quantity is a `uom` type, so that grams cannot be added to
//! litres. The short constructors and readers below keep the sums legible.

mod bounds;
mod grain;
mod known;
mod letter;
mod number;
mod parse;
mod propagate_uncertainty;
mod spoon;
mod unit;
mod unreadable;
mod written;

pub use bounds::{Celsius, OutOfRange, PH, Ph, SHARE, Share, TEMPERATURE, TemperatureOf};
pub use grain::{Measurable, Resolution, in_jug, on_scale, weighed};
pub use known::{Basis, Estimate};
pub use letter::is_letter;
pub use number::from_digits;
pub use parse::{NumberSpec, ParsedQuantity, read};
pub use propagate_uncertainty::{ComputedEstimate, UncertainInput, propagate_uncertainty};
pub use spoon::{
    DECAHYDRATE_PER_CARBONATE, MONOHYDRATE_PER_CARBONATE, SPOON_BAND, SPOON_POWDERS, SPOONS,
    SpoonPowder, spoon_powder, spooned,
};
pub use unit::{Measures, QuantityKind, Unit};
pub use unreadable::{ParseError, Why};
pub use uom::si::f64::{Mass, MassConcentration, MassDensity, Ratio, Volume};
pub use written::{Style, Written};

use uom::si::{
    mass::gram, mass_concentration::gram_per_liter, mass_density::gram_per_cubic_centimeter,
    ratio::ratio, volume::milliliter,
};

/// A mass from grams.
pub fn grams(value: f64) -> Mass {
    Mass::new::<gram>(value)
}

/// A mass in grams.
pub fn in_grams(mass: Mass) -> f64 {
    mass.get::<gram>()
}

/// A volume from millilitres.
pub fn millilitres(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

/// A volume in millilitres.
pub fn in_millilitres(volume: Volume) -> f64 {
    volume.get::<milliliter>()
}

/// A mass concentration from grams per litre.
pub fn grams_per_litre(value: f64) -> MassConcentration {
    MassConcentration::new::<gram_per_liter>(value)
}

/// A mass concentration in grams per litre.
pub fn in_grams_per_litre(concentration: MassConcentration) -> f64 {
    concentration.get::<gram_per_liter>()
}

/// A density from grams per millilitre.
pub fn grams_per_millilitre(value: f64) -> MassDensity {
    MassDensity::new::<gram_per_cubic_centimeter>(value)
}

/// A density in grams per millilitre.
pub fn in_grams_per_millilitre(density: MassDensity) -> f64 {
    density.get::<gram_per_cubic_centimeter>()
}

/// A share from a number between 0 and 1 (not a percentage).
pub fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// A share as a number between 0 and 1 (not a percentage).
pub fn in_share(value: Ratio) -> f64 {
    value.get::<ratio>()
}
