//! Everything that quantities, the bath and the cautions can say is a message, and the core
//! gives it a value for each of its variables.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;

use bleachfield_core::{
    bath::{BleachAmount, DilutionError, HeatError, Oxidant, PlanError, Remedy},
    caution::{Act, CautionId, Material, Residual, Situation, cautions},
    chemistry::compatibility::{Ingredient, clash},
    message::{Field, Message, Value},
    pulp::FIBRES,
    quantity::{
        Celsius, NumberSpec, OutOfRange, Ph, QuantityKind, SPOON_POWDERS, grams, grams_per_litre,
        millilitres, share,
    },
};

use crate::locale::ENGLISH;

/// The variables of the message, which must exist.
fn words(key: &str) -> &'static BTreeSet<String> {
    ENGLISH.get(key).unwrap_or_else(|| panic!("no message {key}"))
}

/// The message exists, and so does every word inside it; every variable is given a value.
fn said(message: &Message) {
    for (_, value) in &message.values {
        if let Value::Word(key) = value {
            words(key);
        }
    }
    if let Some(field) = message.field {
        words(&format!("field-{}", field.0));
    }
    for variable in words(message.key) {
        let given = message.values.iter().any(|(name, _)| name == variable)
            || variable == "field" && message.field.is_some();
        assert!(given, "{}: {variable} is not given", message.key);
    }
}

fn celsius(value: f64) -> Celsius {
    Celsius::new(value).unwrap()
}

#[test]
fn what_is_typed_wrong() {
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
        said(&message);
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
        words(kind.accepts());
        words(kind.word());
    }
}

#[test]
fn plans_that_cannot_be() {
    let (c, m) = (grams_per_litre(1.0), grams(1.0));
    let out = OutOfRange {
        subject: Field("ph"),
        given: 15.0,
        min: 0.0,
        max: 14.0,
        kind: QuantityKind::Ph,
    };
    for reason in [
        PlanError::OutOfRange(out),
        PlanError::WouldMix { old: Oxidant::Hypochlorite, new: Oxidant::Percarbonate },
        PlanError::WouldMix { old: Oxidant::Peroxide, new: Oxidant::Hypochlorite },
        PlanError::TooWeak { bottle: c, target: c },
        PlanError::PulpTooWet { water: m, room: m },
        PlanError::NoRoomForBleach { takes: Some(m), left: m },
        PlanError::NoRoomForBleach { takes: None, left: m },
        PlanError::WillNotDissolve { given: c, limit: c },
        PlanError::NotEnough { need: BleachAmount::Powder(m) },
        PlanError::NotFinite,
        PlanError::Clash(clash(Ingredient::Hypochlorite, Ingredient::Acid).unwrap()),
    ] {
        said(&reason.message());
    }
    for way in [
        Remedy::Press(share(0.2)),
        Remedy::Consistency(share(0.05)),
        Remedy::Volume(millilitres(1.0)),
        Remedy::LessBleach { dose: BleachAmount::Powder(m), charge: share(0.01) },
        Remedy::Strength(c),
        Remedy::StrongerBottle(c),
        Remedy::Warm(celsius(20.0)),
        Remedy::WashFirst,
        Remedy::LeaveOut(Ingredient::HeavyMetal),
    ] {
        said(&way.message());
    }
    said(&DilutionError::TooWeak { bottle: 1.0, target: 2.0 }.message());
    let (target, reaches) = (celsius(60.0), celsius(50.0));
    said(&HeatError::TooCold { target, reaches }.message());
    said(&HeatError::TooHot { target, reaches }.message());
    said(&HeatError::NoCooling.message());
    for key in ["remark-may_be_too_wet", "remark-may_be_too_weak"] {
        said(&Message::new(key).with("short", Value::Mass(m)));
    }
}

#[test]
fn what_chemistry_refuses_and_minds() {
    use bleachfield_core::{
        bath::LabelBasis,
        chemistry::{EquilibriumError, StrengthError},
    };
    said(&StrengthError::Missing { field: Field("ph") }.message());
    for refusal in [
        EquilibriumError::TooConcentrated { ionic_strength: 1.2, highest: 1.0 },
        EquilibriumError::Unreachable { target_ph: 10.3 },
        EquilibriumError::AcidWithHypochlorite,
        EquilibriumError::TwoOxidants,
    ] {
        said(&refusal.message());
    }
    said(&LabelBasis::stated(None).unwrap_err());
    for other in Ingredient::Hypochlorite.clashing() {
        said(&clash(Ingredient::Hypochlorite, other).unwrap().message());
    }
    for key in ["remark-ph_may_be_low", "remark-ph_may_be_high"] {
        said(&Message::new(key).with("ph", Value::Ph(9.1)));
    }
}

#[test]
fn every_input_of_the_bath_has_a_name() {
    use bleachfield_core::{bath as b, pulp as p, quantity as q};
    for field in [
        b::AIM_CHARGE,
        b::AIM_CONSISTENCY,
        b::AIM_STRENGTH,
        b::AIM_VOLUME,
        b::BATH_TEMPERATURE,
        b::BOTTLE_DENSITY,
        b::BOTTLE_STRENGTH,
        b::CAPACITY,
        b::COOLED_TO,
        b::MINUTES,
        b::ON_HAND,
        b::POURED_VOLUME,
        b::POWDER_STRENGTH,
        b::REST_VOLUME,
        b::TARGET_STRENGTH,
        b::TOTAL_VOLUME,
        b::WATER_MASS,
        b::WATER_VOLUME,
        p::DRYNESS,
        p::LIQUOR_MASS,
        p::SAMPLE_DRIED,
        p::SAMPLE_WET,
        p::WET_MASS,
        q::PH,
        q::SPOONS,
        q::TEMPERATURE,
    ] {
        words(&format!("field-{}", field.0));
    }
    for fibre in FIBRES {
        words(&format!("fibre-{}", fibre.id));
    }
    for powder in SPOON_POWDERS {
        words(&format!("powder-{}", powder.id));
    }
}

