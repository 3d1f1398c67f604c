#![allow(clippy::unwrap_used)]

mod amounts;

use jiff::SignedDuration;

use super::*;
use crate::{
    bath::{BathAim, BathSize, Bleach, Bottle, LabelBasis, PlanRequest, plan},
    chemistry::{
        Residual,
        alkali::{meter_ph, strip_ph},
        oxidant_strip,
    },
    derive::plan_record,
    forecast::{Forecast, ForecastQuantity, advise},
    journal::{
        Added, Additive, Amount, BathCover, BathStarted, ColourReading, ColourTarget, EntryWriter,
        Figure, ProductUsed, PulpState, Reading, ReadingOf, Reheated, Schedule, Subject,
        TargetFrom, VesselDescribed, VesselMaterial, VesselShape, sample::device,
    },
    property,
    pulp::WetPulp,
    quantity::{Basis, grams, share, weighed},
};

const BATH: Ulid = Ulid::from_parts(9, 9);

/// A log with entries at minutes of a day.
struct Log {
    writer: EntryWriter,
    entries: Vec<crate::journal::Entry>,
}

fn minute(minutes: f64) -> Timestamp {
    Timestamp::from_second(1_777_896_000).unwrap()
        + SignedDuration::from_secs((60.0 * minutes) as i64)
}

impl Log {
    fn new() -> Self {
        Self { writer: EntryWriter::new(device("a"), None), entries: Vec::new() }
    }

    fn at(&mut self, minutes: f64, body: Body) -> Ulid {
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        let random = self.entries.len() as u128 + 1;
        let entry = self.writer.write(minute(minutes), random, "", about, body).unwrap();
        let id = entry.id;
        self.entries.push(entry);
        id
    }

    /// A bath of 200 g of fibre with 2 % available chlorine at 5 % and 38 °C, from minute 0.
    fn with_bath() -> Self {
        let mut log = Self::new();
        let id = log.at(-5.0, Body::Planned(Box::new(planned())));
        log.start(BATH, Some(id), 0.0);
        log
    }

    fn start(&mut self, bath: Ulid, plan: Option<Ulid>, at: f64) {
        let schedule = Schedule { stop_at_min: Some(60.0), ..Schedule::default() };
        self.at(
            at,
            Body::BathStarted(BathStarted {
                bath,
                plan,
                oxidant: crate::journal::Oxidant::Hypochlorite,
                product: None,
                product_amount: None,
                water_added_ml: None,
                celsius: None,
                schedule,
            }),
        );
    }

    fn read(&mut self, at: f64, what: ReadingOf, figure: Figure) {
        let (bath, text) = (Some(BATH), String::new());
        self.at(at, Body::Reading(Reading { bath, what, figure: Some(figure), text }));
    }

    fn swatch(&mut self, at: f64, pulp: PulpState, lightness: f64, in_bath: bool) {
        let figure = |value| Estimate::plus_minus(value, 2.0, Basis::Measured);
        self.at(
            at,
            Body::ColourReading(Box::new(ColourReading {
                photo: None,
                bath: in_bath.then_some(BATH),
                pulp,
                lightness: figure(lightness),
                a: figure(4.0),
                b: figure(18.0),
                yellowness: None,
                blue_index: None,
                reference: String::new(),
                patches: Vec::new(),
                measures: Default::default(),
                remarks: Vec::new(),
                ageing: None,
                earlier: None,
                camera: None,
                light: None,
            })),
        );
    }

    fn add(&mut self, at: f64, what: Additive, amount: Amount) {
        let (bath, product, note) = (Some(BATH), None, String::new());
        self.at(at, Body::Added(Added { bath, what, product, amount, note }));
    }

    fn book(&self) -> Book {
        Book::of(self.entries.clone())
    }

    fn forecast(&self, at: f64) -> BathForecast {
        BathForecast::of(&self.book(), BATH, minute(at)).unwrap()
    }
}

fn planned() -> PlanRecord {
    let dryness = Estimate { value: 0.2, low: 0.18, high: 0.22, basis: Basis::OwnRecord };
    let pulp = WetPulp::new(weighed(grams(1000.0)), dryness.map(share)).unwrap();
    let bleach = Bleach::Hypochlorite(Bottle::labelled(6.0, LabelBasis::NaoclByMass));
    let (aim, size) = (BathAim::Charge(share(0.02)), BathSize::Consistency(share(0.05)));
    let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(38.0).unwrap());
    let request = PlanRequest { residual: Residual::None, ..request };
    plan_record(&request, &plan(&request).unwrap(), ProductUsed::typed(&request.bleach))
}

