//! Entries to test with: one of every kind, and any number of them at random.

use super::*;
use crate::colour::{reference::Light, reversion::Ageing, tone::ToneCurve};
use crate::quantity::{Basis, Estimate};
use jiff::Timestamp;
use proptest::prelude::*;
use ulid::Ulid;

/// A millisecond in May 2026, and so many after it.
pub(crate) fn at(millis: i64) -> Timestamp {
    Timestamp::from_millisecond(1_777_800_000_000 + millis).expect("in range")
}

pub(crate) fn device(name: &str) -> DeviceId {
    DeviceId::new(name).expect("a valid id")
}

/// A figure of ±10 %.
pub(crate) fn figure(value: f64) -> Figure {
    Estimate::within(value, 0.1, Basis::Measured)
}

/// The start of a bath of which nothing else was noted.
pub(crate) fn bath_started(bath: Ulid, oxidant: Oxidant) -> BathStarted {
    BathStarted {
        bath,
        plan: None,
        oxidant,
        product: None,
        product_amount: None,
        water_added_ml: None,
        celsius: None,
        schedule: Schedule::default(),
    }
}

/// A rinse of which nothing else was noted.
pub(crate) fn rinsed(water_l: Figure) -> Rinsed {
    Rinsed {
        water_l,
        minutes: None,
        dryness_after: None,
        ph: None,
        strip_mg_per_l: None,
        strip_of: None,
        note: String::new(),
    }
}

fn photo_id(n: u8) -> PhotoId {
    PhotoId::of_digest([n; 32])
}

fn strength() -> Strength {
    Strength {
        figure: figure(5.25),
        stated_as: StrengthBasis::NaoclPercentByMass,
        density_g_per_ml: Some(figure(1.08)),
    }
}

