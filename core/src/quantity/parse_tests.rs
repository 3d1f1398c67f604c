//! Text that is read, and text that is refused.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::message::Value;
use crate::property;
use crate::quantity::in_millilitres;
use proptest::prelude::*;
use strum::VariantArray;

const F: Field = Field("any");

fn get(kind: QuantityKind, text: &str) -> Result<f64, ParseErrorKind> {
    NumberSpec::new(F, kind).parse(text).map(|typed| typed.base).map_err(|error| error.reason)
}

fn us(text: &str) -> f64 {
    NumberSpec::new(F, QuantityKind::Volume).reader(Measures::Us, '.').parse(text).unwrap().base
}

#[track_caller]
fn near(found: Result<f64, ParseErrorKind>, wanted: f64) {
    let found = found.unwrap();
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{found} is not {wanted}");
}

#[test]
fn volumes() {
    for (text, wanted) in [
        ("500ml", 500.0),
        ("500 mL", 500.0),
        ("0,5 L", 500.0),
        (".5 l", 500.0),
        ("1 l 250 ml", 1250.0),
        ("750", 750.0),
        ("1 1/2 cup", 375.0),
        ("2 tbsp.", 30.0),
        ("1 us cup", 236.588_236_5),
        ("1 imp pint", 568.261_25),
        ("2 cc", 2.0),
    ] {
        near(get(QuantityKind::Volume, text), wanted);
    }
    for (text, wanted) in [
        ("1 1/2 cup(s)", 354.882_354_75),
        ("½ cup", 118.294_118_25),
        ("1/2 tsp", 2.464_460_79),
        ("3 oz", 88.720_588_7),
        ("3 fl. oz", 88.720_588_7),
        ("1 gal", 3_785.411_784),
        ("1 cup 2 tbsp", 266.161_766),
        ("1 metric cup", 250.0),
    ] {
        assert!((us(text) - wanted).abs() < 1e-5, "{text}: {}", us(text));
    }
}

#[test]
fn masses() {
    for (text, wanted) in [
        ("3 oz", 85.048_569_375),
        ("3 lb 4 oz", 1_474.175_202_5),
        ("3 lb, 4 oz", 1_474.175_202_5),
        ("2,5kg", 2500.0),
        ("1 kg 200 g", 1200.0),
        ("1.250 kg", 1250.0),
        ("1,250 kg", 1250.0), // 1250 kg is above the limit
        ("1 234,5", 1234.5),
        ("1.234,5 g", 1234.5),
        ("250 Grams", 250.0),
    ] {
        near(get(QuantityKind::Mass, text), wanted);
    }
}

#[test]
fn the_other_kinds() {
    for (kind, text, wanted) in [
        (QuantityKind::Share, "2 %", 0.02),
        (QuantityKind::Share, "2%", 0.02),
        (QuantityKind::Share, "12,5", 0.125),
        (QuantityKind::Temperature, "40", 40.0),
        (QuantityKind::Temperature, "104 °F", 40.0),
        (QuantityKind::Temperature, "40°C", 40.0),
        (QuantityKind::Temperature, "40 c", 40.0),
        (QuantityKind::Duration, "90 min", 90.0),
        (QuantityKind::Duration, "1h30", 90.0),
        (QuantityKind::Duration, "1 h 30 min", 90.0),
        (QuantityKind::Duration, "1 ½ hours", 90.0),
        (QuantityKind::Duration, "2 days", 2880.0),
        (QuantityKind::Concentration, "2 g/L", 2.0),
        (QuantityKind::Concentration, "50 mg/l", 0.05),
        (QuantityKind::Concentration, "50 ppm", 0.05),
        (QuantityKind::Density, "1.080", 1.08),
        (QuantityKind::Density, "1,08 g/cm3", 1.08),
        (QuantityKind::Density, "1080 kg/m3", 1.08),
        (QuantityKind::Ph, "10.5", 10.5),
        (QuantityKind::Ph, "pH 10,5", 10.5),
        (QuantityKind::Number, "0.7", 0.7),
        (QuantityKind::Count, "12", 12.0),
    ] {
        near(get(kind, text), wanted);
    }
}

#[test]
fn a_refusal_has_its_reason() {
    use ParseErrorKind as Reason;
    use QuantityKind::{Count, Duration, Mass, Ph, Share, Temperature, Volume};
    for (kind, text, reason) in [
        (Volume, "", Reason::Empty),
        (Volume, "   ", Reason::Empty),
        (Volume, "two", Reason::NotANumber),
        (Volume, "NaN", Reason::NotANumber),
        (Volume, "inf", Reason::NotANumber),
        (Volume, "infinity ml", Reason::NotANumber),
        (Volume, "%", Reason::NotANumber),
        (Volume, "-3", Reason::Negative),
        (Volume, "−3 mL", Reason::Negative),
        (Volume, "5 kg", Reason::WrongKind { found: Mass }),
        (Mass, "5 ml", Reason::WrongKind { found: Volume }),
        (Mass, "2 %", Reason::WrongKind { found: Share }),
        (Volume, "1.2.3", Reason::Separators),
        (Volume, "1/0 cup", Reason::ZeroDenominator),
        (Volume, "3 buckets", Reason::UnknownUnit("buckets".into())),
        (Volume, "3 pt", Reason::MeasuresUnknown { us: 1_419.529_419, imperial: 1_704.783_75 }),
        (Mass, "3 lb 4", Reason::Compound),
        (Mass, "4 oz 3 lb", Reason::Compound),
        (Mass, "1,234", Reason::Ambiguous { one: 1.234, other: 1234.0 }),
        (Mass, "1.000", Reason::Ambiguous { one: 1.0, other: 1000.0 }),
        (Mass, "1,000", Reason::Ambiguous { one: 1.0, other: 1000.0 }),
        (Duration, "1:30", Reason::Ambiguous { one: 90.0, other: 1.5 }),
        (Count, "1.5", Reason::NotWhole),
        (Share, "101 %", Reason::TooLarge { max: 1.0 }),
        (Ph, "15", Reason::TooLarge { max: 14.0 }),
        (Temperature, "-3", Reason::Negative),
        (Temperature, "20 F", Reason::TooSmall { min: 0.0 }),
        (Volume, "99999999999", Reason::TooLarge { max: 2_000_000.0 }),
        (Volume, &"9".repeat(400), Reason::TooLarge { max: 2_000_000.0 }),
        (Volume, "1e3", Reason::UnknownUnit("e".into())),
        (Share, "2 % 3 %", Reason::Separators),
    ] {
        let found = get(kind, text);
        match (&found, &reason) {
            (
                Err(Reason::MeasuresUnknown { us: a, imperial: b }),
                Reason::MeasuresUnknown { us: c, imperial: d },
            ) => assert!((a - c).abs() < 1e-5 && (b - d).abs() < 1e-5, "{a} {b}"),
            _ => assert_eq!(found, Err(reason), "{text}"),
        }
    }
}

