//! Spoons of powder to grams, with the band that spoons deserve.

use bleachfield_core::{
    message::Value,
    quantity::{QuantityKind, SPOON_POWDERS, SPOONS, Unit, in_grams, spooned},
};
use leptos::prelude::*;

use crate::{
    components::{Figure, NumberField, NumberInput, RadioGroup},
    i18n::{number, word, words, written},
    platform::preferences::preferences_context,
};

#[component]
pub fn Spoons() -> impl IntoView {
    let powder = RwSignal::new(0usize);
    let unit = RwSignal::new(Unit::Tablespoon);
    let count = NumberInput::new(SPOONS, QuantityKind::Number).between(0.0, 10_000.0).filled("1");
    let powders = SPOON_POWDERS
        .iter()
        .enumerate()
        .map(|(i, row)| (i, word(&format!("powder.{}", row.id))))
        .collect();
    let answer = Memo::new(move |_| {
        let measures = preferences_context().get().measures;
        Some(spooned(&SPOON_POWDERS[powder.get()], count.base()?, unit.get(), measures, None))
    });
    let refused = Signal::derive(move || match answer.get() {
        Some(Err(error)) => Some(error.message()),
        _ => None,
    });
    view! {
        <section class="card stack">
            <RadioGroup label=word("mix.powder") value=powder options=powders />
            <RadioGroup label=word("mix.spoon") value=unit options=vec![
                (Unit::Teaspoon, word("mix.teaspoon")),
                (Unit::Tablespoon, word("mix.tablespoon")),
                (Unit::Cup, word("mix.cup")),
            ] />
            <NumberField ask=count refused />
        </section>
        {move || match answer.get() {
            Some(Ok(mass)) => view! {
                <section class="card stack" aria-live="polite">
                    <Figure name=word("mix.about") number=number(in_grams(mass.value), 3)
                        unit="g".to_owned()
                        range=words("plan.band_only", &[
                            ("low", &written(&Value::Mass(mass.low))),
                            ("high", &written(&Value::Mass(mass.high))),
                        ]) />
                    <p class="small soft">{word("mix.spoons_why")}</p>
                </section>
            }.into_any(),
            _ => ().into_any(),
        }}
    }
}
