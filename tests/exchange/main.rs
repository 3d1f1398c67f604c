//! Exchange files of every format that was ever written still open, and say
//! what they said.
//!
//! `format-1.zip` was written when format 1 was new, by
//! `cargo test -p bleachfield-tests --test exchange -- --ignored`, and is never
//! written again: a later format gets a file of its own beside it.

#![allow(clippy::unwrap_used)]

mod records;

use bleachfield_core::exchange::file::{Header, Limits, json_text, photos_of, read, write};
use bleachfield_core::exchange::photo;
use bleachfield_core::journal::{
    BatchStarted, BatchState, BathStarted, BathStopped, Body, Book, Cook, Corrected, DeviceId,
    DrynessFrom, EndTest, EndTestOf, Entry, EntryWriter, Figure, Note, Outcome, Oxidant, Photo,
    ProductAdded, ProductKind, PulpState, Reading, ReadingOf, Rinsed, Schedule, SignedOff,
    StopReason, Storage, Stored, StoredForm, Strength, StrengthBasis, Subject, Weighed, Withdrawn,
};
use bleachfield_core::quantity::{Basis, Estimate};
use jiff::Timestamp;
use ulid::Ulid;

const FORMAT_1: &[u8] = include_bytes!("format-1.zip");

/// A JPEG of one grey pixel.
const PIXEL: &[u8] = include_bytes!("pixel.jpg");

#[test]
fn format_1_opens_and_says_what_it_said() {
    let parcel = read(FORMAT_1, Limits::default()).unwrap();
    assert_eq!(parcel.format, 1);
    assert_eq!(parcel.entries, entries());
    assert_eq!(parcel.photos.len(), 1);
    assert_eq!(parcel.photos[&photo::id_of(PIXEL)].bytes, PIXEL);

    let book = Book::of(parcel.entries.clone());
    let batch = &book.batches[&Ulid(1)];
    assert_eq!((batch.name.as_str(), batch.fibre.as_str()), ("Iris, from the ditch", "iris leaf"));
    assert_eq!(batch.state, BatchState::Stored);
    assert_eq!(batch.baths[0].stopped.unwrap().why, StopReason::Spent);
    assert!(
        batch
            .visible_entries()
            .all(|t| t.entry.body != Body::Note(Note { text: "by mistake".into() }))
    );
    assert_eq!(book.lots[&Ulid(3)].dry_g_left(), 100.0);
    assert_eq!(book.products[&Ulid(2)].name, "Blue bottle");
    // What a version to come wrote is still there, to the letter.
    assert!(json_text(&parcel.header, &parcel.entries).contains("\"listened_to\""));
}

/// As long as 1 is the format in use, what is written is the very file.
#[test]
fn format_1_is_written_as_it_was() {
    assert_eq!(file(), FORMAT_1);
}

#[test]
#[ignore = "writes the fixture; see the top of this file"]
fn write_format_1() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("exchange/format-1.zip");
    std::fs::write(path, file()).unwrap();
}

fn file() -> Vec<u8> {
    let entries = entries();
    assert_eq!(photos_of(&entries).len(), 1);
    let header = Header {
        app: "0.1.0".into(),
        exported_at: at(500),
        device: DeviceId::new("k7m2").unwrap(),
    };
    write(&header, &entries, [(photo::id_of(PIXEL), PIXEL)]).unwrap()
}

/// Minutes into an afternoon.
fn at(minute: i64) -> Timestamp {
    Timestamp::from_second(1_777_800_000 + 60 * minute).unwrap()
}

fn figure(value: f64) -> Figure {
    Estimate { value, low: value * 0.75, high: value * 1.25, basis: Basis::Measured }
}

