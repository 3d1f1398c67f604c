#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use bleachfield_core::bath::{BathAim, BathSize, Bleach, PlanRequest, plan};
use bleachfield_core::caution::Residual;
use bleachfield_core::derive::cue::{CueStatus, cues, pending_cues};
use bleachfield_core::derive::plan_record;
use bleachfield_core::exchange::file::{DEMO_DEVICES, ExchangeFile, Limits, preview, read};
use bleachfield_core::exchange::photo::clean;
use bleachfield_core::journal::{
    self, Amount, Batch, BatchState, Body, Book, ClockSkew, Oxidant, PlanRecord, StopReason,
};
use bleachfield_core::pulp::WetPulp;
use bleachfield_core::quantity::{Celsius, grams, grams_per_litre, share};

use super::*;

/// The default file; rendered once for all tests, as it takes seconds.
static FILE: LazyLock<Vec<u8>> = LazyLock::new(|| file(now()).unwrap());
static PARCEL: LazyLock<ExchangeFile> = LazyLock::new(|| read(&FILE, Limits::default()).unwrap());

fn now() -> Timestamp {
    NOW.parse().unwrap()
}

fn book() -> Book {
    Book::of(PARCEL.entries.clone())
}

#[test]
fn a_season_on_three_fibres_and_both_bleaches() {
    let book = book();
    assert!(book.batches.len() >= 12, "{}", book.batches.len());
    let fibres: BTreeSet<&str> = book.batches.values().map(|b| b.fibre.as_str()).collect();
    assert_eq!(fibres, ["cattail leaf", "hemp tow", "iris leaf"].into());
    let oxidants: BTreeSet<Oxidant> =
        book.batches.values().flat_map(|b| &b.baths).map(|b| b.oxidant).collect();
    assert_eq!(oxidants, [Oxidant::Hypochlorite, Oxidant::Percarbonate].into());
    let first = PARCEL.entries.first().unwrap().at;
    assert!(first.to_string().starts_with("2026-03-"), "{first}");
    assert!(FILE.len() < 4_500_000, "{} bytes", FILE.len());
    assert!((20..=32).contains(&PARCEL.photos.len()), "{}", PARCEL.photos.len());
    assert_eq!(book.studio.devices.len(), 2);
    assert!(PARCEL.ignored.is_empty());
    assert!(PARCEL.header.demo && PARCEL.is_demo());
    let devices: BTreeSet<&str> = PARCEL.entries.iter().map(|e| e.device.as_str()).collect();
    assert_eq!(devices, DEMO_DEVICES.into());
    assert!(PARCEL.entries.iter().all(|e| !matches!(e.body, Body::Unknown(_))));
}

#[test]
fn every_batch_state_occurs() {
    let book = book();
    let states: BTreeSet<BatchState> = book.batches.values().map(|b| b.state).collect();
    for state in [
        BatchState::Planning,
        BatchState::Running,
        BatchState::Washing,
        BatchState::Clean,
        BatchState::Stored,
        BatchState::Abandoned,
    ] {
        assert!(states.contains(&state), "{state:?} of {states:?}");
    }
    let why: BTreeSet<String> = baths(&book).map(|(_, why)| format!("{why:?}")).collect();
    assert!(why.contains(&format!("{:?}", Some(StopReason::Spent))));
    assert!(why.contains(&format!("{:?}", Some(StopReason::FibreSuffering))));
    let reasons = PARCEL
        .entries
        .iter()
        .filter(|e| matches!(&e.body, Body::SignedOff(s) if !s.reason.is_empty()))
        .count();
    assert!(reasons >= 1, "one is signed off with a reason");
    let kinds: BTreeSet<&str> = PARCEL.entries.iter().map(|e| e.body.kind()).collect();
    for kind in ["withdrawn", "corrected", "lot_blended", "colour_reading", "strength_found"] {
        assert!(kinds.contains(kind), "{kind}");
    }
}

#[test]
fn one_bath_runs_and_all_its_due_cues_are_answered() {
    let book = book();
    let running = book.running();
    assert_eq!(running.len(), 1);
    let minutes = now().duration_since(running[0].started).as_mins();
    assert_eq!(minutes, 25);
    assert!(pending_cues(&book, now()).is_empty(), "{:?}", pending_cues(&book, now()));
    // Every answered cue was due.
    for bath in book.batches.values().flat_map(|b| &b.baths) {
        let asked: BTreeSet<String> = cues(bath, now()).into_iter().map(|c| c.id).collect();
        let strays: Vec<_> = bath.answered.keys().filter(|id| !asked.contains(*id)).collect();
        assert!(strays.is_empty(), "{strays:?}");
    }
    let next =
        cues(running[0], now()).into_iter().find(|c| matches!(c.status, CueStatus::Upcoming(_)));
    assert_eq!(next.unwrap().id, "stir-1800");
}

#[test]
fn importing_it_twice_changes_nothing_and_no_clock_is_ahead() {
    let empty = preview(&Book::default(), |_| false, &PARCEL, now());
    assert_eq!(empty.conflicts, []);
    assert_eq!(empty.missing_photos, []);
    assert_eq!(empty.clock, ClockSkew::WithinLimit);
    let mut book = book();
    let again = preview(&book, |id| PARCEL.photos.contains_key(id), &PARCEL, now());
    assert!(again.nothing_new(), "{:?}", again.conflicts);
    let before = book.clone();
    book.add(PARCEL.entries.clone());
    assert_eq!(book, before);
}

