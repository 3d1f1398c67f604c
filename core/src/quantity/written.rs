//! A quantity as it is shown: a number and a unit, as data.
//!
//! The number has the digits that matter and no grouping, so that what is
//! written can be typed back in.

use super::{
    Mass, MassConcentration, Measures, QuantityKind, Unit, Volume, in_grams, in_grams_per_litre,
    in_millilitres,
};
use serde::{Deserialize, Serialize};

/// A number and its unit, ready for words to be put round it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    pub number: String,
    pub unit: Unit,
}

/// How a reader wants quantities written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Style {
    /// `'.'` or `','`.
    pub decimal: char,
    /// Metric writes mL and L; the others cups and gallons above what a spoon
    /// holds.
    pub volumes: Measures,
    /// Ounces and pounds instead of grams.
    pub ounces: bool,
    pub fahrenheit: bool,
}

impl Default for Style {
    fn default() -> Self {
        Self { decimal: '.', volumes: Measures::Metric, ounces: false, fahrenheit: false }
    }
}

impl Style {
    /// A value given in the base unit of its kind.
    pub fn write(&self, kind: QuantityKind, base: f64) -> Written {
        let unit = self.unit(kind, base);
        self.write_in(unit, base)
    }

    /// A value given in the base unit of `unit`'s kind, in that very unit.
    pub fn write_in(&self, unit: Unit, base: f64) -> Written {
        let value = unit.from_base(base, self.volumes);
        let places = match unit.kind() {
            // A hand thermometer, a pH strip and a hydrometer have steps of
            // their own, whatever the size of the value.
            QuantityKind::Temperature => 1,
            QuantityKind::Ph => 1,
            QuantityKind::Density => 3,
            _ => places(value),
        };
        Written { number: number(value, places, self.decimal), unit }
    }

    pub fn mass(&self, mass: Mass) -> Written {
        self.write(QuantityKind::Mass, in_grams(mass))
    }

    pub fn volume(&self, volume: Volume) -> Written {
        self.write(QuantityKind::Volume, in_millilitres(volume))
    }

    pub fn concentration(&self, concentration: MassConcentration) -> Written {
        self.write(QuantityKind::Concentration, in_grams_per_litre(concentration))
    }

    /// The unit that keeps the number short.
    fn unit(&self, kind: QuantityKind, base: f64) -> Unit {
        let size = base.abs();
        match kind {
            QuantityKind::Mass if self.ounces => {
                if size < 453.592_37 {
                    Unit::Ounce
                } else {
                    Unit::Pound
                }
            }
            QuantityKind::Mass if size > 0.0 && size < 0.1 => Unit::Milligram,
            QuantityKind::Mass if size < 1000.0 => Unit::Gram,
            QuantityKind::Mass => Unit::Kilogram,
            QuantityKind::Volume if self.volumes != Measures::Metric => match size {
                x if x < 14.0 => Unit::Teaspoon,
                x if x < 59.0 => Unit::Tablespoon,
                x if x < 3780.0 => Unit::Cup,
                _ => Unit::Gallon,
            },
            QuantityKind::Volume if size < 1000.0 => Unit::Millilitre,
            QuantityKind::Volume => Unit::Litre,
            QuantityKind::Share => Unit::Percent,
            QuantityKind::Temperature if self.fahrenheit => Unit::Fahrenheit,
            QuantityKind::Temperature => Unit::Celsius,
            QuantityKind::Duration => match size {
                x if x > 0.0 && x < 1.0 => Unit::Second,
                x if x < 120.0 => Unit::Minute,
                x if x < 2880.0 => Unit::Hour,
                _ => Unit::Day,
            },
            QuantityKind::Concentration if size > 0.0 && size < 0.1 => Unit::MilligramsPerLitre,
            QuantityKind::Concentration => Unit::GramsPerLitre,
            QuantityKind::Density => Unit::GramsPerMillilitre,
            QuantityKind::Ph => Unit::Ph,
            QuantityKind::Number | QuantityKind::Count => Unit::One,
        }
    }
}

/// Decimal places that make three significant digits, four where the first is
/// a 1, so that rounding costs at most half a percent.
fn places(value: f64) -> usize {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    let size = value.abs().log10().floor();
    let first = value.abs() / 10f64.powf(size);
    let digits = if first < 2.0 { 3.0 } else { 2.0 };
    (digits - size).clamp(0.0, 9.0) as usize
}

