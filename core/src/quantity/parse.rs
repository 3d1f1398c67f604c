//! What a person typed into a field, read forgivingly or refused kindly.

use super::{
    Mass, MassConcentration, MassDensity, Measures, QuantityKind, Ratio, Unit, Volume, grams,
    grams_per_litre, grams_per_millilitre, is_letter, millilitres,
    number::{NoNumber, Number, from_digits, number, plain},
    share,
    unit::unit_named,
    unreadable::{GIVEN, ParseError, Why},
};
use crate::message::Field;

/// Reads `text` as the field wants it: `0,5 L`, `1 1/2 cups`, `½ cup`, `3 oz`,
/// `500ml`, `2 %`, `3 lb 4 oz`, `1h30`. A bare number takes the field's own
/// unit. Never answers with a value that is not finite or outside the field's
/// limits.
///
/// # Errors
/// An [`ParseError`] that says what was given, why it cannot be taken, and
/// what would be.
pub fn read(text: &str, asked: &NumberSpec) -> Result<ParsedQuantity, ParseError> {
    let refuse = |why| Err(ParseError::new(text, asked, why));
    let plain = plain(text);
    if plain.is_empty() {
        return refuse(Why::Empty);
    }
    let (negative, body) = match plain.strip_prefix('-') {
        Some(body) => (true, body.trim_start()),
        None => (false, plain.as_str()),
    };
    let body = match asked.kind {
        QuantityKind::Ph => strip_prefix_any_case(body, "ph").unwrap_or(body),
        _ => body,
    };
    let typed = match terms(body, asked) {
        Ok(typed) => typed,
        Err(why) => return refuse(why),
    };
    if negative && asked.min >= 0.0 {
        return refuse(Why::Negative);
    }
    let unit = typed.unit;
    let sign = if negative { -1.0 } else { 1.0 };
    let base = |value: f64| unit.to_base(sign * value, typed.measures);
    let fits = |value: f64| asked.limits(base(value)).is_ok();
    let value = match typed.other {
        Some(other) if fits(typed.value) && fits(other) => {
            return refuse(Why::Ambiguous { one: base(typed.value), other: base(other) });
        }
        Some(other) if fits(other) => other,
        _ => typed.value,
    };
    let base = base(value);
    if let Err(why) = asked.limits(base) {
        return refuse(why);
    }
    if asked.kind == QuantityKind::Count && base.fract() != 0.0 {
        return refuse(Why::NotWhole);
    }
    Ok(ParsedQuantity { kind: asked.kind, base, unit, measures: typed.measures })
}

/// What a field asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberSpec {
    pub field: Field,
    pub kind: QuantityKind,
    /// The unit of a number typed without one.
    pub unit: Unit,
    /// Whose cups and pints.
    pub measures: Measures,
    /// The reader's decimal mark, `'.'` or `','`. Both are understood; this
    /// settles what `1.234` means.
    pub decimal: char,
    /// Least and greatest value taken, in the base unit of the kind.
    pub min: f64,
    pub max: f64,
}

impl NumberSpec {
    /// A field of `kind` with that kind's base unit (a percentage for a share)
    /// and the widest limits that are not absurd in a studio.
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

    /// The same field with `unit` for a bare number.
    #[must_use]
    pub fn unit(self, unit: Unit) -> Self {
        Self { unit, ..self }
    }

    /// The same field with limits in the base unit of its kind.
    #[must_use]
    pub fn between(self, min: f64, max: f64) -> Self {
        Self { min, max, ..self }
    }

    /// The same field as this reader types: their cups, their decimal mark.
    #[must_use]
    pub fn reader(self, measures: Measures, decimal: char) -> Self {
        Self { measures, decimal, ..self }
    }

    fn limits(&self, base: f64) -> Result<(), Why> {
        if !base.is_finite() || base > self.max {
            Err(Why::TooLarge { max: self.max })
        } else if base < self.min {
            Err(Why::TooSmall { min: self.min })
        } else {
            Ok(())
        }
    }
}

/// A value that was typed, and the unit it was typed in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParsedQuantity {
    pub kind: QuantityKind,
    /// In the base unit of the kind.
    pub base: f64,
    /// The unit the person used, the first of them in `3 lb 4 oz`.
    pub unit: Unit,
    pub measures: Measures,
}

impl ParsedQuantity {
    pub fn mass(self) -> Option<Mass> {
        (self.kind == QuantityKind::Mass).then(|| grams(self.base))
    }

    pub fn volume(self) -> Option<Volume> {
        (self.kind == QuantityKind::Volume).then(|| millilitres(self.base))
    }

    pub fn share(self) -> Option<Ratio> {
        (self.kind == QuantityKind::Share).then(|| share(self.base))
    }

    pub fn concentration(self) -> Option<MassConcentration> {
        (self.kind == QuantityKind::Concentration).then(|| grams_per_litre(self.base))
    }

    pub fn density(self) -> Option<MassDensity> {
        (self.kind == QuantityKind::Density).then(|| grams_per_millilitre(self.base))
    }
}

