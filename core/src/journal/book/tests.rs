#![allow(clippy::unwrap_used)]

use super::*;
use crate::journal::sample::{at, bath_started, device, entries, figure, rinsed};
use crate::journal::*;
use jiff::SignedDuration;
use proptest::prelude::*;
use ulid::Ulid;

/// A book with one batch, written entry by entry at given minutes.
struct Day {
    writer: EntryWriter,
    book: Book,
    count: u128,
}

const BATCH: Ulid = Ulid(1);
const BATH: Ulid = Ulid(10);
const LOT: Ulid = Ulid(20);

impl Day {
    fn new() -> Self {
        let writer = EntryWriter::new(device("k7m2"), None);
        let mut day = Self { writer, book: Book::default(), count: 0 };
        let started = BatchStarted {
            name: "Cattail, May".into(),
            fibre: "cattail leaf".into(),
            ..BatchStarted::default()
        };
        day.write(0, Body::BatchStarted(started));
        day
    }

    fn write(&mut self, minute: i64, body: Body) -> Ulid {
        self.write_about(minute, Subject::Batch(BATCH), body)
    }

    fn write_about(&mut self, minute: i64, about: Subject, body: Body) -> Ulid {
        self.count += 1;
        let entry = self
            .writer
            .write(at(minute * 60_000), self.count, "Europe/Lisbon", about, body)
            .unwrap();
        let id = entry.id;
        self.book.add([entry]);
        id
    }

    fn bath(&mut self, minute: i64) -> Ulid {
        let schedule = Schedule { stop_at_min: Some(60.0), ..Schedule::default() };
        let started = BathStarted { schedule, ..bath_started(BATH, Oxidant::Hypochlorite) };
        self.write(minute, Body::BathStarted(started))
    }

    fn stop(&mut self, minute: i64) -> Ulid {
        let why = StopReason::ReachedColour;
        self.write(minute, Body::BathStopped(BathStopped { bath: BATH, why, note: String::new() }))
    }

    fn rinse(&mut self, minute: i64) -> Ulid {
        self.write(minute, Body::Rinsed(rinsed(figure(5.0))))
    }

    fn batch(&self) -> &Batch {
        &self.book.batches[&BATCH]
    }

    /// Checks that the projection built entry by entry is the one built at once.
    fn check(&self) {
        assert_eq!(Book::of(self.book.entries().cloned()), self.book);
    }
}

#[test]
fn a_batch_goes_from_plan_to_store() {
    let mut day = Day::new();
    assert_eq!(day.batch().state, BatchState::Planning);
    day.bath(10);
    assert_eq!(day.batch().state, BatchState::Running);
    assert_eq!(day.book.running()[0].elapsed(at(25 * 60_000)), SignedDuration::from_mins(15));
    // A clock set back gives zero, not a negative time.
    assert_eq!(day.book.running()[0].elapsed(at(0)), SignedDuration::ZERO);
    day.stop(50);
    assert_eq!(day.batch().state, BatchState::Stopped);
    assert!(day.book.running().is_empty());
    assert_eq!(
        day.book.bath(BATH).unwrap().elapsed(at(999 * 60_000)),
        SignedDuration::from_mins(40)
    );
    day.rinse(60);
    assert_eq!(day.batch().state, BatchState::Washing);
    day.write(70, Body::SignedOff(SignedOff { complete: true, reason: String::new() }));
    assert_eq!(day.batch().state, BatchState::Clean);
    day.write(
        80,
        Body::Stored(Stored {
            lot: LOT,
            wet_mass_g: figure(400.0),
            dryness: figure(0.25),
            form: StoredForm::WetCold,
            place: "cold room".into(),
            keep_by: None,
            untested_why: String::new(),
            note: String::new(),
        }),
    );
    assert_eq!(day.batch().state, BatchState::Stored);
    let lot = Subject::Lot(LOT);
    let drawn = LotDrawn { dry_g: figure(30.0), purpose: String::new() };
    day.write_about(90, lot, Body::LotDrawn(drawn));
    let lot = &day.book.lots[&LOT];
    assert_eq!((lot.dry_g_left(), lot.name.as_str()), (70.0, "Cattail, May"));
    day.check();
}

#[test]
fn a_rinse_after_the_sign_off_requires_another_sign_off() {
    let mut day = Day::new();
    day.write(1, Body::SignedOff(SignedOff { complete: false, reason: "no strips left".into() }));
    assert_eq!(day.batch().state, BatchState::Unproven);
    day.rinse(2);
    assert_eq!(day.batch().signed_off, None);
    day.check();
}

#[test]
fn a_withdrawal_hides_and_withdrawing_it_restores() {
    let mut day = Day::new();
    day.bath(10);
    let stop = day.stop(20);
    let undo = day.write(21, Body::Withdrawn(Withdrawn { entry: stop, why: String::new() }));
    assert_eq!(day.batch().state, BatchState::Running);
    let hidden = day.batch().timeline.iter().find(|t| t.entry.id == stop).unwrap();
    assert_eq!(hidden.withdrawn_by, Some(undo));
    assert!(day.batch().visible_entries().all(|t| t.entry.id != stop));
    day.check();
    day.write(22, Body::Withdrawn(Withdrawn { entry: undo, why: String::new() }));
    assert_eq!(day.batch().state, BatchState::Stopped);
    day.check();
}

