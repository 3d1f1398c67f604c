//! Turns the core's messages into words.

use bleachfield_core::{
    message::{Field, Message, Value},
    quantity::{in_grams, in_grams_per_litre, in_grams_per_millilitre, in_millilitres},
};

use super::{word, words};

/// The sentence for a message from the core, its values written out.
pub fn said(message: &Message) -> String {
    let mut gaps: Vec<(&str, String)> =
        message.values.iter().map(|(name, value)| (*name, written(value))).collect();
    if let Some(field) = message.field {
        gaps.push(("field", field_name(field)));
    }
    let gaps: Vec<(&str, &str)> =
        gaps.iter().map(|(name, value)| (*name, value.as_str())).collect();
    words(message.key, &gaps)
}

/// What the screens call an input.
pub fn field_name(field: Field) -> String {
    word(&format!("field.{}", field.0))
}

/// A name that sentences use, as a heading or label begins it. A pH stays one.
pub fn heading(name: String) -> String {
    match name.chars().next() {
        Some(first) if !name.starts_with("pH") => {
            let (first, rest) = name.split_at(first.len_utf8());
            String::from(js_sys::JsString::from(first).to_upper_case()) + rest
        }
        _ => name,
    }
}

/// A value with its unit, short enough for the middle of a sentence.
pub fn written(value: &Value) -> String {
    match value {
        Value::Mass(mass) => with_larger_unit(in_grams(*mass), "g", "kg"),
        Value::Volume(volume) => with_larger_unit(in_millilitres(*volume), "mL", "L"),
        Value::Concentration(c) => format!("{} g/L", number(in_grams_per_litre(*c), 3)),
        Value::Density(d) => format!("{} g/mL", number(in_grams_per_millilitre(*d), 3)),
        Value::Share(share) => format!("{} %", number(share * 100.0, 3)),
        Value::Celsius(degrees) => format!("{} °C", number(*degrees, 3)),
        Value::Ph(ph) => decimal(format!("{ph:.1}")),
        Value::Minutes(minutes) => words("unit.minutes", &[("n", &number(*minutes, 3))]),
        Value::Days(days) => words("unit.days", &[("n", &number(*days, 3))]),
        Value::Count(count) => count.to_string(),
        Value::Number(n) => number(*n, 3),
        Value::Text(text) => text.clone(),
        Value::Word(key) => word(key),
    }
}

/// A number to so many significant figures, whole where it is large, with the
/// reader's decimal mark.
pub fn number(value: f64, figures: i32) -> String {
    if !value.is_finite() {
        return "–".into();
    }
    if value == 0.0 {
        return "0".into();
    }
    let places = (figures - 1 - value.abs().log10().floor() as i32).clamp(0, 6) as usize;
    let text = format!("{value:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    };
    decimal(text)
}

/// The text with the reader's own decimal mark.
pub fn decimal(text: String) -> String {
    if crate::platform::preferences::decimal_comma() { text.replace('.', ",") } else { text }
}

fn with_larger_unit(value: f64, small: &str, large: &str) -> String {
    if value.abs() >= 1000.0 {
        format!("{} {large}", number(value / 1000.0, 3))
    } else {
        format!("{} {small}", number(value, 3))
    }
}