/// A body of each kind, about small ids, with `x` in its figures.
pub(crate) fn bodies(x: f64, n: u8) -> Vec<(Subject, Body)> {
    let batch = Subject::Batch(Ulid(u128::from(n % 3)));
    let bath = Ulid(100 + u128::from(n % 4));
    let bottle = Subject::Bottle(Ulid(200 + u128::from(n % 2)));
    let lot = Ulid(300 + u128::from(n % 3));
    let f = figure(x);
    let text = format!("note {n} \u{2014} \"quoted\"");
    let schedule = Schedule {
        stir_every_min: Some(x.max(1.0)),
        stop_at_min: Some(60.0),
        ..Schedule::default()
    };
    vec![
        (batch, Body::BatchStarted(BatchStarted {
            name: format!("Batch {n}"),
            fibre: "cattail leaf".into(),
            cook: Some(Cook { alkali: Some(Alkali::SodaAsh), hours: Some(f), ..Cook::default() }),
            ..BatchStarted::default()
        })),
        (batch, Body::Renamed(Renamed { name: text.clone() })),
        (batch, Body::Tagged(Tagged {
            add: vec!["gift".into(), format!("for {n}")],
            remove: vec![format!("for {}", n / 2)],
        })),
        (batch, Body::Cooked(Cook { celsius: Some(f), ..Cook::default() })),
        (batch, Body::Weighed(Weighed {
            wet_mass_g: f,
            dryness: figure(0.2),
            how: DrynessFrom::DriedSample,
            sample: Some(DrySample {
                wet_g: f,
                dry_g: figure(2.0),
                drying: n.is_multiple_of(2).then_some(DryingMethod::Air),
            }),
        })),
        (batch, Body::Planned(Box::new(PlanRecord {
            oxidant: Oxidant::Hypochlorite,
            product: ProductUsed { shelf: Some(Ulid(200)), name: "bottle".into(), strength: strength() },
            aim: Aim::Charge { share: 0.02, counted_as: Active::AvailableChlorine },
            wet_mass_g: f,
            dryness: figure(0.2),
            dry_fibre_g: f,
            celsius: 35.0,
            minutes: 60.0,
            schedule: schedule.clone(),
            product_amount: Amount::VolumeMl(f),
            soda_ash_g: Some(f),
            water_to_add_ml: f,
            liquor_ml: f,
            consistency: figure(0.04),
            charge: figure(0.02),
            liquor_strength_g_per_l: f,
            counted_as: Active::AvailableChlorine,
            ph: None,
            loads: vec![Load { wet_pulp_g: x, product_amount: Amount::MassG(f), soda_ash_g: Some(x), water_to_add_ml: x }],
            dominant: [("liquor_ml".to_owned(), "dryness".to_owned())].into(),
            cautions: vec!["caution.gas".into()],
            note: text.clone(),
        }))),
        (batch, Body::BathStarted(BathStarted {
            bath,
            plan: Some(Ulid(7)),
            oxidant: Oxidant::Percarbonate,
            product: Some(Ulid(201)),
            product_amount: Some(Amount::MassG(f)),
            water_added_ml: None,
            celsius: Some(f),
            schedule: schedule.clone(),
        })),
        (batch, Body::ScheduleChanged(ScheduleChanged { bath, schedule, why: text.clone() })),
        (batch, Body::CueAnswered(CueAnswered { bath, cue: "stir-900".into(), outcome: CueOutcome::Done })),
        (batch, Body::Stirred(Stirred { bath })),
        (batch, Body::Reheated(Reheated { bath, from_celsius: Some(f), to_celsius: None })),
        (batch, Body::VesselDescribed(VesselDescribed {
            bath,
            shape: Some(VesselShape::Bucket),
            material: None,
            cover: Some(BathCover::Lid),
            room_celsius: Some(f),
        })),
        (batch, Body::Added(Added {
            bath: Some(bath),
            what: Additive::SodaAsh,
            product: None,
            amount: Amount::MassG(f),
            note: String::new(),
        })),
        (batch, Body::BathStopped(BathStopped { bath, why: StopReason::Spent, note: text.clone() })),
        (batch, Body::Reading(Reading { bath: None, what: ReadingOf::Ph, figure: Some(f), text: String::new() })),
        (batch, Body::Photo(Photo {
            photo: photo_id(n),
            mime: "image/jpeg".into(),
            width_px: 640,
            height_px: 480,
            bytes: 12_345,
            orientation: 6,
            pulp: PulpState::Wet,
            bath: Some(bath),
            caption: text.clone(),
        })),
        (batch, Body::ColourReading(Box::new(ColourReading {
            photo: Some(photo_id(n)),
            bath: None,
            pulp: PulpState::Dried,
            lightness: f,
            a: f,
            b: f,
            yellowness: None,
            blue_index: Some(f),
            reference: "copy paper".into(),
            patches: vec![Patch {
                role: "white".into(),
                centre_x: 0.5,
                centre_y: 0.25,
                radius: 0.05,
                rgb: [x, 250.0, 249.5],
                spread: [1.0, 1.5, 2.0],
                clipped_share: 0.0,
            }],
            measures: [("chroma".to_owned(), f)].into(),
            remarks: vec!["remark.mixed_light".into()],
            ageing: Some(Ageing::Window),
            earlier: Some(Ulid(302)),
            light: Some(Light::GoodLamp),
            camera: None,
        }))),
        (batch, Body::ColourTarget(Box::new(ColourTarget {
            lightness: f,
            a: f,
            b: f,
            from: TargetFrom::Photo(photo_id(n)),
            name: text.clone(),
        }))),
        (batch, Body::Note(Note { text: text.clone() })),
        (batch, Body::Rinsed(Rinsed {
            dryness_after: Some(figure(0.2)),
            ph: Some(f),
            strip_of: Some(StripOf::Peroxide),
            ..rinsed(f)
        })),
        (batch, Body::Antichlored(Antichlored {
            reagent: Antichlor::ThiosulfatePentahydrate,
            product: Some(Ulid(201)),
            grams: f,
            minutes: None,
            strip_mg_per_l: Some(f),
            note: String::new(),
        })),
        (batch, Body::EndTest(EndTest {
            test: EndTestOf::ChlorineStrip,
            outcome: Outcome::Passed,
            figure: Some(f),
            note: String::new(),
        })),
        (batch, Body::AcidFinished(AcidFinished {
            acid: Acid::Citric,
            product: None,
            amount: Amount::MassG(f),
            ph_before: Some(f),
            ph_after: None,
            note: String::new(),
        })),
        (batch, Body::ReserveAdded(ReserveAdded { calcium_carbonate_g: f, retention_share: None })),
        (batch, Body::SignedOff(SignedOff { complete: n.is_multiple_of(2), reason: text.clone() })),
        (batch, Body::Stored(Stored {
            lot,
            wet_mass_g: f,
            dryness: figure(0.25),
            form: StoredForm::WetCold,
            place: "cold room".into(),
            keep_by: jiff::civil::Date::new(2026, 9, 1).ok(),
            untested_why: text.clone(),
            note: String::new(),
        })),
        (Subject::Lot(lot), Body::Sheets(Sheets {
            count: u32::from(n),
            format: "A4".into(),
            width_mm: Some(x),
            height_mm: None,
            grammage_g_per_m2: Some(f),
            dry_g: Some(f),
            note: String::new(),
        })),
        (batch, Body::Abandoned(Abandoned { why: text.clone() })),
        (batch, Body::TrialDesigned(Box::new(TrialDesigned {
            trial: Ulid(400 + u128::from(n % 2)),
            seed: 7,
            pots: vec![TrialPot { number: 1, batch: Ulid(500), starts_at_min: x }],
            note: text.clone(),
        }))),
        (Subject::Lot(lot), Body::LotDrawn(LotDrawn { dry_g: f, purpose: text.clone() })),
        (Subject::Lot(Ulid(310 + u128::from(n % 2))), Body::LotBlended(LotBlended {
            name: "blend".into(),
            parts: vec![LotPart { lot, dry_g: f }],
            form: StoredForm::Frozen,
            place: String::new(),
            keep_by: None,
        })),
        (bottle, Body::ProductAdded(ProductAdded {
            name: format!("Bottle {n}"),
            product: ProductKind::Hypochlorite,
            strength: Some(strength()),
            size: Some(Amount::VolumeMl(figure(1000.0))),
            bought: jiff::civil::Date::new(2026, 4, 1).ok(),
            made: None,
            opened: None,
            storage: Storage { celsius: Some(18.0), dark: Some(true), closed: None },
            price: Some(x),
            note: String::new(),
        })),
        (bottle, Body::ProductOpened(ProductOpened { on: jiff::civil::Date::constant(2026, 5, 1) })),
        (bottle, Body::StrengthFound(StrengthFound {
            method: StrengthMethod::IodometricTitration,
            strength: strength(),
            runs: vec![TitrationRun {
                sample_ml: Some(1.0),
                sample_g: None,
                titrant_mol_per_l: 0.1,
                titrant_ml: x,
                blank_ml: None,
            }],
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        })),
        (bottle, Body::ProductFinished(ProductFinished::default())),
        (Subject::Studio, Body::OwnFigure(OwnFigure {
            what: OwnFigureOf::GramsPerSpoon { of: Additive::Percarbonate, spoon_ml: 15 },
            figure: f,
            note: String::new(),
        })),
        (Subject::Studio, Body::DeviceNamed(DeviceNamed { name: text.clone() })),
        (Subject::Studio, Body::ReferenceCard(ReferenceCard {
            role: CardRole::Grey,
            name: text,
            lightness: f,
            a: f,
            b: f,
        })),
        (Subject::Studio, Body::CameraTaught(Box::new(CameraTaught {
            light: Light::Daylight,
            matrix: [[1.1, -0.1, 0.0], [0.0, 1.0, 0.0], [0.0, 0.1, 0.9]],
            tone: ToneCurve { contrast: 1.2, shoulder: 0.5 },
            rest: [0.02, 0.01, 0.03],
            before_delta_e00: 4.5,
            after_delta_e00: 1.25,
            surface_name: "chart".into(),
            surfaces: vec![TaughtSurface {
                rgb: [x, 250.0, 249.5],
                lightness: 96.5,
                a: -0.5,
                b: 2.0,
            }],
        }))),
        (batch, Body::Unknown(serde_json::from_str(&format!(
            r#"{{"kind":"dreamt_of","figure_of_one":1,"float":1.0,"deep":{{"n":{n},"none":null}},"list":[1,null,{{"x":2.50}}]}}"#
        )).expect("an object"))),
    ]
}

