//! What the bath is to be: how strong, how large, how warm, how long.

use crate::markup::prelude::*;
use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BATH_TEMPERATURE, BathAim, BathSize,
        BathVessel, CAPACITY, MINUTES, Oxidant, RecommendedRange, Remedy, VesselKind, customary,
        guide,
    },
    quantity::{
        Celsius, QuantityKind, Unit, grams_per_litre, in_grams_per_litre, in_millilitres, in_share,
        millilitres, share,
    },
};

use super::{BleachForm, Outcome};
use crate::{
    locale::{number, word, words},
    part::{Ask, AskField, Choice},
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct AimForm {
    by: RwSignal<By>,
    charge: Ask,
    strength: Ask,
    sized: RwSignal<Sized>,
    consistency: Ask,
    volume: Ask,
    temperature: Ask,
    minutes: Ask,
    capacity: Ask,
    filled: RwSignal<VesselKind>,
}

#[derive(Clone, Copy, PartialEq)]
enum By {
    Charge,
    Strength,
}

#[derive(Clone, Copy, PartialEq)]
enum Sized {
    Consistency,
    Volume,
}

/// The answers, all of them readable.
pub struct Aims {
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
            by: RwSignal::new(By::Charge),
            charge: Ask::new(AIM_CHARGE, QuantityKind::Share).between(1e-5, 1.0).filled("2"),
            strength: Ask::new(AIM_STRENGTH, QuantityKind::Concentration).between(1e-3, 200.0),
            sized: RwSignal::new(Sized::Consistency),
            consistency: Ask::new(AIM_CONSISTENCY, QuantityKind::Share)
                .between(1e-3, 0.5)
                .filled("5"),
            volume: Ask::new(AIM_VOLUME, QuantityKind::Volume).unit(Unit::Litre).between(1.0, 2e6),
            temperature: Ask::new(BATH_TEMPERATURE, QuantityKind::Temperature)
                .between(0.0, 95.0)
                .filled("38"),
            minutes: Ask::new(MINUTES, QuantityKind::Duration).between(1.0, 2880.0).filled("60"),
            capacity: Ask::new(CAPACITY, QuantityKind::Volume)
                .unit(Unit::Litre)
                .between(50.0, 2e6)
                .optional(),
            filled: RwSignal::new(VesselKind::Pot),
        }
    }

    /// The answers; `None` while one is empty or refused.
    pub fn read(self) -> Option<Aims> {
        let aim = match self.by.get() {
            By::Charge => BathAim::Charge(share(self.charge.base()?)),
            By::Strength => BathAim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.sized.get() {
            Sized::Consistency => BathSize::Consistency(share(self.consistency.base()?)),
            Sized::Volume => BathSize::TotalVolume(millilitres(self.volume.base()?)),
        };
        if self.capacity.wrong().is_some() {
            return None;
        }
        Some(Aims {
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
                self.sized.set(Sized::Consistency);
                self.consistency.text.set(number(in_share(consistency) * 100.0, 4));
            }
            Remedy::Volume(volume) => {
                self.sized.set(Sized::Volume);
                self.volume.text.set(number(in_millilitres(volume) / 1000.0, 4));
            }
            Remedy::LessBleach { charge, .. } => {
                self.by.set(By::Charge);
                self.charge.text.set(number(in_share(charge) * 100.0, 4));
            }
            Remedy::Strength(strength) => {
                self.by.set(By::Strength);
                self.strength.text.set(number(in_grams_per_litre(strength), 4));
            }
            Remedy::Warm(temperature) => self.temperature.text.set(number(temperature.get(), 4)),
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
    pub fn view(self, bleach: BleachForm, outcome: Memo<Outcome>) -> AnyView {
        let refused = Signal::derive(move || match outcome.get() {
            Outcome::Refused(_, refused) => Some(refused.message()),
            _ => None,
        });
        let active = move || match bleach.oxidant() {
            Oxidant::Hypochlorite => "plan.active_chlorine",
            _ => "plan.active_peroxide",
        };
        view! {
            <Choice label=word("plan.aim_by") value=self.by options=vec![
                (By::Charge, word("plan.by_charge")),
                (By::Strength, word("plan.by_strength")),
            ] />
            {move || match self.by.get() {
                By::Charge => {
                    let usual = customary(bleach.oxidant());
                    let hint = words("plan.charge_hint", &[
                        ("active", &word(active())),
                        ("low", &number(usual.low * 100.0, 2)),
                        ("high", &number(usual.high * 100.0, 2)),
                    ]);
                    view! { <AskField ask=self.charge hint refused /> }
                }
                By::Strength => {
                    let hint = words("plan.strength_hint", &[("active", &word(active()))]);
                    view! { <AskField ask=self.strength hint refused /> }
                }
            }}
            <Choice label=word("plan.size_by") value=self.sized options=vec![
                (Sized::Consistency, word("plan.by_consistency")),
                (Sized::Volume, word("plan.by_volume")),
            ] />
            {move || match self.sized.get() {
                Sized::Consistency => view! {
                    <AskField ask=self.consistency hint=word("plan.consistency_hint") refused />
                },
                Sized::Volume => view! {
                    <AskField ask=self.volume hint=word("plan.volume_hint") refused />
                },
            }}
            {move || {
                let guide = guide(bleach.oxidant());
                let band = |key: &str, window: RecommendedRange| words(key, &[
                    ("low", &number(window.practice.0, 3)),
                    ("high", &number(window.practice.1, 3)),
                    ("book_low", &number(window.literature.0, 3)),
                    ("book_high", &number(window.literature.1, 3)),
                ]);
                view! {
                    <AskField ask=self.temperature refused
                        hint=band("plan.temperature_hint", guide.temperature) />
                    <AskField ask=self.minutes refused
                        hint=band("plan.minutes_hint", guide.minutes) />
                }
            }}
            <details class="more">
                <summary>{word("plan.vessel_head")}</summary>
                <div class="inside stack">
                    <AskField ask=self.capacity hint=word("plan.capacity_hint") refused />
                    <Choice label=word("plan.vessel") value=self.filled options=vec![
                        (VesselKind::Pot, word("plan.pot")),
                        (VesselKind::Blender, word("plan.blender")),
                    ] />
                </div>
            </details>
        }
    }
}
