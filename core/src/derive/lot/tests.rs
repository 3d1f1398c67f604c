#![allow(clippy::unwrap_used)]

use proptest::prelude::*;
use ulid::Ulid;

use super::*;
use crate::property;
use crate::quantity::{grams, in_grams};

fn id(n: u128) -> Ulid {
    Ulid(n)
}

fn stored(lot: u128, batch: u128, dry: f64) -> LotMovement {
    LotMovement::Stored { lot: id(lot), batch: id(batch), dry: grams(dry) }
}

fn made(lot: u128, parts: &[(u128, f64)]) -> LotMovement {
    let parts = parts.iter().map(|(lot, dry)| (id(*lot), grams(*dry))).collect();
    LotMovement::Made { lot: id(lot), parts }
}

fn drawn(lot: u128, dry: f64) -> LotMovement {
    LotMovement::Drawn { lot: id(lot), dry: grams(dry) }
}

#[test]
fn a_draw_of_more_than_the_lot_holds_is_refused() {
    let ledger = LotLedger::of(&[stored(1, 100, 200.0), drawn(1, 150.0)]).unwrap();
    let error = ledger.try_move(&drawn(1, 60.0)).unwrap_err();
    assert_eq!(error.message().key, "lot-refusal-more_than_held");
    assert_eq!(error.message().field, Some(DRAWN));
    // The ledger is unchanged, and the rest can be drawn to the last gram.
    let emptied = ledger.try_move(&drawn(1, 50.0)).unwrap();
    assert_eq!(emptied.lot(id(1)).unwrap().held(), grams(0.0));
}

#[test]
fn all_of_a_lot_as_it_is_printed_may_be_taken() {
    // Printed as 115 g and as 1.15 kg.
    for (held, all, more) in [(114.6, 115.0, 115.6), (1147.0, 1150.0, 1156.0)] {
        let ledger = LotLedger::of(&[stored(1, 100, held)]).unwrap();
        let emptied = ledger.try_move(&drawn(1, all)).unwrap();
        let lot = emptied.lot(id(1)).unwrap();
        assert_eq!((in_grams(lot.held()), in_grams(lot.used())), (0.0, held));
        assert!(ledger.try_move(&drawn(1, more)).is_err());
        // An empty lot gives nothing, however little.
        assert!(emptied.try_move(&drawn(1, 0.0001)).is_err());
    }
}

#[test]
fn a_blend_of_a_split_is_traced_both_ways() {
    let ledger = LotLedger::of(&[
        stored(1, 100, 200.0),
        stored(2, 101, 100.0),
        made(3, &[(1, 150.0)]),
        made(4, &[(3, 50.0), (2, 50.0)]),
        made(5, &[(4, 40.0), (2, 10.0)]),
    ])
    .unwrap();
    let found: Vec<_> =
        ledger.batches_in(id(5)).iter().map(|share| (share.batch, share.share)).collect();
    assert_eq!(found[0].0, id(101));
    assert!((found[0].1 - 0.6).abs() < 1e-12 && (found[1].1 - 0.4).abs() < 1e-12);
    assert_eq!(ledger.lots_with(id(100)), [id(1), id(3), id(4), id(5)]);
    assert_eq!(ledger.descendants(id(1)), [id(3), id(4), id(5)]);
    assert_eq!(ledger.descendants(id(5)), []);
}

#[test]
fn impossible_movements_are_refused() {
    let ledger = LotLedger::of(&[stored(1, 100, 200.0)]).unwrap();
    for (movement, key) in [
        (stored(1, 101, 5.0), "lot-refusal-already_there"),
        (drawn(9, 5.0), "lot-refusal-unknown"),
        (drawn(1, -5.0), "lot-refusal-no_mass"),
        (drawn(1, f64::NAN), "lot-refusal-no_mass"),
        (made(2, &[]), "lot-refusal-no_parts"),
        (made(2, &[(1, 150.0), (1, 150.0)]), "lot-refusal-more_than_held"),
        (made(1, &[(1, 10.0)]), "lot-refusal-already_there"),
    ] {
        assert_eq!(ledger.try_move(&movement).unwrap_err().message().key, key);
    }
}

#[test]
fn fibre_is_conserved_over_any_movements() {
    let moves = prop::collection::vec((0..3_u8, 0..6_u128, 1.0..80.0_f64), 1..40);
    property::check(moves, 200, |moves| {
        let mut ledger = LotLedger::of(&[stored(0, 100, 300.0), stored(1, 101, 200.0)]).unwrap();
        let mut next = 2;
        let mut accepted = 0;
        for (kind, lot, dry) in moves {
            let movement = match kind {
                0 => drawn(lot, dry),
                1 => made(next, &[(lot, dry)]),
                _ => made(next, &[(lot, dry), ((lot + 1) % 6, dry / 2.0)]),
            };
            if let Ok(after) = ledger.try_move(&movement) {
                ledger = after;
                next += 1;
                accepted += 1;
            }
        }
        let all: f64 =
            ledger.lots().map(|(_, lot)| in_grams(lot.held()) + in_grams(lot.used())).sum();
        prop_assert!((all - 500.0).abs() < 1e-3 * 40.0);
        for (lot, _) in ledger.lots() {
            let whole: f64 = ledger.batches_in(lot).iter().map(|share| share.share).sum();
            prop_assert!((whole - 1.0).abs() < 1e-9);
        }
        Ok(accepted > 0)
    });
}

#[test]
fn a_book_that_drew_more_than_a_lot_held_is_reconciled() {
    let (first, second, made) = (Ulid(1), Ulid(2), Ulid(3));
    let movements = [
        LotMovement::Stored { lot: first, batch: Ulid(9), dry: grams(100.0) },
        LotMovement::Stored { lot: second, batch: Ulid(9), dry: grams(50.0) },
        LotMovement::Drawn { lot: first, dry: grams(80.0) },
        // Drawn by another phone as well.
        LotMovement::Drawn { lot: first, dry: grams(70.0) },
        LotMovement::Made { lot: made, parts: vec![(first, grams(10.0)), (second, grams(60.0))] },
        LotMovement::Drawn { lot: Ulid(7), dry: grams(1.0) },
    ];
    let (ledger, errors) = LotLedger::reconcile(&movements);
    assert_eq!(errors.len(), 4);
    let held = |lot| in_grams(ledger.lot(lot).unwrap().held());
    assert_eq!((held(first), held(second), held(made)), (0.0, 0.0, 50.0));
}
