//! The units that people type, and what each is worth.

use crate::words;
use serde::{Deserialize, Serialize};

/// What sort of thing a field holds. Each kind has one base unit, in which the
/// parser answers and limits are given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Base unit: gram.
    Mass,
    /// Base unit: millilitre.
    Volume,
    /// Base unit: one (`0.02` is 2 %).
    Share,
    /// Base unit: degree Celsius.
    Temperature,
    /// Base unit: minute.
    Duration,
    /// Base unit: gram per litre.
    Concentration,
    /// Base unit: gram per millilitre.
    Density,
    Ph,
    /// A plain number.
    Number,
    /// A whole number of things.
    Count,
}

impl Kind {
    /// Locale key of a phrase with examples of what this kind accepts.
    pub fn accepts(self) -> &'static str {
        match self {
            Kind::Mass => "accept-mass",
            Kind::Volume => "accept-volume",
            Kind::Share => "accept-share",
            Kind::Temperature => "accept-temperature",
            Kind::Duration => "accept-duration",
            Kind::Concentration => "accept-concentration",
            Kind::Density => "accept-density",
            Kind::Ph => "accept-ph",
            Kind::Number => "accept-number",
            Kind::Count => "accept-count",
        }
    }

    /// Locale key of the kind's name, for "5 kg is a mass".
    pub fn word(self) -> &'static str {
        match self {
            Kind::Mass => "kind-mass",
            Kind::Volume => "kind-volume",
            Kind::Share => "kind-share",
            Kind::Temperature => "kind-temperature",
            Kind::Duration => "kind-duration",
            Kind::Concentration => "kind-concentration",
            Kind::Density => "kind-density",
            Kind::Ph => "kind-ph",
            Kind::Number => "kind-number",
            Kind::Count => "kind-count",
        }
    }
}

/// Whose cups, pints and gallons.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measures {
    /// 250 mL cup, 15 mL tablespoon, 5 mL teaspoon. A pint, quart or gallon is
    /// refused, because nobody can say which is meant.
    #[default]
    Metric,
    Us,
    Imperial,
}

words!(Measures { Metric = "metric", Us = "us", Imperial = "imperial" });

/// A unit. What a kitchen unit is worth depends on [`Measures`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    Milligram,
    Gram,
    Kilogram,
    Ounce,
    Pound,
    Millilitre,
    Litre,
    Teaspoon,
    Tablespoon,
    FluidOunce,
    Cup,
    Pint,
    Quart,
    Gallon,
    Percent,
    PartsPerMillion,
    Celsius,
    Fahrenheit,
    Second,
    Minute,
    Hour,
    Day,
    Week,
    MilligramsPerLitre,
    GramsPerLitre,
    GramsPerMillilitre,
    KilogramsPerCubicMetre,
    Ph,
    /// No unit: a plain number or a count.
    One,
}

impl Unit {
    /// The kind that the unit measures. [`Unit::One`] counts as a number.
    pub fn kind(self) -> Kind {
        use Unit::*;
        match self {
            Milligram | Gram | Kilogram | Ounce | Pound => Kind::Mass,
            Millilitre | Litre | Teaspoon | Tablespoon | FluidOunce | Cup | Pint | Quart
            | Gallon => Kind::Volume,
            Percent | PartsPerMillion => Kind::Share,
            Celsius | Fahrenheit => Kind::Temperature,
            Second | Minute | Hour | Day | Week => Kind::Duration,
            MilligramsPerLitre | GramsPerLitre => Kind::Concentration,
            GramsPerMillilitre | KilogramsPerCubicMetre => Kind::Density,
            Ph => Kind::Ph,
            One => Kind::Number,
        }
    }

    /// `value` of this unit in the base unit of its kind.
    pub fn to_base(self, value: f64, measures: Measures) -> f64 {
        match self {
            Unit::Fahrenheit => (value - 32.0) / 1.8,
            other => value * other.factor(measures),
        }
    }

    /// A value in the base unit of this unit's kind, in this unit.
    pub fn from_base(self, base: f64, measures: Measures) -> f64 {
        match self {
            Unit::Fahrenheit => base * 1.8 + 32.0,
            other => base / other.factor(measures),
        }
    }

