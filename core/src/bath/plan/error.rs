//! Why a plan is impossible.

use super::carry_over::CARRY_OVER_PH;
use super::request::{AIM_CHARGE, AIM_STRENGTH, BleachAmount, ON_HAND};
use crate::{
    bath::{
        peroxide_bottle::PEROXIDE_STRENGTH,
        strength::{BOTTLE_STRENGTH, POWDER_STRENGTH},
    },
    chemistry::{
        Oxidant,
        compatibility::Clash,
        household::{STRONGEST_PEROXIDE, peroxide_too_strong},
    },
    message::{Message, Value},
    pulp::DRYNESS,
    quantity::{
        Mass, MassConcentration, OutOfRange, Ratio, in_grams, in_grams_per_litre, in_share,
    },
};

/// Why a plan is impossible.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Heat, gas and splashes.
    #[error("hypochlorite and peroxide would mix: {old:?} in the pulp, {new:?} in the bath")]
    WouldMix { old: Oxidant, new: Oxidant },
    /// Another ingredient is incompatible with the bleach.
    #[error("{:?} and {:?} must not meet", .0.first, .0.second)]
    Clash(Clash),
    /// The lowest that the pH of the pulp's water may be.
    #[error("the pulp's water may be acid (pH {ph}); hypochlorite would give off chlorine")]
    AcidPulp { ph: f64 },
    /// Available chlorine today.
    #[error(
        "the bottle may hold from {} to {} g/L",
        in_grams_per_litre(*.low),
        in_grams_per_litre(*.high)
    )]
    BottleTooUncertain { low: MassConcentration, high: MassConcentration },
    /// H2O2 in the powder.
    #[error("the powder may hold from {} to {} of H2O2", in_share(*.low), in_share(*.high))]
    PowderTooUncertain { low: Ratio, high: Ratio },
    /// H2O2 in the bottle.
    #[error(
        "the bottle may hold from {} to {} g/L of H2O2",
        in_grams_per_litre(*.low),
        in_grams_per_litre(*.high)
    )]
    PeroxideTooUncertain { low: MassConcentration, high: MassConcentration },
    /// The most that the bottle may hold.
    #[error("{} of H2O2 is above {STRONGEST_PEROXIDE}", in_share(*.given))]
    PeroxideTooStrong { given: Ratio },
    #[error(
        "the bottle ({} g/L) is not stronger than the liquor ({} g/L)",
        in_grams_per_litre(*.bottle),
        in_grams_per_litre(*.target)
    )]
    TooWeak { bottle: MassConcentration, target: MassConcentration },
    /// `room` is the most water that the bath may hold.
    #[error("the pulp holds {} g of water, more than {} g", in_grams(*.water), in_grams(*.room))]
    PulpTooWet { water: Mass, room: Mass },
    /// `takes` is `None` where no amount of bleach reaches the target.
    #[error("the bleach does not fit into the {} g that are left", in_grams(*.left))]
    NoRoomForBleach { takes: Option<Mass>, left: Mass },
    #[error(
        "{} g/L percarbonate is above its solubility of {} g/L",
        in_grams_per_litre(*.given),
        in_grams_per_litre(*.limit)
    )]
    WillNotDissolve { given: MassConcentration, limit: MassConcentration },
    #[error("not enough bleach in stock: {need:?} is needed")]
    NotEnough { need: BleachAmount },
    /// A result is not finite at an end of the inputs' ranges.
    #[error("the inputs are too uncertain")]
    NotFinite,
}

impl PlanError {
    /// The message for a person, beside the field that would have to change.
    pub fn message(&self) -> Message {
        let new = |key, field| Message::new(key).beside(field);
        match *self {
            Self::OutOfRange(error) => error.message(),
            Self::WouldMix { old, new } => Message::new("refusal-plan-would_mix")
                .with("old", Value::Word(old.word()))
                .with("new", Value::Word(new.word())),
            Self::Clash(clash) => clash.message(),
            Self::AcidPulp { ph } => {
                new("refusal-plan-acid_pulp", CARRY_OVER_PH).with("ph", Value::Ph(ph))
            }
            Self::BottleTooUncertain { low, high } => {
                new("refusal-plan-bottle_uncertain", BOTTLE_STRENGTH)
                    .with("low", Value::Concentration(low))
                    .with("high", Value::Concentration(high))
            }
            Self::PowderTooUncertain { low, high } => {
                new("refusal-plan-powder_uncertain", POWDER_STRENGTH)
                    .with("low", Value::Share(in_share(low)))
                    .with("high", Value::Share(in_share(high)))
            }
            Self::PeroxideTooUncertain { low, high } => {
                new("refusal-plan-peroxide_uncertain", PEROXIDE_STRENGTH)
                    .with("low", Value::Concentration(low))
                    .with("high", Value::Concentration(high))
            }
            Self::PeroxideTooStrong { given } => {
                peroxide_too_strong(in_share(given)).beside(PEROXIDE_STRENGTH)
            }
            Self::TooWeak { bottle, target } => new("refusal-plan-too_weak", AIM_STRENGTH)
                .with("bottle", Value::Concentration(bottle))
                .with("target", Value::Concentration(target)),
            Self::PulpTooWet { water, room } => new("refusal-plan-pulp_too_wet", DRYNESS)
                .with("water", Value::Mass(water))
                .with("room", Value::Mass(room)),
            Self::NoRoomForBleach { takes: Some(takes), left } => {
                new("refusal-plan-no_room_for_bleach", AIM_CHARGE)
                    .with("takes", Value::Mass(takes))
                    .with("left", Value::Mass(left))
            }
            Self::NoRoomForBleach { takes: None, left } => {
                new("refusal-plan-no_amount_will_do", BOTTLE_STRENGTH)
                    .with("left", Value::Mass(left))
            }
            Self::WillNotDissolve { given, limit } => {
                new("refusal-plan-will_not_dissolve", POWDER_STRENGTH)
                    .with("given", Value::Concentration(given))
                    .with("limit", Value::Concentration(limit))
            }
            Self::NotEnough { need } => {
                new("refusal-plan-not_enough", ON_HAND).with("need", need.value())
            }
            Self::NotFinite => Message::new("refusal-plan-range_too_wide"),
        }
    }
}
