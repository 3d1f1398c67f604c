//! Messages and values of the core, in words.

use bleachfield_core::{
    message::{Field, Message, Value},
    quantity::{
        Measures, Unit, in_grams, in_grams_per_litre, in_grams_per_millilitre, in_millilitres,
    },
};
use fluent_bundle::{
    FluentArgs, FluentValue,
    types::{FluentNumber, FluentNumberOptions},
};

use crate::platform::preferences::fahrenheit;

use super::{bundle::format, format_number, t, t_with, with_decimal_mark};

/// Significant figures of a value inside a sentence.
const FIGURES: i32 = 3;

/// The text of a message from the core, its values with their units.
pub fn render(message: &Message) -> String {
    let mut args: FluentArgs<'_> =
        message.values.iter().map(|(name, value)| (*name, argument(value))).collect();
    if let Some(field) = message.field {
        args.set("field", field_name(field));
    }
    format(message.key, &args)
}

/// The name of an input, as sentences use it.
pub fn field_name(field: Field) -> String {
    t(&format!("field-{}", field.0))
}

/// A name that sentences use, as a heading or label begins it: first letter upper case, except
/// that of pH.
pub fn sentence_case(name: String) -> String {
    let mut letters = name.chars();
    match letters.next() {
        Some(first) if !name.starts_with("pH") => {
            first.to_uppercase().collect::<String>() + letters.as_str()
        }
        _ => name,
    }
}

/// A value with its unit, short enough for the middle of a sentence.
pub fn format_value(value: &Value) -> String {
    let to_figures = |value| format_number(value, FIGURES);
    match value {
        Value::Mass(mass) => with_larger_unit(in_grams(*mass), "g", "kg"),
        Value::Volume(volume) => with_larger_unit(in_millilitres(*volume), "mL", "L"),
        Value::Concentration(c) => format!("{} g/L", to_figures(in_grams_per_litre(*c))),
        Value::Density(d) => format!("{} g/mL", to_figures(in_grams_per_millilitre(*d))),
        Value::Share(share) => format!("{} %", to_figures(share * 100.0)),
        Value::Celsius(degrees) if fahrenheit() => {
            format!("{} °F", to_figures(Unit::Fahrenheit.from_base(*degrees, Measures::default())))
        }
        Value::Celsius(degrees) => format!("{} °C", to_figures(*degrees)),
        Value::Ph(ph) => with_decimal_mark(format!("{ph:.1}")),
        Value::Minutes(minutes) => t_with!("unit-minutes", &[("n", &to_figures(*minutes))]),
        Value::Days(days) => t_with!("unit-days", &[("n", &to_figures(*days))]),
        Value::Count(count) => count.to_string(),
        Value::Number(n) => to_figures(*n),
        Value::Text(text) => text.clone(),
        Value::Word(key) => t(key),
    }
}

/// A value as Fluent takes it: counts and plain numbers as numbers, so that a message can choose
/// by them; all else written out, since Fluent knows no units.
fn argument(value: &Value) -> FluentValue<'static> {
    match value {
        Value::Count(count) => (*count).into(),
        Value::Number(n) if n.is_finite() => {
            let options = FluentNumberOptions {
                maximum_significant_digits: Some(FIGURES as usize),
                ..FluentNumberOptions::default()
            };
            FluentNumber::new(*n, options).into()
        }
        other => format_value(other).into(),
    }
}

fn with_larger_unit(value: f64, small: &str, large: &str) -> String {
    if value.abs() >= 1000.0 {
        format!("{} {large}", format_number(value / 1000.0, FIGURES))
    } else {
        format!("{} {small}", format_number(value, FIGURES))
    }
}

#[cfg(test)]
mod tests {
    use bleachfield_core::quantity::grams;

    use super::*;

    #[test]
    fn values_come_with_their_units() {
        let message = Message::new("refusal-out_of_range")
            .beside(Field("wet_mass"))
            .with("given", Value::Mass(grams(12_340.0)))
            .with("min", Value::Number(0.5))
            .with("max", Value::Count(1200));
        let text = "12.3 kg is not possible for the wet pulp. Enter 0.5 to 1200.";
        assert_eq!(render(&message), text);
        assert_eq!(argument(&Value::Number(f64::NAN)), FluentValue::from("–"));
    }

    #[test]
    fn a_heading_begins_with_a_capital_unless_it_is_a_ph() {
        assert_eq!(sentence_case("état".into()), "État");
        assert_eq!(sentence_case("pH of the tap".into()), "pH of the tap");
        assert_eq!(sentence_case(String::new()), "");
    }
}
