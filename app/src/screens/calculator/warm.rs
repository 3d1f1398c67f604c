//! Hot and cold water for a temperature, the pulp's own heat counted.

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, HeatError, WATER_VOLUME, hot_and_cold},
    caution::{Act, Situation, cautions},
    message::{Field, Value},
    quantity::{Celsius, QuantityKind, Unit, grams},
};
use leptos::prelude::*;

use crate::{
    components::{CautionList, Fact, NumberField, NumberInput},
    i18n::{format_value, t},
};

const HOT: Field = Field("hot_water");
const COLD: Field = Field("cold_water");

#[component]
pub fn Warm() -> impl IntoView {
    let water =
        NumberInput::new(WATER_VOLUME, QuantityKind::Volume).unit(Unit::Litre).between(1.0, 1e6);
    let target = NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature).filled("38");
    let hot = NumberInput::new(HOT, QuantityKind::Temperature).filled("60");
    let cold = NumberInput::new(COLD, QuantityKind::Temperature).filled("15");
    let answer = Memo::new(move |_| {
        let celsius = |ask: NumberInput| Celsius::new(ask.base()?).ok();
        // A litre is taken as a kilogram: the split is by parts, so the water's
        // own density hardly enters.
        let water = grams(water.base()?);
        Some(hot_and_cold(water, None, celsius(target)?, celsius(hot)?, celsius(cold)?))
    });
    let refused = Signal::derive(move || match answer.get() {
        Some(Err(refusal)) => Some(HeatError::message(&refusal)),
        _ => None,
    });
    let warn = Signal::derive(move || {
        let temperature = hot.base().and_then(|degrees| Celsius::new(degrees).ok());
        cautions(Act::Heating, &Situation { temperature, ..Situation::default() })
    });
    view! {
        <section class="card stack">
            <NumberField ask=water refused />
            <NumberField ask=target label=t!("mix-wanted") refused />
            <NumberField ask=hot refused />
            <NumberField ask=cold refused />
        </section>
        {move || match answer.get() {
            Some(Ok(split)) => view! {
                <section class="card" aria-live="polite">
                    <dl class="facts">
                        <Fact name=t!("mix-hot") value=format_value(&Value::Volume(split.hot_volume)) />
                        <Fact name=t!("mix-cold") value=format_value(&Value::Volume(split.cold_volume)) />
                        <Fact name=t!("mix-comes_to") value=format_value(&Value::Celsius(split.reaches.get())) />
                    </dl>
                </section>
            }.into_any(),
            _ => ().into_any(),
        }}
        <CautionList cautions=warn />
    }
}
