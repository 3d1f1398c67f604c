//! What to add for a bath's pH, in grams and spoons.

use bleachfield_core::{
    chemistry::alkali::{AlkaliReagent, PhWindow},
    message::Value,
    quantity::{Estimate, Mass},
};
use leptos::prelude::*;

use crate::{
    components::RadioGroup,
    i18n::{format_number, format_value, key, t, t_with},
};

/// With which alkali.
pub fn alkali_choice(alkali: RwSignal<AlkaliReagent>) -> AnyView {
    let options = AlkaliReagent::ALL.iter().map(|alkali| (*alkali, alkali_name(*alkali))).collect();
    view! { <RadioGroup label=t!("liquor-with_what") value=alkali options /> }.into_any()
}

pub fn alkali_name(alkali: AlkaliReagent) -> String {
    t(match alkali {
        AlkaliReagent::SodaAsh => key!("liquor-soda_ash"),
        AlkaliReagent::SodaMonohydrate => key!("liquor-soda_monohydrate"),
        AlkaliReagent::WashingSoda => key!("liquor-washing_soda"),
        AlkaliReagent::Lye => key!("liquor-lye"),
        AlkaliReagent::BakingSoda => key!("liquor-baking_soda"),
    })
}

/// So much of it: grams with their band, and spoons with theirs where it is spooned.
pub fn dose_in_words(alkali: AlkaliReagent, mass: Estimate<Mass>) -> String {
    let grams = |mass| format_value(&Value::Mass(mass));
    let (low, high) = (grams(mass.low), grams(mass.high));
    // A range that the scale does not show is none.
    let key = if low == high { key!("liquor-dose_exact") } else { key!("liquor-dose") };
    let weighed = t_with(
        key,
        &[
            ("dose", &grams(mass.value)),
            ("alkali", &alkali_name(alkali)),
            ("low", &low),
            ("high", &high),
        ],
    );
    let spooned = match alkali.teaspoons(mass) {
        Some(spoons) => t_with!(
            "liquor-spoons",
            &[
                ("n", &format_number(spoons.value, 2)),
                ("low", &format_number(spoons.low, 2)),
                ("high", &format_number(spoons.high, 2)),
            ],
        ),
        None => t!("liquor-weigh_it"),
    };
    format!("{weighed} {spooned}")
}

/// Why nothing acid goes into a bath that keeps to `window`.
pub fn no_acid(window: PhWindow) -> AnyView {
    let why = if window == PhWindow::PEROXIDE {
        key!("liquor-no_acid")
    } else {
        key!("liquor-never_acid")
    };
    view! { <p class="small soft">{t(why)}</p> }.into_any()
}
