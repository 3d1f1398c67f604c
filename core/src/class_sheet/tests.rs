//! Sums, limits and times of a class.

#![allow(clippy::unwrap_used)]

use proptest::prelude::*;

use super::*;
use crate::{
    bath::{
        BathAim, BathSize, BathVessel, Bleach, Bottle, LabelBasis, PeroxideBasis, PeroxideBottle,
        PlanRequest, Powder, PowderBasis, VesselKind,
    },
    caution::{CautionId, Residual},
    journal::ProductUsed,
    property,
    pulp::{WetPulp, cook::CookAlkali},
    quantity::{Basis, Celsius, Estimate, grams, in_millilitres, millilitres, share, weighed},
};

fn bleach(kind: u8) -> Bleach {
    match kind {
        0 => Bleach::Hypochlorite(Bottle::labelled(4.5, LabelBasis::NaoclByMass)),
        1 => Bleach::Percarbonate(Powder::labelled(share(0.13), PowderBasis::ActiveOxygen)),
        _ => Bleach::Peroxide(PeroxideBottle::labelled(12.0, PeroxideBasis::ByMass)),
    }
}

fn class(
    people: u32,
    per_table: u32,
    pot_for: PotFor,
    kind: u8,
    dry: f64,
    litres: f64,
) -> ClassRequest {
    let dryness = Estimate { value: 0.2, low: 0.15, high: 0.25, basis: Basis::Assumed }.map(share);
    let bleach = bleach(kind);
    let (aim, size) = (BathAim::Charge(share(0.02)), BathSize::Consistency(share(0.05)));
    let pulp = WetPulp::new(weighed(grams(500.0)), dryness).unwrap();
    let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(38.0).unwrap());
    let request = PlanRequest { residual: Residual::None, minutes: Some(60.0), ..request };
    ClassRequest {
        people,
        per_table,
        pot_for,
        dry_each: grams(dry),
        dryness,
        vessel: BathVessel { capacity: millilitres(1000.0 * litres), kind: VesselKind::Pot },
        bath: Some(ClassBath { product: ProductUsed::typed(&bleach), request }),
        cook_yield: Estimate::exact(share(0.5), Basis::Assumed),
        cook_alkali: CookAlkali::SodaAsh,
        cook_charge: Estimate::exact(share(0.2), Basis::Assumed),
        cook_celsius: 98.0,
        cook_minutes: 120.0,
        cook_rinses: USUAL_COOK_RINSES,
        wash_rinses: USUAL_WASH_RINSES,
        sheets_each: 5,
        stations: STATIONS
            .into_iter()
            .map(|station| StationSetting { station, minutes: None, places: 4 })
            .collect(),
        start: 540.0,
        wet_in_stock: None,
    }
}

fn usual() -> ClassRequest {
    class(12, 4, PotFor::Table, 0, 25.0, 10.0)
}

fn portion(sheet: &ClassSheet, station: Station, item: ClassItem) -> &Portion {
    let station = sheet.stations.iter().find(|one| one.station == station).unwrap();
    station.portions.iter().find(|one| one.item == item).unwrap()
}

#[test]
fn twelve_people_at_three_tables() {
    let sheet = class_sheet(&usual()).unwrap();
    assert_eq!(sheet.tables, [4, 4, 4]);
    assert_eq!(sheet.table_sizes, [4]);
    // 25 g of dry fibre each at 20 %: 125 g of wet pulp, 500 g at a table.
    let pulp = portion(&sheet, Station::Bath, ClassItem::WetPulp);
    assert_eq!((pulp.share.person, pulp.share.all), (125.0, 1500.0));
    assert_eq!(pulp.share.tables, [500.0]);
    // 2 g of available chlorine of 100 g of fibre, at about 46 g/L in a 4.5 % bottle.
    let bleach = portion(&sheet, Station::Bath, ClassItem::Bleach);
    assert!((40.0..50.0).contains(&bleach.share.tables[0]), "{bleach:?}");
    assert_eq!(bleach.share.all, 3.0 * bleach.share.tables[0]);
    let sheets = portion(&sheet, Station::Sheets, ClassItem::Sheets);
    assert_eq!((sheets.share.person, sheets.share.tables[0], sheets.share.all), (5.0, 20.0, 60.0));
}

#[test]
fn a_table_begins_when_the_one_before_it_has_left_a_place() {
    let mut request = usual();
    request.stations =
        [(Station::Plan, 15.0, 3), (Station::Bath, 75.0, 3), (Station::Wash, 40.0, 1)]
            .map(|(station, minutes, places)| StationSetting {
                station,
                minutes: Some(minutes),
                places,
            })
            .to_vec();
    let sheet = class_sheet(&request).unwrap();
    // One sink for 40 minutes sets the pace.
    assert_eq!(sheet.schedule.gap, 40.0);
    assert_eq!(sheet.schedule.stations[2].begins, [630.0, 670.0, 710.0]);
    assert_eq!(sheet.schedule.ends, 750.0);
    let pace = sheet.schedule.pace.unwrap();
    assert_eq!((pace.station, pace.places), (Station::Wash, 1));
    // Two sinks: every 20 minutes.
    assert_eq!(pace.ends_with_one_more, 540.0 + 2.0 * 20.0 + 130.0);
}