/// A sum of amounts in the unit of the first, with its other reading if any.
struct Sum {
    value: f64,
    other: Option<f64>,
    unit: Unit,
    measures: Measures,
}

fn terms(text: &str, asked: &NumberSpec) -> Result<Sum, Why> {
    if let Some(why) = clock(text, asked) {
        return Err(why);
    }
    let (first, rest) = term(text, asked)?;
    let mut sum = first;
    let mut rest = rest.trim_start_matches([' ', ',']);
    let mut smallest = sum.unit.to_base(1.0, sum.measures);
    let compound =
        matches!(asked.kind, QuantityKind::Mass | QuantityKind::Volume | QuantityKind::Duration);
    while !rest.is_empty() {
        if !compound {
            return Err(leftover(rest));
        }
        let minutes = sum.unit == Unit::Hour && rest.bytes().all(|b| b.is_ascii_digit());
        let own = if minutes { asked.unit(Unit::Minute) } else { *asked };
        let (next, left) = term(rest, &own)?;
        let step = next.unit.to_base(1.0, next.measures);
        let named = minutes || left.len() < rest.len() && has_unit(rest, left);
        if !named || step >= smallest || sum.other.is_some() || next.other.is_some() {
            return Err(Why::Parts);
        }
        sum.value += sum.unit.from_base(next.unit.to_base(next.value, next.measures), sum.measures);
        smallest = step;
        rest = left.trim_start_matches([' ', ',']);
    }
    Ok(sum)
}

fn has_unit(all: &str, left: &str) -> bool {
    all[..all.len() - left.len()].contains(is_letter)
}

/// One number and its unit off the front.
fn term<'a>(text: &'a str, asked: &NumberSpec) -> Result<(Sum, &'a str), Why> {
    let Number { value, other, rest } = number(text, asked.decimal).map_err(|why| match why {
        NoNumber::Words if text.starts_with('-') => Why::Negative,
        NoNumber::Words => Why::NotANumber,
        NoNumber::Marks => Why::Marks,
        NoNumber::ZeroUnderLine => Why::ZeroUnderLine,
    })?;
    let rest = rest.trim_start_matches(' ');
    let end = unit_end(rest);
    let (word, rest) = (rest[..end].trim(), &rest[end..]);
    if word.is_empty() {
        if rest.trim().is_empty() || rest.starts_with(|c: char| c.is_ascii_digit()) {
            return Ok((Sum { value, other, unit: asked.unit, measures: asked.measures }, rest));
        }
        return Err(leftover(rest));
    }
    let (measures, word) = country(word, asked.measures);
    let unit = unit_named(word, asked.kind).ok_or_else(|| Why::UnknownUnit(word.to_owned()))?;
    if unit.kind() != asked.kind {
        return Err(Why::WrongKind { found: unit.kind() });
    }
    if unit.needs_a_country() && measures == Measures::Metric {
        let one = |measures| unit.to_base(value, measures);
        return Err(Why::WhichMeasure { us: one(Measures::Us), imperial: one(Measures::Imperial) });
    }
    Ok((Sum { value, other, unit, measures }, rest))
}

/// Where the unit ends: before the next digit, save one that belongs to the
/// unit (`g/cm3`, `kg/m3`).
fn unit_end(rest: &str) -> usize {
    let end = rest.find(|c: char| c.is_ascii_digit() || c == ',').unwrap_or(rest.len());
    if rest[end..].starts_with('3') && rest[..end].ends_with(['m', 'M']) { end + 1 } else { end }
}

/// `US pint`, `imp gal`, `UK cup`: whose, and the rest of the name.
fn country(word: &str, own: Measures) -> (Measures, &str) {
    for (prefix, measures) in [
        ("us ", Measures::Us),
        ("imperial ", Measures::Imperial),
        ("imp ", Measures::Imperial),
        ("uk ", Measures::Imperial),
        ("metric ", Measures::Metric),
    ] {
        if let Some(rest) = strip_prefix_any_case(word, prefix) {
            return (measures, rest);
        }
    }
    (own, word)
}

fn strip_prefix_any_case<'a>(text: &'a str, prefix: &str) -> Option<&'a str> {
    let head = text.get(..prefix.len())?;
    head.eq_ignore_ascii_case(prefix).then(|| text[prefix.len()..].trim_start())
}

/// `1:30` in a duration field: hours and minutes, or minutes and seconds?
fn clock(text: &str, asked: &NumberSpec) -> Option<Why> {
    let (a, b) = text.split_once(':')?;
    let (a, b) = (from_digits(a.trim())?, from_digits(b.trim())?);
    (asked.kind == QuantityKind::Duration)
        .then_some(Why::Ambiguous { one: a * 60.0 + b, other: a + b / 60.0 })
}

fn leftover(rest: &str) -> Why {
    let rest = rest.trim();
    match rest.chars().next() {
        Some(c) if is_letter(c) => Why::UnknownUnit(rest.chars().take(GIVEN).collect()),
        _ => Why::Marks,
    }
}

#[cfg(test)]
#[path = "parse_tests.rs"]
mod tests;