#[test]
fn what_the_shelf_refuses() {
    use bleachfield_core::{
        chemistry::{bottle as b, decay as d, percarbonate as p, titration as t},
        derive::{BOUGHT, MADE, OPENED},
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
        note: String::new(),
    };
    let day = |text: &str| Some(text.parse::<Date>().unwrap());
    for (made, opened) in [
        (day("2026-05-05"), None),
        (day("2026-05-04"), day("2026-05-03")),
        (day("1926-05-04"), None),
    ] {
        said(&added(made, opened).check_dates(today).unwrap_err().message());
    }
    said(&StrengthFound::by_strip(100.0, 0.5).unwrap_err().message());
    said(&StrengthFound::by_strip(1e6, 500.0).unwrap_err().message());
    let nothing = bleachfield_core::chemistry::StrengthError::Missing { field: t::TITRE };
    said(&nothing.message());
    for field in [
        b::DILUTION,
        d::AGE,
        d::STRENGTH,
        p::ACTIVE_OXYGEN,
        p::POWDER,
        t::BLANK,
        t::DILUTED_TO,
        t::NORMALITY,
        t::SAMPLE,
        t::TITRE,
        BOUGHT,
        MADE,
        OPENED,
    ] {
        words(&format!("field-{}", field.0));
    }
}

#[test]
fn every_caution_has_a_heading_and_sentences_whose_gaps_are_filled() {
    for id in CautionId::ALL {
        words(&id.title());
        let general = id.say().replace("-say", "-help");
        let takes_values = !words(id.say()).is_empty();
        assert_eq!(ENGLISH.contains_key(&general), takes_values, "Help has {general}");
        assert!(ENGLISH.get(&general).is_none_or(BTreeSet::is_empty), "{general} has a gap");
    }
    // Situations in which every caution with a gap fires.
    let hypochlorite = Situation {
        oxidant: Some(Oxidant::Hypochlorite),
        residual: Residual::Hypochlorite,
        temperature: Some(celsius(70.0)),
        ph: Some(Ph::new(5.0).unwrap()),
        strength: Some(grams_per_litre(5.0)),
        bottle_strength: Some(grams_per_litre(120.0)),
        charge: Some(share(0.2)),
        closed: Some(true),
        material: Some(Material::Aluminium),
        blender: true,
        sulfite: true,
        chloride_molar: None,
    };
    let peroxide = Situation { oxidant: Some(Oxidant::Percarbonate), ..hypochlorite.clone() };
    let mut fired = Vec::new();
    for situation in [&hypochlorite, &peroxide, &Situation::default()] {
        for act in Act::ALL {
            for caution in cautions(*act, situation) {
                said(&caution.message);
                fired.push(caution.id);
            }
        }
    }
    for id in CautionId::ALL {
        assert!(
            fired.contains(id) || words(id.say()).is_empty(),
            "{id:?} has a gap and never fired here"
        );
    }
}

#[test]
fn colour_has_words() {
    use bleachfield_core::colour::{
        ColourError as R, PatchRole,
        reference::Light,
        reversion::Ageing,
        shift::{Dryness, no_pair_message},
        target::PaperWhite,
        uncertainty::UncertaintySource,
    };
    let place = PatchRole::Grey;
    for rejection in [
        R::NoReference,
        R::ImpossibleReference { place },
        R::OutsidePhoto { place },
        R::TooSmall { place, side: 12, least: 40 },
        R::Clipped { place, share: 0.2 },
        R::TooDark { code: 90.0, least: 150.0 },
        R::TooBright { code: 254.0, most: 250.0 },
        R::Blurred { edge: 0.03, most: 0.01 },
        R::UnevenPatch { place, difference: 0.5, most: 0.3 },
        R::UnevenLight { difference: 0.5, most: 0.35 },
        R::MixedLight { difference: 0.2, most: 0.05 },
        R::GreyOff { lightness: 5.0, chroma: 4.0 },
        R::ColouredLight { ratio: 4.0, most: 2.2 },
        R::PoorLamp,
    ] {
        said(&rejection.message());
        said(&rejection.instruction());
    }
    said(&no_pair_message());
    for place in [PatchRole::White, PatchRole::SecondWhite, PatchRole::Grey, PatchRole::Pulp] {
        words(place.key());
    }
    for doubt in [
        UncertaintySource::Pulp,
        UncertaintySource::White,
        UncertaintySource::WhiteValue,
        UncertaintySource::Tone,
        UncertaintySource::Light,
        UncertaintySource::Camera,
    ] {
        words(doubt.key());
    }
    for light in Light::ALL {
        words(light.key());
    }
    for ageing in Ageing::ALL {
        words(ageing.key());
    }
    for dryness in Dryness::ALL {
        words(dryness.key());
    }
    for white in PaperWhite::ALL {
        words(white.key());
    }
}
