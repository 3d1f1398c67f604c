//! Hot and cold water for a temperature.

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, WATER_VOLUME, hot_and_cold},
    caution::{Act, Situation, cautions},
    chemistry::water::TAP_CELSIUS,
    message::{Field, Value},
    quantity::{Celsius, Interval, QuantityKind, Unit, grams},
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
    let target = NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature).filled(38.0);
    let hot = NumberInput::new(HOT, QuantityKind::Temperature).filled(60.0);
    let cold = NumberInput::new(COLD, QuantityKind::Temperature).filled(TAP_CELSIUS);
    let celsius = |input: NumberInput| Celsius::new(input.base()?).ok();
    let answer = Memo::new(move |_| {
        // 1 mL is taken as 1 g: the split is by proportion, so density hardly matters.
        let water = grams(water.base()?);
        let split = hot_and_cold(water, None, celsius(target)?, celsius(hot)?, celsius(cold)?);
        Some(split.map_err(|error| error.message()))
    });
    let refused = Signal::derive(move || answer.get().and_then(Result::err));
    let warn = Signal::derive(move || {
        let situation = Situation {
            temperature: celsius(hot).map(Interval::exact),
            ..Situation::without_bleach()
        };
        cautions(Act::Heating, &situation)
    });
    view! {
        <section class="card stack">
            <NumberField ask=water refused />
            <NumberField ask=target label=t!("mix-wanted") refused />
            <NumberField ask=hot refused />
            <NumberField ask=cold refused />
        </section>
        {move || answer.get()?.ok().map(|split| view! {
            <section class="card" aria-live="polite">
                <dl class="facts">
                    <Fact name=t!("mix-hot") value=format_value(&Value::Volume(split.hot_volume)) />
                    <Fact name=t!("mix-cold") value=format_value(&Value::Volume(split.cold_volume)) />
                    <Fact name=t!("mix-comes_to") value=format_value(&Value::Celsius(split.reaches.get())) />
                </dl>
            </section>
        })}
        <CautionList cautions=warn />
    }
}
