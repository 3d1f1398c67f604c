//! The JSON of every kind of entry, byte for byte as earlier versions wrote it.
//!
//! `records.jsonl` holds one entry a line: each kind with all members, each kind with as few as
//! it may have, and each word of each set of words. `odd.jsonl` holds entries that no version
//! writes but every version reads: unknown, null and absent members, other spellings. Each line
//! is `[given, written out again, kind]`, an empty kind for what is refused. Both were written
//! when format 1 was in use by
//! `cargo test -p bleachfield-tests --test exchange -- --ignored write_records`; only lines for
//! new kinds may be added.

use bleachfield_core::colour::{reversion::Ageing, target::PaperWhite};
use bleachfield_core::journal::*;
use bleachfield_core::quantity::{Basis, Estimate};
use jiff::{Timestamp, civil::date};
use ulid::Ulid;

const RECORDS: &str = include_str!("records.jsonl");
const ODD: &str = include_str!("odd.jsonl");

#[test]
fn every_record_is_written_byte_for_byte_as_before() {
    let entries = entries();
    assert_eq!(RECORDS.lines().count(), entries.len());
    for (entry, line) in entries.iter().zip(RECORDS.lines()) {
        assert_eq!(entry.to_text(), line);
    }
}

#[test]
fn every_record_is_read_as_before() {
    for (entry, line) in entries().into_iter().zip(RECORDS.lines()) {
        assert_eq!(Entry::from_text(line).unwrap(), entry, "{line}");
    }
}

#[test]
fn every_kind_and_every_word_has_a_record() {
    let kinds: std::collections::BTreeSet<String> =
        entries().iter().map(|entry| entry.body.kind().to_owned()).collect();
    assert_eq!(kinds.len(), 37, "{kinds:?}");
    assert!(entries().iter().all(|entry| !matches!(entry.body, Body::Unknown(_))));
}

#[test]
fn odd_entries_are_read_and_written_out_again_as_before() {
    let mut count = 0;
    for line in ODD.lines() {
        let [given, written, kind]: [String; 3] = serde_json::from_str(line).unwrap();
        assert_eq!(reread(&given), (written, kind), "{given}");
        count += 1;
    }
    assert_eq!(count, odd().len());
}

#[test]
#[ignore = "writes the fixtures; see the top of this file"]
fn write_records() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("exchange");
    let lines: Vec<String> = entries().iter().map(Entry::to_text).collect();
    std::fs::write(folder.join("records.jsonl"), lines.join("\n") + "\n").unwrap();
    let lines: Vec<String> = odd()
        .into_iter()
        .map(|given| {
            let (written, kind) = reread(&given);
            serde_json::to_string(&[given, written, kind]).unwrap()
        })
        .collect();
    std::fs::write(folder.join("odd.jsonl"), lines.join("\n") + "\n").unwrap();
}

/// What an entry's text is written out as again, and its kind; the kind of a known one that could
/// not be made sense of is marked.
fn reread(text: &str) -> (String, String) {
    match Entry::from_text(text) {
        Ok(entry) => {
            let unknown = matches!(entry.body, Body::Unknown(_));
            let mark = if unknown { "unknown " } else { "" };
            (entry.to_text(), format!("{mark}{}", entry.body.kind()))
        }
        Err(_) => (String::new(), String::new()),
    }
}

fn at(second: i64) -> Timestamp {
    Timestamp::from_millisecond(1_777_800_000_123 + 1000 * second).unwrap()
}

fn entries() -> Vec<Entry> {
    let mut pen = EntryWriter::new(DeviceId::new("k7m2").unwrap(), None);
    let every = [whole(), sparse(), words()].concat();
    every
        .into_iter()
        .zip(0..)
        .map(|((about, body), nth)| {
            let zone = if nth % 2 == 0 { "Europe/Lisbon" } else { "" };
            pen.write_at(at(nth - 60), at(nth), nth as u128, zone, about, body).unwrap()
        })
        .collect()
}

const BATCH: Subject = Subject::Batch(Ulid(1));
const BOTTLE: Subject = Subject::Bottle(Ulid(2));
const LOT: Subject = Subject::Lot(Ulid(3));

fn id(n: u128) -> Ulid {
    Ulid::from_parts(1_777_800_000_000, n)
}

/// Floats that need all their digits, with a range that is not symmetric.
fn figure(value: f64) -> Figure {
    Estimate { value, low: value * 0.9, high: value * 1.2, basis: Basis::Measured }
}

fn text(n: u8) -> String {
    format!("text {n} \u{2014} \"quoted\"\nand \\ more, ½ \u{1f9fb}")
}

fn strength() -> Strength {
    Strength {
        figure: figure(5.25),
        stated_as: StrengthBasis::NaoclPercentByMass,
        density_g_per_ml: Some(figure(1.08)),
    }
}

fn cook() -> Cook {
    Cook {
        alkali: Some(Alkali::SodaAsh),
        alkali_g: Some(figure(150.0)),
        charge_share: Some(figure(0.15)),
        liquor_l: Some(figure(10.0)),
        celsius: Some(figure(98.0)),
        hours: Some(figure(3.0)),
        ph_after_rinse: Some(figure(8.7)),
        note: text(1),
    }
}

