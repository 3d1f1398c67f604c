//! Every message that the core makes for an error, a caution or a remedy exists in English, and
//! the core gives it a value for each of its variables. That keys alone exist is `keys.rs`'s.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;

use bleachfield_core::{
    bath::{
        BleachAmount, DilutionError, HeatError, Oxidant, PeroxideBasis, PeroxideBottle, PlanError,
        Remedy,
    },
    caution::{Act, BleachInUse, CautionId, Material, Residual, Situation, cautions},
    chemistry::compatibility::{Ingredient, clash},
    message::{Field, Message, Value},
    pulp::FIBRES,
    quantity::{
        Celsius, Interval, NumberSpec, OutOfRange, QuantityKind, SPOON_POWDERS, grams,
        grams_per_litre, millilitres, share,
    },
};

use crate::locale::ENGLISH;

/// The variables of a message, which must exist.
fn variables(key: &str) -> &'static BTreeSet<String> {
    ENGLISH.get(key).unwrap_or_else(|| panic!("no message {key}"))
}

/// The message and every message in its values exist, and each of its variables has a value.
fn assert_complete(message: &Message) {
    for (_, value) in &message.values {
        if let Value::Word(key) = value {
            variables(key);
        }
    }
    if let Some(field) = message.field {
        variables(&format!("field-{}", field.0));
    }
    for variable in variables(message.key) {
        let given = message.values.iter().any(|(name, _)| name == variable)
            || variable == "field" && message.field.is_some();
        assert!(given, "{}: {variable} is not given", message.key);
    }
}

fn celsius(value: f64) -> Celsius {
    Celsius::new(value).unwrap()
}

#[test]
fn parse_errors() {
    use QuantityKind::{Count, Duration, Mass, Share, Temperature, Volume};
    let mut keys = Vec::new();
    for (kind, text) in [
        (Volume, ""),
        (Volume, "two"),
        (Volume, "1.2.3"),
        (Volume, "1/0"),
        (Volume, "-3"),
        (Volume, "5 kg"),
        (Volume, "3 buckets"),
        (Mass, "3 lb 4"),
        (Mass, "1,234"),
        (Duration, "1:30"),
        (Volume, "3 pt"),
        (Count, "1.5"),
        (Temperature, "20 F"),
        (Share, "101"),
    ] {
        let message = NumberSpec::new(Field("ph"), kind).parse(text).unwrap_err().message();
        assert_complete(&message);
        keys.push(message.key);
    }
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), 13, "one text for each reason: {keys:?}");
    for kind in [
        QuantityKind::Mass,
        QuantityKind::Volume,
        QuantityKind::Share,
        QuantityKind::Temperature,
        QuantityKind::Duration,
        QuantityKind::Concentration,
        QuantityKind::Density,
        QuantityKind::Ph,
        QuantityKind::Number,
        QuantityKind::Count,
    ] {
        variables(kind.accepts());
        variables(kind.word());
    }
}

