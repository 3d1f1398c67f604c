//! The alkali that brings a bath to its pH: which one, and how much.

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

/// The choice of an alkali.
pub fn alkali_choice(alkali: RwSignal<AlkaliReagent>) -> AnyView {
    let options = AlkaliReagent::ALL.iter().map(|alkali| (*alkali, alkali_name(*alkali))).collect();
    view! { <RadioGroup label=t!("liquor-with_what") value=alkali options /> }.into_any()
}

fn alkali_name(alkali: AlkaliReagent) -> String {
    t(match alkali {
        AlkaliReagent::SodaAsh => key!("liquor-soda_ash"),
        AlkaliReagent::SodaMonohydrate => key!("liquor-soda_monohydrate"),
        AlkaliReagent::WashingSoda => key!("liquor-washing_soda"),
        AlkaliReagent::Lye => key!("liquor-lye"),
        AlkaliReagent::BakingSoda => key!("liquor-baking_soda"),
    })
}

/// A dose in words: grams with their range, and teaspoons where it is measured by spoon.
pub fn dose_text(alkali: AlkaliReagent, mass: Estimate<Mass>) -> String {
    let grams = |mass| format_value(&Value::Mass(mass));
    let (low, high) = (grams(mass.low), grams(mass.high));
    // A range below the resolution of a scale is left out.
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
    let spoons = match alkali.teaspoons(mass) {
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
    format!("{weighed} {spoons}")
}

/// Why no acid is added to a bath with this pH window.
pub fn no_acid(window: PhWindow) -> AnyView {
    let why = if window == PhWindow::PEROXIDE {
        key!("liquor-no_acid")
    } else {
        key!("liquor-never_acid")
    };
    view! { <p class="small soft">{t(why)}</p> }.into_any()
}
