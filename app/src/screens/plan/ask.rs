//! What the bath is to be: how strong, how large, how warm, how long.

use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BATH_TEMPERATURE, BathAim, BathSize,
        BathVessel, CAPACITY, MINUTES, Oxidant, Remedy, VesselKind, customary, guide,
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
    i18n::{format_number, key, t, t_with},
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
    pub aim: BathAim,
    pub size: BathSize,
    pub temperature: Celsius,
    pub vessel: Option<BathVessel>,
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
            AimBasis::Charge => BathAim::Charge(share(self.charge.base()?)),
            AimBasis::Strength => BathAim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.sized.get() {
            SizeBasis::Consistency => BathSize::Consistency(share(self.consistency.base()?)),
            SizeBasis::Volume => BathSize::TotalVolume(millilitres(self.volume.base()?)),
        };
        if self.capacity.wrong().is_some() {
            return None;
        }
        Some(AimAnswers {
            aim,
            size,
            temperature: Celsius::new(self.temperature.base()?).ok()?,
            vessel: self.capacity.base().map(|capacity| BathVessel {
                capacity: millilitres(capacity),
                kind: self.filled.get(),
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
                self.consistency.text.set(format_number(in_share(consistency) * 100.0, 4));
            }
            Remedy::Volume(volume) => {
                self.sized.set(SizeBasis::Volume);
                self.volume.text.set(format_number(in_millilitres(volume) / 1000.0, 4));
            }
            Remedy::LessBleach { charge, .. } => {
                self.by.set(AimBasis::Charge);
                self.charge.text.set(format_number(in_share(charge) * 100.0, 4));
            }
            Remedy::Strength(strength) => {
                self.by.set(AimBasis::Strength);
                self.strength.text.set(format_number(in_grams_per_litre(strength), 4));
            }
            Remedy::Warm(temperature) => {
                self.temperature.text.set(format_number(temperature.get(), 4))
            }
            Remedy::Press(_)
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
            Oxidant::Hypochlorite => key!("plan-active_chlorine"),
            _ => key!("plan-active_peroxide"),
        };
        view! {
            <RadioGroup label=t!("plan-aim_by") value=self.by options=vec![
                (AimBasis::Charge, t!("plan-by_charge")),
                (AimBasis::Strength, t!("plan-by_strength")),
            ] />
            {move || match self.by.get() {
                AimBasis::Charge => {
                    let usual = customary(bleach.oxidant());
                    let hint = t_with!("plan-charge_hint", &[
                        ("active", &t(active())),
                        ("low", &format_number(usual.low * 100.0, 2)),
                        ("high", &format_number(usual.high * 100.0, 2)),
                    ]);
                    view! { <NumberField ask=self.charge hint refused /> }
                }
                AimBasis::Strength => {
                    let hint = t_with!("plan-strength_hint", &[("active", &t(active()))]);
                    view! { <NumberField ask=self.strength hint refused /> }
                }
            }}
            <RadioGroup label=t!("plan-size_by") value=self.sized options=vec![
                (SizeBasis::Consistency, t!("plan-by_consistency")),
                (SizeBasis::Volume, t!("plan-by_volume")),
            ] />
            {move || match self.sized.get() {
                SizeBasis::Consistency => view! {
                    <NumberField ask=self.consistency hint=t!("plan-consistency_hint") refused />
                },
                SizeBasis::Volume => view! {
                    <NumberField ask=self.volume hint=t!("plan-volume_hint") refused />
                },
            }}
            {move || {
                let guide = guide(bleach.oxidant());
                let band = |key: &str, window: bleachfield_core::bath::RecommendedRange| t_with(key, &[
                    ("low", &format_number(window.practice.0, 3)),
                    ("high", &format_number(window.practice.1, 3)),
                    ("book_low", &format_number(window.literature.0, 3)),
                    ("book_high", &format_number(window.literature.1, 3)),
                ]);
                view! {
                    <NumberField ask=self.temperature refused
                        hint=band(key!("plan-temperature_hint"), guide.temperature) />
                    <NumberField ask=self.minutes refused
                        hint=band(key!("plan-minutes_hint"), guide.minutes) />
                }
            }}
            <details class="more">
                <summary>{t!("plan-vessel_head")}</summary>
                <div class="inside stack">
                    <NumberField ask=self.capacity hint=t!("plan-capacity_hint") refused />
                    <RadioGroup label=t!("plan-vessel") value=self.filled options=vec![
                        (VesselKind::Pot, t!("plan-pot")),
                        (VesselKind::Blender, t!("plan-blender")),
                    ] />
                </div>
            </details>
        }
        .into_any()
    }
}