fn schedule() -> Schedule {
    Schedule {
        stir_every_min: Some(15.0),
        reheat_every_min: Some(0.1 + 0.2),
        ph_at_min: vec![10.0, 60.0],
        strip_at_min: vec![1.0 / 3.0],
        photo_at_min: vec![20.0, 40.0],
        stop_at_min: Some(60.0),
    }
}

fn plan() -> PlanRecord {
    PlanRecord {
        oxidant: Oxidant::Hypochlorite,
        product: ProductUsed { shelf: Some(Ulid(2)), name: text(2), strength: strength() },
        aim: Aim::LiquorStrength { g_per_l: 2.5, counted_as: Active::AvailableChlorine },
        wet_mass_g: figure(500.0),
        dryness: figure(0.2),
        dry_fibre_g: figure(100.0),
        celsius: 35.0,
        minutes: 60.0,
        schedule: schedule(),
        product_amount: Amount::VolumeMl(figure(120.0)),
        water_to_add_ml: figure(1900.0),
        liquor_ml: figure(2400.0),
        consistency: figure(0.04),
        charge: figure(0.02),
        liquor_strength_g_per_l: figure(2.5),
        counted_as: Active::AvailableChlorine,
        ph: Some(figure(10.3)),
        loads: vec![
            Load {
                wet_pulp_g: 250.0,
                product_amount: Amount::MassG(figure(60.0)),
                water_to_add_ml: 950.0,
            };
            2
        ],
        dominant: [("liquor_ml".to_owned(), "dryness".to_owned())].into(),
        cautions: vec!["caution.gas".into(), "caution.heat".into()],
        note: text(3),
    }
}

fn patch() -> Patch {
    Patch {
        role: "white".into(),
        centre_x: 0.5,
        centre_y: 0.25,
        radius: 0.05,
        rgb: [251.0, 250.0, 249.5],
        spread: [1.0, 1.5, 2.0],
        clipped_share: 0.0,
    }
}

fn photo_id() -> PhotoId {
    PhotoId::of_digest([0xab; 32])
}

/// Each kind with all its members.
fn whole() -> Vec<(Subject, Body)> {
    let bath = id(10);
    [before(bath), during(bath), after(), shelf_and_studio()].concat()
}

fn before(bath: Ulid) -> Vec<(Subject, Body)> {
    vec![
        (
            BATCH,
            Body::BatchStarted(BatchStarted {
                name: text(4),
                fibre: "cattail leaf".into(),
                fibre_key: Some("cattail".into()),
                cook: Some(cook()),
                raw_dry_g: Some(figure(1000.0)),
                note: text(5),
            }),
        ),
        (BATCH, Body::Renamed(Renamed { name: text(6) })),
        (BATCH, Body::Cooked(cook())),
        (
            BATCH,
            Body::Weighed(Weighed {
                wet_mass_g: figure(500.0),
                dryness: figure(0.2),
                how: DrynessFrom::DriedSample,
                sample: Some(DrySample { wet_g: figure(10.0), dry_g: figure(2.0) }),
            }),
        ),
        (BATCH, Body::Planned(Box::new(plan()))),
        (
            BATCH,
            Body::BathStarted(BathStarted {
                bath,
                plan: Some(id(4)),
                oxidant: Oxidant::Percarbonate,
                product: Some(Ulid(2)),
                product_amount: Some(Amount::MassG(figure(30.0))),
                water_added_ml: Some(figure(1900.0)),
                celsius: Some(figure(35.0)),
                schedule: schedule(),
            }),
        ),
        (
            BATCH,
            Body::ScheduleChanged(ScheduleChanged { bath, schedule: schedule(), why: text(7) }),
        ),
    ]
}

fn during(bath: Ulid) -> Vec<(Subject, Body)> {
    vec![
        (
            BATCH,
            Body::CueAnswered(CueAnswered {
                bath,
                cue: "stir-900".into(),
                outcome: CueOutcome::Done,
            }),
        ),
        (BATCH, Body::Stirred(Stirred { bath })),
        (
            BATCH,
            Body::Reheated(Reheated {
                bath,
                from_celsius: Some(figure(31.0)),
                to_celsius: Some(figure(36.0)),
            }),
        ),
        (
            BATCH,
            Body::Added(Added {
                bath: Some(bath),
                what: Additive::SodaAsh,
                product: Some(Ulid(2)),
                amount: Amount::MassG(figure(5.0)),
                note: text(8),
            }),
        ),
        (
            BATCH,
            Body::BathStopped(BathStopped { bath, why: StopReason::ReachedColour, note: text(9) }),
        ),
        (
            BATCH,
            Body::Reading(Reading {
                bath: Some(bath),
                what: ReadingOf::Ph,
                figure: Some(figure(10.1)),
                text: text(10),
            }),
        ),
        (
            BATCH,
            Body::Photo(Photo {
                photo: photo_id(),
                mime: "image/jpeg".into(),
                width_px: 640,
                height_px: 480,
                bytes: 12_345,
                orientation: 6,
                pulp: PulpState::Wet,
                bath: Some(bath),
                caption: text(11),
            }),
        ),
        (
            BATCH,
            Body::ColourReading(Box::new(ColourReading {
                photo: Some(photo_id()),
                bath: Some(bath),
                pulp: PulpState::Dried,
                lightness: figure(88.0),
                a: figure(0.7),
                b: figure(9.3),
                yellowness: Some(figure(18.0)),
                blue_index: Some(figure(70.0)),
                reference: "copy paper".into(),
                patches: vec![patch(), patch()],
                measures: [("chroma".to_owned(), figure(9.4)), ("b".to_owned(), figure(1.0))]
                    .into(),
                remarks: vec!["remark.mixed_light".into()],
                ageing: Some(Ageing::Window),
                earlier: Some(id(5)),
            })),
        ),
        (
            BATCH,
            Body::ColourTarget(Box::new(ColourTarget {
                lightness: figure(90.0),
                a: figure(0.5),
                b: figure(6.0),
                from: TargetFrom::Photo(photo_id()),
                name: text(12),
            })),
        ),
        (BATCH, Body::Note(Note { text: text(13) })),
    ]
}

