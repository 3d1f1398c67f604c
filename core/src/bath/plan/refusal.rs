//! Plans that cannot be, and why.

use super::{
    super::{BOTTLE_STRENGTH, Oxidant, POWDER_STRENGTH},
    AIM_CHARGE, AIM_STRENGTH, ON_HAND, OnHand, Way,
};
use crate::{
    chemistry::compatibility::Clash,
    message::{Field, Message, Value},
    pulp::DRYNESS,
    quantity::{Mass, MassConcentration, OutOfRange},
};

/// A plan refused: no number is shown, but the reason and what would work.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    pub reason: Reason,
    /// The nearest plans that would work, most helpful first.
    pub ways: Vec<Way>,
}

/// Why a plan cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// An input outside what can be.
    OutOfRange(OutOfRange),
    /// Hypochlorite and peroxide would meet: heat, gas and splashes.
    WouldMix { old: Oxidant, new: Oxidant },
    /// Something else in the bath, or touching it, must never meet the bleach.
    Clash(Clash),
    /// The bottle is weaker than the liquor asked of it.
    TooWeak { bottle: MassConcentration, target: MassConcentration },
    /// The wet pulp already carries more water than the bath may hold.
    PulpTooWet { water: Mass, room: Mass },
    /// The bleach itself takes more room than is left. `takes` is `None` where
    /// no amount would do.
    NoRoomForBleach { takes: Option<Mass>, left: Mass },
    /// More percarbonate than the liquor can hold at its temperature.
    WillNotDissolve { given: MassConcentration, limit: MassConcentration },
    /// More bleach than there is.
    NotEnough { need: OnHand },
    /// The sums do not come out at an end of the inputs' ranges.
    NotFinite,
}

impl From<OutOfRange> for Refused {
    fn from(error: OutOfRange) -> Self {
        Self { reason: Reason::OutOfRange(error), ways: Vec::new() }
    }
}

impl Refused {
    /// What to say, beside the field that would have to give.
    pub fn message(&self) -> Message {
        self.reason.message()
    }
}

impl Reason {
    pub fn message(&self) -> Message {
        let say = |key: &'static str, field: Field| Message::new(key).beside(field);
        match self {
            Reason::OutOfRange(error) => error.message(),
            Reason::WouldMix { old, new } => Message::new("refusal-plan-would_mix")
                .with("old", Value::Word(old.word()))
                .with("new", Value::Word(new.word())),
            Reason::Clash(clash) => clash.message(),
            Reason::TooWeak { bottle, target } => say("refusal-plan-too_weak", AIM_STRENGTH)
                .with("bottle", Value::Concentration(*bottle))
                .with("target", Value::Concentration(*target)),
            Reason::PulpTooWet { water, room } => say("refusal-plan-pulp_too_wet", DRYNESS)
                .with("water", Value::Mass(*water))
                .with("room", Value::Mass(*room)),
            Reason::NoRoomForBleach { takes: Some(takes), left } => {
                say("refusal-plan-no_room_for_bleach", AIM_CHARGE)
                    .with("takes", Value::Mass(*takes))
                    .with("left", Value::Mass(*left))
            }
            Reason::NoRoomForBleach { takes: None, left } => {
                say("refusal-plan-no_amount_will_do", BOTTLE_STRENGTH)
                    .with("left", Value::Mass(*left))
            }
            Reason::WillNotDissolve { given, limit } => {
                say("refusal-plan-will_not_dissolve", POWDER_STRENGTH)
                    .with("given", Value::Concentration(*given))
                    .with("limit", Value::Concentration(*limit))
            }
            Reason::NotEnough { need } => {
                say("refusal-plan-not_enough", ON_HAND).with("need", need.value())
            }
            Reason::NotFinite => Message::new("refusal-plan-range_too_wide"),
        }
    }
}

impl OnHand {
    /// For a message.
    pub fn value(&self) -> Value {
        match self {
            OnHand::Bottle(volume) => Value::Volume(*volume),
            OnHand::Powder(mass) => Value::Mass(*mass),
        }
    }
}

impl Oxidant {
    /// Locale key of its name in the middle of a sentence.
    pub fn word(self) -> &'static str {
        match self {
            Oxidant::Hypochlorite => "bleach_named-hypochlorite",
            Oxidant::Percarbonate => "bleach_named-percarbonate",
            Oxidant::Peroxide => "bleach_named-peroxide",
        }
    }
}
