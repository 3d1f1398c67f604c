//! Spoons of powder to grams, with the range of measuring by spoon.

use bleachfield_core::{
    message::Value,
    quantity::{QuantityKind, SPOON_POWDERS, SPOONS, Unit, in_grams, spooned},
};
use leptos::prelude::*;

use crate::{
    components::{Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_number, format_value, t, t_with},
    platform::preferences::preferences_context,
};

#[component]
pub fn Spoons() -> impl IntoView {
    let powder = RwSignal::new(0usize);
    let unit = RwSignal::new(Unit::Tablespoon);
    let count = NumberInput::new(SPOONS, QuantityKind::Number).between(0.0, 10_000.0).filled(1.0);
    let powders = SPOON_POWDERS
        .iter()
        .enumerate()
        .map(|(i, row)| (i, t(&format!("powder-{}", row.id))))
        .collect();
    let answer = Memo::new(move |_| {
        let measures = preferences_context().get().measures;
        let powder = &SPOON_POWDERS[powder.get()];
        let mass = spooned(powder, count.base()?, unit.get(), measures, None);
        Some(mass.map_err(|error| error.message()))
    });
    let refused = Signal::derive(move || answer.get().and_then(Result::err));
    view! {
        <section class="card stack">
            <RadioGroup label=t!("mix-powder") value=powder options=powders />
            <RadioGroup label=t!("mix-spoon") value=unit options=vec![
                (Unit::Teaspoon, t!("mix-teaspoon")),
                (Unit::Tablespoon, t!("mix-tablespoon")),
                (Unit::Cup, t!("mix-cup")),
            ] />
            <NumberField ask=count refused />
        </section>
        {move || answer.get()?.ok().map(|mass| view! {
            <section class="card stack" aria-live="polite">
                <Figure name=t!("mix-about") number=format_number(in_grams(mass.value), 3)
                    unit="g".to_owned()
                    range=t_with!("plan-band_only", &[
                        ("low", &format_value(&Value::Mass(mass.low))),
                        ("high", &format_value(&Value::Mass(mass.high))),
                    ]) />
                <p class="small soft">{t!("mix-spoons_why")}</p>
            </section>
        })}
    }
}