fn after() -> Vec<(Subject, Body)> {
    vec![
        (
            BATCH,
            Body::Rinsed(Rinsed {
                water_l: figure(6.0),
                minutes: Some(figure(10.0)),
                dryness_after: Some(figure(0.25)),
                ph: Some(figure(7.5)),
                strip_mg_per_l: Some(figure(0.5)),
                note: text(14),
            }),
        ),
        (
            BATCH,
            Body::Antichlored(Antichlored {
                reagent: Antichlor::ThiosulfatePentahydrate,
                product: Some(Ulid(2)),
                grams: figure(3.0),
                minutes: Some(figure(10.0)),
                strip_mg_per_l: Some(figure(0.0)),
                note: text(15),
            }),
        ),
        (
            BATCH,
            Body::EndTest(EndTest {
                test: EndTestOf::ChlorineStrip,
                outcome: Outcome::Passed,
                figure: Some(figure(0.5)),
                note: text(16),
            }),
        ),
        (
            BATCH,
            Body::AcidFinished(AcidFinished {
                acid: Acid::Citric,
                product: Some(Ulid(2)),
                amount: Amount::MassG(figure(1.0)),
                ph_before: Some(figure(8.5)),
                ph_after: Some(figure(7.0)),
                note: text(17),
            }),
        ),
        (
            BATCH,
            Body::ReserveAdded(ReserveAdded {
                calcium_carbonate_g: figure(2.0),
                retention_share: Some(figure(0.5)),
            }),
        ),
        (BATCH, Body::SignedOff(SignedOff { complete: true, reason: text(18) })),
        (
            BATCH,
            Body::Stored(Stored {
                lot: Ulid(3),
                wet_mass_g: figure(400.0),
                dryness: figure(0.25),
                form: StoredForm::WetCold,
                place: text(19),
                keep_by: Some(date(2026, 9, 1)),
                note: text(20),
            }),
        ),
        (
            LOT,
            Body::Sheets(Sheets {
                count: 12,
                format: "A4".into(),
                width_mm: Some(210.0),
                height_mm: Some(297.0),
                grammage_g_per_m2: Some(figure(90.0)),
                dry_g: Some(figure(67.0)),
                note: text(21),
            }),
        ),
        (BATCH, Body::Abandoned(Abandoned { why: text(22) })),
        (LOT, Body::LotDrawn(LotDrawn { dry_g: figure(20.0), purpose: text(23) })),
        (
            LOT,
            Body::LotBlended(LotBlended {
                name: text(24),
                parts: vec![
                    LotPart { lot: Ulid(3), dry_g: figure(20.0) },
                    LotPart { lot: Ulid(4), dry_g: figure(10.0) },
                ],
                form: StoredForm::Frozen,
                place: text(25),
                keep_by: Some(date(2027, 1, 31)),
            }),
        ),
        (BATCH, Body::Withdrawn(Withdrawn { entry: id(6), why: text(26) })),
        (
            BATCH,
            Body::Corrected(Corrected {
                entry: id(7),
                body: Box::new(Body::Planned(Box::new(plan()))),
                at: Some(at(-3600)),
                why: text(27),
            }),
        ),
    ]
}

fn shelf_and_studio() -> Vec<(Subject, Body)> {
    vec![
        (
            BOTTLE,
            Body::ProductAdded(ProductAdded {
                name: text(28),
                product: ProductKind::Hypochlorite,
                strength: Some(strength()),
                size: Some(Amount::VolumeMl(figure(1000.0))),
                bought: Some(date(2026, 4, 1)),
                made: Some(date(2026, 3, 1)),
                opened: Some(date(2026, 4, 20)),
                storage: Storage { celsius: Some(18.0), dark: Some(true), closed: Some(false) },
                note: text(29),
            }),
        ),
        (BOTTLE, Body::ProductOpened(ProductOpened { on: date(2026, 5, 1) })),
        (
            BOTTLE,
            Body::StrengthFound(StrengthFound {
                method: StrengthMethod::IodometricTitration,
                strength: strength(),
                runs: vec![TitrationRun {
                    sample_ml: Some(1.0),
                    sample_g: Some(1.1),
                    titrant_mol_per_l: 0.1,
                    titrant_ml: 15.3,
                    blank_ml: Some(0.05),
                }],
                dilution: Some(9.0),
                strip_mg_per_l: Some(figure(50.0)),
                note: text(30),
            }),
        ),
        (BOTTLE, Body::ProductFinished(ProductFinished { why: text(31) })),
        (
            Subject::Studio,
            Body::OwnFigure(OwnFigure {
                what: OwnFigureOf::SqueezeDryness,
                figure: figure(0.22),
                note: text(32),
            }),
        ),
        (Subject::Studio, Body::DeviceNamed(DeviceNamed { name: text(33) })),
        (
            Subject::Studio,
            Body::ReferenceCard(ReferenceCard {
                role: CardRole::White,
                name: text(34),
                lightness: figure(96.0),
                a: figure(-0.5),
                b: figure(1.5),
            }),
        ),
    ]
}