#[test]
fn plan_errors_and_remedies() {
    let (c, m) = (grams_per_litre(1.0), grams(1.0));
    let out = OutOfRange {
        subject: Field("ph"),
        given: 15.0,
        min: 0.0,
        max: 14.0,
        kind: QuantityKind::Ph,
    };
    for error in [
        PlanError::OutOfRange(out),
        PlanError::WouldMix { old: Oxidant::Hypochlorite, new: Oxidant::Percarbonate },
        PlanError::PeroxideTooStrong { given: share(0.35) },
        PlanError::PeroxideTooUncertain {
            low: grams_per_litre(30.0),
            high: grams_per_litre(125.0),
        },
        PlanError::WouldMix { old: Oxidant::Peroxide, new: Oxidant::Hypochlorite },
        PlanError::TooWeak { bottle: c, target: c },
        PlanError::PulpTooWet { water: m, room: m },
        PlanError::NoRoomForBleach { takes: Some(m), left: m },
        PlanError::NoRoomForBleach { takes: None, left: m },
        PlanError::WillNotDissolve { given: c, limit: c },
        PlanError::NotEnough { need: BleachAmount::Powder(m) },
        PlanError::NotFinite,
        PlanError::AcidPulp { ph: 3.5 },
        PlanError::BottleTooUncertain { low: c, high: c },
        PlanError::PowderTooUncertain { low: share(0.1), high: share(0.3) },
        PlanError::Clash(clash(Ingredient::Hypochlorite, Ingredient::Acid).unwrap()),
    ] {
        assert_complete(&error.message());
    }
    for remedy in [
        Remedy::Press(share(0.2)),
        Remedy::Consistency(share(0.05)),
        Remedy::Volume(millilitres(1.0)),
        Remedy::LessBleach { dose: BleachAmount::Powder(m), charge: share(0.01) },
        Remedy::Strength(c),
        Remedy::StrongerBottle(c),
        Remedy::Warm(celsius(20.0)),
        Remedy::WashFirst,
        Remedy::RinsePulp,
        Remedy::SoakInSoda,
        Remedy::MeasureStrength(Oxidant::Hypochlorite),
        Remedy::MeasureStrength(Oxidant::Percarbonate),
        Remedy::MeasureStrength(Oxidant::Peroxide),
        Remedy::WeakerPeroxide,
        Remedy::NewBleach,
        Remedy::LeaveOut(Ingredient::HeavyMetal),
    ] {
        assert_complete(&remedy.message());
    }
    assert_complete(&DilutionError::TooWeak { bottle: 1.0, target: 2.0 }.message());
    let (target, reaches) = (celsius(60.0), celsius(50.0));
    assert_complete(&HeatError::TooCold { target, reaches }.message());
    assert_complete(&HeatError::TooHot { target, reaches }.message());
    assert_complete(&HeatError::NoCooling.message());
    for key in ["remark-may_be_too_wet", "remark-may_be_too_weak"] {
        assert_complete(&Message::new(key).with("short", Value::Mass(m)));
    }
}

#[test]
fn changes_of_a_kept_plan() {
    use bleachfield_core::{caution::Residual, derive::PlanChange};
    let planned = Oxidant::Percarbonate;
    let product = || "Blue bottle".to_owned();
    let figure = || Value::Concentration(grams_per_litre(50.0));
    let (ph, left) = (Some(5.0), Residual::Hypochlorite);
    let lump = (grams(500.0), 0.2);
    for change in [
        PlanChange::OtherOxidant { left, planned },
        PlanChange::OtherOxidant { left: Residual::Peroxide, planned: Oxidant::Hypochlorite },
        PlanChange::OtherOxidant { left: Residual::Unknown, planned },
        PlanChange::AcidPulp { ph, planned: Oxidant::Hypochlorite },
        PlanChange::AcidPulp { ph: None, planned: Oxidant::Hypochlorite },
        PlanChange::AcidPulp { ph, planned },
        PlanChange::BathRunning,
        PlanChange::StrengthUnknown { product: product() },
        PlanChange::Strength { product: product(), planned: figure(), now: figure() },
        PlanChange::ProductFinished { product: product() },
        PlanChange::ProductGone { product: product() },
        PlanChange::Weighed { planned: lump, now: lump },
        PlanChange::NotWeighed,
        PlanChange::Rinsed,
    ] {
        assert_complete(&change.message());
    }
}

#[test]
fn chemistry_errors_and_remarks() {
    use bleachfield_core::{
        bath::LabelBasis,
        chemistry::{
            EquilibriumError, StrengthError,
            dechlorination::AntichlorReagent,
            household::{BathUse, HouseholdProduct},
        },
    };
    assert_complete(&StrengthError::Missing { field: Field("ph") }.message());
    for error in [
        EquilibriumError::TooConcentrated { ionic_strength: 3.2, highest: 3.0 },
        EquilibriumError::Unreachable { target_ph: 10.3 },
        EquilibriumError::AcidWithHypochlorite,
        EquilibriumError::TwoOxidants,
    ] {
        assert_complete(&error.message());
    }
    assert_complete(&LabelBasis::stated(None).unwrap_err());
    for ingredient in Ingredient::ALL {
        for other in ingredient.clashing() {
            assert_complete(&clash(ingredient, other).unwrap().message());
        }
    }
    for reagent in AntichlorReagent::ALL {
        variables(reagent.word());
    }
    for product in HouseholdProduct::ALL {
        variables(product.word());
        if let BathUse::AsStockSolution(why) | BathUse::Refused(why) = product.bath_use() {
            assert_complete(&why);
        }
    }
    let bottle = PeroxideBottle::labelled(35.0, PeroxideBasis::ByMass);
    assert_complete(&bottle.check().unwrap_err());
    for key in ["remark-ph_may_be_low", "remark-ph_may_be_high"] {
        assert_complete(&Message::new(key).with("ph", Value::Ph(9.1)));
    }
}

