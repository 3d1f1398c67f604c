//! Parsing of quantities that a person typed, in the unit and with the decimal
//! mark that they use. Numbers alone are read in `number`.

use super::{
    Celsius, Mass, MassConcentration, MassDensity, Measures, Ph, QuantityKind, Ratio, Unit, Volume,
    grams, grams_per_litre, grams_per_millilitre, millilitres,
    number::{ScanError, ScannedNumber, decimal_number, normalize, scan_number},
    parse_error::{GIVEN_LENGTH, ParseError, ParseErrorKind},
    share,
    unit::unit_named,
};
use crate::message::Field;

/// What a number field accepts: kind, default unit, limits and locale conventions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberSpec {
    pub field: Field,
    pub kind: QuantityKind,
    /// The unit of a number without one.
    pub unit: Unit,
    /// The system that cups and pints are in.
    pub measures: Measures,
    /// The reader's decimal mark, `'.'` or `','`. Both are read; this decides
    /// what `1.234` means.
    pub decimal: char,
    /// Least and greatest value accepted, in the base unit of the kind.
    pub min: f64,
    pub max: f64,
}

impl NumberSpec {
    /// A field of `kind` with the base unit of that kind (percent for a share)
    /// and limits that are wide for a studio.
    pub fn new(field: Field, kind: QuantityKind) -> Self {
        let (unit, min, max) = match kind {
            QuantityKind::Mass => (Unit::Gram, 0.0, 500_000.0),
            QuantityKind::Volume => (Unit::Millilitre, 0.0, 2_000_000.0),
            QuantityKind::Share => (Unit::Percent, 0.0, 1.0),
            QuantityKind::Temperature => (Unit::Celsius, 0.0, 100.0),
            QuantityKind::Duration => (Unit::Minute, 0.0, 20.0 * 365.25 * 1440.0),
            QuantityKind::Concentration => (Unit::GramsPerLitre, 0.0, 500.0),
            QuantityKind::Density => (Unit::GramsPerMillilitre, 0.05, 3.0),
            QuantityKind::Ph => (Unit::Ph, 0.0, 14.0),
            QuantityKind::Number => (Unit::One, 0.0, 1e6),
            QuantityKind::Count => (Unit::One, 0.0, 10_000.0),
        };
        let (measures, decimal) = (Measures::default(), '.');
        Self { field, kind, unit, measures, decimal, min, max }
    }

    /// Sets the unit of a number without one.
    #[must_use]
    pub fn unit(self, unit: Unit) -> Self {
        Self { unit, ..self }
    }

    /// Sets the limits, in the base unit of the kind.
    #[must_use]
    pub fn between(self, min: f64, max: f64) -> Self {
        Self { min, max, ..self }
    }

    /// Sets the reader's measures and decimal mark.
    #[must_use]
    pub fn reader(self, measures: Measures, decimal: char) -> Self {
        Self { measures, decimal, ..self }
    }

    /// Reads `text`: `0,5 L`, `1 1/2 cups`, `½ cup`, `3 oz`, `500ml`, `2 %`,
    /// `3 lb 4 oz`, `1h30`. The value is finite and within the limits.
    ///
    /// Meant to be called once for each change of the text: the result is
    /// `Copy`, compares, and has every typed value that a form asks of it.
    ///
    /// # Errors
    /// [`ParseError`] with what was given, the reason, and what is accepted.
    pub fn parse(&self, text: &str) -> Result<ParsedQuantity, ParseError> {
        self.parse_normalized(&normalize(text))
            .map_err(|reason| ParseError::new(text, self.field, self.kind, reason))
    }

    fn parse_normalized(&self, text: &str) -> Result<ParsedQuantity, ParseErrorKind> {
        if text.is_empty() {
            return Err(ParseErrorKind::Empty);
        }
        let (sign, body) = match text.strip_prefix('-') {
            Some(body) => (-1.0, body.trim_start()),
            None => (1.0, text),
        };
        let body = match self.kind {
            QuantityKind::Ph => strip_prefix_any_case(body, "ph").unwrap_or(body),
            _ => body,
        };
        let amount = compound(body, self)?;
        if sign < 0.0 && self.min >= 0.0 {
            return Err(ParseErrorKind::Negative);
        }
        let (unit, measures) = (amount.unit, amount.measures);
        let to_base = |value: f64| unit.to_base(sign * value, measures);
        let fits = |value: f64| self.check_limits(to_base(value)).is_ok();
        let value = match amount.alternative {
            Some(other) if fits(amount.value) && fits(other) => {
                let (one, other) = (to_base(amount.value), to_base(other));
                return Err(ParseErrorKind::Ambiguous { one, other });
            }
            Some(other) if fits(other) => other,
            _ => amount.value,
        };
        let base = to_base(value);
        self.check_limits(base)?;
        if self.kind == QuantityKind::Count && base.fract() != 0.0 {
            return Err(ParseErrorKind::NotWhole);
        }
        Ok(ParsedQuantity { kind: self.kind, base, unit, measures })
    }

