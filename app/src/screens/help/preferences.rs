//! What this person prefers on this phone. Nothing here hides a caution.

use std::mem;

use bleachfield_core::quantity::Measures;
use leptos::prelude::*;

use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t},
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
        <Page title=t!("preferences-title") back=Route::Help>
            <div class="stack wide">
                <RadioGroup label=t!("preferences-look") value=look options=vec![
                    (Theme::System, t!("preferences-system")),
                    (Theme::Light, t!("preferences-light")),
                    (Theme::Dark, t!("preferences-dark")),
                    (Theme::Contrast, t!("preferences-contrast")),
                ] />
                <RadioGroup label=t!("preferences-measures") value=measures options=vec![
                    (Measures::Metric, t!("preferences-metric")),
                    (Measures::Us, t!("preferences-us")),
                    (Measures::Imperial, t!("preferences-imperial")),
                ] />
                <RadioGroup label=t!("preferences-mark") value=mark options=vec![
                    (DecimalMark::Point, t!("preferences-point")),
                    (DecimalMark::Comma, t!("preferences-comma")),
                ] />
                <RadioGroup label=t!("preferences-photo") value=photo options=vec![
                    (PhotoSize::Smaller, t!("preferences-photo_smaller")),
                    (PhotoSize::Full, t!("preferences-photo_full")),
                ] />
                <p class="small soft">{t!("preferences-photo_cost")}</p>
                {tick(sound, key!("preferences-sound"))}
                {tick(vibration, key!("preferences-vibration"))}
                {tick(speak, key!("preferences-speak"))}
                {tick(stay_awake, key!("preferences-stay_awake"))}
                <p class="small soft">{t!("preferences-safety")}</p>
            </div>
        </Page>
    }
}

fn tick(on: RwSignal<bool>, key: &str) -> AnyView {
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=on
                on:change=move |event| on.set(event_target_checked(&event)) />
            <span>{t(key)}</span>
        </label>
    }
    .into_any()
}
