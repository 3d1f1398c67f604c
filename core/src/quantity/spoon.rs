//! Mass of powder measured by the spoon, from its bulk density.
//!
//! Bulk density differs by half between grades of the same powder, so the range
//! is wide unless the studio has weighed one spoonful.

use super::{Basis, Estimate, Mass, Measures, OutOfRange, QuantityKind, Unit, grams, in_grams};
use crate::message::Field;

/// A powder that studios measure by the spoon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpoonPowder {
    /// Stable name for files, and the locale key after `powder-`.
    pub id: &'static str,
    /// Loose bulk density, g/mL.
    pub density: f64,
    pub source: &'static str,
}

/// All powders with a bulk density.
///
/// Loose bulk densities: soda ash from suppliers' data (light 0.57 to 0.65,
/// dense 1.00 to 1.05), baking soda 63 lb/ft3 and borax 0.96 from suppliers and
/// measurements; the rest from memory.
pub const SPOON_POWDERS: &[SpoonPowder] = &[
    SpoonPowder { id: "soda_ash_light", density: 0.60, source: "suppliers' data" },
    SpoonPowder { id: "soda_ash_dense", density: 1.025, source: "suppliers' data" },
    SpoonPowder { id: "washing_soda", density: 1.0, source: "from memory" },
    SpoonPowder { id: "washing_soda_crystals", density: 0.82, source: "from memory" },
    SpoonPowder { id: "percarbonate", density: 1.0, source: "from memory" },
    SpoonPowder { id: "baking_soda", density: 1.0, source: "supplier's data" },
    SpoonPowder { id: "borax", density: 0.96, source: "a measurement" },
    SpoonPowder { id: "citric_acid", density: 0.87, source: "from memory" },
    SpoonPowder { id: "chalk", density: 0.9, source: "from memory" },
];

/// Relative uncertainty of a level spoon: ±25 %.
pub const SPOON_BAND: f64 = 0.25;

pub const SPOONS: Field = Field("spoons");

/// The powder with this id.
pub fn spoon_powder(id: &str) -> Option<&'static SpoonPowder> {
    SPOON_POWDERS.iter().find(|powder| powder.id == id)
}

/// Mass of `count` level measures of `unit` of a powder: from the studio's own
/// weighing `own` of one such measure, or from the bulk density ±25 %.
///
/// # Errors
/// [`OutOfRange`] for a count outside 0 to 10 000 or a unit other than of volume.
pub fn spooned(
    powder: &SpoonPowder,
    count: f64,
    unit: Unit,
    measures: Measures,
    own: Option<Estimate<Mass>>,
) -> Result<Estimate<Mass>, OutOfRange> {
    let count = OutOfRange::check(SPOONS, QuantityKind::Number, count, 0.0, 10_000.0)?;
    if let Some(one) = own {
        return Ok(one.map(|mass| grams(in_grams(mass) * count)));
    }
    let millilitres =
        if unit.kind() == QuantityKind::Volume { unit.to_base(1.0, measures) } else { 0.0 };
    OutOfRange::check(SPOONS, QuantityKind::Volume, millilitres, 0.1, 5000.0)?;
    let value = count * millilitres * powder.density;
    Ok(Estimate::within(value, SPOON_BAND, Basis::Assumed).map(grams))
}

/// Grams of decahydrate (washing soda crystals) per gram of anhydrous sodium
/// carbonate: 286.14 / 105.99.
pub const DECAHYDRATE_PER_CARBONATE: f64 = 286.141 / 105.988;

/// Grams of monohydrate per gram of anhydrous sodium carbonate: 124.00 / 105.99.
pub const MONOHYDRATE_PER_CARBONATE: f64 = 124.003 / 105.988;

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn light_and_dense_soda_ash_differ_by_the_spoon() {
        let spoon = |id| {
            let powder = spoon_powder(id).unwrap();
            spooned(powder, 1.0, Unit::Tablespoon, Measures::Us, None).unwrap()
        };
        let (light, dense) = (spoon("soda_ash_light"), spoon("soda_ash_dense"));
        assert!((in_grams(light.value) - 8.87).abs() < 0.02);
        assert!(in_grams(dense.value) / in_grams(light.value) > 1.6);
        assert!((in_grams(light.high) / in_grams(light.value) - 1.25).abs() < 1e-9);
        assert_eq!(light.basis, Basis::Assumed);
    }

    #[test]
    fn a_weighed_spoonful_replaces_the_bulk_density() {
        let own = Estimate::within(grams(5.5), 0.02, Basis::OwnRecord);
        let powder = spoon_powder("percarbonate").unwrap();
        let two = spooned(powder, 2.0, Unit::Teaspoon, Measures::Us, Some(own)).unwrap();
        assert!((in_grams(two.value) - 11.0).abs() < 1e-9);
        assert_eq!(two.basis, Basis::OwnRecord);
    }

    #[test]
    fn counts_and_units_out_of_range_are_refused() {
        let powder = &SPOON_POWDERS[0];
        let of = |count, unit| spooned(powder, count, unit, Measures::Us, None);
        assert!(of(f64::NAN, Unit::Cup).is_err());
        assert!(of(-1.0, Unit::Cup).is_err());
        assert!(of(1.0, Unit::Gram).is_err());
    }
}
