//! What a unit is called. Symbols are the same in every language; kitchen
//! measures have words.

use bleachfield_core::quantity::Unit;

use super::word;

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
        Unit::Teaspoon => return word("unit.teaspoon"),
        Unit::Tablespoon => return word("unit.tablespoon"),
        Unit::Cup => return word("unit.cup"),
        Unit::Pint => return word("unit.pint"),
        Unit::Quart => return word("unit.quart"),
        Unit::Gallon => return word("unit.gallon"),
        Unit::Day => return word("unit.day"),
        Unit::Week => return word("unit.week"),
    };
    symbol.to_owned()
}