fn exact(value: f64) -> Figure {
    Estimate::exact(value, Basis::Measured)
}

fn has(forecast: &BathForecast, input: AssumedInput) -> bool {
    forecast.assumed.contains(&input)
}

#[test]
fn a_planned_bath_is_its_plan_and_what_nobody_said_is_assumed() {
    let forecast = Log::with_bath().forecast(10.0);
    // 4.00 g of available chlorine in about 3.8 L.
    let strength = forecast.request.strength;
    assert!((strength.value - 4.0 / 70.906 / 3.8).abs() < 0.0015, "{strength:?}");
    assert!((forecast.request.consistency.value - 0.05).abs() < 1e-6);
    assert!((forecast.request.celsius.value - 38.0).abs() < 1e-9);
    assert!(forecast.request.celsius.low <= 33.0, "the vessel was cold");
    use AssumedInput::*;
    assert_eq!(forecast.assumed, [Celsius, Colour, Drying, Vessel, Room]);
    assert_eq!(forecast.goal.until, 60.0);
    assert_eq!((forecast.goal.celsius.low, forecast.goal.celsius.high), (33.0, 38.0));
    assert_eq!(forecast.goal.lightness, None);
    assert!(Forecast::new(forecast.request, 1).is_ok());
}

#[test]
fn a_bath_without_a_plan_is_assumed_widely() {
    let mut log = Log::new();
    log.start(BATH, None, 0.0);
    let forecast = log.forecast(5.0);
    use AssumedInput::*;
    for input in [Strength, Ph, Celsius, Consistency, Colour, Drying, Vessel, Room] {
        assert!(has(&forecast, input), "{input:?}");
    }
    let strength = forecast.request.strength;
    assert!(strength.high > 10.0 * strength.low && forecast.liquor_ml.is_none());
    assert!(Forecast::new(forecast.request, 1).is_ok());
}

#[test]
fn what_was_measured_in_counts_and_not_what_was_planned() {
    let mut log = Log::new();
    let record = planned();
    let Amount::VolumeMl(planned_ml) = record.product_amount else { panic!() };
    let plan = log.at(-5.0, Body::Planned(Box::new(record.clone())));
    log.at(
        0.0,
        Body::BathStarted(BathStarted {
            bath: BATH,
            plan: Some(plan),
            oxidant: crate::journal::Oxidant::Hypochlorite,
            product: None,
            product_amount: Some(Amount::VolumeMl(exact(1.5 * planned_ml.value))),
            water_added_ml: Some(exact(record.water_to_add_ml.value)),
            celsius: Some(Estimate::plus_minus(36.0, 2.0, Basis::Measured)),
            schedule: Schedule::default(),
        }),
    );
    let forecast = log.forecast(5.0);
    let ratio =
        forecast.request.strength.value / Log::with_bath().forecast(5.0).request.strength.value;
    assert!((ratio - 1.5).abs() < 1e-9, "{ratio}");
    assert!((forecast.request.celsius.value - 36.0).abs() < 1e-9);
    assert!(!has(&forecast, AssumedInput::Celsius));
}

#[test]
fn readings_have_their_time_method_and_range() {
    let mut log = Log::with_bath();
    log.read(10.0, ReadingOf::Ph, strip_ph(10.0));
    log.read(12.0, ReadingOf::Ph, meter_ph(9.8));
    log.read(14.0, ReadingOf::AvailableChlorineMgPerL, oxidant_strip(500.0));
    log.read(15.0, ReadingOf::Celsius, bath::by_thermometer(37.0));
    log.read(16.0, ReadingOf::StarchIodide, exact(0.0));
    log.read(17.0, ReadingOf::PeroxideMgPerL, oxidant_strip(50.0));
    log.swatch(20.0, PulpState::Wet, 62.0, true);
    let forecast = log.forecast(25.0);
    let told: Vec<_> =
        forecast.readings.iter().map(|r| (r.reading.minutes.round(), r.by, r.reading.of)).collect();
    use ForecastQuantity::*;
    assert_eq!(
        told,
        [
            (10.0, ReadBy::Strip, CooledPh),
            (12.0, ReadBy::Meter, CooledPh),
            (14.0, ReadBy::Strip, OxidantLeft),
            (15.0, ReadBy::Thermometer, Celsius),
            (16.0, ReadBy::Eye, OxidantLeft),
            (20.0, ReadBy::Photo, WetLightness),
        ]
    );
    let strip = forecast.readings[2].reading.value;
    assert!((strip.value - 0.5 / 70.906).abs() < 1e-9);
    // A meter held into the warm bath reads lower than the cooled sample.
    let meter = forecast.readings[1].reading.value;
    assert!(meter.value > 9.8 && meter.high > 9.8 + 0.2 && meter.low <= 9.8, "{meter:?}");
    // Readings change no request: the samples stay.
    assert_eq!(forecast.request, Log::with_bath().forecast(25.0).request);
}

