//! How much of the fibre's chain length a person lets a bath take: a choice on this phone, and no
//! record.

use bleachfield_core::derive::USUAL_CHAIN_LOSS;
use leptos::prelude::*;

use crate::{
    components::RadioGroup,
    i18n::{t, t_with},
    platform::local_storage,
};

/// The key in local storage.
const KEY: &str = "bleachfield.chain_loss";

/// The shares to choose from.
const CHOICES: [f64; 3] = [0.25, USUAL_CHAIN_LOSS, 0.75];

thread_local! {
    static CHOSEN: ArcRwSignal<f64> = ArcRwSignal::new(stored());
}

fn stored() -> f64 {
    let stored = local_storage::get::<f64>(KEY);
    stored.filter(|share| CHOICES.contains(share)).unwrap_or(USUAL_CHAIN_LOSS)
}

/// Tracked.
pub fn get() -> f64 {
    CHOSEN.with(|chosen| chosen.clone()).get()
}

/// The choice.
pub fn choice() -> AnyView {
    let chosen = CHOSEN.with(|chosen| chosen.clone());
    let value = RwSignal::new(chosen.get_untracked());
    Effect::new(move |earlier: Option<()>| {
        let share = value.get();
        if earlier.is_some() {
            local_storage::set(KEY, &share);
            chosen.set(share);
        }
    });
    let options = CHOICES.map(|share| {
        let percent = format!("{:.0}", 100.0 * share);
        (share, t_with!("forecast-allow_share", &[("percent", &percent)]))
    });
    view! {
        <RadioGroup label=t!("forecast-allow") value options=options.to_vec() />
        <p class="small soft">{t!("forecast-allow_why")}</p>
    }
    .into_any()
}
