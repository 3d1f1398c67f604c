//! Hot and cold water for a temperature.

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, HotAndCold, WATER_VOLUME, hot_and_cold},
    caution::{Act, Situation, cautions},
    chemistry::water::TAP_CELSIUS,
    message::{Field, Value},
    quantity::{Celsius, Interval, QuantityKind, Unit, grams},
};
use leptos::prelude::*;

use super::{
    bench::{ActCautions, Bench},
    session::keep_inputs,
    sums::{number_and_unit, refusal},
};
use crate::{
    components::{Figure, NumberField, NumberInput},
    i18n::{format_value, t, t_with},
    route::Sum,
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
    keep_inputs(Sum::Warm, &[water, target, hot, cold]);
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
    let short = move || match answer.get() {
        Some(Ok(split)) => amounts(&split),
        Some(Err(why)) => refusal(&why),
        None => view! { <p class="soft">{t!("mix-warm_waiting")}</p> }.into_any(),
    };
    let full = move || {
        answer.get().and_then(Result::ok).map(|split| {
            let reaches = format_value(&Value::Celsius(split.reaches.get()));
            view! {
                {amounts(&split)}
                <p>{t_with!("mix-reaches", &[("reaches", &reaches)])}</p>
            }
        })
    };
    let ready = Signal::derive(move || matches!(answer.get(), Some(Ok(_))));
    let standing = cautions(Act::Heating, &Situation::without_bleach());
    view! {
        <Bench of=Sum::Warm short=short.into() full=full.into() ready>
            <section class="card bench-fields">
                <NumberField ask=water refused />
                <NumberField ask=target label=t!("mix-wanted") refused />
                <NumberField ask=hot refused />
                <NumberField ask=cold refused />
            </section>
            <ActCautions cautions=warn standing />
        </Bench>
    }
}

fn amounts(split: &HotAndCold) -> AnyView {
    let (hot, hot_unit) = number_and_unit(split.hot_volume, 3);
    let (cold, cold_unit) = number_and_unit(split.cold_volume, 3);
    view! {
        <div class="row even top">
            <Figure name=t!("mix-hot") number=hot unit=hot_unit />
            <Figure name=t!("mix-cold") number=cold unit=cold_unit />
        </div>
    }
    .into_any()
}
