//! Spoons of powder to grams, with the range of measuring by spoon.

use bleachfield_core::{
    message::Value,
    quantity::{Estimate, Mass, QuantityKind, SPOON_POWDERS, SPOONS, Unit, in_grams, spooned},
};
use leptos::prelude::*;

use super::{
    bench::Bench,
    session::{keep, keep_choice, keep_inputs},
    sums::refusal,
};
use crate::{
    components::{Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_number, format_value, t, t_with},
    platform::preferences::preferences_context,
    route::Sum,
};

const MEASURES: [Unit; 3] = [Unit::Teaspoon, Unit::Tablespoon, Unit::Cup];

#[component]
pub fn Spoons() -> impl IntoView {
    let powder = RwSignal::new(0usize);
    let unit = RwSignal::new(Unit::Tablespoon);
    let count = NumberInput::new(SPOONS, QuantityKind::Number).between(0.0, 10_000.0).filled(1.0);
    keep_inputs(Sum::Spoons, &[count]);
    keep(Sum::Spoons, "powder", powder);
    keep_choice(Sum::Spoons, "spoon", unit, &MEASURES);
    let powders = SPOON_POWDERS
        .iter()
        .enumerate()
        .map(|(i, row)| (i, t(&format!("powder-{}", row.id))))
        .collect();
    let answer = Memo::new(move |_| {
        let measures = preferences_context().get().measures;
        let powder = SPOON_POWDERS.get(powder.get())?;
        let mass = spooned(powder, count.base()?, unit.get(), measures, None);
        Some(mass.map_err(|error| error.message()))
    });
    let refused = Signal::derive(move || answer.get().and_then(Result::err));
    let short = move || match answer.get() {
        Some(Ok(mass)) => grams_of(&mass, false),
        Some(Err(why)) => refusal(&why),
        None => view! { <p class="soft">{t!("mix-spoons_waiting")}</p> }.into_any(),
    };
    let full = move || {
        answer.get().and_then(Result::ok).map(|mass| {
            view! { {grams_of(&mass, true)}<p class="small soft">{t!("mix-spoons_why")}</p> }
        })
    };
    let ready = Signal::derive(move || matches!(answer.get(), Some(Ok(_))));
    view! {
        <Bench of=Sum::Spoons short=short.into() full=full.into() ready>
            <section class="card stack">
                <NumberField ask=count refused />
                <RadioGroup label=t!("mix-spoon") value=unit options=vec![
                    (Unit::Teaspoon, t!("mix-teaspoon")),
                    (Unit::Tablespoon, t!("mix-tablespoon")),
                    (Unit::Cup, t!("mix-cup")),
                ] />
                <RadioGroup label=t!("mix-powder") value=powder options=powders />
            </section>
        </Bench>
    }
}

fn grams_of(mass: &Estimate<Mass>, full: bool) -> AnyView {
    let range = || {
        t_with!(
            "plan-band_only",
            &[
                ("low", &format_value(&Value::Mass(mass.low))),
                ("high", &format_value(&Value::Mass(mass.high))),
            ],
        )
    };
    let range = if full { range() } else { String::new() };
    view! {
        <Figure name=t!("mix-about") number=format_number(in_grams(mass.value), 3)
            unit="g".to_owned() range />
    }
    .into_any()
}