#[test]
fn a_refusal_names_the_field_and_what_is_accepted() {
    let spec = NumberSpec::new(Field("bath_volume"), QuantityKind::Volume);
    let error = spec.parse("5 kg").unwrap_err();
    assert_eq!(error.to_string(), "parameter 'bath_volume' given as '5 kg': a unit of Mass");
    let message = error.message();
    assert_eq!(message.key, "refusal-typed-wrong_kind");
    assert_eq!(message.field, Some(Field("bath_volume")));
    assert!(message.values.contains(&("given", Value::Text("5 kg".into()))));
    assert!(message.values.contains(&("accept", Value::Word("accept-volume"))));
    assert!(message.values.contains(&("found", Value::Word("kind-mass"))));
    let long = NumberSpec::new(F, QuantityKind::Mass).parse(&"x".repeat(100)).unwrap_err();
    assert_eq!(long.given.chars().count(), GIVEN_LENGTH + 1);
}

#[test]
fn the_readers_own_decimal_mark_decides() {
    let comma = NumberSpec::new(F, QuantityKind::Mass).reader(Measures::Metric, ',');
    assert_eq!(comma.parse("1,234").map(|typed| typed.base), Ok(1.234));
    let refused = comma.parse("1.234").unwrap_err();
    assert!(matches!(refused.reason, ParseErrorKind::Ambiguous { .. }));
    let density =
        NumberSpec::new(F, QuantityKind::Density).between(0.5, 3.0).reader(Measures::Metric, ',');
    assert_eq!(density.parse("1.080").map(|typed| typed.base), Ok(1.08));
}

#[test]
fn a_field_is_filled_from_a_value_without_parsing() {
    let spec = NumberSpec::new(F, QuantityKind::Volume).unit(Unit::Litre);
    let filled = ParsedQuantity::from_base(1_234.567_891, &spec).unwrap();
    assert_eq!(filled.volume().map(in_millilitres), Some(1_234.567_891));
    assert_eq!((filled.in_unit(), filled.unit), (1.234_567_891, Unit::Litre));
    assert_eq!((filled.mass(), filled.celsius(), filled.ph()), (None, None, None));
    let refused = ParsedQuantity::from_base(-1.0, &spec);
    assert_eq!(refused, Err(ParseErrorKind::TooSmall { min: 0.0 }));
    let warm = NumberSpec::new(F, QuantityKind::Temperature).parse("104 °F").unwrap();
    assert_eq!((warm.celsius().map(Celsius::get), warm.in_unit()), (Some(40.0), 104.0));
}

fn reads_within_limits(text: &str, kind: QuantityKind) -> Result<bool, TestCaseError> {
    let spec = NumberSpec::new(F, kind);
    match spec.parse(text) {
        Ok(typed) => prop_assert!((spec.min..=spec.max).contains(&typed.base), "{typed:?}"),
        Err(error) => prop_assert!(error.message().field == Some(F)),
    }
    Ok(spec.parse(text).is_ok())
}

#[test]
fn a_decimal_number_in_either_notation_is_read_exactly() {
    let cases = (0.0f64..500_000.0, 0usize..6, any::<bool>());
    property::check(cases, 256, |(value, places, comma)| {
        let mark = if comma { ',' } else { '.' };
        let text = format!("{value:.places$}");
        let spec = NumberSpec::new(F, QuantityKind::Mass).reader(Measures::Metric, mark);
        let typed = spec.parse(&text.replace('.', &mark.to_string()));
        prop_assert_eq!(typed.map(|typed| typed.base).ok(), text.parse().ok());
        Ok(true)
    });
}

#[test]
fn any_text_gives_a_value_within_the_limits_or_an_error() {
    let kind = || prop::sample::select(QuantityKind::VARIANTS);
    property::check(("\\PC{0,24}", kind()), 0, |(text, kind)| reads_within_limits(&text, kind));
    let like_a_number = ("[-0-9.,/ '½a-z%°:]{0,16}", kind());
    property::check(like_a_number, 0, |(text, kind)| reads_within_limits(&text, kind));
    let unit = prop::sample::select(vec!["", " g", "kg", "ml", " L", "%", "°F", "h30", " ppm"]);
    let number = "[1-9]{1,2}([.,][0-9]{1,2}|½| 1/2)?";
    property::check((number, unit, kind()), 25, |(number, unit, kind)| {
        reads_within_limits(&format!("{number}{unit}"), kind)
    });
}