/// Kinds that have members which may be absent, without them.
fn sparse() -> Vec<(Subject, Body)> {
    let bath = id(10);
    let none = String::new;
    let bare = Strength { density_g_per_ml: None, ..strength() };
    vec![
        (BATCH, Body::BatchStarted(BatchStarted::default())),
        (BATCH, Body::Cooked(Cook::default())),
        (
            BATCH,
            Body::Weighed(Weighed {
                wet_mass_g: figure(500.0),
                dryness: figure(0.2),
                how: DrynessFrom::Assumed,
                sample: None,
            }),
        ),
        (
            BATCH,
            Body::Planned(Box::new(PlanRecord {
                product: ProductUsed { shelf: None, name: none(), strength: bare },
                schedule: Schedule::default(),
                ph: None,
                loads: Vec::new(),
                dominant: Default::default(),
                cautions: Vec::new(),
                note: none(),
                ..plan()
            })),
        ),
        (
            BATCH,
            Body::BathStarted(BathStarted {
                bath,
                plan: None,
                oxidant: Oxidant::Peroxide,
                product: None,
                product_amount: None,
                water_added_ml: None,
                celsius: None,
                schedule: Schedule::default(),
            }),
        ),
        (
            BATCH,
            Body::ScheduleChanged(ScheduleChanged {
                bath,
                schedule: Schedule::default(),
                why: none(),
            }),
        ),
        (BATCH, Body::Reheated(Reheated { bath, from_celsius: None, to_celsius: None })),
        (
            BATCH,
            Body::Added(Added {
                bath: None,
                what: Additive::Water,
                product: None,
                amount: Amount::VolumeMl(figure(5.0)),
                note: none(),
            }),
        ),
        (BATCH, Body::BathStopped(BathStopped { bath, why: StopReason::Other, note: none() })),
        (
            BATCH,
            Body::Reading(Reading {
                bath: None,
                what: ReadingOf::Other,
                figure: None,
                text: none(),
            }),
        ),
        (
            BATCH,
            Body::Photo(Photo {
                photo: photo_id(),
                mime: none(),
                width_px: 0,
                height_px: u32::MAX,
                bytes: u64::MAX,
                orientation: 1,
                pulp: PulpState::Pressed,
                bath: None,
                caption: none(),
            }),
        ),
        (
            BATCH,
            Body::ColourReading(Box::new(ColourReading {
                photo: None,
                bath: None,
                pulp: PulpState::Wet,
                lightness: figure(88.0),
                a: figure(0.0),
                b: figure(-0.0),
                yellowness: None,
                blue_index: None,
                reference: none(),
                patches: Vec::new(),
                measures: Default::default(),
                remarks: Vec::new(),
                ageing: None,
                earlier: None,
            })),
        ),
        (
            BATCH,
            Body::ColourTarget(Box::new(ColourTarget {
                lightness: figure(1e-7),
                a: figure(1e21),
                b: figure(f64::MIN_POSITIVE),
                from: TargetFrom::Swatch(id(8)),
                name: none(),
            })),
        ),
        (BATCH, Body::Note(Note::default())),
        (
            BATCH,
            Body::Rinsed(Rinsed {
                water_l: figure(6.0),
                minutes: None,
                dryness_after: None,
                ph: None,
                strip_mg_per_l: None,
                note: none(),
            }),
        ),
        (
            BATCH,
            Body::Antichlored(Antichlored {
                reagent: Antichlor::Other,
                product: None,
                grams: figure(3.0),
                minutes: None,
                strip_mg_per_l: None,
                note: none(),
            }),
        ),
        (
            BATCH,
            Body::EndTest(EndTest {
                test: EndTestOf::Feel,
                outcome: Outcome::Unclear,
                figure: None,
                note: none(),
            }),
        ),
        (
            BATCH,
            Body::AcidFinished(AcidFinished {
                acid: Acid::Other,
                product: None,
                amount: Amount::VolumeMl(figure(1.0)),
                ph_before: None,
                ph_after: None,
                note: none(),
            }),
        ),
        (
            BATCH,
            Body::ReserveAdded(ReserveAdded {
                calcium_carbonate_g: figure(2.0),
                retention_share: None,
            }),
        ),
        (BATCH, Body::SignedOff(SignedOff::default())),
        (
            BATCH,
            Body::Stored(Stored {
                lot: Ulid(3),
                wet_mass_g: figure(400.0),
                dryness: figure(0.25),
                form: StoredForm::Dried,
                place: none(),
                keep_by: None,
                note: none(),
            }),
        ),
        (
            LOT,
            Body::Sheets(Sheets {
                count: 0,
                format: none(),
                width_mm: None,
                height_mm: None,
                grammage_g_per_m2: None,
                dry_g: None,
                note: none(),
            }),
        ),
        (BATCH, Body::Abandoned(Abandoned::default())),
        (LOT, Body::LotDrawn(LotDrawn { dry_g: figure(20.0), purpose: none() })),
        (
            LOT,
            Body::LotBlended(LotBlended {
                name: none(),
                parts: Vec::new(),
                form: StoredForm::Frozen,
                place: none(),
                keep_by: None,
            }),
        ),
        (BATCH, Body::Withdrawn(Withdrawn { entry: id(6), why: none() })),
        (
            BATCH,
            Body::Corrected(Corrected {
                entry: id(7),
                body: Box::new(Body::Corrected(Corrected {
                    entry: id(8),
                    body: Box::new(Body::Note(Note::default())),
                    at: None,
                    why: none(),
                })),
                at: None,
                why: none(),
            }),
        ),
        (
            BOTTLE,
            Body::ProductAdded(ProductAdded {
                name: none(),
                product: ProductKind::Other,
                strength: None,
                size: None,
                bought: None,
                made: None,
                opened: None,
                storage: Storage::default(),
                note: none(),
            }),
        ),
        (
            BOTTLE,
            Body::StrengthFound(StrengthFound {
                method: StrengthMethod::Other,
                strength: bare,
                runs: Vec::new(),
                dilution: None,
                strip_mg_per_l: None,
                note: none(),
            }),
        ),
        (
            BOTTLE,
            Body::StrengthFound(StrengthFound {
                method: StrengthMethod::Strip,
                strength: bare,
                runs: vec![TitrationRun {
                    sample_ml: None,
                    sample_g: None,
                    titrant_mol_per_l: 0.1,
                    titrant_ml: 15.0,
                    blank_ml: None,
                }],
                dilution: None,
                strip_mg_per_l: None,
                note: none(),
            }),
        ),
        (BOTTLE, Body::ProductFinished(ProductFinished::default())),
        (
            Subject::Studio,
            Body::OwnFigure(OwnFigure {
                what: OwnFigureOf::TapPh,
                figure: figure(7.6),
                note: none(),
            }),
        ),
    ]
}