/// Up to `most` entries by three devices, withdrawals and corrections among
/// them, with ids and stamps as writers give them.
pub(crate) fn entries(most: usize) -> impl Strategy<Value = Vec<Entry>> {
    let one = (
        0..3usize,
        any::<prop::sample::Index>(),
        0.0f64..1e6,
        0u8..8,
        -5_000_000i64..5_000_000,
        any::<u8>(),
    );
    prop::collection::vec((one, any::<prop::sample::Index>()), 0..most).prop_map(|picks| {
        let mut writers = ["aa", "bb", "cc"].map(|name| EntryWriter::new(device(name), None));
        let mut written: Vec<Entry> = Vec::new();
        for (i, ((who, what, x, n, when, special), target)) in picks.into_iter().enumerate() {
            let all = bodies(x, n);
            let (mut about, mut body) = all[what.index(all.len())].clone();
            if special < 80 && !written.is_empty() {
                let target = &written[target.index(written.len())];
                about = target.about;
                body = if special < 40 {
                    Body::Withdrawn(Withdrawn { entry: target.id, why: String::new() })
                } else {
                    let at = (special < 60).then(|| at(when));
                    Body::Corrected(Corrected {
                        entry: target.id,
                        body: Box::new(body),
                        at,
                        why: "wrong".into(),
                    })
                };
            }
            let random = (i as u128) << 8 | who as u128;
            written.push(
                writers[who].write(at(when), random, "Europe/Lisbon", about, body).expect("finite"),
            );
        }
        written
    })
}