#[test]
fn a_withdrawn_reading_weighs_nothing() {
    let mut log = Log::with_bath();
    log.read(10.0, ReadingOf::Ph, strip_ph(10.0));
    let entry = log.entries.last().unwrap().id;
    let withdrawn = crate::journal::Withdrawn { entry, why: String::new() };
    log.at(11.0, Body::Withdrawn(withdrawn));
    assert!(log.forecast(12.0).readings.is_empty());
}

#[test]
fn the_swatch_before_the_bath_is_the_colour_of_the_start() {
    let mut dried = Log::new();
    dried.swatch(-60.0, PulpState::Dried, 70.0, false);
    let id = dried.at(-5.0, Body::Planned(Box::new(planned())));
    dried.start(BATH, Some(id), 0.0);
    let forecast = dried.forecast(5.0);
    assert_eq!(forecast.request.lightness.value, 70.0);
    assert!(!has(&forecast, AssumedInput::Colour) && forecast.readings.is_empty());
    let mut wet = Log::new();
    wet.swatch(-10.0, PulpState::Wet, 58.0, false);
    let id = wet.at(-5.0, Body::Planned(Box::new(planned())));
    wet.start(BATH, Some(id), 0.0);
    let forecast = wet.forecast(5.0);
    let start = forecast.request.lightness;
    assert!(start.low > 58.0 && start.value > 62.0 && start.high < 78.0, "{start:?}");
    assert!(has(&forecast, AssumedInput::Drying));
    // It is compared with as well: the drying shift is unknown, the wet colour is not.
    assert_eq!(forecast.readings[0].reading.of, ForecastQuantity::WetLightness);
    assert_eq!(forecast.readings[0].reading.minutes, 0.0);
}

#[test]
fn additions_and_reheats_are_events_and_thin_the_bath() {
    let mut log = Log::with_bath();
    let before = log.forecast(5.0);
    log.at(
        20.0,
        Body::Reheated(Reheated { bath: BATH, from_celsius: None, to_celsius: Some(exact(38.0)) }),
    );
    log.add(22.0, Additive::Water, Amount::VolumeMl(exact(1000.0)));
    log.add(24.0, Additive::SodaAsh, Amount::MassG(exact(3.0)));
    log.add(26.0, Additive::Hypochlorite, Amount::VolumeMl(exact(30.0)));
    let after = log.forecast(30.0);
    let events = &after.request.events;
    assert_eq!(events.len(), 4);
    assert_eq!(events[0].reaches, Some(38.0));
    let liquor = before.liquor_ml.unwrap().value;
    assert!((events[1].share - liquor / (liquor + 1000.0)).abs() < 1e-9);
    assert!((after.liquor_ml.unwrap().value - liquor - 1030.0).abs() < 1e-6);
    assert_eq!(events[2].share, 1.0);
    let g_per_l = events[3].added.hypochlorite_moles_per_litre() * 70.906;
    // 30 mL of about 61.7 g/L in about 4.8 L.
    assert!((g_per_l * (liquor + 1030.0) / 1000.0 - 0.030 * 61.7).abs() < 0.05, "{g_per_l}");
    let mut forecast = Forecast::new(after.request, 3).unwrap();
    forecast.extend(60);
    assert!(forecast.support().can_tell(), "{:?}", forecast.support());
}

#[test]
fn a_clash_of_oxidants_and_an_endless_bath_have_no_forecast() {
    let mut log = Log::with_bath();
    log.add(10.0, Additive::Percarbonate, Amount::MassG(exact(5.0)));
    let of = |log: &Log, at: f64| BathForecast::of(&log.book(), BATH, minute(at));
    assert_eq!(of(&log, 12.0), Err(BathForecastError::TwoOxidants));
    let log = Log::with_bath();
    assert_eq!(of(&log, 24.0 * 60.0), Err(BathForecastError::TooLong));
    let none = BathForecast::of(&log.book(), Ulid(77), minute(1.0));
    assert_eq!(none, Err(BathForecastError::NoBath));
}

