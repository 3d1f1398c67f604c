//! Hot and cold water for a temperature, the pulp's own heat counted.

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, HeatRefusal, WATER_VOLUME, hot_and_cold},
    caution::{Act, Situation, cautions},
    message::{Field, Value},
    quantity::{Celsius, Kind, Unit, grams},
};
use leptos::prelude::*;

use crate::{
    components::{Ask, AskField, CautionList, Fact},
    i18n::{format_value, t},
};

const HOT: Field = Field("hot_water");
const COLD: Field = Field("cold_water");

#[component]
pub fn Warm() -> impl IntoView {
    let water = Ask::new(WATER_VOLUME, Kind::Volume).unit(Unit::Litre).between(1.0, 1e6);
    let target = Ask::new(BATH_TEMPERATURE, Kind::Temperature).filled("38");
    let hot = Ask::new(HOT, Kind::Temperature).filled("60");
    let cold = Ask::new(COLD, Kind::Temperature).filled("15");
    let answer = Memo::new(move |_| {
        let celsius = |ask: Ask| Celsius::new(ask.base()?).ok();
        // A litre is taken as a kilogram: the split is by parts, so the water's
        // own density hardly enters.
        let water = grams(water.base()?);
        Some(hot_and_cold(water, None, celsius(target)?, celsius(hot)?, celsius(cold)?))
    });
    let refused = Signal::derive(move || match answer.get() {
        Some(Err(refusal)) => Some(HeatRefusal::message(&refusal)),
        _ => None,
    });
    let warn = Signal::derive(move || {
        let temperature = hot.base().and_then(|degrees| Celsius::new(degrees).ok());
        cautions(Act::Heating, &Situation { temperature, ..Situation::default() })
    });
    view! {
        <section class="card stack">
            <AskField ask=water refused />
            <AskField ask=target label=t!("mix-wanted") refused />
            <AskField ask=hot refused />
            <AskField ask=cold refused />
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
