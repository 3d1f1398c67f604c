//! Names of units. Symbols are the same in every language; kitchen measures, days and weeks are
//! messages.

use bleachfield_core::quantity::Unit;

use super::t;

/// The symbol or word for a unit; empty for plain numbers and pH.
pub fn unit_name(unit: Unit) -> String {
    let symbol = match unit {
        Unit::Milligram => "mg",
        Unit::Gram => "g",
        Unit::Kilogram => "kg",
        Unit::Ounce => "oz",
        Unit::Pound => "lb",
        Unit::Millilitre => "mL",
        Unit::Litre => "L",
        Unit::FluidOunce => "fl oz",
        Unit::Percent => "%",
        Unit::PartsPerMillion => "ppm",
        Unit::Celsius => "°C",
        Unit::Fahrenheit => "°F",
        Unit::Second => "s",
        Unit::Minute => "min",
        Unit::Hour => "h",
        Unit::MilligramsPerLitre => "mg/L",
        Unit::GramsPerLitre => "g/L",
        Unit::GramsPerMillilitre => "g/mL",
        Unit::KilogramsPerCubicMetre => "kg/m³",
        Unit::Ph | Unit::One => "",
        Unit::Teaspoon => return t!("unit-teaspoon"),
        Unit::Tablespoon => return t!("unit-tablespoon"),
        Unit::Cup => return t!("unit-cup"),
        Unit::Pint => return t!("unit-pint"),
        Unit::Quart => return t!("unit-quart"),
        Unit::Gallon => return t!("unit-gallon"),
        Unit::Day => return t!("unit-day"),
        Unit::Week => return t!("unit-week"),
    };
    symbol.to_owned()
}
