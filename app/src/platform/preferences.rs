//! The preferences of this person on this device, and the context that screens read them from.
//! Preferences change look and sound; none of them hides a caution.

use std::collections::BTreeMap;

use bleachfield_core::{
    message::Field,
    quantity::{Measures, Unit},
};
use leptos::prelude::*;
use leptos_use::{use_media_query, use_preferred_dark};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use super::local_storage;

/// The key in local storage.
const KEY: &str = "bleachfield.preferences";
/// The key of the unit that was chosen for each field, by the field's name.
const UNITS_KEY: &str = "bleachfield.units";

/// All preferences. Names and values are a stored format.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Preferences {
    #[serde(rename = "look")]
    pub theme: Theme,
    /// Which kitchen measures a bare "cup" or "pint" means.
    pub measures: Measures,
    pub mark: DecimalMark,
    pub photo: PhotoSize,
    pub sound: bool,
    pub vibration: bool,
    /// Speak cues.
    pub speak: bool,
    /// Keep the screen on while a bath runs.
    pub stay_awake: bool,
    /// Degrees Celsius or Fahrenheit.
    pub temperature: Unit,
    /// It was read what a locked phone cannot do. Stored once it was.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub lock_read: bool,
}

impl Default for Preferences {
    fn default() -> Self {
        Self {
            theme: Theme::System,
            measures: Measures::Metric,
            mark: DecimalMark::Point,
            photo: PhotoSize::Smaller,
            sound: true,
            vibration: true,
            speak: false,
            stay_awake: true,
            temperature: Unit::Celsius,
            lock_read: false,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    System,
    Light,
    Dark,
    Contrast,
}

/// The decimal mark of written numbers. Both are always accepted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DecimalMark {
    Point,
    Comma,
}

/// The size at which photos are stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PhotoSize {
    Full,
    /// About 1500 pixels on the long side.
    Smaller,
}

/// The preferences as a signal that is stored on change.
#[derive(Clone, Copy)]
pub struct PreferencesContext {
    all: RwSignal<Preferences>,
    units: StoredValue<BTreeMap<String, Unit>>,
}

impl PreferencesContext {
    /// Reads the stored preferences, provides the context, and applies the theme to the page.
    pub fn provide() -> Self {
        let stored = local_storage::get(KEY).map(with_stored).unwrap_or_default();
        let units = local_storage::get(UNITS_KEY).map(with_stored_units).unwrap_or_default();
        let context = Self::with(stored, units);
        apply_theme(Signal::derive(move || context.get().theme));
        context
    }

    /// Provides the context with these values.
    pub fn with(all: Preferences, units: BTreeMap<String, Unit>) -> Self {
        let context = Self { all: RwSignal::new(all), units: StoredValue::new(units) };
        provide_context(context);
        context
    }

    pub fn get(self) -> Preferences {
        self.all.get()
    }

    pub fn get_untracked(self) -> Preferences {
        self.all.get_untracked()
    }

    /// Changes and stores.
    pub fn change(self, change: impl FnOnce(&mut Preferences)) {
        self.all.update(change);
        local_storage::set(KEY, &self.all.get_untracked());
    }

    /// The unit that was last chosen for a field.
    pub fn unit_of(self, field: Field) -> Option<Unit> {
        self.units.with_value(|units| units.get(field.0).copied())
    }

    /// Stores the unit chosen for a field.
    pub fn remember_unit(self, field: Field, unit: Unit) {
        self.units.update_value(|units| {
            units.insert(field.0.to_owned(), unit);
        });
        self.units.with_value(|units| local_storage::set(UNITS_KEY, units));
    }
}

/// The preferences, from context.
pub fn preferences_context() -> PreferencesContext {
    expect_context()
}

/// Whether temperatures are written in degrees Fahrenheit.
pub fn fahrenheit() -> bool {
    use_context::<PreferencesContext>()
        .is_some_and(|p| p.get_untracked().temperature == Unit::Fahrenheit)
}

/// Whether numbers are written with a comma.
pub fn decimal_comma() -> bool {
    use_context::<PreferencesContext>()
        .is_some_and(|p| p.get_untracked().mark == DecimalMark::Comma)
}

/// The defaults, replaced by each stored value that this version understands.
fn with_stored(stored: Map<String, Value>) -> Preferences {
    stored.into_iter().fold(Preferences::default(), |before, (name, value)| {
        let Ok(mut all) = serde_json::to_value(before) else { return before };
        all[name] = value;
        serde_json::from_value(all).unwrap_or(before)
    })
}

/// The stored units that this version knows.
fn with_stored_units(stored: Map<String, Value>) -> BTreeMap<String, Unit> {
    let known = |(field, unit)| Some((field, serde_json::from_value(unit).ok()?));
    stored.into_iter().filter_map(known).collect()
}

/// Sets the theme on the root element; `System` follows the device.
fn apply_theme(theme: Signal<Theme>) {
    let dark = use_preferred_dark();
    let contrast = use_media_query("(prefers-contrast: more)");
    Effect::new(move |_| {
        let name = match theme.get() {
            Theme::Light => "light",
            Theme::Dark => "dark",
            Theme::Contrast => "contrast",
            Theme::System if contrast.get() => "contrast",
            Theme::System if dark.get() => "dark",
            Theme::System => "light",
        };
        if let Some(root) = document().document_element() {
            let _ = root.set_attribute("data-look", name);
        }
    });
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_value_of_another_version_does_not_reset_the_others() {
        let stored = r#"{"look": "dark", "photo": "long_side2048", "mark": "comma", "later": 1}"#;
        let read = with_stored(serde_json::from_str(stored).unwrap());
        let expected =
            Preferences { theme: Theme::Dark, mark: DecimalMark::Comma, ..Preferences::default() };
        assert_eq!(read, expected);
    }

    #[test]
    fn preferences_are_stored_under_the_same_names_as_before() {
        let stored = serde_json::to_string(&Preferences::default()).unwrap();
        assert_eq!(
            stored,
            r#"{"look":"system","measures":"metric","mark":"point","photo":"smaller","sound":true,"vibration":true,"speak":false,"stay_awake":true,"temperature":"celsius"}"#,
        );
        assert_eq!(with_stored(serde_json::from_str(&stored).unwrap()), Preferences::default());
    }
}
