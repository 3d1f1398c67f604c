//! Units, their names as typed, and their conversion factors.

use serde::{Deserialize, Serialize};

/// The kind of a quantity. Parsed values and limits are in its base unit.
#[derive(
    Clone,
    Copy,
    Debug,
    PartialEq,
    Eq,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "kind-", serialize_all = "snake_case")]
pub enum QuantityKind {
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
    /// A number without a unit.
    Number,
    /// A whole number.
    Count,
}

impl QuantityKind {
    /// Locale key of examples that this kind accepts.
    pub fn accepts(self) -> &'static str {
        match self {
            QuantityKind::Mass => "accept-mass",
            QuantityKind::Volume => "accept-volume",
            QuantityKind::Share => "accept-share",
            QuantityKind::Temperature => "accept-temperature",
            QuantityKind::Duration => "accept-duration",
            QuantityKind::Concentration => "accept-concentration",
            QuantityKind::Density => "accept-density",
            QuantityKind::Ph => "accept-ph",
            QuantityKind::Number => "accept-number",
            QuantityKind::Count => "accept-count",
        }
    }

    /// Locale key of the kind's name, for "5 kg is a mass".
    pub fn word(self) -> &'static str {
        self.into_str()
    }
}

/// The system that cups, pints and gallons are in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measures {
    /// Cup 250 mL, tablespoon 15 mL, teaspoon 5 mL. A pint, quart or gallon is
    /// ambiguous here and refused.
    #[default]
    Metric,
    Us,
    Imperial,
}

/// A unit. The factor of a kitchen unit depends on [`Measures`].
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
    /// No unit: a number or a count.
    One,
}

impl Unit {
    /// The kind of quantity that the unit measures; a number for [`Unit::One`].
    pub fn kind(self) -> QuantityKind {
        use Unit::*;
        match self {
            Milligram | Gram | Kilogram | Ounce | Pound => QuantityKind::Mass,
            Millilitre | Litre | Teaspoon | Tablespoon | FluidOunce | Cup | Pint | Quart
            | Gallon => QuantityKind::Volume,
            Percent | PartsPerMillion => QuantityKind::Share,
            Celsius | Fahrenheit => QuantityKind::Temperature,
            Second | Minute | Hour | Day | Week => QuantityKind::Duration,
            MilligramsPerLitre | GramsPerLitre => QuantityKind::Concentration,
            GramsPerMillilitre | KilogramsPerCubicMetre => QuantityKind::Density,
            Ph => QuantityKind::Ph,
            One => QuantityKind::Number,
        }
    }

    /// Converts `value` from this unit to the base unit of its kind.
    pub fn to_base(self, value: f64, measures: Measures) -> f64 {
        match self {
            Unit::Fahrenheit => (value - 32.0) / 1.8,
            other => value * other.factor(measures),
        }
    }

    /// Converts `base` from the base unit of the kind to this unit.
    pub fn from_base(self, base: f64, measures: Measures) -> f64 {
        match self {
            Unit::Fahrenheit => base * 1.8 + 32.0,
            other => base / other.factor(measures),
        }
    }

    /// Base units per unit.
    ///
    /// Mass: the international avoirdupois pound is 453.59237 g exactly (1959
    /// agreement). US liquid: gallon of 231 cubic inches exactly (NIST Handbook
    /// 44, appendix C). Imperial: gallon of 4546.09 mL exactly (Weights and
    /// Measures Act 1985). Metric cup 250, tablespoon 15, teaspoon 5 mL: common
    /// practice, no source (an Australian tablespoon is 20 mL).
    fn factor(self, measures: Measures) -> f64 {
        const US_GALLON: f64 = 3_785.411_784;
        const IMPERIAL_GALLON: f64 = 4546.09;
        use Measures::{Imperial, Metric, Us};
        use Unit::*;
        let gallon = if measures == Imperial { IMPERIAL_GALLON } else { US_GALLON };
        match (self, measures) {
            (Milligram | MilligramsPerLitre | KilogramsPerCubicMetre, _) => 1e-3,
            (Kilogram | Litre, _) => 1000.0,
            (Pound, _) => 453.592_37,
            (Ounce, _) => 453.592_37 / 16.0,
            (Gallon, _) => gallon,
            (Quart, _) => gallon / 4.0,
            (Pint, _) => gallon / 8.0,
            (Cup, Metric) => 250.0,
            (Cup, _) => gallon / 16.0,
            (FluidOunce, Imperial) => gallon / 160.0,
            (FluidOunce, _) => gallon / 128.0,
            (Tablespoon, Us) => gallon / 256.0,
            (Tablespoon, _) => 15.0,
            (Teaspoon, Us) => gallon / 768.0,
            (Teaspoon, _) => 5.0,
            (Percent, _) => 1e-2,
            (PartsPerMillion, _) => 1e-6,
            (Second, _) => 1.0 / 60.0,
            (Hour, _) => 60.0,
            (Day, _) => 1440.0,
            (Week, _) => 10_080.0,
            _ => 1.0,
        }
    }