    fn check_limits(&self, base: f64) -> Result<(), ParseErrorKind> {
        if !base.is_finite() || base > self.max {
            Err(ParseErrorKind::TooLarge { max: self.max })
        } else if base < self.min {
            Err(ParseErrorKind::TooSmall { min: self.min })
        } else {
            Ok(())
        }
    }
}

/// A quantity that was typed, with the unit it was typed in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParsedQuantity {
    pub kind: QuantityKind,
    /// In the base unit of the kind.
    pub base: f64,
    /// The unit that was typed; the first of them in `3 lb 4 oz`.
    pub unit: Unit,
    pub measures: Measures,
}

impl ParsedQuantity {
    /// A quantity that needs no parsing, for a field that is filled from a
    /// record or a plan: `base` in the base unit of `spec`'s kind.
    ///
    /// # Errors
    /// [`ParseErrorKind::TooSmall`] or [`ParseErrorKind::TooLarge`] outside the
    /// limits of `spec`.
    pub fn from_base(base: f64, spec: &NumberSpec) -> Result<Self, ParseErrorKind> {
        spec.check_limits(base)?;
        let NumberSpec { kind, unit, measures, .. } = *spec;
        Ok(Self { kind, base, unit, measures })
    }

    /// The value in the unit that it was typed in.
    pub fn in_unit(self) -> f64 {
        self.unit.from_base(self.base, self.measures)
    }

    /// The mass; `None` if it is of another kind. The same holds for the functions below.
    pub fn mass(self) -> Option<Mass> {
        (self.kind == QuantityKind::Mass).then(|| grams(self.base))
    }

    pub fn volume(self) -> Option<Volume> {
        (self.kind == QuantityKind::Volume).then(|| millilitres(self.base))
    }

    pub fn share(self) -> Option<Ratio> {
        (self.kind == QuantityKind::Share).then(|| share(self.base))
    }

    pub fn celsius(self) -> Option<Celsius> {
        (self.kind == QuantityKind::Temperature).then(|| Celsius::new(self.base).ok())?
    }

    pub fn ph(self) -> Option<Ph> {
        (self.kind == QuantityKind::Ph).then(|| Ph::new(self.base).ok())?
    }

    pub fn concentration(self) -> Option<MassConcentration> {
        (self.kind == QuantityKind::Concentration).then(|| grams_per_litre(self.base))
    }

    pub fn density(self) -> Option<MassDensity> {
        (self.kind == QuantityKind::Density).then(|| grams_per_millilitre(self.base))
    }
}

/// An amount in one unit, with its other reading if it has one.
struct Amount {
    value: f64,
    alternative: Option<f64>,
    unit: Unit,
    measures: Measures,
}

/// One amount, or several in descending units (`3 lb 4 oz`, `1h30`), in the
/// unit of the first.
fn compound(text: &str, spec: &NumberSpec) -> Result<Amount, ParseErrorKind> {
    if let Some(ambiguous) = clock_time(text, spec) {
        return Err(ambiguous);
    }
    let (mut sum, rest) = amount(text, spec)?;
    let mut rest = rest.trim_start_matches([' ', ',']);
    let mut smallest = sum.unit.to_base(1.0, sum.measures);
    let may_be_compound =
        matches!(spec.kind, QuantityKind::Mass | QuantityKind::Volume | QuantityKind::Duration);
    while !rest.is_empty() {
        if !may_be_compound {
            return Err(unexpected(rest));
        }
        let minutes = sum.unit == Unit::Hour && rest.bytes().all(|b| b.is_ascii_digit());
        let own = if minutes { spec.unit(Unit::Minute) } else { *spec };
        let (next, left) = amount(rest, &own)?;
        let step = next.unit.to_base(1.0, next.measures);
        let has_unit = minutes || rest[..rest.len() - left.len()].contains(char::is_alphabetic);
        if !has_unit || step >= smallest || sum.alternative.is_some() || next.alternative.is_some()
        {
            return Err(ParseErrorKind::Compound);
        }
        sum.value += sum.unit.from_base(next.unit.to_base(next.value, next.measures), sum.measures);
        smallest = step;
        rest = left.trim_start_matches([' ', ',']);
    }
    Ok(sum)
}