#[test]
fn one_instant_gives_one_file_and_every_instant_a_running_bath() {
    assert_eq!(file(now()).unwrap(), *FILE);
    let later: Timestamp = "2027-02-03T21:17:40.25Z".parse().unwrap();
    let parcel = read(&file(later).unwrap(), Limits::default()).unwrap();
    let other = Book::of(parcel.entries.iter().cloned());
    assert_eq!(other.running().len(), 1);
    assert!(parcel.entries.iter().all(|e| e.at <= later));
    let both = journal::merge(PARCEL.entries.clone(), parcel.entries);
    assert_eq!(both.conflicts, []);
    assert_eq!(Book::of(both.entries).batches.len(), 2 * other.batches.len());
}

#[test]
fn photos_hold_no_metadata() {
    for (id, photo) in &PARCEL.photos {
        assert!(!photo.bytes.windows(4).any(|bytes| bytes == b"Exif"), "{id}");
        let cleaned = clean(&photo.bytes).unwrap();
        assert_eq!((cleaned.removed_bytes, cleaned.orientation), (0, 1), "{id}");
        assert_eq!(cleaned.id(), *id);
    }
}

/// The core computes the same plan from the inputs in its record.
#[test]
fn every_recorded_plan_can_be_recomputed() {
    let mut seen = 0;
    for entry in &PARCEL.entries {
        let Body::Planned(kept) = &entry.body else { continue };
        let request = asked(kept);
        let made = plan_record(&request, &plan(&request).unwrap(), kept.product.clone());
        for ((what, one), (_, other)) in figures(kept).into_iter().zip(figures(&made)) {
            assert!((one - other).abs() <= 1e-6 * one.abs().max(1e-9), "{what}: {one} {other}");
        }
        assert_eq!(made.cautions, kept.cautions);
        assert_eq!(made.dominant, kept.dominant);
        seen += 1;
    }
    assert!(seen >= 15, "{seen}");
}

/// Readings of meters, strips and colours develop plausibly.
#[test]
fn readings_are_plausible() {
    let book = book();
    for batch in book.batches.values() {
        // Overbleaching releases acid.
        let least_ph = if batch.state == BatchState::Abandoned { 6.5 } else { 8.0 };
        for bath in &batch.baths {
            let mut strips = Vec::new();
            for told in batch.visible_entries().filter(|t| t.body.bath() == Some(bath.id)) {
                let Body::Reading(reading) = &told.body else { continue };
                let value = reading.figure.unwrap().value;
                match reading.what {
                    journal::ReadingOf::Ph => {
                        assert!((least_ph..12.0).contains(&value), "{}: {value}", batch.name)
                    }
                    journal::ReadingOf::Celsius => assert!((15.0..60.0).contains(&value)),
                    _ => strips.push(value),
                }
            }
            assert!(strips.is_sorted_by(|a, b| a >= b), "{}: {strips:?}", batch.name);
        }
        let mut rinse_ph = batch.rinses.iter().map(|r| r.ph.unwrap().value);
        assert!(rinse_ph.all(|ph| (7.2..11.5).contains(&ph)), "{}", batch.name);
    }
    for batch in book.batches.values().filter(|b| b.baths.len() == 1) {
        let wet = lightnesses(batch);
        assert!(wet.is_sorted(), "{}: {wet:?}", batch.name);
    }
    let signed = |state| book.batches.values().filter(|b| b.state == state).count();
    assert!(signed(BatchState::Stored) >= 8);
}

fn lightnesses(batch: &Batch) -> Vec<f64> {
    batch
        .visible_entries()
        .filter_map(|told| match &told.body {
            Body::ColourReading(c) if c.pulp == journal::PulpState::Wet => Some(c.lightness.value),
            _ => None,
        })
        .collect()
}

fn baths(book: &Book) -> impl Iterator<Item = (Oxidant, Option<StopReason>)> {
    book.batches
        .values()
        .flat_map(|b| &b.baths)
        .map(|b| (b.oxidant, b.stopped.map(|stopped| stopped.why)))
}

fn asked(kept: &PlanRecord) -> PlanRequest {
    let strength = kept.product.strength;
    let bleach = match kept.oxidant {
        Oxidant::Hypochlorite => Bleach::Hypochlorite(strength.bottle().unwrap()),
        _ => Bleach::Percarbonate(strength.powder().unwrap()),
    };
    let aim = match kept.aim {
        journal::Aim::Charge { share: part, .. } => BathAim::Charge(share(part)),
        journal::Aim::LiquorStrength { g_per_l, .. } => BathAim::Strength(grams_per_litre(g_per_l)),
    };
    PlanRequest {
        pulp: WetPulp::new(kept.wet_mass_g.map(grams), kept.dryness.map(share)).unwrap(),
        bleach,
        aim,
        size: BathSize::Consistency(share(kept.consistency.value)),
        temperature: Celsius::new(kept.celsius).unwrap(),
        residual: Residual::None,
        expressed_water: None,
        other_ingredients: Vec::new(),
        on_hand: None,
        vessel: None,
        minutes: Some(kept.minutes),
        cooling: None,
    }
}

fn figures(plan: &PlanRecord) -> BTreeMap<&'static str, f64> {
    let (Amount::MassG(dose) | Amount::VolumeMl(dose)) = plan.product_amount;
    [
        ("dose", dose),
        ("water", plan.water_to_add_ml),
        ("dry", plan.dry_fibre_g),
        ("liquor", plan.liquor_ml),
        ("charge", plan.charge),
        ("strength", plan.liquor_strength_g_per_l),
    ]
    .into_iter()
    .map(|(name, figure)| (name, figure.value))
    .collect()
}