/// Every word of every set, each in some entry.
fn words() -> Vec<(Subject, Body)> {
    [words_before(), words_during(), words_after(), words_of_shelf_and_studio()].concat()
}

fn words_before() -> Vec<(Subject, Body)> {
    use Alkali::{Lime, Lye, None, Other, SodaAsh, WashingSoda, WoodAsh};
    let cooks = [SodaAsh, WashingSoda, Lye, WoodAsh, Lime, None, Other]
        .map(|alkali| Body::Cooked(Cook { alkali: Some(alkali), ..Cook::default() }));
    let bases = [
        Basis::Measured,
        Basis::Strip,
        Basis::OwnRecord,
        Basis::Label,
        Basis::Computed,
        Basis::Assumed,
    ]
    .map(|basis| {
        let hours = Some(Estimate { basis, ..figure(3.0) });
        Body::Cooked(Cook { hours, ..Cook::default() })
    });
    let weighed =
        [DrynessFrom::DriedSample, DrynessFrom::OwnFigure, DrynessFrom::Assumed].map(|how| {
            Body::Weighed(Weighed {
                wet_mass_g: figure(1.0),
                dryness: figure(0.2),
                how,
                sample: Option::None,
            })
        });
    let aims = [
        Aim::LiquorStrength { g_per_l: 2.0, counted_as: Active::AvailableChlorine },
        Aim::LiquorStrength { g_per_l: 3.0, counted_as: Active::SodiumHypochlorite },
        Aim::Charge { share: 0.02, counted_as: Active::HydrogenPeroxide },
        Aim::Charge { share: 0.03, counted_as: Active::Product },
    ]
    .map(|aim| Body::Planned(Box::new(PlanRecord { aim, ..plan() })));
    let strengths = [
        StrengthBasis::NaoclPercentByMass,
        StrengthBasis::NaoclPercentByVolume,
        StrengthBasis::AvailableChlorineGPerL,
        StrengthBasis::AvailableChlorinePercentByMass,
        StrengthBasis::AvailableChlorinePercentByVolume,
        StrengthBasis::HydrogenPeroxidePercentByMass,
        StrengthBasis::HydrogenPeroxidePercentByVolume,
        StrengthBasis::PercarbonatePercentByMass,
        StrengthBasis::ActiveOxygenPercentByMass,
        StrengthBasis::SubstancePercentByMass,
    ]
    .map(|stated_as| {
        let product =
            ProductUsed { strength: Strength { stated_as, ..strength() }, ..plan().product };
        Body::Planned(Box::new(PlanRecord { product, ..plan() }))
    });
    let bodies = cooks.into_iter().chain(bases).chain(weighed).chain(aims).chain(strengths);
    bodies.map(|body| (BATCH, body)).collect()
}

