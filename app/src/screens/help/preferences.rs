//! What this person prefers on this phone. Nothing here hides a caution.

use std::mem;

use bleachfield_core::quantity::Measures;
use leptos::prelude::*;

use crate::{
    components::{Page, RadioGroup},
    i18n::word,
    platform::preferences::{DecimalMark, PhotoSize, Preferences, Theme, preferences_context},
    route::Route,
};

/// The screen at `/help/preferences`.
#[component]
pub fn PreferencesScreen() -> impl IntoView {
    let now = preferences_context().get_untracked();
    let look = RwSignal::new(now.look);
    let measures = RwSignal::new(now.measures);
    let mark = RwSignal::new(now.mark);
    let photo = RwSignal::new(now.photo);
    let sound = RwSignal::new(now.sound);
    let vibration = RwSignal::new(now.vibration);
    let speak = RwSignal::new(now.speak);
    let stay_awake = RwSignal::new(now.stay_awake);
    let mut first = true;
    Effect::new(move |_| {
        let chosen = Preferences {
            look: look.get(),
            measures: measures.get(),
            mark: mark.get(),
            photo: photo.get(),
            sound: sound.get(),
            vibration: vibration.get(),
            speak: speak.get(),
            stay_awake: stay_awake.get(),
        };
        if !mem::take(&mut first) {
            preferences_context().change(|preferences| *preferences = chosen);
        }
    });
    view! {
        <Page title=word("preferences.title") back=Route::Help>
            <div class="stack wide">
                <RadioGroup label=word("preferences.look") value=look options=vec![
                    (Theme::System, word("preferences.system")),
                    (Theme::Light, word("preferences.light")),
                    (Theme::Dark, word("preferences.dark")),
                    (Theme::Contrast, word("preferences.contrast")),
                ] />
                <RadioGroup label=word("preferences.measures") value=measures options=vec![
                    (Measures::Metric, word("preferences.metric")),
                    (Measures::Us, word("preferences.us")),
                    (Measures::Imperial, word("preferences.imperial")),
                ] />
                <RadioGroup label=word("preferences.mark") value=mark options=vec![
                    (DecimalMark::Point, word("preferences.point")),
                    (DecimalMark::Comma, word("preferences.comma")),
                ] />
                <RadioGroup label=word("preferences.photo") value=photo options=vec![
                    (PhotoSize::Smaller, word("preferences.photo_smaller")),
                    (PhotoSize::Full, word("preferences.photo_full")),
                ] />
                <p class="small soft">{word("preferences.photo_cost")}</p>
                {tick(sound, "preferences.sound")}
                {tick(vibration, "preferences.vibration")}
                {tick(speak, "preferences.speak")}
                {tick(stay_awake, "preferences.stay_awake")}
                <p class="small soft">{word("preferences.safety")}</p>
            </div>
        </Page>
    }
}

fn tick(on: RwSignal<bool>, key: &str) -> AnyView {
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=on
                on:change=move |event| on.set(event_target_checked(&event)) />
            <span>{word(key)}</span>
        </label>
    }
    .into_any()
}
