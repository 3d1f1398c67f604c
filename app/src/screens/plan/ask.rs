//! What the bath is to be: how strong, how large, how warm, how long.

use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, Aim, BATH_TEMPERATURE, CAPACITY,
        MINUTES, Oxidant, Remedy, Size, Vessel, VesselKind, customary, guide,
    },
    quantity::{
        Celsius, QuantityKind, Unit, grams_per_litre, in_grams_per_litre, in_millilitres, in_share,
        millilitres, share,
    },
};
use leptos::prelude::*;

use super::{BleachForm, PlanOutcome};
use crate::{
    components::{NumberField, NumberInput, RadioGroup},
    i18n::{number, word, words},
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct AimForm {
    by: RwSignal<AimBasis>,
    charge: NumberInput,
    strength: NumberInput,
    sized: RwSignal<SizeBasis>,
    consistency: NumberInput,
    volume: NumberInput,
    temperature: NumberInput,
    minutes: NumberInput,
    capacity: NumberInput,
    filled: RwSignal<VesselKind>,
}

#[derive(Clone, Copy, PartialEq)]
enum AimBasis {
    Charge,
    Strength,
}

#[derive(Clone, Copy, PartialEq)]
enum SizeBasis {
    Consistency,
    Volume,
}

/// The answers, all of them readable.
pub struct AimAnswers {
    pub aim: Aim,
    pub size: Size,
    pub temperature: Celsius,
    pub vessel: Option<Vessel>,
    pub minutes: Option<f64>,
}

impl AimForm {
    /// The form, filled with what is usual for a first bath.
    pub fn new() -> Self {
        Self {
            by: RwSignal::new(AimBasis::Charge),
            charge: NumberInput::new(AIM_CHARGE, QuantityKind::Share)
                .between(1e-5, 1.0)
                .filled("2"),
            strength: NumberInput::new(AIM_STRENGTH, QuantityKind::Concentration)
                .between(1e-3, 200.0),
            sized: RwSignal::new(SizeBasis::Consistency),
            consistency: NumberInput::new(AIM_CONSISTENCY, QuantityKind::Share)
                .between(1e-3, 0.5)
                .filled("5"),
            volume: NumberInput::new(AIM_VOLUME, QuantityKind::Volume)
                .unit(Unit::Litre)
                .between(1.0, 2e6),
            temperature: NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature)
                .between(0.0, 95.0)
                .filled("38"),
            minutes: NumberInput::new(MINUTES, QuantityKind::Duration)
                .between(1.0, 2880.0)
                .filled("60"),
            capacity: NumberInput::new(CAPACITY, QuantityKind::Volume)
                .unit(Unit::Litre)
                .between(50.0, 2e6)
                .optional(),
            filled: RwSignal::new(VesselKind::Pot),
        }
    }

    /// The answers; `None` while one is empty or refused.
    pub fn read(self) -> Option<AimAnswers> {
        let aim = match self.by.get() {
            AimBasis::Charge => Aim::Charge(share(self.charge.base()?)),
            AimBasis::Strength => Aim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.sized.get() {
            SizeBasis::Consistency => Size::Consistency(share(self.consistency.base()?)),
            SizeBasis::Volume => Size::TotalVolume(millilitres(self.volume.base()?)),
        };
        if self.capacity.wrong().is_some() {
            return None;
        }
        Some(AimAnswers {
            aim,
            size,
            temperature: Celsius::new(self.temperature.base()?).ok()?,
            vessel: self.capacity.base().map(|capacity| Vessel {
                capacity: millilitres(capacity),
                filled: self.filled.get(),
            }),
            minutes: Some(self.minutes.base()?),
        })
    }

    /// Writes one of the core's ways out of a refused plan into the form; what
    /// is not the form's to change is told by `false`.
    pub fn take(self, way: Remedy) -> bool {
        match way {
            Remedy::Consistency(consistency) => {
                self.sized.set(SizeBasis::Consistency);
                self.consistency.text.set(number(in_share(consistency) * 100.0, 4));
            }
            Remedy::Volume(volume) => {
                self.sized.set(SizeBasis::Volume);
                self.volume.text.set(number(in_millilitres(volume) / 1000.0, 4));
            }
            Remedy::Use { charge, .. } => {
                self.by.set(AimBasis::Charge);
                self.charge.text.set(number(in_share(charge) * 100.0, 4));
            }
            Remedy::Strength(strength) => {
                self.by.set(AimBasis::Strength);
                self.strength.text.set(number(in_grams_per_litre(strength), 4));
            }
            Remedy::Warm(temperature) => self.temperature.text.set(number(temperature.get(), 4)),
            Remedy::Squeeze(_)
            | Remedy::StrongerBottle(_)
            | Remedy::WashFirst
            | Remedy::LeaveOut(_) => {
                return false;
            }
        }
        true
    }

    /// The fields. A refusal of the plan shows beside the field that it names.
    pub fn view(self, bleach: BleachForm, outcome: Memo<PlanOutcome>) -> AnyView {
        let refused = Signal::derive(move || match outcome.get() {
            PlanOutcome::Refused(_, refused) => Some(refused.message()),
            _ => None,
        });
        let active = move || match bleach.oxidant() {
            Oxidant::Hypochlorite => "plan.active_chlorine",
            _ => "plan.active_peroxide",
        };
        view! {
            <RadioGroup label=word("plan.aim_by") value=self.by options=vec![
                (AimBasis::Charge, word("plan.by_charge")),
                (AimBasis::Strength, word("plan.by_strength")),
            ] />
            {move || match self.by.get() {
                AimBasis::Charge => {
                    let usual = customary(bleach.oxidant());
                    let hint = words("plan.charge_hint", &[
                        ("active", &word(active())),
                        ("low", &number(usual.low * 100.0, 2)),
                        ("high", &number(usual.high * 100.0, 2)),
                    ]);
                    view! { <NumberField ask=self.charge hint refused /> }
                }
                AimBasis::Strength => {
                    let hint = words("plan.strength_hint", &[("active", &word(active()))]);
                    view! { <NumberField ask=self.strength hint refused /> }
                }
            }}
            <RadioGroup label=word("plan.size_by") value=self.sized options=vec![
                (SizeBasis::Consistency, word("plan.by_consistency")),
                (SizeBasis::Volume, word("plan.by_volume")),
            ] />
            {move || match self.sized.get() {
                SizeBasis::Consistency => view! {
                    <NumberField ask=self.consistency hint=word("plan.consistency_hint") refused />
                },
                SizeBasis::Volume => view! {
                    <NumberField ask=self.volume hint=word("plan.volume_hint") refused />
                },
            }}
            {move || {
                let guide = guide(bleach.oxidant());
                let band = |key: &str, window: bleachfield_core::bath::RecommendedRange| words(key, &[
                    ("low", &number(window.practice.0, 3)),
                    ("high", &number(window.practice.1, 3)),
                    ("book_low", &number(window.literature.0, 3)),
                    ("book_high", &number(window.literature.1, 3)),
                ]);
                view! {
                    <NumberField ask=self.temperature refused
                        hint=band("plan.temperature_hint", guide.temperature) />
                    <NumberField ask=self.minutes refused
                        hint=band("plan.minutes_hint", guide.minutes) />
                }
            }}
            <details class="more">
                <summary>{word("plan.vessel_head")}</summary>
                <div class="inside stack">
                    <NumberField ask=self.capacity hint=word("plan.capacity_hint") refused />
                    <RadioGroup label=word("plan.vessel") value=self.filled options=vec![
                        (VesselKind::Pot, word("plan.pot")),
                        (VesselKind::Blender, word("plan.blender")),
                    ] />
                </div>
            </details>
        }
        .into_any()
    }
}