#[test]
fn the_teachers_pot_is_one_bath_for_all_and_only_the_sheets_are_in_turn() {
    let mut request = class(10, 4, PotFor::Class, 1, 20.0, 60.0);
    request.stations.last_mut().unwrap().places = 1;
    let sheet = class_sheet(&request).unwrap();
    assert_eq!(sheet.tables, [4, 3, 3]);
    let together =
        |station: &ScheduledStation| station.begins.iter().all(|t| *t == station.begins[0]);
    let (sheets, before) = sheet.schedule.stations.split_last().unwrap();
    assert!(before.iter().all(|one| one.together && together(one)));
    assert_eq!(sheets.begins[1] - sheets.begins[0], 60.0);
    assert_eq!(sheet.bath.unwrap().all.len(), 1);
}

#[test]
fn a_class_that_ends_past_midnight_or_stops_its_bath_early_is_refused() {
    let mut late = usual();
    late.start = 1200.0;
    assert!(matches!(class_sheet(&late), Err(ClassError::PastMidnight { .. })));
    let mut short = usual();
    short.stations[3].minutes = Some(30.0);
    let least = 60.0;
    let error = ClassError::TooShort { station: Station::Bath, given: 30.0, least };
    assert_eq!(class_sheet(&short), Err(error));
}

#[test]
fn what_is_missing_in_stock_is_said() {
    let stocked = |g: f64| ClassRequest { wet_in_stock: Some(grams(g)), ..usual() };
    assert_eq!(class_sheet(&stocked(2000.0)).unwrap().short, None);
    assert_eq!(class_sheet(&stocked(1200.0)).unwrap().short, Some(grams(300.0)));
}

#[test]
fn a_refused_bath_refuses_the_sheet_and_names_its_field() {
    let mut request = usual();
    let bath = &mut request.bath.as_mut().unwrap().request;
    bath.size = BathSize::Consistency(share(0.19));
    let error = class_sheet(&request).unwrap_err();
    assert!(matches!(error, ClassError::Plan(_)), "{error:?}");
    assert!(error.message().field.is_some());
}

#[test]
fn limits_are_refused_by_their_field() {
    let refused = |change: &dyn Fn(&mut ClassRequest)| {
        let mut request = usual();
        change(&mut request);
        class_sheet(&request).unwrap_err().message().field
    };
    assert_eq!(refused(&|one| one.people = 0), Some(CLASS_PEOPLE));
    assert_eq!(refused(&|one| one.people = 200), Some(CLASS_PEOPLE));
    assert_eq!(refused(&|one| (one.people, one.per_table) = (30, 2)), Some(CLASS_TABLE));
    assert_eq!(refused(&|one| one.dry_each = grams(0.1)), Some(CLASS_DRY));
    assert_eq!(refused(&|one| one.wash_rinses = 0), Some(CLASS_RINSES));
    assert_eq!(refused(&|one| one.stations[0].places = 0), Some(CLASS_PLACES));
    assert_eq!(
        class_sheet(&ClassRequest { stations: vec![], ..usual() }),
        Err(ClassError::NoStation)
    );
    assert_eq!(class_sheet(&ClassRequest { bath: None, ..usual() }), Err(ClassError::NoBath));
}

#[test]
fn a_table_of_two_people_with_little_fibre_takes_a_solution_that_can_be_measured() {
    let sheet = class_sheet(&class(2, 2, PotFor::Table, 0, 1.0, 10.0)).unwrap();
    let bath = sheet.bath.unwrap();
    let need = match bath.all[0].plan.dose {
        crate::bath::Dose::Bottle(need) => need,
        other => panic!("{other:?}"),
    };
    let crate::bath::BleachAmount::Bottle(measured) = bath.all[0].measure.each.dose.amount() else {
        panic!("a bottle is poured")
    };
    assert!(need.low <= measured && measured <= need.high);
}

fn any_class() -> impl Strategy<Value = ClassRequest> {
    let pot = prop_oneof![Just(PotFor::Person), Just(PotFor::Table), Just(PotFor::Class)];
    let numbers = (1u32..=MOST_PEOPLE, 1u32..=8, 1.0f64..60.0, 2.0f64..60.0);
    let times = proptest::collection::vec((5.0f64..60.0, 1u32..6), STATIONS.len());
    (numbers, pot, 0u8..3, times, 0u8..128).prop_map(
        |((people, per_table, dry, litres), pot_for, kind, times, chosen)| {
            let mut request = class(people, per_table, pot_for, kind, dry, litres);
            request.start = 0.0;
            request.stations = STATIONS
                .into_iter()
                .zip(times)
                .enumerate()
                .filter(|(nth, _)| chosen & (1 << nth) != 0)
                .map(|(_, (station, (minutes, places)))| {
                    let timed = !matches!(station, Station::Cook | Station::Bath);
                    StationSetting { station, minutes: timed.then_some(minutes), places }
                })
                .collect();
            request
        },
    )
}

