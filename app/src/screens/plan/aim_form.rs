//! The aim of a bath: charge or strength, size, temperature, time, vessel.

use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BATH_TEMPERATURE, BathAim, BathSize,
        BathVessel, CAPACITY, MINUTES, Oxidant, RecommendedRange, Remedy, VesselKind, customary,
        guide,
    },
    journal::{Aim, PlanRecord},
    message::Message,
    quantity::{
        Celsius, QuantityKind, Unit, grams_per_litre, in_grams_per_litre, in_millilitres, in_share,
        millilitres, share,
    },
};
use leptos::prelude::*;

use crate::{
    components::{NumberField, NumberInput, RadioGroup},
    i18n::{format_number, key, t, t_with},
    screens::calculator::inputs::BleachForm,
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct AimForm {
    aim_basis: RwSignal<AimBasis>,
    charge: NumberInput,
    strength: NumberInput,
    size_basis: RwSignal<SizeBasis>,
    consistency: NumberInput,
    volume: NumberInput,
    temperature: NumberInput,
    minutes: NumberInput,
    capacity: NumberInput,
    vessel: RwSignal<VesselKind>,
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

pub struct AimAnswers {
    pub aim: BathAim,
    pub size: BathSize,
    pub temperature: Celsius,
    pub vessel: Option<BathVessel>,
    pub minutes: f64,
}

impl AimForm {
    /// Filled with what is usual for a first bath.
    pub fn new() -> Self {
        let input = |field, kind, low, high| NumberInput::new(field, kind).between(low, high);
        let volume = |field, low| input(field, QuantityKind::Volume, low, 2e6).unit(Unit::Litre);
        Self {
            aim_basis: RwSignal::new(AimBasis::Charge),
            charge: input(AIM_CHARGE, QuantityKind::Share, 1e-5, 1.0).filled(2.0),
            strength: input(AIM_STRENGTH, QuantityKind::Concentration, 1e-3, 200.0),
            size_basis: RwSignal::new(SizeBasis::Consistency),
            consistency: input(AIM_CONSISTENCY, QuantityKind::Share, 1e-3, 0.5).filled(5.0),
            volume: volume(AIM_VOLUME, 1.0),
            temperature: input(BATH_TEMPERATURE, QuantityKind::Temperature, 0.0, 95.0).filled(38.0),
            minutes: input(MINUTES, QuantityKind::Duration, 1.0, 2880.0).filled(60.0),
            capacity: volume(CAPACITY, 50.0).optional(),
            vessel: RwSignal::new(VesselKind::Pot),
        }
    }

    /// Fills in the answers of a stored plan. Its vessel is not stored.
    pub fn fill(self, record: &PlanRecord) {
        let set = |input: NumberInput, value| input.fill(value);
        match record.aim {
            Aim::Charge { share, .. } => {
                self.aim_basis.set(AimBasis::Charge);
                set(self.charge, share * 100.0);
            }
            Aim::LiquorStrength { g_per_l, .. } => {
                self.aim_basis.set(AimBasis::Strength);
                set(self.strength, g_per_l);
            }
        }
        self.size_basis.set(SizeBasis::Consistency);
        set(self.consistency, record.consistency.value * 100.0);
        set(self.temperature, record.celsius);
        set(self.minutes, record.minutes);
    }

    /// Tracked; `None` while an answer is missing or cannot be read.
    pub fn read(self) -> Option<AimAnswers> {
        let aim = match self.aim_basis.get() {
            AimBasis::Charge => BathAim::Charge(share(self.charge.base()?)),
            AimBasis::Strength => BathAim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.size_basis.get() {
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
                kind: self.vessel.get(),
            }),
            minutes: self.minutes.base()?,
        })
    }

    /// Changes the answers as a remedy says. Remedies outside this form change nothing.
    pub fn apply(self, remedy: Remedy) {
        let set = |input: NumberInput, value| input.fill(value);
        match remedy {
            Remedy::Consistency(consistency) => {
                self.size_basis.set(SizeBasis::Consistency);
                set(self.consistency, in_share(consistency) * 100.0);
            }
            Remedy::Volume(volume) => {
                self.size_basis.set(SizeBasis::Volume);
                set(self.volume, in_millilitres(volume) / 1000.0);
            }
            Remedy::LessBleach { charge, .. } => {
                self.aim_basis.set(AimBasis::Charge);
                set(self.charge, in_share(charge) * 100.0);
            }
            Remedy::Strength(strength) => {
                self.aim_basis.set(AimBasis::Strength);
                set(self.strength, in_grams_per_litre(strength));
            }
            Remedy::Warm(temperature) => set(self.temperature, temperature.get()),
            Remedy::Press(_)
            | Remedy::StrongerBottle(_)
            | Remedy::WashFirst
            | Remedy::LeaveOut(_)
            | Remedy::RinsePulp
            | Remedy::SoakInSoda
            | Remedy::MeasureStrength(_)
            | Remedy::NewBleach
            | Remedy::WeakerPeroxide => {}
        }
    }

    /// The fields. `refused` shows beside the field that it names.
    pub fn view(self, bleach: BleachForm, refused: Signal<Option<Message>>) -> AnyView {
        let active = move || match bleach.oxidant() {
            Oxidant::Hypochlorite => key!("plan-active_chlorine"),
            _ => key!("plan-active_peroxide"),
        };
        view! {
            <RadioGroup label=t!("plan-aim_by") value=self.aim_basis options=vec![
                (AimBasis::Charge, t!("plan-by_charge")),
                (AimBasis::Strength, t!("plan-by_strength")),
            ] />
            {move || match self.aim_basis.get() {
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
            <RadioGroup label=t!("plan-size_by") value=self.size_basis options=vec![
                (SizeBasis::Consistency, t!("plan-by_consistency")),
                (SizeBasis::Volume, t!("plan-by_volume")),
            ] />
            {move || match self.size_basis.get() {
                SizeBasis::Consistency => view! {
                    <NumberField ask=self.consistency hint=t!("plan-consistency_hint") refused />
                },
                SizeBasis::Volume => view! {
                    <NumberField ask=self.volume hint=t!("plan-volume_hint") refused />
                },
            }}
            {move || {
                let guide = guide(bleach.oxidant());
                let hint = |key: &str, range: RecommendedRange| t_with(key, &[
                    ("low", &format_number(range.practice.0, 3)),
                    ("high", &format_number(range.practice.1, 3)),
                    ("book_low", &format_number(range.literature.0, 3)),
                    ("book_high", &format_number(range.literature.1, 3)),
                ]);
                view! {
                    <NumberField ask=self.temperature refused
                        hint=hint(key!("plan-temperature_hint"), guide.temperature) />
                    <NumberField ask=self.minutes refused
                        hint=hint(key!("plan-minutes_hint"), guide.minutes) />
                }
            }}
            <details class="more">
                <summary>{t!("plan-vessel_head")}</summary>
                <div class="inside stack">
                    <NumberField ask=self.capacity hint=t!("plan-capacity_hint") refused />
                    <RadioGroup label=t!("plan-vessel") value=self.vessel options=vec![
                        (VesselKind::Pot, t!("plan-pot")),
                        (VesselKind::Blender, t!("plan-blender")),
                    ] />
                </div>
            </details>
        }
        .into_any()
    }
}
