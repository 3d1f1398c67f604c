//! What this person prefers on this phone. Held in local storage, read once.
//!
//! Preferences change how things look and sound; none of them hides a caution.

use bleachfield_core::quantity::Measures;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use super::remembered;

/// Where the preferences sit in local storage.
const KEY: &str = "bleachfield.preferences";

/// All preferences. A field that an older version did not know takes its default.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Preferences {
    pub look: Look,
    /// Which kitchen measures a bare "cup" or "pint" means.
    pub measures: Measures,
    pub mark: Mark,
    pub photo: PhotoSize,
    pub sound: bool,
    pub vibration: bool,
    /// Say cues aloud.
    pub speak: bool,
    /// Keep the screen on while a bath runs.
    pub stay_awake: bool,
}

impl Default for Preferences {
    fn default() -> Self {
        Self {
            look: Look::System,
            measures: Measures::Metric,
            mark: Mark::Point,
            photo: PhotoSize::Smaller,
            sound: true,
            vibration: true,
            speak: false,
            stay_awake: true,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    System,
    Light,
    Dark,
    Contrast,
}

/// The decimal mark that numbers are written with. Both are always read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    Point,
    Comma,
}

/// The size that photos are kept at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PhotoSize {
    Full,
    /// About 1500 pixels on the long side.
    Smaller,
}

/// The preferences as a signal that saves itself.
#[derive(Clone, Copy)]
pub struct Preferring(RwSignal<Preferences>);

impl Preferring {
    /// Reads what was saved, puts it in context, and dresses the page.
    pub fn provide() -> Self {
        let saved = saved().unwrap_or_default();
        let preferring = Self(RwSignal::new(saved));
        provide_context(preferring);
        Effect::new(move |_| dress(preferring.0.get().look));
        preferring
    }

    pub fn get(self) -> Preferences {
        self.0.get()
    }

    /// The preferences without following them.
    pub fn get_untracked(self) -> Preferences {
        self.0.get_untracked()
    }

    /// Changes and saves. A phone that refuses to save (private browsing) still
    /// honours the change until the page closes.
    pub fn change(self, change: impl FnOnce(&mut Preferences)) {
        self.0.update(change);
        remembered::keep(KEY, &self.0.get_untracked());
    }
}

/// The preferences, from context.
pub fn preferring() -> Preferring {
    expect_context()
}

/// What was saved.
fn saved() -> Option<Preferences> {
    remembered::kept(KEY).map(over_defaults)
}

/// What was saved, over the defaults: they stand where it says nothing, or what another
/// version meant.
fn over_defaults(saved: Map<String, Value>) -> Preferences {
    saved.into_iter().fold(Preferences::default(), |before, (name, value)| {
        let mut all = serde_json::to_value(before).unwrap_or_default();
        all[name] = value;
        serde_json::from_value(all).unwrap_or(before)
    })
}

/// Whether numbers are written with a comma.
pub fn decimal_comma() -> bool {
    use_context::<Preferring>().is_some_and(|p| p.0.get_untracked().mark == Mark::Comma)
}

/// Puts the chosen look on the root element; "system" follows the phone.
fn dress(look: Look) {
    let Some(root) = document().document_element() else { return };
    let asks =
        |query: &str| window().match_media(query).ok().flatten().is_some_and(|list| list.matches());
    let name = match look {
        Look::Light => "light",
        Look::Dark => "dark",
        Look::Contrast => "contrast",
        Look::System if asks("(prefers-contrast: more)") => "contrast",
        Look::System if asks("(prefers-color-scheme: dark)") => "dark",
        Look::System => "light",
    };
    let _ = root.set_attribute("data-look", name);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_another_version_meant_takes_nothing_else_with_it() {
        let of = |text: &str| serde_json::from_str::<Map<String, Value>>(text).ok();
        let saved =
            of(r#"{"look": "dark", "photo": "long_side2048", "mark": "comma", "later": 1}"#);
        let read = over_defaults(saved.unwrap_or_default());
        let wanted = Preferences { look: Look::Dark, mark: Mark::Comma, ..Preferences::default() };
        assert_eq!(read, wanted);
    }
}
