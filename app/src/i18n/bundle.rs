//! The language, and its messages as one Fluent bundle.

use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use fluent_langneg::{NegotiationStrategy, convert_vec_str_to_langids_lossy, negotiate_languages};
use unic_langid::LanguageIdentifier;

use bleachfield_core::quantity::{Measures, Unit};

use super::{format_number, keys::LANGUAGES, t_with, with_decimal_mark};
use crate::platform::preferences::fahrenheit;

/// The language of last resort; the build holds all others against it.
const ENGLISH: &str = "en";

thread_local! {
    /// Parsed on first use.
    static BUNDLE: FluentBundle<FluentResource> = bundle(language());
}

/// The first language of the browser's list that there are messages in, else English.
pub fn language() -> &'static str {
    negotiated(&preferred())
}

/// Whether there is a message `key`.
pub fn has_message(key: &str) -> bool {
    BUNDLE.with(|bundle| bundle.has_message(key))
}

/// The text of message `key`; the key itself where there is none.
pub(super) fn format(key: &str, args: &FluentArgs<'_>) -> String {
    BUNDLE.with(|bundle| {
        let Some(pattern) = bundle.get_message(key).and_then(|message| message.value()) else {
            leptos::logging::debug_warn!("no message {key}");
            return key.to_owned();
        };
        let mut errors = Vec::new();
        let text = bundle.format_pattern(pattern, Some(args), &mut errors).into_owned();
        for error in errors {
            leptos::logging::debug_warn!("message {key}: {error}");
        }
        text
    })
}

/// Language tags by the reader's preference; none outside a page.
fn preferred() -> Vec<String> {
    if !cfg!(target_arch = "wasm32") {
        return Vec::new();
    }
    let Some(window) = web_sys::window() else { return Vec::new() };
    window.navigator().languages().iter().filter_map(|tag| tag.as_string()).collect()
}

fn negotiated(preferred: &[String]) -> &'static str {
    let requested = convert_vec_str_to_langids_lossy(preferred);
    let names = LANGUAGES.iter().map(|(name, _)| *name);
    let available = convert_vec_str_to_langids_lossy(names.clone());
    let found = negotiate_languages(&requested, &available, None, NegotiationStrategy::Lookup);
    let nth = found.first().and_then(|found| available.iter().position(|one| one == *found));
    nth.and_then(|nth| names.clone().nth(nth)).unwrap_or(ENGLISH)
}

fn bundle(language: &str) -> FluentBundle<FluentResource> {
    let tag = language.parse::<LanguageIdentifier>().unwrap_or_default();
    let mut bundle = FluentBundle::new(vec![tag]);
    // No bidi isolation marks: texts are spoken, copied and used in file names. A language that
    // is written from right to left would need them.
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(number_of));
    // Only a second function of one name could be refused.
    _ = bundle.add_builtins();
    _ = bundle.add_function("DEGREES", degrees);
    let files =
        LANGUAGES.iter().filter(|(name, _)| *name == language).flat_map(|(_, files)| *files);
    for file in files {
        // The build has parsed the same text, and refused errors and keys defined twice.
        let resource = FluentResource::try_new((*file).to_owned());
        bundle.add_resource_overriding(resource.unwrap_or_else(|(resource, _)| resource));
    }
    bundle
}

/// `DEGREES(40)`, `DEGREES(30, to: 45)`: temperatures of a text, given in °C, in the reader's
/// degrees. `DEGREES(10, of: "difference")` is a difference of two.
fn degrees<'a>(celsius: &[FluentValue<'a>], options: &FluentArgs<'_>) -> FluentValue<'a> {
    let Some(FluentValue::Number(low)) = celsius.first() else { return FluentValue::Error };
    let is_difference = options.get("of").is_some();
    let in_fahrenheit = fahrenheit();
    let write = |celsius: f64| match (in_fahrenheit, is_difference) {
        (false, _) => format_number(celsius, 3),
        (true, true) => format_number(celsius * 1.8, 3),
        (true, false) => format_number(Unit::Fahrenheit.from_base(celsius, Measures::default()), 3),
    };
    let unit = if in_fahrenheit { "°F" } else { "°C" };
    let text = match options.get("to") {
        Some(FluentValue::Number(high)) => {
            let (low, high) = (write(low.value), write(high.value));
            let range = t_with!("figure_range", &[("low", &low), ("high", &high)]);
            format!("{range} {unit}")
        }
        _ => format!("{} {unit}", write(low.value)),
    };
    FluentValue::from(text)
}

/// Writes a number as [`format_number`] does where its significant figures are given, else in
/// full; with the reader's decimal mark.
fn number_of<M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    let FluentValue::Number(number) = value else { return None };
    Some(match number.options.maximum_significant_digits {
        Some(figures) => format_number(number.value, figures as i32),
        None => with_decimal_mark(number.as_string().into_owned()),
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use leptos::prelude::Owner;

    use super::*;
    use crate::platform::preferences::{Preferences, PreferencesContext};

    #[test]
    fn english_is_what_remains() {
        let tags = |tags: &[&str]| tags.iter().map(|tag| (*tag).to_owned()).collect::<Vec<_>>();
        assert_eq!(negotiated(&[]), "en");
        assert_eq!(negotiated(&tags(&["tlh", "not a tag"])), "en");
        assert_eq!(negotiated(&tags(&["en-GB"])), "en");
    }

    #[test]
    fn every_language_can_be_put_in_a_bundle() {
        for (language, _) in LANGUAGES {
            assert!(bundle(language).has_message("place-sink"), "{language}");
        }
    }

    #[test]
    fn temperatures_of_a_text_are_in_the_readers_degrees() {
        let mut bundle = bundle(ENGLISH);
        let text = "one = { DEGREES(60) }\nrange = { DEGREES(30, to: 45) }\n\
            step = { DEGREES(10, of: \"difference\") }";
        bundle.add_resource_overriding(FluentResource::try_new(text.to_owned()).unwrap());
        let text = |key| {
            let pattern = bundle.get_message(key).unwrap().value().unwrap();
            bundle.format_pattern(pattern, None, &mut Vec::new()).into_owned()
        };
        let all = || [text("one"), text("range"), text("step")];
        assert_eq!(all(), ["60 °C", "30 to 45 °C", "10 °C"]);
        let owner = Owner::new();
        owner.with(|| {
            let reader = Preferences { temperature: Unit::Fahrenheit, ..Preferences::default() };
            PreferencesContext::with(reader, BTreeMap::new());
            assert_eq!(all(), ["140 °F", "86 to 113 °F", "18 °F"]);
        });
    }

    #[test]
    fn a_number_is_written_to_its_figures() {
        let mut bundle = bundle(ENGLISH);
        let text = "n = { $n }\nthree = { NUMBER($n, maximumSignificantDigits: 3) }";
        bundle.add_resource_overriding(FluentResource::try_new(text.to_owned()).unwrap());
        let mut args = FluentArgs::new();
        args.set("n", 1234.5);
        let text = |key| {
            let pattern = bundle.get_message(key).unwrap().value().unwrap();
            bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()
        };
        assert_eq!((text("n").as_str(), text("three").as_str()), ("1234.5", "1234"));
    }
}
