//! What people type, read and refused.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::message::Value;

const F: Field = Field("any");

fn get(kind: Kind, text: &str) -> Result<f64, Why> {
    read(text, &Asked::new(F, kind)).map(|typed| typed.base).map_err(|error| error.why)
}

fn us(text: &str) -> f64 {
    read(text, &Asked::new(F, Kind::Volume).reader(Measures::Us, '.')).unwrap().base
}

#[track_caller]
fn near(found: Result<f64, Why>, wanted: f64) {
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
        near(get(Kind::Volume, text), wanted);
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
        ("1,250 kg", 1250.0), // 1250 kg would be absurd in a studio
        ("1 234,5", 1234.5),
        ("1.234,5 g", 1234.5),
        ("250 Grams", 250.0),
    ] {
        near(get(Kind::Mass, text), wanted);
    }
}

#[test]
fn the_other_kinds() {
    for (kind, text, wanted) in [
        (Kind::Share, "2 %", 0.02),
        (Kind::Share, "2%", 0.02),
        (Kind::Share, "12,5", 0.125),
        (Kind::Temperature, "40", 40.0),
        (Kind::Temperature, "104 °F", 40.0),
        (Kind::Temperature, "40°C", 40.0),
        (Kind::Temperature, "40 c", 40.0),
        (Kind::Duration, "90 min", 90.0),
        (Kind::Duration, "1h30", 90.0),
        (Kind::Duration, "1 h 30 min", 90.0),
        (Kind::Duration, "1 ½ hours", 90.0),
        (Kind::Duration, "2 days", 2880.0),
        (Kind::Concentration, "2 g/L", 2.0),
        (Kind::Concentration, "50 mg/l", 0.05),
        (Kind::Concentration, "50 ppm", 0.05),
        (Kind::Density, "1.080", 1.08),
        (Kind::Density, "1,08 g/cm3", 1.08),
        (Kind::Density, "1080 kg/m3", 1.08),
        (Kind::Ph, "10.5", 10.5),
        (Kind::Ph, "pH 10,5", 10.5),
        (Kind::Number, "0.7", 0.7),
        (Kind::Count, "12", 12.0),
    ] {
        near(get(kind, text), wanted);
    }
}

#[test]
fn what_is_refused_says_why() {
    use Kind::{Count, Duration, Mass, Ph, Share, Temperature, Volume};
    for (kind, text, why) in [
        (Volume, "", Why::Empty),
        (Volume, "   ", Why::Empty),
        (Volume, "two", Why::NotANumber),
        (Volume, "NaN", Why::NotANumber),
        (Volume, "inf", Why::NotANumber),
        (Volume, "infinity ml", Why::NotANumber),
        (Volume, "%", Why::NotANumber),
        (Volume, "-3", Why::Negative),
        (Volume, "−3 mL", Why::Negative),
        (Volume, "5 kg", Why::WrongKind { found: Mass }),
        (Mass, "5 ml", Why::WrongKind { found: Volume }),
        (Mass, "2 %", Why::WrongKind { found: Share }),
        (Volume, "1.2.3", Why::Marks),
        (Volume, "1/0 cup", Why::ZeroUnderLine),
        (Volume, "3 buckets", Why::UnknownUnit("buckets".into())),
        (Volume, "3 pt", Why::WhichMeasure { us: 1_419.529_419, imperial: 1_704.783_75 }),
        (Mass, "3 lb 4", Why::Parts),
        (Mass, "4 oz 3 lb", Why::Parts),
        (Mass, "1,234", Why::Ambiguous { one: 1.234, other: 1234.0 }),
        (Duration, "1:30", Why::Ambiguous { one: 90.0, other: 1.5 }),
        (Count, "1.5", Why::NotWhole),
        (Share, "101 %", Why::TooLarge { max: 1.0 }),
        (Ph, "15", Why::TooLarge { max: 14.0 }),
        (Temperature, "-3", Why::Negative),
        (Temperature, "20 F", Why::TooSmall { min: 0.0 }),
        (Volume, "99999999999", Why::TooLarge { max: 2_000_000.0 }),
        (Volume, &"9".repeat(400), Why::TooLarge { max: 2_000_000.0 }),
        (Volume, "1e3", Why::UnknownUnit("e".into())),
        (Share, "2 % 3 %", Why::Marks),
    ] {
        let found = get(kind, text);
        match (&found, &why) {
            (
                Err(Why::WhichMeasure { us: a, imperial: b }),
                Why::WhichMeasure { us: c, imperial: d },
            ) => assert!((a - c).abs() < 1e-5 && (b - d).abs() < 1e-5, "{a} {b}"),
            _ => assert_eq!(found, Err(why), "{text}"),
        }
    }
}

#[test]
fn a_refusal_names_the_field_and_what_would_do() {
    let error = read("5 kg", &Asked::new(Field("bath_volume"), Kind::Volume)).unwrap_err();
    let message = error.message();
    assert_eq!(message.key, "refusal-typed-wrong_kind");
    assert_eq!(message.field, Some(Field("bath_volume")));
    assert!(message.values.contains(&("given", Value::Text("5 kg".into()))));
    assert!(message.values.contains(&("accept", Value::Word("accept-volume"))));
    let long = read(&"x".repeat(100), &Asked::new(F, Kind::Mass)).unwrap_err();
    assert_eq!(long.given.chars().count(), GIVEN + 1);
}

#[test]
fn the_readers_own_mark_settles_it() {
    let german = Asked::new(F, Kind::Mass).reader(Measures::Metric, ',');
    assert_eq!(read("1,234", &german).map(|t| t.base), Ok(1.234));
    assert!(matches!(read("1.234", &german).unwrap_err().why, Why::Ambiguous { .. }));
    assert_eq!(
        read(
            "1.080",
            &Asked {
                kind: Kind::Density,
                unit: Unit::GramsPerMillilitre,
                min: 0.5,
                max: 3.0,
                ..german
            }
        )
        .map(|t| t.base),
        Ok(1.08)
    );
}