#[test]
fn antichlor_errors_and_remedies() {
    use bleachfield_core::chemistry::EquilibriumError;
    use bleachfield_core::chemistry::dechlorination::{
        AntichlorError, AntichlorReagent, AntichlorRemedy, AntichlorRequest, CoursePoint,
        GasRefusal, PhShift, ResidualEvidence, VesselClosure, antichlor_dose,
    };
    use bleachfield_core::quantity::{Basis, Estimate};
    let c = grams_per_litre(1.0);
    let worst = CoursePoint { share: 0.6, ph: 2.4, chlorine_ppm: 4200.0 };
    let reagent = AntichlorReagent::Bisulfite;
    for error in [
        AntichlorError::NegativeResidual { given: c },
        AntichlorError::NoVolume { given: millilitres(0.0) },
        AntichlorError::BadPurity { given: share(2.0) },
        AntichlorError::TooStrongForPeroxide { given: c, limit: c },
        AntichlorError::ClosedVessel,
        AntichlorError::ChlorineGas(GasRefusal { reagent, worst, remedies: Vec::new() }),
        AntichlorError::NoPh(EquilibriumError::TwoOxidants),
    ] {
        assert_complete(&error.message());
    }
    for remedy in [
        AntichlorRemedy::DrainAndRinse { below: c },
        AntichlorRemedy::AddSodaFirst { soda: grams(12.0) },
        AntichlorRemedy::Use(reagent),
    ] {
        assert_complete(&remedy.message());
    }
    for shift in [PhShift::Down, PhShift::Steady, PhShift::Up] {
        variables(shift.word());
    }
    for reagent in AntichlorReagent::ALL {
        let residual = ResidualEvidence::Strip(grams_per_litre(0.002));
        let volume = Estimate::exact(millilitres(5000.0), Basis::Measured);
        let request = AntichlorRequest {
            vessel: Some(VesselClosure::Open),
            ..AntichlorRequest::new(reagent, residual, volume, share(1.0))
        };
        for remark in antichlor_dose(&request).unwrap().remarks {
            assert_complete(&remark);
        }
    }
}

#[test]
fn every_fibre_and_powder_has_a_name() {
    for fibre in FIBRES {
        variables(&format!("fibre-{}", fibre.id));
    }
    for powder in SPOON_POWDERS {
        variables(&format!("powder-{}", powder.id));
    }
}

#[test]
fn shelf_errors() {
    use bleachfield_core::{
        chemistry::{StrengthError, titration},
        journal::{ProductAdded, ProductKind, StrengthFound},
    };
    use jiff::civil::Date;
    let today = Date::constant(2026, 5, 4);
    let added = |made, opened| ProductAdded {
        name: String::new(),
        product: ProductKind::Other,
        strength: None,
        size: None,
        bought: None,
        made,
        opened,
        storage: Default::default(),
        price: None,
        note: String::new(),
    };
    let day = |text: &str| Some(text.parse::<Date>().unwrap());
    for (made, opened) in [
        (day("2026-05-05"), None),
        (day("2026-05-04"), day("2026-05-03")),
        (day("1926-05-04"), None),
    ] {
        assert_complete(&added(made, opened).check_dates(today).unwrap_err().message());
    }
    assert_complete(&StrengthFound::by_strip(100.0, 0.5).unwrap_err().message());
    assert_complete(&StrengthFound::by_strip(1e6, 500.0).unwrap_err().message());
    let missing = StrengthError::Missing { field: titration::TITRE };
    assert_complete(&missing.message());
}

