//! What to add for a bath's pH, in grams and spoons.

use bleachfield_core::{
    chemistry::alkali::{Alkali, Window},
    message::Value,
    quantity::{Estimate, Mass},
};
use leptos::prelude::*;

use crate::{
    components::RadioGroup,
    i18n::{number, word, words, written},
};

/// With which alkali.
pub fn alkali_choice(alkali: RwSignal<Alkali>) -> AnyView {
    let options = Alkali::ALL.iter().map(|alkali| (*alkali, alkali_name(*alkali))).collect();
    view! { <RadioGroup label=word("liquor.with_what") value=alkali options /> }.into_any()
}

pub fn alkali_name(alkali: Alkali) -> String {
    word(match alkali {
        Alkali::SodaAsh => "liquor.soda_ash",
        Alkali::SodaMonohydrate => "liquor.soda_monohydrate",
        Alkali::WashingSoda => "liquor.washing_soda",
        Alkali::Lye => "liquor.lye",
        Alkali::BakingSoda => "liquor.baking_soda",
    })
}

/// So much of it: grams with their band, and spoons with theirs where it is spooned.
pub fn dose_in_words(alkali: Alkali, mass: Estimate<Mass>) -> String {
    let grams = |mass| written(&Value::Mass(mass));
    let (low, high) = (grams(mass.low), grams(mass.high));
    // A range that the scale does not show is none.
    let key = if low == high { "liquor.dose_exact" } else { "liquor.dose" };
    let weighed = words(
        key,
        &[
            ("dose", &grams(mass.value)),
            ("alkali", &alkali_name(alkali)),
            ("low", &low),
            ("high", &high),
        ],
    );
    let spooned = match alkali.teaspoons(mass) {
        Some(spoons) => words(
            "liquor.spoons",
            &[
                ("n", &number(spoons.value, 2)),
                ("low", &number(spoons.low, 2)),
                ("high", &number(spoons.high, 2)),
            ],
        ),
        None => word("liquor.weigh_it"),
    };
    format!("{weighed} {spooned}")
}

/// Why nothing acid goes into a bath that keeps to `window`.
pub fn no_acid(window: Window) -> AnyView {
    let why = if window == Window::PEROXIDE { "liquor.no_acid" } else { "liquor.never_acid" };
    view! { <p class="small soft">{word(why)}</p> }.into_any()
}