#[test]
fn the_last_correction_of_an_entry_counts() {
    let mut day = Day::new();
    let bath = day.bath(10);
    let stop = day.stop(20);
    let reason = |why| Body::BathStopped(BathStopped { bath: BATH, why, note: String::new() });
    let correct = |entry, why| {
        Body::Corrected(Corrected {
            entry,
            body: Box::new(reason(why)),
            at: Some(at(18 * 60_000)),
            why: String::new(),
        })
    };
    let first = day.write(30, correct(stop, StopReason::Spent));
    assert_eq!(
        day.book.bath(BATH).unwrap().stopped,
        Some(Stopped { at: at(18 * 60_000), why: StopReason::Spent })
    );
    // A correction of the correction applies to the entry itself.
    let second = day.write(31, correct(first, StopReason::Unsafe));
    assert_eq!(day.book.bath(BATH).unwrap().stopped.unwrap().why, StopReason::Unsafe);
    let visible: Vec<_> = day.batch().visible_entries().collect();
    assert_eq!(visible.len(), 3);
    assert_eq!((visible[1].entry.id, visible[2].corrected_by), (bath, Some(second)));
    day.write(32, Body::Withdrawn(Withdrawn { entry: second, why: String::new() }));
    assert_eq!(day.book.bath(BATH).unwrap().stopped.unwrap().why, StopReason::Spent);
    day.check();
}

#[test]
fn the_timeline_is_in_the_order_of_events() {
    let mut day = Day::new();
    day.bath(10);
    let body = Body::Stirred(Stirred { bath: BATH });
    let late = day
        .writer
        .write_at(at(5 * 60_000), at(30 * 60_000), 99, "", Subject::Batch(BATCH), body)
        .unwrap();
    day.book.add([late.clone()]);
    assert_eq!(day.batch().timeline[1].entry, late);
    day.check();
}

#[test]
fn the_strength_of_a_product_is_its_last_test_or_its_label() {
    let mut day = Day::new();
    let bottle = Ulid(5);
    let strength = |percent| Strength {
        figure: figure(percent),
        stated_as: StrengthBasis::NaoclPercentByMass,
        density_g_per_ml: None,
    };
    day.write_about(
        1,
        Subject::Bottle(bottle),
        Body::ProductAdded(ProductAdded {
            name: "Bleach".into(),
            product: ProductKind::Hypochlorite,
            strength: Some(strength(5.25)),
            size: None,
            bought: None,
            made: None,
            opened: None,
            storage: Storage::default(),
            price: None,
            note: String::new(),
        }),
    );
    assert_eq!(day.book.products[&bottle].strength(), Some((&strength(5.25), None)));
    day.write_about(
        2,
        Subject::Bottle(bottle),
        Body::StrengthFound(StrengthFound {
            method: StrengthMethod::IodometricTitration,
            strength: strength(4.0),
            runs: Vec::new(),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        }),
    );
    assert_eq!(day.book.products[&bottle].strength(), Some((&strength(4.0), Some(at(120_000)))));
    day.write_about(3, Subject::Bottle(bottle), Body::ProductFinished(ProductFinished::default()));
    assert!(day.book.shelf().is_empty());
    assert_eq!(day.book.products[&bottle].timeline.len(), 3);
    day.check();
}

#[test]
fn cycles_of_withdrawals_and_corrections_terminate() {
    // No writer produces these, but a file may contain them.
    let mut day = Day::new();
    let mut entries: Vec<Entry> = day.book.entries().cloned().collect();
    let id = |n| ulid_at(at(60_000), n);
    for n in [1u128, 2] {
        let other = id(3 - n);
        let about = Subject::Batch(BATCH);
        let body = Body::Withdrawn(Withdrawn { entry: other, why: String::new() });
        entries.push(day.writer.write(at(60_000), n, "", about, body).unwrap());
        let body = Body::Corrected(Corrected {
            entry: id(3 - n + 10),
            body: Box::new(Body::Note(Note::default())),
            at: None,
            why: String::new(),
        });
        entries.push(day.writer.write(at(60_000), n + 10, "", about, body).unwrap());
    }
    assert_eq!(Book::of(entries).batches.len(), 1);
}

proptest! {
    #[test]
    fn a_book_does_not_depend_on_the_order_of_arrival(entries in entries(40), order in any::<prop::sample::Index>(), cut in any::<prop::sample::Index>()) {
        let whole = Book::of(entries.clone());
        let mut rotated = entries.clone();
        if !rotated.is_empty() {
            let by = order.index(rotated.len());
            rotated.rotate_left(by);
        }
        prop_assert_eq!(&Book::of(rotated.clone()), &whole);
        rotated.reverse();
        let mut stepwise = Book::default();
        let (first, rest) = rotated.split_at(cut.index(rotated.len() + 1));
        stepwise.add(first.to_vec());
        for entry in rest {
            stepwise.add([entry.clone()]);
        }
        prop_assert_eq!(&stepwise, &whole);
        // And in the order of writing, one by one.
        let mut written = Book::default();
        for entry in &entries {
            written.add([entry.clone()]);
        }
        prop_assert_eq!(&written, &whole);
    }

    #[test]
    fn every_entry_about_a_batch_is_on_its_timeline(entries in entries(40)) {
        let book = Book::of(entries.clone());
        let about_batches = entries.iter().filter(|e| e.about.batch().is_some()).count();
        prop_assert_eq!(book.batches.values().map(|b| b.timeline.len()).sum::<usize>(), about_batches);
        prop_assert_eq!(book.len(), entries.len());
    }
}
