//! What the bath is to be: how strong, how large, how warm, how long.

use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, Aim, BATH_TEMPERATURE, CAPACITY,
        Filled, MINUTES, Oxidant, Size, Vessel, Way, customary, guide,
    },
    quantity::{
        Celsius, Kind, Unit, grams_per_litre, in_grams_per_litre, in_millilitres, in_share,
        millilitres, share,
    },
};
use leptos::prelude::*;

use super::{BleachForm, Outcome};
use crate::{
    components::{Ask, AskField, Choice},
    i18n::{format_number, key, t, t_with},
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
    filled: RwSignal<Filled>,
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
            by: RwSignal::new(By::Charge),
            charge: Ask::new(AIM_CHARGE, Kind::Share).between(1e-5, 1.0).filled("2"),
            strength: Ask::new(AIM_STRENGTH, Kind::Concentration).between(1e-3, 200.0),
            sized: RwSignal::new(Sized::Consistency),
            consistency: Ask::new(AIM_CONSISTENCY, Kind::Share).between(1e-3, 0.5).filled("5"),
            volume: Ask::new(AIM_VOLUME, Kind::Volume).unit(Unit::Litre).between(1.0, 2e6),
            temperature: Ask::new(BATH_TEMPERATURE, Kind::Temperature)
                .between(0.0, 95.0)
                .filled("38"),
            minutes: Ask::new(MINUTES, Kind::Duration).between(1.0, 2880.0).filled("60"),
            capacity: Ask::new(CAPACITY, Kind::Volume)
                .unit(Unit::Litre)
                .between(50.0, 2e6)
                .optional(),
            filled: RwSignal::new(Filled::Pot),
        }
    }

    /// The answers; `None` while one is empty or refused.
    pub fn read(self) -> Option<Aims> {
        let aim = match self.by.get() {
            By::Charge => Aim::Charge(share(self.charge.base()?)),
            By::Strength => Aim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.sized.get() {
            Sized::Consistency => Size::Consistency(share(self.consistency.base()?)),
            Sized::Volume => Size::TotalVolume(millilitres(self.volume.base()?)),
        };
        if self.capacity.wrong().is_some() {
            return None;
        }
        Some(Aims {
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
    pub fn take(self, way: Way) -> bool {
        match way {
            Way::Consistency(consistency) => {
                self.sized.set(Sized::Consistency);
                self.consistency.text.set(format_number(in_share(consistency) * 100.0, 4));
            }
            Way::Volume(volume) => {
                self.sized.set(Sized::Volume);
                self.volume.text.set(format_number(in_millilitres(volume) / 1000.0, 4));
            }
            Way::Use { charge, .. } => {
                self.by.set(By::Charge);
                self.charge.text.set(format_number(in_share(charge) * 100.0, 4));
            }
            Way::Strength(strength) => {
                self.by.set(By::Strength);
                self.strength.text.set(format_number(in_grams_per_litre(strength), 4));
            }
            Way::Warm(temperature) => {
                self.temperature.text.set(format_number(temperature.get(), 4))
            }
            Way::Squeeze(_) | Way::StrongerBottle(_) | Way::WashFirst | Way::LeaveOut(_) => {
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
            Oxidant::Hypochlorite => key!("plan-active_chlorine"),
            _ => key!("plan-active_peroxide"),
        };
        view! {
            <Choice label=t!("plan-aim_by") value=self.by options=vec![
                (By::Charge, t!("plan-by_charge")),
                (By::Strength, t!("plan-by_strength")),
            ] />
            {move || match self.by.get() {
                By::Charge => {
                    let usual = customary(bleach.oxidant());
                    let hint = t_with!("plan-charge_hint", &[
                        ("active", &t(active())),
                        ("low", &format_number(usual.low * 100.0, 2)),
                        ("high", &format_number(usual.high * 100.0, 2)),
                    ]);
                    view! { <AskField ask=self.charge hint refused /> }
                }
                By::Strength => {
                    let hint = t_with!("plan-strength_hint", &[("active", &t(active()))]);
                    view! { <AskField ask=self.strength hint refused /> }
                }
            }}
            <Choice label=t!("plan-size_by") value=self.sized options=vec![
                (Sized::Consistency, t!("plan-by_consistency")),
                (Sized::Volume, t!("plan-by_volume")),
            ] />
            {move || match self.sized.get() {
                Sized::Consistency => view! {
                    <AskField ask=self.consistency hint=t!("plan-consistency_hint") refused />
                },
                Sized::Volume => view! {
                    <AskField ask=self.volume hint=t!("plan-volume_hint") refused />
                },
            }}
            {move || {
                let guide = guide(bleach.oxidant());
                let band = |key: &str, window: bleachfield_core::bath::Window| t_with(key, &[
                    ("low", &format_number(window.practice.0, 3)),
                    ("high", &format_number(window.practice.1, 3)),
                    ("book_low", &format_number(window.literature.0, 3)),
                    ("book_high", &format_number(window.literature.1, 3)),
                ]);
                view! {
                    <AskField ask=self.temperature refused
                        hint=band(key!("plan-temperature_hint"), guide.temperature) />
                    <AskField ask=self.minutes refused
                        hint=band(key!("plan-minutes_hint"), guide.minutes) />
                }
            }}
            <details class="more">
                <summary>{t!("plan-vessel_head")}</summary>
                <div class="inside stack">
                    <AskField ask=self.capacity hint=t!("plan-capacity_hint") refused />
                    <Choice label=t!("plan-vessel") value=self.filled options=vec![
                        (Filled::Pot, t!("plan-pot")),
                        (Filled::Blender, t!("plan-blender")),
                    ] />
                </div>
            </details>
        }
        .into_any()
    }
}
