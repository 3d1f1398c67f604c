//! Hot and cold water for the warmth that the bath needs.

use bleachfield_core::{
    bath::hot_and_cold,
    chemistry::water::TAP_CELSIUS,
    message::{Field, Value},
    quantity::{Celsius, QuantityKind, Volume, grams, in_millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{NumberField, NumberInput},
    i18n::{format_value, render, t, t_with, volume_text},
};

const HOT: Field = Field("hot_water");
const COLD: Field = Field("cold_water");

/// Temperatures of kettle and tap; copies share their signals.
#[derive(Clone, Copy)]
pub struct HotAndColdForm {
    hot: NumberInput,
    cold: NumberInput,
}

impl HotAndColdForm {
    /// A kettle that has boiled, and a cold tap: assumed.
    pub fn new() -> Self {
        let input = |field, celsius| {
            NumberInput::new(field, QuantityKind::Temperature).between(0.0, 100.0).filled(celsius)
        };
        Self { hot: input(HOT, 95.0), cold: input(COLD, TAP_CELSIUS) }
    }

    /// The fields, and the split of this much water.
    pub fn view(self, water: Volume, at: Celsius) -> AnyView {
        let celsius = |input: NumberInput| Celsius::new(input.base()?).ok();
        let split = Memo::new(move |_| {
            // By proportion: 1 mL is taken as 1 g.
            let water = grams(in_millilitres(water));
            let split = hot_and_cold(water, None, at, celsius(self.hot)?, celsius(self.cold)?);
            Some(split.map_err(|error| error.message()))
        });
        view! {
            <details class="more">
                <summary>{t!("plan-hot_cold")}</summary>
                <div class="inside stack">
                    <div class="plan-grid">
                        <NumberField ask=self.hot />
                        <NumberField ask=self.cold />
                    </div>
                    <p role="status">{move || split.get().map(|split| match split {
                        Ok(split) => t_with!("plan-hot_cold_split", &[
                            ("hot", &volume_text(in_millilitres(split.hot_volume).round())),
                            ("cold", &volume_text(in_millilitres(split.cold_volume).round())),
                            ("temperature", &format_value(&Value::Celsius(at.get().round()))),
                        ]),
                        Err(why) => render(&why),
                    })}</p>
                </div>
            </details>
        }
        .into_any()
    }
}
