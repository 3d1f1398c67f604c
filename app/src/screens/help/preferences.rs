//! The preferences of this person on this device. None of them hides a caution.

use bleachfield_core::quantity::{Measures, Unit};
use leptos::prelude::*;

use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t, unit_name},
    platform::preferences::{DecimalMark, PhotoSize, Preferences, Theme, preferences_context},
    route::Route,
};

/// The screen at `/help/preferences`.
#[component]
pub fn PreferencesScreen() -> impl IntoView {
    let context = preferences_context();
    let now = context.get_untracked();
    let theme = RwSignal::new(now.theme);
    let measures = RwSignal::new(now.measures);
    let mark = RwSignal::new(now.mark);
    let photo = RwSignal::new(now.photo);
    let temperature = RwSignal::new(now.temperature);
    Effect::new(move |earlier: Option<()>| {
        let (theme, measures, mark, photo) = (theme.get(), measures.get(), mark.get(), photo.get());
        let temperature = temperature.get();
        if earlier.is_some() {
            context.change(|p| {
                *p = Preferences { theme, measures, mark, photo, temperature, ..*p };
            });
        }
    });
    view! {
        <Page title=t!("preferences-title") back=Route::Help>
            <div class="stack wide">
                <RadioGroup label=t!("preferences-look") value=theme options=vec![
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
                <RadioGroup label=t!("preferences-temperature") value=temperature options=vec![
                    (Unit::Celsius, unit_name(Unit::Celsius)),
                    (Unit::Fahrenheit, unit_name(Unit::Fahrenheit)),
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
                {preference_tick(key!("preferences-sound"), |p| &mut p.sound)}
                {preference_tick(key!("preferences-vibration"), |p| &mut p.vibration)}
                {preference_tick(key!("preferences-speak"), |p| &mut p.speak)}
                {preference_tick(key!("preferences-stay_awake"), |p| &mut p.stay_awake)}
                <p class="small soft">{t!("preferences-safety")}</p>
            </div>
        </Page>
    }
}

/// A checkbox for a preference, stored at once.
pub fn preference_tick(key: &str, field: fn(&mut Preferences) -> &mut bool) -> AnyView {
    let context = preferences_context();
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=move || *field(&mut context.get())
                on:change=move |event| {
                    context.change(|p| *field(p) = event_target_checked(&event));
                } />
            <span>{t(key)}</span>
        </label>
    }
    .into_any()
}