    /// Base units in one of this unit.
    ///
    /// Mass: the international avoirdupois pound is 453.59237 g exactly (1959
    /// agreement). US liquid: gallon of 231 cubic inches exactly (NIST Handbook
    /// 44, appendix C). Imperial: gallon of 4546.09 mL exactly (Weights and
    /// Measures Act 1985). Metric cup 250, tablespoon 15, teaspoon 5 mL: common
    /// practice, no source (an Australian tablespoon is 20 mL).
    fn factor(self, measures: Measures) -> f64 {
        const US_GALLON: f64 = 3_785.411_784;
        const IMPERIAL_GALLON: f64 = 4546.09;
        let imperial = measures == Measures::Imperial;
        let gallon = if imperial { IMPERIAL_GALLON } else { US_GALLON };
        match self {
            Unit::Milligram => 1e-3,
            Unit::Kilogram => 1000.0,
            Unit::Pound => 453.592_37,
            Unit::Ounce => 453.592_37 / 16.0,
            Unit::Litre => 1000.0,
            Unit::Gallon => gallon,
            Unit::Quart => gallon / 4.0,
            Unit::Pint => gallon / 8.0,
            Unit::FluidOunce if imperial => gallon / 160.0,
            Unit::FluidOunce => gallon / 128.0,
            Unit::Cup => match measures {
                Measures::Metric => 250.0,
                _ => gallon / 16.0,
            },
            Unit::Tablespoon => match measures {
                Measures::Us => gallon / 256.0,
                _ => 15.0,
            },
            Unit::Teaspoon => match measures {
                Measures::Us => gallon / 768.0,
                _ => 5.0,
            },
            Unit::Percent => 1e-2,
            Unit::PartsPerMillion => 1e-6,
            Unit::Second => 1.0 / 60.0,
            Unit::Hour => 60.0,
            Unit::Day => 1440.0,
            Unit::Week => 10_080.0,
            Unit::MilligramsPerLitre => 1e-3,
            Unit::KilogramsPerCubicMetre => 1e-3,
            _ => 1.0,
        }
    }

    /// Whether US and imperial sizes differ so much (a fifth) that a reader
    /// with metric measures must say which is meant.
    pub(crate) fn needs_a_country(self) -> bool {
        matches!(self, Unit::Pint | Unit::Quart | Unit::Gallon)
    }
}

/// The unit that `word` means in a field of `kind`: that kind's own words
/// first, so that `oz` is a fluid ounce in a volume field. `None` if no kind
/// knows the word. Upper and lower case are alike; the names have both in ASCII
/// alone.
pub(crate) fn unit_named(word: &str, kind: Kind) -> Option<Unit> {
    let word = word.trim().trim_end_matches('.').to_ascii_lowercase();
    let found = |kind: Kind| {
        NAMES
            .iter()
            .filter(|(unit, _)| unit.kind() == kind)
            .find(|(_, names)| names.split('|').any(|name| name == word))
            .map(|(unit, _)| *unit)
    };
    let own = match kind {
        Kind::Volume if word == "oz" || word == "ounce" || word == "ounces" => {
            Some(Unit::FluidOunce)
        }
        Kind::Concentration if word == "ppm" => Some(Unit::MilligramsPerLitre),
        other => found(other),
    };
    own.or_else(|| {
        [
            Kind::Mass,
            Kind::Volume,
            Kind::Share,
            Kind::Concentration,
            Kind::Density,
            Kind::Duration,
            Kind::Temperature,
            Kind::Ph,
        ]
        .into_iter()
        .find_map(found)
    })
}

const NAMES: &[(Unit, &str)] = &[
    (Unit::Milligram, "mg|milligram|milligrams|milligramme|milligrammes"),
    (Unit::Gram, "g|gr|gm|gms|gram|grams|gramme|grammes"),
    (Unit::Kilogram, "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"),
    (Unit::Ounce, "oz|ozs|ounce|ounces"),
    (Unit::Pound, "lb|lbs|pound|pounds"),
    (Unit::Millilitre, "ml|mls|cc|cm3|cm³|millilitre|millilitres|milliliter|milliliters"),
    (Unit::Litre, "l|ltr|ltrs|lt|ℓ|litre|litres|liter|liters"),
    (Unit::Teaspoon, "tsp|tsps|teaspoon|teaspoons"),
    (Unit::Tablespoon, "tbsp|tbsps|tbs|tbl|tablespoon|tablespoons"),
    (Unit::FluidOunce, "fl oz|fl. oz|floz|fl ozs|fluid oz|fluid ounce|fluid ounces"),
    (Unit::Cup, "cup|cups|cup(s)|c"),
    (Unit::Pint, "pt|pts|pint|pints"),
    (Unit::Quart, "qt|qts|quart|quarts"),
    (Unit::Gallon, "gal|gals|gallon|gallons"),
    (Unit::Percent, "%|pct|percent|per cent"),
    (Unit::PartsPerMillion, "ppm"),
    (Unit::Celsius, "°c|ºc|c|deg c|degc|celsius|°|º|degrees|degrees c"),
    (Unit::Fahrenheit, "°f|ºf|f|deg f|degf|fahrenheit|degrees f"),
    (Unit::Second, "s|sec|secs|second|seconds"),
    (Unit::Minute, "min|mins|m|minute|minutes|'|′"),
    (Unit::Hour, "h|hr|hrs|hour|hours"),
    (Unit::Day, "d|day|days"),
    (Unit::Week, "wk|wks|week|weeks"),
    (Unit::MilligramsPerLitre, "mg/l|mg per l|mg per litre|mg per liter"),
    (Unit::GramsPerLitre, "g/l|gpl|g per l|g per litre|g per liter|grams per litre"),
    (Unit::GramsPerMillilitre, "g/ml|g/cc|g/cm3|g/cm³|kg/l|sg|s.g|sp gr|g per ml"),
    (Unit::KilogramsPerCubicMetre, "kg/m3|kg/m³"),
    (Unit::Ph, "ph"),
];