/// One number and its unit at the start of the text, and the text after them.
fn amount<'a>(text: &'a str, spec: &NumberSpec) -> Result<(Amount, &'a str), ParseErrorKind> {
    let scanned = scan_number(text, spec.decimal).map_err(|error| match error {
        ScanError::NoDigit if text.starts_with('-') => ParseErrorKind::Negative,
        ScanError::NoDigit => ParseErrorKind::NotANumber,
        ScanError::Separators => ParseErrorKind::Separators,
        ScanError::ZeroDenominator => ParseErrorKind::ZeroDenominator,
    })?;
    let ScannedNumber { value, alternative, rest } = scanned;
    let rest = rest.trim_start_matches(' ');
    let end = unit_end(rest);
    let (word, rest) = (rest[..end].trim(), &rest[end..]);
    if word.is_empty() {
        if rest.trim().is_empty() || rest.starts_with(|c: char| c.is_ascii_digit()) {
            let NumberSpec { unit, measures, .. } = *spec;
            return Ok((Amount { value, alternative, unit, measures }, rest));
        }
        return Err(unexpected(rest));
    }
    let (measures, word) = measures_prefix(word, spec.measures);
    let unit =
        unit_named(word, spec.kind).ok_or_else(|| ParseErrorKind::UnknownUnit(word.to_owned()))?;
    if unit.kind() != spec.kind {
        return Err(ParseErrorKind::WrongKind { found: unit.kind() });
    }
    if unit.depends_on_measures() && measures == Measures::Metric {
        let (us, imperial) =
            (unit.to_base(value, Measures::Us), unit.to_base(value, Measures::Imperial));
        return Err(ParseErrorKind::MeasuresUnknown { us, imperial });
    }
    Ok((Amount { value, alternative, unit, measures }, rest))
}

/// The end of the unit: the next digit, unless that belongs to the unit
/// (`g/cm3`, `kg/m3`).
fn unit_end(rest: &str) -> usize {
    let end = rest.find(|c: char| c.is_ascii_digit() || c == ',').unwrap_or(rest.len());
    if rest[end..].starts_with('3') && rest[..end].ends_with(['m', 'M']) { end + 1 } else { end }
}

/// The system of measures in `US pint`, `imp gal`, `UK cup`, and the unit name
/// after it; `own` where none is named.
fn measures_prefix(word: &str, own: Measures) -> (Measures, &str) {
    [
        ("us ", Measures::Us),
        ("imperial ", Measures::Imperial),
        ("imp ", Measures::Imperial),
        ("uk ", Measures::Imperial),
        ("metric ", Measures::Metric),
    ]
    .into_iter()
    .find_map(|(prefix, measures)| Some((measures, strip_prefix_any_case(word, prefix)?)))
    .unwrap_or((own, word))
}

fn strip_prefix_any_case<'a>(text: &'a str, prefix: &str) -> Option<&'a str> {
    let (head, tail) = text.split_at_checked(prefix.len())?;
    head.eq_ignore_ascii_case(prefix).then(|| tail.trim_start())
}

/// `1:30` as a duration is refused: hours and minutes, or minutes and seconds?
fn clock_time(text: &str, spec: &NumberSpec) -> Option<ParseErrorKind> {
    let (a, b) = text.split_once(':')?;
    let (a, b) = (decimal_number(a.trim())?, decimal_number(b.trim())?);
    (spec.kind == QuantityKind::Duration)
        .then_some(ParseErrorKind::Ambiguous { one: a * 60.0 + b, other: a + b / 60.0 })
}

/// Text after the quantity that is no part of it.
fn unexpected(rest: &str) -> ParseErrorKind {
    let rest = rest.trim();
    if rest.starts_with(char::is_alphabetic) {
        ParseErrorKind::UnknownUnit(rest.chars().take(GIVEN_LENGTH).collect())
    } else {
        ParseErrorKind::Separators
    }
}

#[cfg(test)]
#[path = "parse_tests.rs"]
mod tests;
