//! Why a movement of lots is impossible, and beside which field that is shown.
//! Not here: the checks themselves, which are `ledger`.

use ulid::Ulid;

use crate::message::{Field, Message, Value};
use crate::quantity::{Mass, in_grams};

pub const DRAWN: Field = Field("lot-drawn");
pub const PARTS: Field = Field("lot-parts");

/// Why a movement is impossible.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum LotError {
    #[error("{} g from lot {lot}, which holds {} g", in_grams(*.asked), in_grams(*.held))]
    MoreThanHeld { lot: Ulid, asked: Mass, held: Mass },
    #[error("{} g; a mass above 0 is needed", in_grams(*.given))]
    NoMass { given: Mass },
    #[error("there is no lot {lot}")]
    Unknown { lot: Ulid },
    #[error("there is a lot {lot} already")]
    AlreadyThere { lot: Ulid },
    #[error("a lot is made of at least one part")]
    NoParts,
}

impl LotError {
    /// The message for the locale, beside its field where it has one.
    pub fn message(&self) -> Message {
        let new = Message::new;
        let text = |lot: Ulid| Value::Text(lot.to_string());
        match *self {
            Self::MoreThanHeld { asked, held, .. } => new("lot-refusal-more_than_held")
                .beside(DRAWN)
                .with("asked", Value::Mass(asked))
                .with("held", Value::Mass(held)),
            Self::NoMass { given } => {
                new("lot-refusal-no_mass").beside(DRAWN).with("given", Value::Mass(given))
            }
            Self::Unknown { lot } => new("lot-refusal-unknown").with("lot", text(lot)),
            Self::AlreadyThere { lot } => new("lot-refusal-already_there").with("lot", text(lot)),
            Self::NoParts => new("lot-refusal-no_parts").beside(PARTS),
        }
    }
}