    /// Whether it is measured in halves, thirds and quarters.
    pub fn has_fractions(self) -> bool {
        use Unit::*;
        matches!(
            self,
            Teaspoon | Tablespoon | Cup | FluidOunce | Pint | Quart | Gallon | Ounce | Pound
        )
    }

    /// Whether US and imperial sizes differ by a fifth, so that the system must
    /// be known.
    pub(super) fn depends_on_measures(self) -> bool {
        matches!(self, Unit::Pint | Unit::Quart | Unit::Gallon)
    }
}

/// The units that a person may choose from in a field of `kind`, the usual ones first. A pint,
/// quart or gallon is offered only where [`Measures`] says which.
pub fn offered_units(kind: QuantityKind, measures: Measures) -> &'static [Unit] {
    use Unit::*;
    const VOLUMES: &[Unit] =
        &[Millilitre, Litre, Teaspoon, Tablespoon, Cup, FluidOunce, Pint, Quart, Gallon];
    const METRIC_VOLUMES: &[Unit] = VOLUMES.split_at(5).0;
    match (kind, measures) {
        (QuantityKind::Mass, _) => &[Gram, Kilogram, Ounce, Pound],
        (QuantityKind::Volume, Measures::Metric) => METRIC_VOLUMES,
        (QuantityKind::Volume, _) => VOLUMES,
        (QuantityKind::Share, _) => &[Percent],
        (QuantityKind::Temperature, _) => &[Celsius, Fahrenheit],
        (QuantityKind::Duration, _) => &[Minute, Hour, Day, Week],
        (QuantityKind::Concentration, _) => &[GramsPerLitre, MilligramsPerLitre],
        (QuantityKind::Density, _) => &[GramsPerMillilitre, KilogramsPerCubicMetre],
        (QuantityKind::Ph, _) => &[Ph],
        (QuantityKind::Number | QuantityKind::Count, _) => &[One],
    }
}

/// The unit named `word` in a field of `kind`. Names of that kind come first, so
/// that `oz` is a fluid ounce in a volume field. Case is ignored. `None` if no
/// kind has the name.
pub(super) fn unit_named(word: &str, kind: QuantityKind) -> Option<Unit> {
    let word = word.trim().trim_end_matches('.').to_lowercase();
    let of_kind = |kind: QuantityKind| {
        let named = |(unit, names): &&(Unit, &str)| {
            unit.kind() == kind && names.split('|').any(|name| name == word)
        };
        NAMES.iter().find(named).map(|(unit, _)| *unit)
    };
    let own = match (kind, word.as_str()) {
        (QuantityKind::Volume, "oz" | "ounce" | "ounces") => Some(Unit::FluidOunce),
        (QuantityKind::Concentration, "ppm") => Some(Unit::MilligramsPerLitre),
        _ => of_kind(kind),
    };
    own.or_else(|| OTHER_KINDS.into_iter().find_map(of_kind))
}

/// Order of search for a unit of another kind than the field's.
const OTHER_KINDS: [QuantityKind; 8] = {
    use QuantityKind::*;
    [Mass, Volume, Share, Concentration, Density, Duration, Temperature, Ph]
};

/// Names of each unit in lower case, separated by `|`.
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
