//! The levels of one bleach: one value, or a lowest and a highest where it differs between pots.

use bleachfield_core::{
    bath::{Bleach, Oxidant},
    derive::TrialBleach,
    journal::{Product, ProductUsed},
    message::Field,
    quantity::QuantityKind,
};
use leptos::prelude::*;

use crate::{
    components::{NumberField, NumberInput},
    i18n::t,
    platform::clock,
};

/// What differs between the pots.
#[derive(Clone, Copy)]
pub struct Differs {
    pub charge: RwSignal<bool>,
    pub time: RwSignal<bool>,
    pub temperature: RwSignal<bool>,
}

/// The numbers of a factor. Copies share their signals.
#[derive(Clone, Copy)]
struct LevelInput {
    same: NumberInput,
    low: NumberInput,
    high: NumberInput,
}

impl LevelInput {
    fn new(field: [Field; 3], kind: QuantityKind, limits: (f64, f64), filled: [f64; 3]) -> Self {
        let input = |nth: usize| {
            let input = NumberInput::new(field[nth], kind).between(limits.0, limits.1);
            input.filled(filled[nth])
        };
        Self { same: input(0), low: input(1), high: input(2) }
    }

    fn inputs(self, differs: bool) -> Vec<NumberInput> {
        if differs { vec![self.low, self.high] } else { vec![self.same] }
    }

    /// `count` levels from the lowest to the highest; one where nothing differs. Tracked.
    fn levels(self, differs: bool, count: usize) -> Option<Vec<f64>> {
        if !differs {
            return Some(vec![self.same.base()?]);
        }
        let (low, high) = (self.low.base()?, self.high.base()?);
        let step = (high - low) / (count - 1) as f64;
        (high > low).then(|| (0..count).map(|nth| low + step * nth as f64).collect())
    }

    /// Both ends are read, and the highest is not above the lowest. Tracked.
    fn is_reversed(self, differs: bool) -> bool {
        differs && self.low.base().zip(self.high.base()).is_some_and(|(low, high)| high <= low)
    }

    fn view(self, name: String, differs: RwSignal<bool>) -> AnyView {
        let reversed = move || self.is_reversed(differs.get());
        view! {
            <div class="stack tight">
                <span class="label">{name}</span>
                {move || if differs.get() {
                    view! {
                        <div class="plan-grid">
                            <NumberField ask=self.low label=t!("trial-lowest") />
                            <NumberField ask=self.high label=t!("trial-highest") />
                        </div>
                    }
                    .into_any()
                } else {
                    view! { <NumberField ask=self.same label=t!("trial-same") /> }.into_any()
                }}
                <span class="field" role="status">
                    {move || reversed().then(|| view! {
                        <span class="wrong">{t!("trial-reversed")}</span>
                    })}
                </span>
            </div>
        }
        .into_any()
    }
}

/// A bleach on the shelf that a trial may use.
#[derive(Clone, Copy)]
pub struct BleachLevels {
    pub product: StoredValue<Product>,
    pub chosen: RwSignal<bool>,
    charge: LevelInput,
    temperature: LevelInput,
    time: LevelInput,
}

const CHARGE: [Field; 3] =
    [Field("trial_charge"), Field("trial_charge_low"), Field("trial_charge_high")];
const CELSIUS: [Field; 3] =
    [Field("trial_celsius"), Field("trial_celsius_low"), Field("trial_celsius_high")];
const MINUTES: [Field; 3] =
    [Field("trial_minutes"), Field("trial_minutes_low"), Field("trial_minutes_high")];

impl BleachLevels {
    /// `None` for a product that no bath is planned with.
    pub fn new(product: &Product, chosen: bool) -> Option<Self> {
        let oxidant = Bleach::of(product, clock::now())?.oxidant();
        let levels = LevelInput::new;
        let (charge, celsius, minutes) = starting_levels(oxidant);
        Some(Self {
            product: StoredValue::new(product.clone()),
            chosen: RwSignal::new(chosen),
            charge: levels(CHARGE, QuantityKind::Share, (1e-4, 0.2), charge),
            temperature: levels(CELSIUS, QuantityKind::Temperature, (5.0, 80.0), celsius),
            time: levels(MINUTES, QuantityKind::Duration, (5.0, 480.0), minutes),
        })
    }

    pub fn oxidant(self) -> Oxidant {
        let bleach = self.product.with_value(|product| Bleach::of(product, clock::now()));
        bleach.map_or(Oxidant::Hypochlorite, |bleach| bleach.oxidant())
    }

    /// Its levels for a trial; `None` while a number is missing or wrong. Tracked.
    pub fn to_try(self, differs: Differs, charges: usize) -> Option<TrialBleach> {
        let (bleach, used) = self.product.with_value(|product| {
            let now = clock::now();
            Some((Bleach::of(product, now)?, ProductUsed::from_shelf(product, now)?))
        })?;
        Some(TrialBleach {
            bleach,
            used,
            charges: self.charge.levels(differs.charge.get(), charges)?,
            celsius: self.temperature.levels(differs.temperature.get(), 2)?,
            minutes: self.time.levels(differs.time.get(), 2)?,
        })
    }

    /// Marks what is missing.
    pub fn try_now(self, differs: Differs) {
        untrack(|| {
            let all = [
                self.charge.inputs(differs.charge.get()),
                self.temperature.inputs(differs.temperature.get()),
                self.time.inputs(differs.time.get()),
            ];
            for input in all.into_iter().flatten() {
                input.try_now();
            }
        });
    }

    pub fn view(self, differs: Differs) -> AnyView {
        let name = self.product.with_value(|product| product.name.clone());
        view! {
            <section class="stack">
                <h3>{name}</h3>
                {self.charge.view(t!("trial-factor-charge"), differs.charge)}
                {self.time.view(t!("trial-factor-time"), differs.time)}
                {self.temperature.view(t!("trial-factor-temperature"), differs.temperature)}
            </section>
        }
        .into_any()
    }
}

/// One value, lowest, highest of charge (%), °C and minutes: within what is customary and harmless
/// (`customary`, `bath_limits`), wide enough to show a difference.
fn starting_levels(oxidant: Oxidant) -> ([f64; 3], [f64; 3], [f64; 3]) {
    if oxidant.is_peroxide() {
        ([2.0, 1.0, 3.0], [45.0, 40.0, 47.0], [90.0, 45.0, 90.0])
    } else {
        ([2.0, 1.0, 3.0], [37.0, 30.0, 37.0], [60.0, 30.0, 60.0])
    }
}