/// A short story with a withdrawal, a correction and a kind of the future.
fn entries() -> Vec<Entry> {
    let mut pen = EntryWriter::new(DeviceId::new("k7m2").unwrap(), None);
    let mut told: Vec<Entry> = Vec::new();
    let mut write = |minute: i64, about: Subject, body: Body| {
        let entry =
            pen.write(at(minute), told.len() as u128, "Europe/Lisbon", about, body).unwrap();
        told.push(entry.clone());
        entry.id
    };
    let batch = Subject::Batch(Ulid(1));
    let bath = Ulid(4);
    write(
        0,
        Subject::Bottle(Ulid(2)),
        Body::ProductAdded(ProductAdded {
            name: "Blue bottle".into(),
            product: ProductKind::Hypochlorite,
            strength: Some(Strength {
                figure: Estimate { basis: Basis::Label, ..figure(5.25) },
                stated_as: StrengthBasis::NaoclPercentByMass,
                density_g_per_ml: None,
            }),
            size: None,
            bought: None,
            made: None,
            opened: Some(jiff::civil::date(2026, 4, 20)),
            storage: Storage { celsius: Some(18.0), dark: Some(true), closed: Some(true) },
            note: String::new(),
        }),
    );
    write(
        1,
        batch,
        Body::BatchStarted(BatchStarted {
            name: "Iris, from the ditch".into(),
            fibre: "iris leaf".into(),
            cook: Some(Cook {
                hours: Some(figure(3.0)),
                note: "soda ash, by eye".into(),
                ..Cook::default()
            }),
            ..BatchStarted::default()
        }),
    );
    write(
        2,
        batch,
        Body::Weighed(Weighed {
            wet_mass_g: figure(500.0),
            dryness: Estimate { basis: Basis::Assumed, ..figure(0.2) },
            how: DrynessFrom::Assumed,
            sample: None,
        }),
    );
    write(
        5,
        batch,
        Body::BathStarted(BathStarted {
            bath,
            plan: None,
            oxidant: Oxidant::Hypochlorite,
            product: Some(Ulid(2)),
            product_amount: None,
            water_added_ml: None,
            celsius: Some(figure(35.0)),
            schedule: Schedule {
                stir_every_min: Some(15.0),
                stop_at_min: Some(60.0),
                ..Schedule::default()
            },
        }),
    );
    write(
        10,
        batch,
        Body::Reading(Reading {
            bath: Some(bath),
            what: ReadingOf::Ph,
            figure: Some(figure(10.0)),
            text: String::new(),
        }),
    );
    write(
        12,
        batch,
        Body::Photo(Photo {
            photo: photo::id_of(PIXEL),
            mime: "image/jpeg".into(),
            width_px: 1,
            height_px: 1,
            bytes: PIXEL.len() as u64,
            orientation: 1,
            pulp: PulpState::Wet,
            bath: Some(bath),
            caption: "after seven minutes".into(),
        }),
    );
    let mistake = write(13, batch, Body::Note(Note { text: "by mistake".into() }));
    write(14, batch, Body::Withdrawn(Withdrawn { entry: mistake, why: String::new() }));
    let stop = |why| Body::BathStopped(BathStopped { bath, why, note: String::new() });
    let stopped = write(50, batch, stop(StopReason::ReachedColour));
    write(
        51,
        batch,
        Body::Corrected(Corrected {
            entry: stopped,
            body: Box::new(stop(StopReason::Spent)),
            at: Some(at(48)),
            why: "the strip was blank".into(),
        }),
    );
    write(
        60,
        batch,
        Body::Rinsed(Rinsed {
            water_l: figure(6.0),
            minutes: Some(figure(10.0)),
            dryness_after: None,
            ph: Some(figure(7.5)),
            strip_mg_per_l: Some(figure(0.0)),
            note: String::new(),
        }),
    );
    write(
        70,
        batch,
        Body::EndTest(EndTest {
            test: EndTestOf::ChlorineStrip,
            outcome: Outcome::Passed,
            figure: Some(figure(0.0)),
            note: String::new(),
        }),
    );
    write(71, batch, Body::SignedOff(SignedOff { complete: true, reason: String::new() }));
    write(
        80,
        batch,
        Body::Stored(Stored {
            lot: Ulid(3),
            wet_mass_g: figure(400.0),
            dryness: figure(0.25),
            form: StoredForm::WetCold,
            place: "cold room".into(),
            keep_by: Some(jiff::civil::date(2026, 6, 1)),
            note: String::new(),
        }),
    );
    let future = r#"{"kind":"listened_to","sound":{"hz":1.0,"loud":null},"times":3}"#;
    write(81, batch, Body::Unknown(serde_json::from_str(future).unwrap()));
    told
}
