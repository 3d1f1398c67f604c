//! Lots of stored pulp: split, blended, drawn down, and traced both ways.
//!
//! A lot is its movements. [`Ledger::of`] folds them, in their order, into what
//! each lot holds; it refuses a movement that would take more than there is,
//! and [`Ledger::try_move`] asks before anything is written down.

mod trace;

pub use trace::{Share, from_book, from_entries};

use std::collections::BTreeMap;

use ulid::Ulid;

use crate::message::{Field, Message, Value};
use crate::quantity::{Mass, grams, in_grams};

pub const DRAWN: Field = Field("lot-drawn");
pub const PARTS: Field = Field("lot-parts");

/// A thousandth of a gram: less than any kitchen scale shows, so that
/// "all of it" is not refused for the last digit.
const SLACK: f64 = 0.001;

/// Something that happened to lots. All masses are oven-dry.
#[derive(Clone, Debug, PartialEq)]
pub enum Movement {
    /// A batch was put by and became a lot.
    Stored { lot: Ulid, batch: Ulid, dry: Mass },
    /// A lot was made of parts of others: a split of one, or a blend of several.
    Made { lot: Ulid, parts: Vec<(Ulid, Mass)> },
    /// Some was taken out for use.
    Drawn { lot: Ulid, dry: Mass },
}

impl Movement {
    /// The movement with no more taken than was refused for; `None` if nothing
    /// of it is left to do.
    fn with_less(&self, refusal: &LotRefusal) -> Option<Self> {
        let LotRefusal::MoreThanHeld { lot: short, held, .. } = refusal else { return None };
        let some = in_grams(*held) > 0.0;
        match self {
            Self::Drawn { lot, .. } if some => Some(Self::Drawn { lot: *lot, dry: *held }),
            Self::Made { lot, parts } => {
                let mut parts = parts.clone();
                let at = parts.iter().rposition(|(part, _)| part == short)?;
                if some {
                    parts[at].1 = *held;
                } else {
                    parts.remove(at);
                }
                (!parts.is_empty()).then_some(Self::Made { lot: *lot, parts })
            }
            _ => None,
        }
    }
}

/// What a movement cannot do.
#[derive(Clone, Debug, PartialEq)]
pub enum LotRefusal {
    /// More than the lot holds.
    MoreThanHeld { lot: Ulid, asked: Mass, held: Mass },
    /// Nothing, less than nothing, or no number.
    NoMass { given: Mass },
    /// No such lot in the ledger.
    Unknown { lot: Ulid },
    /// There is such a lot already.
    AlreadyThere { lot: Ulid },
    /// A lot made of no parts.
    NoParts,
}

impl LotRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::MoreThanHeld { asked, held, .. } => new("lot-refusal-more_than_held")
                .beside(DRAWN)
                .with("asked", Value::Mass(*asked))
                .with("held", Value::Mass(*held)),
            Self::NoMass { given } => {
                new("lot-refusal-no_mass").beside(DRAWN).with("given", Value::Mass(*given))
            }
            Self::Unknown { lot } => {
                new("lot-refusal-unknown").with("lot", Value::Text(lot.to_string()))
            }
            Self::AlreadyThere { lot } => {
                new("lot-refusal-already_there").with("lot", Value::Text(lot.to_string()))
            }
            Self::NoParts => new("lot-refusal-no_parts").beside(PARTS),
        }
    }
}

/// One lot as the ledger has it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotAccount {
    /// Oven-dry mass that it began with, grams.
    began: f64,
    /// Oven-dry mass left, grams.
    held: f64,
    /// The batch it was put by from, if it was.
    batch: Option<Ulid>,
    /// Lots it was made of, with grams of each.
    parts: Vec<(Ulid, f64)>,
    /// Lots that were made with some of it, with grams of each.
    went_into: Vec<(Ulid, f64)>,
    /// Oven-dry mass drawn for use, grams.
    used: f64,
}

impl LotAccount {
    /// Oven-dry mass that it began with.
    pub fn began(&self) -> Mass {
        grams(self.began)
    }

    /// Oven-dry mass left.
    pub fn held(&self) -> Mass {
        grams(self.held)
    }