fn words_during() -> Vec<(Subject, Body)> {
    let bath = id(10);
    let oxidants = [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide]
        .map(|oxidant| Body::Planned(Box::new(PlanRecord { oxidant, ..plan() })));
    let answers = [CueOutcome::Done, CueOutcome::Skipped]
        .map(|outcome| Body::CueAnswered(CueAnswered { bath, cue: "ph-600".into(), outcome }));
    let added = [
        Additive::Hypochlorite,
        Additive::Percarbonate,
        Additive::Peroxide,
        Additive::Water,
        Additive::SodaAsh,
        Additive::WashingSoda,
        Additive::Lye,
        Additive::BakingSoda,
        Additive::Stabiliser,
        Additive::Other,
    ]
    .map(|what| {
        let amount = Amount::MassG(figure(1.0));
        Body::Added(Added { bath: None, what, product: None, amount, note: String::new() })
    });
    let stops = [
        StopReason::ReachedColour,
        StopReason::TimeUp,
        StopReason::Spent,
        StopReason::FibreSuffering,
        StopReason::Unsafe,
        StopReason::Other,
    ]
    .map(|why| Body::BathStopped(BathStopped { bath, why, note: String::new() }));
    let readings = [
        ReadingOf::Ph,
        ReadingOf::AvailableChlorineMgPerL,
        ReadingOf::PeroxideMgPerL,
        ReadingOf::Celsius,
        ReadingOf::StarchIodide,
        ReadingOf::HardnessMgPerL,
        ReadingOf::TapPh,
        ReadingOf::Other,
    ]
    .map(|what| Body::Reading(Reading { bath: None, what, figure: None, text: String::new() }));
    let photos = [PulpState::Wet, PulpState::Pressed, PulpState::Dried].map(|pulp| {
        Body::Photo(Photo {
            photo: photo_id(),
            mime: "image/webp".into(),
            width_px: 1,
            height_px: 2,
            bytes: 3,
            orientation: 8,
            pulp,
            bath: None,
            caption: String::new(),
        })
    });
    let target = |from| {
        let name = String::new();
        let (lightness, a, b) = (figure(90.0), figure(1.0), figure(6.0));
        Body::ColourTarget(Box::new(ColourTarget { lightness, a, b, from, name }))
    };
    let whites = PaperWhite::ALL.map(|white| target(TargetFrom::Step(white)));
    let ageings = Ageing::ALL.map(|ageing| {
        Body::ColourReading(Box::new(ColourReading {
            photo: None,
            bath: None,
            pulp: PulpState::Dried,
            lightness: figure(88.0),
            a: figure(0.7),
            b: figure(9.3),
            yellowness: None,
            blue_index: None,
            reference: "copy paper".into(),
            patches: Vec::new(),
            measures: Default::default(),
            remarks: Vec::new(),
            ageing: Some(ageing),
            earlier: None,
        }))
    });
    let bodies = oxidants.into_iter().chain(answers).chain(added).chain(stops).chain(readings);
    let bodies = bodies.chain(photos).chain(whites).chain(ageings);
    bodies.map(|body| (BATCH, body)).collect()
}

fn words_after() -> Vec<(Subject, Body)> {
    let antichlors = [
        Antichlor::ThiosulfatePentahydrate,
        Antichlor::ThiosulfateAnhydrous,
        Antichlor::Sulfite,
        Antichlor::Bisulfite,
        Antichlor::Metabisulfite,
        Antichlor::AscorbicAcid,
        Antichlor::Peroxide,
        Antichlor::Other,
    ]
    .map(|reagent| {
        Body::Antichlored(Antichlored {
            reagent,
            product: None,
            grams: figure(1.0),
            minutes: None,
            strip_mg_per_l: None,
            note: String::new(),
        })
    });
    let tests = [
        EndTestOf::ChlorineStrip,
        EndTestOf::PeroxideStrip,
        EndTestOf::StarchIodide,
        EndTestOf::LastRinsePh,
        EndTestOf::Feel,
        EndTestOf::Smell,
    ]
    .map(|test| {
        let outcome = Outcome::Passed;
        Body::EndTest(EndTest { test, outcome, figure: None, note: String::new() })
    });
    let outcomes = [Outcome::Passed, Outcome::Failed, Outcome::Unclear].map(|outcome| {
        let test = EndTestOf::Smell;
        Body::EndTest(EndTest { test, outcome, figure: None, note: String::new() })
    });
    let acids = [Acid::Citric, Acid::Acetic, Acid::Other].map(|acid| {
        Body::AcidFinished(AcidFinished {
            acid,
            product: None,
            amount: Amount::MassG(figure(1.0)),
            ph_before: None,
            ph_after: None,
            note: String::new(),
        })
    });
    let stored = [StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried].map(|form| {
        Body::Stored(Stored {
            lot: Ulid(3),
            wet_mass_g: figure(1.0),
            dryness: figure(0.2),
            form,
            place: String::new(),
            keep_by: None,
            note: String::new(),
        })
    });
    let bodies = antichlors.into_iter().chain(tests).chain(outcomes).chain(acids).chain(stored);
    bodies.map(|body| (BATCH, body)).collect()
}

