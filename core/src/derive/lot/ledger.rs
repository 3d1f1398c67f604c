//! What each lot holds: the sum of its movements.
//! Not here: the origin of a lot, which is `trace`.

use std::collections::BTreeMap;

use ulid::Ulid;

use super::{LotError, LotMovement};
use crate::quantity::{Mass, grams, in_grams};

/// Every lot and what it holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LotLedger {
    pub(super) lots: BTreeMap<Ulid, LotAccount>,
}

impl LotLedger {
    /// The ledger of these movements, in their order.
    ///
    /// # Errors
    /// The first impossible movement, as [`LotLedger::try_move`].
    pub fn of<'a>(movements: impl IntoIterator<Item = &'a LotMovement>) -> Result<Self, LotError> {
        let mut ledger = Self::default();
        for movement in movements {
            ledger = ledger.try_move(movement)?;
        }
        Ok(ledger)
    }

    /// The ledger of recorded movements, and the impossible ones among them: two
    /// phones may both have drawn on a lot, or a lot held more than was weighed.
    /// A movement of more than the lot holds takes all of it; other impossible
    /// movements are left out.
    pub fn reconcile<'a>(
        movements: impl IntoIterator<Item = &'a LotMovement>,
    ) -> (Self, Vec<LotError>) {
        let mut ledger = Self::default();
        let mut errors = Vec::new();
        for movement in movements {
            let mut movement = movement.clone();
            loop {
                match ledger.try_move(&movement) {
                    Ok(next) => {
                        ledger = next;
                        break;
                    }
                    Err(error) => {
                        let limited = movement.limited(&error);
                        errors.push(error);
                        let Some(limited) = limited else { break };
                        movement = limited;
                    }
                }
            }
        }
        (ledger, errors)
    }

    /// The ledger after one more movement; `self` is unchanged.
    ///
    /// # Errors
    /// [`LotError`]: more taken than held, an unknown lot, a lot made twice.
    pub fn try_move(&self, movement: &LotMovement) -> Result<Self, LotError> {
        let mut next = self.clone();
        match movement {
            LotMovement::Stored { lot, batch, dry } => {
                next.open(*lot, mass(*dry)?, Some(*batch), Vec::new())?;
            }
            LotMovement::Made { lot, parts } => {
                if parts.is_empty() {
                    return Err(LotError::NoParts);
                }
                let mut taken = Vec::new();
                for (source, dry) in parts {
                    let dry = mass(*dry)?;
                    let (account, dry) = next.take(*source, dry)?;
                    account.went_into.push((*lot, dry));
                    taken.push((*source, dry));
                }
                let all = taken.iter().map(|(_, dry)| dry).sum();
                next.open(*lot, all, None, taken)?;
            }
            LotMovement::Drawn { lot, dry } => {
                let dry = mass(*dry)?;
                let (account, dry) = next.take(*lot, dry)?;
                account.used += dry;
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
    ) -> Result<(), LotError> {
        if self.lots.contains_key(&lot) {
            return Err(LotError::AlreadyThere { lot });
        }
        let account =
            LotAccount { began, held: began, batch, parts, went_into: Vec::new(), used: 0.0 };
        self.lots.insert(lot, account);
        Ok(())
    }

    /// Takes `dry`, or all of the lot where that is the same as printed. Returns what was taken.
    fn take(&mut self, lot: Ulid, dry: f64) -> Result<(&mut LotAccount, f64), LotError> {
        let account = self.lots.get_mut(&lot).ok_or(LotError::Unknown { lot })?;
        if account.held <= 0.0 || as_printed(dry) > as_printed(account.held) {
            return Err(LotError::MoreThanHeld {
                lot,
                asked: grams(dry),
                held: grams(account.held),
            });
        }
        let taken = dry.min(account.held);
        account.held -= taken;
        Ok((account, taken))
    }
}

/// One lot as the ledger has it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotAccount {
    /// Oven-dry mass that it began with, grams.
    pub(super) began: f64,
    /// Oven-dry mass left, grams.
    held: f64,
    /// The batch that it was stored from, if it was.
    pub(super) batch: Option<Ulid>,
    /// Lots that it was made of, with grams of each.
    pub(super) parts: Vec<(Ulid, f64)>,
    /// Lots that were made with some of it, with grams of each.
    pub(super) went_into: Vec<(Ulid, f64)>,
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

/// Grams to the three significant figures that messages print. Compared so, "all of it" as read
/// off the screen is never refused, and an error never names the same figure twice.
fn as_printed(dry: f64) -> f64 {
    let step = 10_f64.powf(dry.log10().floor() - 2.0);
    if step > 0.0 { (dry / step).round() * step } else { 0.0 }
}

fn mass(given: Mass) -> Result<f64, LotError> {
    let dry = in_grams(given);
    if dry.is_finite() && dry > 0.0 { Ok(dry) } else { Err(LotError::NoMass { given }) }
}
