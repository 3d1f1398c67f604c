//! Movements of lots, and those that a book records.
//! Not here: what the lots hold after them, which is `ledger`.

use ulid::Ulid;

use super::LotError;
use crate::journal::{Body, Book, Subject, TimelineEntry};
use crate::quantity::{Mass, grams, in_grams};

/// A change to lots. All masses are oven-dry.
#[derive(Clone, Debug, PartialEq)]
pub enum LotMovement {
    /// A batch was stored as a lot.
    Stored { lot: Ulid, batch: Ulid, dry: Mass },
    /// A lot was made of parts of others: a split of one, or a blend of several.
    Made { lot: Ulid, parts: Vec<(Ulid, Mass)> },
    /// Some of a lot was taken for use.
    Drawn { lot: Ulid, dry: Mass },
}

impl LotMovement {
    /// The movement limited to what the lot of `error` holds; `None` if nothing
    /// remains of it.
    pub(super) fn limited(&self, error: &LotError) -> Option<Self> {
        let LotError::MoreThanHeld { lot: short, held, .. } = error else { return None };
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

/// The movements of a book in the order in which they were written: withdrawn
/// entries left out, corrected entries as corrected.
pub fn movements(book: &Book) -> Vec<LotMovement> {
    let batches = book.batches.values().flat_map(|batch| batch.visible_entries());
    let lots =
        book.lots.values().flat_map(|lot| lot.timeline.iter().filter(|entry| entry.is_visible()));
    let mut entries: Vec<&TimelineEntry> = batches.chain(lots).collect();
    entries.sort_unstable_by(|a, b| a.entry.order().cmp(&b.entry.order()));
    entries.into_iter().filter_map(|entry| movement(entry.entry.about, &entry.body)).collect()
}

fn movement(about: Subject, body: &Body) -> Option<LotMovement> {
    match (about, body) {
        (Subject::Batch(batch), Body::Stored(stored)) => Some(LotMovement::Stored {
            lot: stored.lot,
            batch,
            dry: grams(stored.wet_mass_g.value * stored.dryness.value),
        }),
        (Subject::Lot(lot), Body::LotBlended(blend)) => Some(LotMovement::Made {
            lot,
            parts: blend.parts.iter().map(|part| (part.lot, grams(part.dry_g.value))).collect(),
        }),
        (Subject::Lot(lot), Body::LotDrawn(drawn)) => {
            Some(LotMovement::Drawn { lot, dry: grams(drawn.dry_g.value) })
        }
        (Subject::Lot(lot), Body::Sheets(sheets)) => {
            sheets.dry_g.map(|dry| LotMovement::Drawn { lot, dry: grams(dry.value) })
        }
        _ => None,
    }
}