fn words_of_shelf_and_studio() -> Vec<(Subject, Body)> {
    use ProductKind as Kind;
    let products = [
        Kind::Hypochlorite,
        Kind::Percarbonate,
        Kind::Peroxide,
        Kind::SodaAsh,
        Kind::WashingSoda,
        Kind::Lye,
        Kind::BakingSoda,
        Kind::Thiosulfate,
        Kind::Sulfite,
        Kind::Bisulfite,
        Kind::Metabisulfite,
        Kind::AscorbicAcid,
        Kind::CitricAcid,
        Kind::AceticAcid,
        Kind::CalciumCarbonate,
        Kind::Other,
    ]
    .map(|product| {
        let body = Body::ProductAdded(ProductAdded {
            name: "jar".into(),
            product,
            strength: None,
            size: None,
            bought: None,
            made: None,
            opened: None,
            storage: Storage::default(),
            note: String::new(),
        });
        (BOTTLE, body)
    });
    let methods = [
        StrengthMethod::IodometricTitration,
        StrengthMethod::PermanganateTitration,
        StrengthMethod::Strip,
        StrengthMethod::Other,
    ]
    .map(|method| {
        let body = Body::StrengthFound(StrengthFound {
            method,
            strength: strength(),
            runs: Vec::new(),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        });
        (BOTTLE, body)
    });
    let vessel = || text(35);
    let figures = [
        OwnFigureOf::SqueezeDryness,
        OwnFigureOf::GramsPerSpoon { of: Additive::Percarbonate, spoon_ml: 15 },
        OwnFigureOf::CoolingTauMinutes { vessel: vessel() },
        OwnFigureOf::WashingEfficiency,
        OwnFigureOf::TapPh,
        OwnFigureOf::TapHardnessMgPerL,
        OwnFigureOf::RoomCelsius,
        OwnFigureOf::LoadMl { vessel: vessel() },
        OwnFigureOf::Yield { fibre: "flax".into() },
    ]
    .map(|what| {
        let body = OwnFigure { what, figure: figure(1.0), note: String::new() };
        (Subject::Studio, Body::OwnFigure(body))
    });
    let cards = [CardRole::White, CardRole::Grey].map(|role| {
        let (lightness, a, b) = (figure(96.0), figure(0.0), figure(1.0));
        let body = ReferenceCard { role, name: "card".into(), lightness, a, b };
        (Subject::Studio, Body::ReferenceCard(body))
    });
    products.into_iter().chain(methods).chain(figures).chain(cards).collect()
}

