//! How far pulp is proven clean: a batch by its end tests and sign-off, a lot by the batches in it.
//! Not here: the tests themselves, which `sign_off` collects.

use jiff::civil::Date;
use strum::IntoStaticStr;
use ulid::Ulid;

use super::SignOffEvidence;
use super::lot::source_batches;
use crate::journal::{Batch, Book, Lot};
use crate::pulp::sign_off::SignOffStatus;

/// How far pulp is proven clean, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Proof {
    /// Signed off with every test passed.
    Clean,
    /// Every test passed, and nobody signed it off.
    Unsigned,
    /// A test is missing, outdated, or proves nothing.
    Untested,
    /// A test failed.
    Failed,
}

impl Proof {
    /// The proof of a batch as it is now.
    pub fn of(batch: &Batch) -> Self {
        let unmet = SignOffEvidence::of(batch).unmet_tests();
        if unmet.iter().any(|test| test.status == SignOffStatus::Failing) {
            Self::Failed
        } else if batch.signed_off.as_ref().is_some_and(|signed| signed.complete) {
            Self::Clean
        } else if unmet.is_empty() {
            Self::Unsigned
        } else {
            Self::Untested
        }
    }

    /// The proof of a lot: that of the worst batch in it; untested where a batch is not in the
    /// book.
    pub fn of_lot(book: &Book, lot: Ulid) -> Self {
        let batches = source_batches(book, lot);
        let proofs = batches.iter().map(|id| book.batches.get(id).map_or(Self::Untested, Self::of));
        proofs.max().unwrap_or(Self::Untested)
    }
}

/// Whether the day by which to use a lot has passed.
pub fn is_past_keep_by(lot: &Lot, today: Date) -> bool {
    lot.keep_by.is_some_and(|day| day < today)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::derive::sample::{book, book_of, exact, rinse};
    use crate::journal::{
        Body, EndTest, EndTestOf, LotBlended, LotPart, Outcome, SignedOff, Stored, StoredForm,
        Subject,
    };

    fn end_test(test: EndTestOf, outcome: Outcome) -> Body {
        Body::EndTest(EndTest { test, outcome, figure: None, note: String::new() })
    }

    fn signed(complete: bool) -> Body {
        Body::SignedOff(SignedOff { complete, reason: String::new() })
    }

    fn stored(lot: u128) -> Body {
        Body::Stored(Stored {
            lot: Ulid(lot),
            wet_mass_g: exact(500.0),
            dryness: exact(0.2),
            form: StoredForm::WetCold,
            place: String::new(),
            keep_by: Some(Date::constant(2026, 5, 4)),
            untested_why: String::new(),
            note: String::new(),
        })
    }

    #[test]
    fn the_worst_counts() {
        use EndTestOf::{Feel, LastRinsePh};
        let proof = |bodies| Proof::of(book(bodies).batches.values().next().unwrap());
        let passed = || [LastRinsePh, Feel].map(|test| end_test(test, Outcome::Passed)).to_vec();
        assert_eq!(proof(vec![rinse(5.0, None, None)]), Proof::Untested);
        assert_eq!(proof(passed()), Proof::Unsigned);
        assert_eq!(proof([passed(), vec![signed(true)]].concat()), Proof::Clean);
        assert_eq!(proof(vec![signed(false)]), Proof::Untested);
        let failed = vec![signed(true), end_test(Feel, Outcome::Failed)];
        assert_eq!(proof([passed(), failed].concat()), Proof::Failed);
    }

    #[test]
    fn a_blend_is_as_its_worst_batch() {
        let (one, two) = (Subject::Batch(Ulid(1)), Subject::Batch(Ulid(2)));
        let parts = |lots: &[u128]| {
            let part = |lot: &u128| LotPart { lot: Ulid(*lot), dry_g: exact(10.0) };
            Body::LotBlended(LotBlended {
                name: String::new(),
                parts: lots.iter().map(part).collect(),
                form: StoredForm::WetCold,
                place: String::new(),
                keep_by: None,
            })
        };
        let book = book_of([
            (one, signed(true)),
            (one, stored(11)),
            (two, end_test(EndTestOf::Feel, Outcome::Failed)),
            (two, stored(12)),
            (Subject::Lot(Ulid(13)), parts(&[11])),
            (Subject::Lot(Ulid(14)), parts(&[13, 12])),
        ]);
        let proof = |lot| Proof::of_lot(&book, Ulid(lot));
        assert_eq!([proof(11), proof(13)], [Proof::Clean; 2]);
        assert_eq!([proof(12), proof(14)], [Proof::Failed; 2]);
        assert_eq!(proof(99), Proof::Untested);
    }

    #[test]
    fn a_lot_may_be_used_on_the_day_itself() {
        let book = book(vec![stored(11)]);
        let past = |day| is_past_keep_by(&book.lots[&Ulid(11)], Date::constant(2026, 5, day));
        assert!(!past(4) && past(5));
    }
}