    /// Oven-dry mass drawn for use, not counting what went into other lots.
    pub fn used(&self) -> Mass {
        grams(self.used)
    }
}

/// Every lot and what it holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    lots: BTreeMap<Ulid, LotAccount>,
}

impl Ledger {
    /// The ledger of these movements, in their order.
    ///
    /// # Errors
    /// The first movement that cannot be, as [`Ledger::try_move`].
    pub fn of<'a>(movements: impl IntoIterator<Item = &'a Movement>) -> Result<Self, LotRefusal> {
        let mut ledger = Self::default();
        for movement in movements {
            ledger = ledger.try_move(movement)?;
        }
        Ok(ledger)
    }

    /// The ledger of what a book tells, and what in it cannot be: two phones
    /// may each have drawn on the same lot, or a tub held more than was weighed.
    /// Where more was taken than was there, all of it is taken; what cannot be
    /// read otherwise is left out.
    pub fn of_told<'a>(
        movements: impl IntoIterator<Item = &'a Movement>,
    ) -> (Self, Vec<LotRefusal>) {
        let mut ledger = Self::default();
        let mut refused = Vec::new();
        for movement in movements {
            let mut movement = movement.clone();
            loop {
                match ledger.try_move(&movement) {
                    Ok(next) => {
                        ledger = next;
                        break;
                    }
                    Err(refusal) => {
                        let less = movement.with_less(&refusal);
                        refused.push(refusal);
                        let Some(less) = less else { break };
                        movement = less;
                    }
                }
            }
        }
        (ledger, refused)
    }

    /// The ledger after one more movement; this one is left as it is.
    ///
    /// # Errors
    /// [`LotRefusal`]: more taken than held, an unknown lot, a lot made twice.
    pub fn try_move(&self, movement: &Movement) -> Result<Self, LotRefusal> {
        let mut next = self.clone();
        match movement {
            Movement::Stored { lot, batch, dry } => {
                next.open(*lot, mass(*dry)?, Some(*batch), Vec::new())?;
            }
            Movement::Made { lot, parts } => {
                if parts.is_empty() {
                    return Err(LotRefusal::NoParts);
                }
                let mut taken = Vec::new();
                for (source, dry) in parts {
                    let dry = mass(*dry)?;
                    next.take(*source, dry)?.went_into.push((*lot, dry));
                    taken.push((*source, dry));
                }
                let all = taken.iter().map(|(_, dry)| dry).sum();
                next.open(*lot, all, None, taken)?;
            }
            Movement::Drawn { lot, dry } => {
                let dry = mass(*dry)?;
                next.take(*lot, dry)?.used += dry;
            }
        }
        Ok(next)
    }

    /// One lot.
    pub fn lot(&self, lot: Ulid) -> Option<&LotAccount> {
        self.lots.get(&lot)
    }

    /// Every lot, in order of its id, which is the order in which they were made.
    pub fn lots(&self) -> impl Iterator<Item = (Ulid, &LotAccount)> {
        self.lots.iter().map(|(lot, account)| (*lot, account))
    }

    fn open(
        &mut self,
        lot: Ulid,
        began: f64,
        batch: Option<Ulid>,
        parts: Vec<(Ulid, f64)>,
    ) -> Result<(), LotRefusal> {
        if self.lots.contains_key(&lot) {
            return Err(LotRefusal::AlreadyThere { lot });
        }
        let account =
            LotAccount { began, held: began, batch, parts, went_into: Vec::new(), used: 0.0 };
        self.lots.insert(lot, account);
        Ok(())
    }

    fn take(&mut self, lot: Ulid, dry: f64) -> Result<&mut LotAccount, LotRefusal> {
        let account = self.lots.get_mut(&lot).ok_or(LotRefusal::Unknown { lot })?;
        if dry > account.held + SLACK {
            return Err(LotRefusal::MoreThanHeld {
                lot,
                asked: grams(dry),
                held: grams(account.held),
            });
        }
        account.held = (account.held - dry).max(0.0);
        Ok(account)
    }
}

fn mass(given: Mass) -> Result<f64, LotRefusal> {
    let dry = in_grams(given);
    if dry.is_finite() && dry > 0.0 { Ok(dry) } else { Err(LotRefusal::NoMass { given }) }
}

#[cfg(test)]
mod tests;