/// Entries that no version writes.
fn odd() -> Vec<String> {
    let bodies = [
        // A kind to come, with nulls and floats that look like whole numbers.
        r#"{"aura":{"b":1.0,"c":1},"kind":"hummed_to","list":[1.50,null,{"z":null}],"tune":null}"#,
        // No kind, and one that is no text.
        r#"{"text":"x"}"#,
        r#"{"kind":7,"text":"x"}"#,
        "{}",
        // No object at all.
        "[]",
        "null",
        r#""stirred""#,
        // Members to come at several depths, in objects and in lists.
        r#"{"kind":"rinsed","mood":"calm","water_l":{"basis":"measured","high":2.2,"low":1.8,"meter":"x9","value":2.0}}"#,
        r#"{"kind":"lot_blended","form":"frozen","parts":[{"dry_g":{"basis":"measured","high":1.0,"low":1.0,"value":1.0,"by":{"deep":[1,{"n":null}]}},"lot":"00000000000000000000000001","shade":3},{"dry_g":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"lot":"00000000000000000000000002"}]}"#,
        r#"{"kind":"own_figure","what":{"grams_per_spoon":{"of":"lye","spoon_ml":15,"heaped":true}},"figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"note","text":"x","mood":"calm"},"more":1}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"hummed_to","n":1,"m":null}}"#,
        // Estimate members that are null, blank or absent.
        r#"{"kind":"rinsed","water_l":{"basis":"measured","high":2.2,"low":1.8,"value":2.0},"minutes":null,"ph":null,"note":null}"#,
        r#"{"kind":"rinsed","water_l":{"basis":"measured","high":2.2,"low":1.8,"value":2.0},"note":""}"#,
        r#"{"kind":"rinsed","water_l":null}"#,
        r#"{"kind":"rinsed"}"#,
        r#"{"kind":"renamed"}"#,
        r#"{"kind":"renamed","name":null}"#,
        r#"{"kind":"note","text":null}"#,
        r#"{"kind":"sheets","count":3,"format":null,"width_mm":null,"dry_g":null}"#,
        r#"{"kind":"product_added","name":"jar","product":"lye"}"#,
        r#"{"kind":"product_added","name":"jar","product":"lye","storage":null,"size":null}"#,
        r#"{"kind":"product_added","name":"jar","product":"lye","storage":{"celsius":null,"shelf":"top"}}"#,
        r#"{"kind":"batch_started","name":"n","fibre":"f","cook":null}"#,
        r#"{"kind":"batch_started","name":"n","fibre":"f","cook":{}}"#,
        r#"{"kind":"schedule_changed","bath":"00000000000000000000000001","schedule":{"ph_at_min":null,"strip_at_min":[],"stop_at_min":null}}"#,
        r#"{"kind":"schedule_changed","bath":"00000000000000000000000001","schedule":null}"#,
        r#"{"kind":"strength_found","method":"strip","runs":null,"strength":{"figure":{"basis":"strip","high":1.0,"low":1.0,"value":1.0},"stated_as":"naocl_percent_by_mass"}}"#,
        r#"{"kind":"signed_off","complete":null}"#,
        r#"{"kind":"signed_off","complete":"true"}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":null}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{},"at":null}"#,
        // Words and tags to come, and ones of another shape.
        r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":"eclipse"}"#,
        r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":7}"#,
        r#"{"kind":"own_figure","what":"moon_phase","figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"own_figure","what":{"squeeze_dryness":null},"figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"own_figure","what":{"yield":{"fibre":"x"},"load_ml":{"vessel":"y"}},"figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"own_figure","what":{},"figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"own_figure","what":"yield","figure":{"basis":"measured","high":1.0,"low":1.0,"value":1.0}}"#,
        r#"{"kind":"lot_drawn","dry_g":{"basis":"felt","high":1.0,"low":1.0,"value":1.0}}"#,
        // Numbers of another shape: whole ones for floats are read, floats for whole ones are not.
        r#"{"kind":"lot_drawn","dry_g":{"basis":"measured","high":3,"low":1,"value":2}}"#,
        r#"{"kind":"lot_drawn","dry_g":{"basis":"measured","high":"3","low":1,"value":2}}"#,
        r#"{"kind":"lot_drawn","dry_g":2.0}"#,
        r#"{"kind":"sheets","count":3.0}"#,
        r#"{"kind":"sheets","count":-3}"#,
        r#"{"kind":"sheets","count":4294967296}"#,
        r#"{"kind":"sheets","count":3,"width_mm":210}"#,
        r#"{"kind":"lot_drawn","dry_g":{"basis":"measured","high":1.7976931348623157e308,"low":5e-324,"value":0.1}}"#,
        r#"{"kind":"lot_drawn","dry_g":{"basis":"measured","high":9007199254740993,"low":1E0,"value":1e2}}"#,
        // Texts that are no ids or days, and other spellings of those that are.
        r#"{"kind":"stirred","bath":"0000000000000000000000000A"}"#,
        r#"{"kind":"stirred","bath":"0000000000000000000000000a"}"#,
        r#"{"kind":"stirred","bath":"1"}"#,
        r#"{"kind":"stirred","bath":1}"#,
        r#"{"kind":"product_opened","on":"2026-05-01"}"#,
        r#"{"kind":"product_opened","on":"2026-02-30"}"#,
        r#"{"kind":"product_opened","on":"1 May"}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"note","text":"x"},"at":"2026-05-03T12:22:01+02:00"}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"note","text":"x"},"at":"2026-05-03t10:22:01.5z"}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"note","text":"x"},"at":"2026-06-30T23:59:60Z"}"#,
        r#"{"kind":"corrected","entry":"00000000000000000000000001","body":{"kind":"note","text":"x"},"at":"yesterday"}"#,
        r#"{"kind":"colour_target","lightness":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"a":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"b":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"from":{"photo":"ABCD"}}"#,
        r#"{"kind":"colour_target","lightness":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"a":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"b":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"from":{"step":"oat"},"hue":"warm"}"#,
    ];
    let mut all: Vec<String> = bodies.into_iter().map(|body| around("", body)).collect();
    let note = r#"{"kind":"note","text":"x"}"#;
    // The envelope: members to come, known ones of another shape, absent ones.
    for more in [
        r#","future":{"n":1,"x":1.0,"none":null}"#,
        r#","future":null"#,
        r#","zone":null"#,
        r#","zone":"","about":{"lot":"00000000000000000000000001"}"#,
        r#","about":"studio""#,
        r#","about":{"studio":null}"#,
        r#","about":{"shelf":"00000000000000000000000001"}"#,
        r#","about":"batch""#,
        r#","at":"2026-05-03T12:20:00+02:00""#,
        r#","at":"2026-05-03 10:20:00Z""#,
        r#","at":"2026-05-03T10:20:00.123456789Z""#,
        r#","at":1777800000"#,
        r#","device":"""#,
        r#","device":"Phone""#,
        r#","stamp":"2026-05-03T09:20:00.000Z-00g0-k7m2""#,
        r#","stamp":"2026-05-03T11:20:00.000+02:00-0000-k7m2""#,
        r#","stamp":null"#,
        r#","id":null"#,
        r#","id":"x""#,
    ] {
        all.push(around(more, note));
    }
    all.extend(["", "{}", "[]", "null", r#"{"id":"x"}"#, "not JSON"].map(str::to_owned));
    all
}

/// An entry with this body; of a member given twice the last counts.
fn around(more: &str, body: &str) -> String {
    format!(
        concat!(
            r#"{{"id":"01KQPJ6CG00000000000000005","stamp":"2026-05-03T09:20:00.000Z-0000-k7m2","#,
            r#""device":"k7m2","at":"2026-05-03T09:20:00Z","zone":"Europe/Lisbon","#,
            r#""about":{{"batch":"00000000000000000000000001"}},"body":{body}{more}}}"#
        ),
        body = body,
        more = more
    )
}
