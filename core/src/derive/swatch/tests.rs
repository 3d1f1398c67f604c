#![allow(clippy::unwrap_used)]
use super::*;
use crate::journal::{
    BatchStarted, Book, Entry, EntryWriter, Oxidant, Patch, Photo, Subject,
    sample::{bath_started, device},
};
use crate::quantity::Basis;

/// A batch's log, written minute by minute.
struct Log {
    writer: EntryWriter,
    entries: Vec<Entry>,
    batch: Ulid,
}

impl Log {
    fn new() -> Self {
        let writer = EntryWriter::new(device("here"), None);
        let mut log = Self { writer, entries: Vec::new(), batch: Ulid(1) };
        log.write(0, Body::BatchStarted(BatchStarted::default()));
        log
    }

    fn write(&mut self, minute: i64, body: Body) -> Ulid {
        let at = Timestamp::from_second(1_777_800_000 + 60 * minute).unwrap();
        let number = self.entries.len() as u128 + 7;
        let entry = self.writer.write(at, number, "", Subject::Batch(self.batch), body).unwrap();
        self.entries.push(entry);
        self.entries.last().unwrap().id
    }

    fn colour(&mut self, minute: i64, lab: [f64; 3], change: impl Fn(&mut ColourReading)) -> Ulid {
        let mut reading = reading(lab);
        change(&mut reading);
        self.write(minute, Body::ColourReading(Box::new(reading)))
    }

    fn swatches(&self) -> Vec<Swatch> {
        swatches(&Book::of(self.entries.clone()).batches[&self.batch])
    }
}

fn reading(lab: [f64; 3]) -> ColourReading {
    let [lightness, a, b] =
        lab.map(|v| Estimate { value: v, low: v - 1.0, high: v + 1.0, basis: Basis::Measured });
    ColourReading {
        photo: None,
        bath: None,
        pulp: PulpState::Wet,
        lightness,
        a,
        b,
        yellowness: None,
        blue_index: Some(Estimate::exact(50.0, Basis::Measured)),
        reference: String::new(),
        patches: Vec::new(),
        measures: Default::default(),
        remarks: Vec::new(),
        ageing: None,
        earlier: None,
        light: None,
        camera: None,
    }
}

const DAY: i64 = 24 * 60;

#[test]
fn minutes_count_from_the_start_of_the_bath() {
    let mut log = Log::new();
    let bath = Ulid(9);
    log.write(10, Body::BathStarted(bath_started(bath, Oxidant::Peroxide)));
    log.colour(35, [70.0, 2.0, 20.0], |r| r.bath = Some(bath));
    log.colour(36, [70.0, 2.0, 20.0], |_| {});
    let minutes: Vec<_> = log.swatches().iter().map(|s| s.minutes).collect();
    assert_eq!(minutes, [Some(25.0), None]);
}

#[test]
fn a_photo_measured_later_has_the_time_it_was_taken() {
    let mut log = Log::new();
    let id = PhotoId::of_digest([7; 32]);
    log.write(
        20,
        Body::Photo(Photo {
            photo: id.clone(),
            mime: "image/jpeg".into(),
            width_px: 4,
            height_px: 3,
            bytes: 9,
            orientation: 1,
            pulp: PulpState::Wet,
            bath: None,
            caption: String::new(),
        }),
    );
    log.colour(30, [70.0, 2.0, 20.0], |_| {});
    log.colour(40 * DAY, [60.0, 2.0, 20.0], |r| r.photo = Some(id.clone()));
    let swatches = log.swatches();
    let lightness: Vec<_> = swatches.iter().map(|s| s.reading.lightness.value).collect();
    assert_eq!(lightness, [60.0, 70.0]);
    assert_eq!(swatches[1].at.duration_since(swatches[0].at).as_mins(), 10);
}

#[test]
fn a_drying_shift_is_fitted_to_named_pairs_only() {
    let mut log = Log::new();
    let wet = log.colour(1, [60.0, 3.0, 20.0], |_| {});
    log.colour(DAY, [80.0, 1.0, 12.0], |r| r.pulp = PulpState::Dried);
    assert_eq!(drying_shift(&log.swatches()), None);
    log.colour(DAY + 1, [80.0, 1.0, 12.0], |r| {
        r.pulp = PulpState::Dried;
        r.earlier = Some(wet);
    });
    let swatches = log.swatches();
    let shift = drying_shift(&swatches).unwrap();
    assert_eq!(shift.pairs, 1);
    let predicted = shift.dried(swatches[0].reading.lab().to_xyz().to_linear()).unwrap();
    assert!((predicted.lab.l - 80.0).abs() < 0.01, "{predicted:?}");
}

#[test]
fn an_aged_swatch_is_compared_with_its_fresh_one() {
    let mut log = Log::new();
    let fresh = log.colour(0, [90.0, 0.0, 6.0], |r| r.pulp = PulpState::Dried);
    log.colour(30 * DAY, [88.0, 0.5, 10.0], |r| {
        r.pulp = PulpState::Dried;
        r.ageing = Some(Ageing::Window);
        r.earlier = Some(fresh);
        r.blue_index = Some(Estimate::exact(40.0, Basis::Measured));
    });
    let aged = aged_swatches(&log.swatches());
    assert_eq!(aged.len(), 1);
    assert!((aged[0].days - 30.0).abs() < 0.1);
    // K/S of 0.5 is 0.25, of 0.4 is 0.45: (1-R)^2/2R by hand.
    assert!((aged[0].post_colour.unwrap() - 20.0).abs() < 1e-9);
    assert!(aged[0].since_made.value > 2.0 && aged[0].since_made.low < aged[0].since_made.value);
}

#[test]
fn a_sheet_is_rechecked_after_a_week_a_month_and_so_on() {
    let mut log = Log::new();
    log.colour(0, [70.0, 2.0, 20.0], |_| {});
    assert_eq!(next_recheck(&log.swatches()), None);
    log.colour(10, [90.0, 0.0, 6.0], |r| r.pulp = PulpState::Dried);
    let fresh = log.swatches()[1].at;
    let day = |n: i64| Some(fresh + SignedDuration::from_hours(24 * n));
    assert_eq!(next_recheck(&log.swatches()), day(7));
    log.colour(10 + 6 * DAY, [90.0, 0.0, 6.0], |r| r.pulp = PulpState::Dried);
    assert_eq!(next_recheck(&log.swatches()), day(30), "a reading one day early counts");
    log.colour(10 + 400 * DAY, [90.0, 0.0, 6.0], |r| r.pulp = PulpState::Dried);
    assert_eq!(next_recheck(&log.swatches()), None);
}

#[test]
fn a_stored_reading_maps_its_photo_to_the_corrected_colour() {
    let mut with_patch = reading([80.0, 1.0, 12.0]);
    assert_eq!(with_patch.mapping(), None);
    with_patch.patches.push(Patch {
        role: "pulp".into(),
        centre_x: 0.5,
        centre_y: 0.5,
        radius: 0.1,
        rgb: [180.0, 170.0, 140.0],
        spread: [1.0; 3],
        clipped_share: 0.0,
    });
    let tables = with_patch.mapping().unwrap().tables;
    let shown = [tables[0][180], tables[1][170], tables[2][140]];
    let wanted = crate::colour::display::DisplayColour::new(with_patch.lab()).rgb;
    assert!((0..3).all(|c| shown[c].abs_diff(wanted[c]) <= 1), "{shown:?} {wanted:?}");
}