#[test]
fn every_caution_has_a_title_and_complete_texts() {
    for id in CautionId::ALL {
        variables(&id.title());
        let general = id.say().replace("-say", "-help");
        let takes_values = !variables(id.say()).is_empty();
        assert_eq!(ENGLISH.contains_key(&general), takes_values, "Help has {general}");
        assert!(ENGLISH.get(&general).is_none_or(BTreeSet::is_empty), "{general} has a variable");
    }
    // Situations in which every caution whose text has a variable fires.
    let hypochlorite = Situation {
        oxidant: Oxidant::Hypochlorite.into(),
        residual: Residual::Hypochlorite,
        temperature: Some(Interval::exact(celsius(70.0))),
        ph: Interval::ph(Interval { low: 5.0, high: 13.0 }),
        strength: Some(Interval::exact(grams_per_litre(5.0))),
        bottle_strength: Some(Interval::exact(grams_per_litre(120.0))),
        charge: Some(Interval::exact(share(0.2))),
        minutes: Some(Interval::exact(600.0)),
        closed: Some(true),
        material: Some(Material::Aluminium),
        blender: true,
        sulfite: true,
        rust: Some(true),
    };
    let peroxide =
        Situation { oxidant: BleachInUse::Known(Oxidant::Percarbonate), ..hypochlorite.clone() };
    let mut fired = Vec::new();
    for situation in [&hypochlorite, &peroxide, &Situation::default()] {
        for act in Act::ALL {
            for caution in cautions(*act, situation) {
                assert_complete(&caution.message);
                fired.push(caution.id);
            }
        }
    }
    for id in CautionId::ALL {
        assert!(
            fired.contains(id) || variables(id.say()).is_empty(),
            "{id:?} has a variable and never fired here"
        );
    }
}

#[test]
fn colour_errors_and_names() {
    use bleachfield_core::colour::{
        ColourError as Error, PatchRole,
        camera::chart::ChartEdition,
        difference::unrelated,
        reference::Light,
        reversion::Ageing,
        shift::{Dryness, no_pair_message},
        space::Lab,
        target::PaperWhite,
        uncertainty::UncertaintySource,
        words::{change, named},
    };
    use bleachfield_core::quantity::{Basis, Estimate};
    let place = PatchRole::Grey;
    for error in [
        Error::NoReference,
        Error::ImpossibleReference { place },
        Error::OutsidePhoto { place },
        Error::Overlapping { place },
        Error::TooSmall { place, side: 12, least: 40 },
        Error::Clipped { place, share: 0.2 },
        Error::TooDark { code: 90.0, least: 150.0 },
        Error::TooBright { code: 254.0, most: 250.0 },
        Error::Blurred { edge: 0.03, most: 0.01 },
        Error::UnevenPatch { place, difference: 0.5, most: 0.3 },
        Error::UnevenLight { difference: 0.5, most: 0.35 },
        Error::MixedLight { difference: 0.2, most: 0.05 },
        Error::GreyOff { lightness: 5.0, chroma: 4.0 },
        Error::ColouredLight { ratio: 4.0, most: 2.2 },
        Error::TooFewSurfaces { count: 3, least: 6 },
        Error::NotAsKnown { difference: 14.0, most: 6.0 },
        Error::PoorLamp,
    ] {
        assert_complete(&error.message());
        assert_complete(&error.instruction());
    }
    assert_complete(&no_pair_message());
    let white = [PatchRole::White, PatchRole::SecondWhite];
    for place in white.into_iter().chain([PatchRole::Grey, PatchRole::Pulp, PatchRole::Surface]) {
        variables(place.key());
    }
    for source in [
        UncertaintySource::Pulp,
        UncertaintySource::White,
        UncertaintySource::WhiteValue,
        UncertaintySource::Tone,
        UncertaintySource::Light,
        UncertaintySource::Camera,
    ] {
        variables(source.key());
    }
    for light in Light::ALL {
        variables(light.key());
    }
    for ageing in Ageing::ALL {
        variables(ageing.key());
    }
    for dryness in Dryness::ALL {
        variables(dryness.key());
    }
    for white in PaperWhite::ALL {
        variables(white.key());
    }
    for edition in ChartEdition::ALL {
        variables(edition.key());
    }
    // Every name and tint, from black to white and round all hues.
    for lightness in 0..=20 {
        for (a, b) in [(0.0, 0.0), (20.0, 0.0), (0.0, 20.0), (-20.0, 0.0), (0.0, 60.0), (2.0, 6.0)]
        {
            assert_complete(&named(Lab { l: 5.0 * f64::from(lightness), a, b }));
        }
    }
    let exact = |value| Estimate::exact(value, Basis::Measured);
    let lab = |l| [exact(l), exact(0.0), exact(20.0)];
    for (from, to) in [(50.0, 50.0), (50.0, 51.0), (51.0, 50.0), (50.0, 60.0), (60.0, 50.0)] {
        assert_complete(&change(&unrelated(lab(from), lab(to))));
    }
}