#[test]
fn the_forecast_reaches_two_hours_past_the_stop_and_stays_within_an_hour() {
    let log = Log::with_bath();
    let end = |at: f64| *log.forecast(at).request.minutes.last().unwrap();
    assert_eq!(end(1.0), 240.0);
    assert_eq!(end(100.0), 240.0);
    assert_eq!(end(150.0), 300.0);
    assert_eq!(log.forecast(1.0).request, log.forecast(40.0).request);
}

#[test]
fn the_target_of_the_batch_is_the_goal() {
    let mut log = Log::with_bath();
    let figure = exact(83.0);
    let target = ColourTarget {
        lightness: figure,
        a: exact(1.0),
        b: exact(15.0),
        from: TargetFrom::Step(crate::colour::target::PaperWhite::Oat),
        name: String::new(),
    };
    log.at(3.0, Body::ColourTarget(Box::new(target)));
    assert_eq!(log.forecast(5.0).goal.lightness, Some(83.0));
}

fn vessel(bath: Ulid) -> Body {
    Body::VesselDescribed(VesselDescribed {
        bath,
        shape: Some(VesselShape::Bucket),
        material: Some(VesselMaterial::Plastic),
        cover: Some(BathCover::Lid),
        room_celsius: Some(exact(16.0)),
    })
}

#[test]
fn a_described_vessel_narrows_the_losses_and_an_earlier_bath_teaches_them() {
    let mut log = Log::with_bath();
    let unknown = log.forecast(5.0).request.cooling.unwrap();
    log.at(6.0, vessel(BATH));
    let known = log.forecast(8.0);
    let width = |bath: &crate::bath::CoolingBath| bath.factors.dry.high / bath.factors.dry.low;
    let cooling = known.request.cooling.unwrap();
    assert!(width(&cooling) < width(&unknown) && cooling.air.celsius == 16.0);
    assert!(!has(&known, AssumedInput::Vessel) && !has(&known, AssumedInput::Room));
    // An earlier bath in such a vessel cooled much faster.
    let earlier = Ulid::from_parts(3, 3);
    let mut taught = Log::new();
    let id = taught.at(-305.0, Body::Planned(Box::new(planned())));
    taught.start(earlier, Some(id), -300.0);
    taught.at(-299.0, vessel(earlier));
    for (at, celsius) in [(-290.0, 38.0), (-230.0, 31.0)] {
        let (bath, text, what) = (Some(earlier), String::new(), ReadingOf::Celsius);
        taught.at(at, Body::Reading(Reading { bath, what, figure: Some(exact(celsius)), text }));
    }
    let plan = taught.at(-5.0, Body::Planned(Box::new(planned())));
    taught.start(BATH, Some(plan), 0.0);
    let assumed = taught.forecast(1.0);
    assert!(has(&assumed, AssumedInput::Vessel), "another bath's vessel is an assumption");
    taught.at(2.0, vessel(BATH));
    let learnt = taught.forecast(3.0).request.cooling.unwrap().factors;
    assert!(learnt.dry.value > 1.5 && learnt.dry.basis == Basis::OwnRecord, "{learnt:?}");
}

/// Whatever readings there are, they make a forecast that can be weighed and advises something
/// that keeps its limits.
#[test]
fn any_readings_make_a_forecast() {
    let mut samples = {
        let mut forecast = Forecast::new(Log::with_bath().forecast(1.0).request, 1).unwrap();
        forecast.extend(150);
        forecast
    };
    let samples = std::cell::RefCell::new(&mut samples);
    let cases = (1.0..55.0_f64, 7.0..12.0_f64, 0.0..1500.0_f64, 20.0..60.0_f64, 40.0..80.0_f64);
    property::check(cases, 200, |(at, ph, strip, celsius, lightness)| {
        let mut log = Log::with_bath();
        log.read(at, ReadingOf::Ph, strip_ph(ph));
        log.read(at + 0.2, ReadingOf::AvailableChlorineMgPerL, oxidant_strip(strip));
        log.read(at + 0.4, ReadingOf::Celsius, bath::by_thermometer(celsius));
        log.swatch(at + 0.6, PulpState::Wet, lightness, true);
        let forecast = log.forecast(at + 1.0);
        proptest::prop_assert!(forecast.readings.len() == 4);
        let readings: Vec<_> = forecast.readings.iter().map(|one| one.reading).collect();
        let mut samples = samples.borrow_mut();
        samples.weigh(&readings);
        let told = advise(&samples, at + 1.0, &forecast.goal);
        let chances = [told.chance_of_damage, told.chance_of_damage_by_end];
        proptest::prop_assert!(chances.iter().all(|chance| (0.0..=1.0 + 1e-9).contains(chance)));
        Ok(true)
    });
}
