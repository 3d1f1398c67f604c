//! What to add for a bath's pH, in grams and spoons.

use crate::markup::prelude::*;
use bleachfield_core::{
    chemistry::alkali::{AlkaliReagent, PhWindow},
    message::Value,
    quantity::{Known, Mass},
};

use crate::{
    locale::{number, word, words, written},
    part::Choice,
};

/// With which alkali.
pub fn alkali_choice(alkali: RwSignal<AlkaliReagent>) -> AnyView {
    let options = AlkaliReagent::ALL.iter().map(|alkali| (*alkali, alkali_name(*alkali))).collect();
    view! { <Choice label=word("liquor.with_what") value=alkali options /> }.into_any()
}

pub fn alkali_name(alkali: AlkaliReagent) -> String {
    word(match alkali {
        AlkaliReagent::SodaAsh => "liquor.soda_ash",
        AlkaliReagent::SodaMonohydrate => "liquor.soda_monohydrate",
        AlkaliReagent::WashingSoda => "liquor.washing_soda",
        AlkaliReagent::Lye => "liquor.lye",
        AlkaliReagent::BakingSoda => "liquor.baking_soda",
    })
}

/// So much of it: grams with their band, and spoons with theirs where it is spooned.
pub fn dose_in_words(alkali: AlkaliReagent, mass: Known<Mass>) -> String {
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
pub fn no_acid(window: PhWindow) -> AnyView {
    let why = if window == PhWindow::PEROXIDE { "liquor.no_acid" } else { "liquor.never_acid" };
    view! { <p class="small soft">{word(why)}</p> }
}