/// A class that has no sheet is none of the property's.
fn made(request: &ClassRequest) -> Option<ClassSheet> {
    class_sheet(request).ok()
}

#[test]
fn parts_add_up_to_the_whole() {
    property::check_cases(200, any_class(), 60, |request| {
        let Some(sheet) = made(&request) else { return Ok(false) };
        prop_assert_eq!(sheet.tables.iter().sum::<u32>(), request.people);
        for portion in sheet.stations.iter().flat_map(|station| &station.portions) {
            let of_size = |size: &u32| {
                let nth = sheet.table_sizes.iter().position(|one| one == size).unwrap();
                portion.share.tables[nth]
            };
            let sum: f64 = sheet.tables.iter().map(of_size).sum();
            let off = (sum - portion.share.all).abs();
            prop_assert!(off <= 1e-9 * portion.share.all.max(1.0), "{portion:?}");
            let largest = f64::from(sheet.table_sizes[0]);
            let person = portion.share.person * largest;
            prop_assert!((person - portion.share.tables[0]).abs() < 1e-6);
        }
        Ok(true)
    });
}

#[test]
fn no_pot_is_fuller_than_its_plan_allows_and_its_amounts_are_in_range() {
    property::check_cases(200, any_class(), 60, |request| {
        let Some(sheet) = made(&request) else { return Ok(false) };
        let Some(bath) = &sheet.bath else { return Ok(false) };
        for one in &bath.all {
            let working = in_millilitres(request.vessel.working());
            let filled = in_millilitres(one.plan.loads.each.volume);
            prop_assert!(filled <= working * 1.000_01, "{filled} in {working}");
            prop_assert_eq!(one.plan.loads.count, one.measure.loads);
            // Loads of many are stored in part, with the whole number.
            let need = match one.plan.dose {
                crate::bath::Dose::Bottle(need) => need.map(in_millilitres),
                crate::bath::Dose::Powder(need) => need.map(in_grams),
            };
            let measured = match one.measure.each.dose.amount() {
                crate::bath::BleachAmount::Bottle(volume) => in_millilitres(volume),
                crate::bath::BleachAmount::Powder(mass) => in_grams(mass),
            };
            let whole = measured * f64::from(one.measure.loads);
            prop_assert!(need.low * 0.999 <= whole && whole <= need.high * 1.001, "{one:?}");
        }
        Ok(true)
    });
}

#[test]
fn no_station_has_more_tables_than_places_and_none_waits() {
    property::check_cases(300, any_class(), 100, |request| {
        let Some(sheet) = made(&request) else { return Ok(false) };
        let mut free = vec![request.start; sheet.tables.len()];
        let mut first = true;
        for (setting, at) in request.stations.iter().zip(&sheet.schedule.stations) {
            let ends = |begin: &f64| begin + at.minutes;
            if !at.together {
                for begin in &at.begins {
                    let here = at.begins.iter().filter(|one| **one <= *begin && ends(one) > *begin);
                    prop_assert!(here.count() <= setting.places as usize, "{at:?}");
                }
            }
            for (begin, free) in at.begins.iter().zip(&free) {
                prop_assert!(begin >= free);
                // After the first station nobody waits, unless for all to come together.
                prop_assert!(
                    first || at.together || *begin == *free || request.is_together(Station::Bath)
                );
            }
            free = at.begins.iter().map(ends).collect();
            first = false;
        }
        prop_assert!(free.iter().all(|end| *end <= sheet.schedule.ends));
        Ok(true)
    });
}

#[test]
fn each_caution_stands_at_one_station() {
    property::check_cases(60, any_class(), 20, |request| {
        let Some(sheet) = made(&request) else { return Ok(false) };
        let mut seen: Vec<CautionId> = Vec::new();
        for caution in sheet.stations.iter().flat_map(|station| &station.cautions) {
            prop_assert!(!seen.contains(&caution.id), "{:?} twice", caution.id);
            seen.push(caution.id);
        }
        prop_assert!(!seen.contains(&CautionId::LabelFirst));
        prop_assert!(sheet.label_first.is_some());
        if request.has(Station::Bath) {
            let bleach = request.bath.as_ref().unwrap().request.bleach;
            let acid = match bleach {
                Bleach::Hypochlorite(_) => CautionId::BleachWithAcid,
                _ => CautionId::PeroxideWithAcid,
            };
            prop_assert!(seen.contains(&acid) && seen.contains(&CautionId::EyesAndHands));
        }
        Ok(true)
    });
}

#[test]
fn the_plan_of_all_is_that_of_all_the_pulp() {
    let request = usual();
    let sheet = class_sheet(&request).unwrap();
    let record = sheet.plan_of_all(&request).unwrap().unwrap();
    assert_eq!(record.wet_mass_g.value, 1500.0);
    let none = ClassRequest { bath: None, stations: usual().stations[..1].to_vec(), ..usual() };
    assert_eq!(class_sheet(&none).unwrap().plan_of_all(&none), Ok(None));
}