fn number(value: f64, places: usize, decimal: char) -> String {
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" {
        text = "0".to_owned();
    }
    if decimal == '.' { text } else { text.replace('.', &decimal.to_string()) }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::{
        super::{NumberSpec, grams, millilitres, read},
        *,
    };
    use crate::message::Field;
    use proptest::prelude::*;

    #[test]
    fn numbers_are_short_and_units_fit() {
        let style = Style::default();
        let text = |w: Written| (w.number, w.unit);
        assert_eq!(text(style.volume(millilitres(64.8128))), ("64.8".into(), Unit::Millilitre));
        assert_eq!(text(style.volume(millilitres(1500.0))), ("1.5".into(), Unit::Litre));
        assert_eq!(text(style.mass(grams(14.2857))), ("14.29".into(), Unit::Gram));
        assert_eq!(text(style.mass(grams(2063.6))), ("2.06".into(), Unit::Kilogram));
        assert_eq!(text(style.mass(grams(0.0))), ("0".into(), Unit::Gram));
        assert_eq!(text(style.write(QuantityKind::Share, 0.105)), ("10.5".into(), Unit::Percent));
        assert_eq!(text(style.write(QuantityKind::Duration, 90.0)), ("90".into(), Unit::Minute));
        let comma = Style { decimal: ',', fahrenheit: true, ..style };
        assert_eq!(
            text(comma.write(QuantityKind::Temperature, 37.5)),
            ("99,5".into(), Unit::Fahrenheit)
        );
        let cups = Style { volumes: Measures::Us, ..style };
        assert_eq!(text(cups.volume(millilitres(236.588))), ("1".into(), Unit::Cup));
    }

    const KINDS: [QuantityKind; 8] = [
        QuantityKind::Mass,
        QuantityKind::Volume,
        QuantityKind::Share,
        QuantityKind::Temperature,
        QuantityKind::Duration,
        QuantityKind::Concentration,
        QuantityKind::Density,
        QuantityKind::Ph,
    ];

    proptest! {
        /// Whatever the reader's style, what is written can be typed back, and
        /// comes out within the rounding, and is then written the same.
        #[test]
        fn what_is_written_can_be_typed_back(
            kind in prop::sample::select(KINDS.to_vec()),
            part in 1e-4f64..1.0,
            comma in any::<bool>(),
            ounces in any::<bool>(),
            fahrenheit in any::<bool>(),
            volumes in prop::sample::select(vec![Measures::Metric, Measures::Us, Measures::Imperial]),
        ) {
            let style = Style { decimal: if comma { ',' } else { '.' }, volumes, ounces, fahrenheit };
            let asked = NumberSpec::new(Field("any"), kind).reader(volumes, style.decimal);
            let base = asked.min + part * (asked.max - asked.min);
            let written = style.write(kind, base);
            let asked = asked.unit(written.unit);
            let typed = read(&written.number, &asked).unwrap();
            let step = match kind {
                QuantityKind::Temperature | QuantityKind::Ph => 0.051,
                QuantityKind::Density => 0.000_51,
                _ => base * 0.005_1,
            };
            prop_assert!((typed.base - base).abs() <= step, "{base} {written:?} {typed:?}");
            let again = style.write_in(written.unit, typed.base);
            prop_assert_eq!(again, written);
        }

        #[test]
        fn no_text_panics_or_gives_what_is_not_finite(
            text in "\\PC{0,24}", kind in prop::sample::select(KINDS.to_vec()),
        ) {
            let asked = NumberSpec::new(Field("any"), kind);
            match read(&text, &asked) {
                Ok(typed) => prop_assert!((asked.min..=asked.max).contains(&typed.base)),
                Err(error) => prop_assert!(error.message().field.is_some()),
            }
        }

        #[test]
        fn no_number_like_text_panics(text in "[-0-9.,/ '½a-z%°:]{0,16}") {
            for kind in KINDS {
                let asked = NumberSpec::new(Field("any"), kind);
                if let Ok(typed) = read(&text, &asked) {
                    prop_assert!((asked.min..=asked.max).contains(&typed.base));
                }
            }
        }
    }
}
