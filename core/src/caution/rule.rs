//! The rules: one row for each hazard.

use super::{Act, Caution, CautionId, Material, Residual, Severity, Situation};
use crate::{
    bath::customary,
    chemistry::{
        Oxidant,
        equilibrium::Mix,
        headspace::{Liquor, NIOSH_CEILING_PPM},
        substance::{CHLORINE, moles_per_litre},
    },
    message::{Message, Value},
    quantity::{Celsius, MassConcentration, grams_per_litre, in_grams_per_litre, in_share},
};

use Severity::{Care, Danger, Note};

/// A hazard, its condition and its source.
pub(super) struct Rule {
    pub(super) id: CautionId,
    /// Severity and message values where the hazard applies.
    condition: fn(Act, &Situation) -> Option<(Severity, Values)>,
    source: &'static str,
}

/// Named values of the caution's message.
type Values = Vec<(&'static str, Value)>;

impl Rule {
    pub(super) fn caution(&self, act: Act, situation: &Situation) -> Option<Caution> {
        let (severity, values) = (self.condition)(act, situation)?;
        let message = Message { values, ..Message::new(self.id.say()) };
        Some(Caution { id: self.id, severity, message, source: self.source })
    }
}

/// Every rule, in the order of [`CautionId`].
pub(super) const RULES: &[Rule] = &[
    Rule {
        id: CautionId::BleachWithAcid,
        condition: |act, s| {
            let adding = act == Act::AddingAcid && s.may_hold_hypochlorite();
            when(adding || (making(act) && hypochlorite(s)), Danger)
        },
        source: MIXING_BLEACH,
    },
    Rule {
        id: CautionId::ChlorineFromLiquor,
        condition: chlorine,
        source: "Wang & Margerum 1994 and Sander 2015 (computed); limits OSHA, NIOSH",
    },
    Rule {
        id: CautionId::ResidualUnknown,
        condition: |act, s| when(act == Act::AddingAcid && s.residual == Residual::Unknown, Danger),
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::BleachWithAmmonia,
        condition: |act, s| when(making(act) && hypochlorite(s), Danger),
        source: "Stanford Environmental Health & Safety, bleach solutions",
    },
    Rule {
        id: CautionId::BleachWithPeroxide,
        condition: |act, s| {
            let both = s.holds_hypochlorite() && s.holds_peroxide();
            let untested = s.oxidant.is_some() && s.residual == Residual::Unknown;
            let choosing = matches!(act, Act::ChoosingBleach | Act::MakingLiquor);
            when((handling(act) && both) || (choosing && untested), Danger)
        },
        source: OXYGEN_VOLUME,
    },
    Rule {
        id: CautionId::BleachWithSolvent,
        condition: |act, s| when(making(act) && hypochlorite(s), Danger),
        source: "haloform reaction (from memory)",
    },
    Rule {
        id: CautionId::PeroxideClosed,
        condition: |act, s| {
            let applies = match act {
                Act::Storing => s.holds_peroxide(),
                Act::MakingLiquor => percarbonate(s),
                Act::Bath => s.holds_peroxide() && s.closed == Some(true),
                _ => false,
            };
            when(applies, Danger)
        },
        source: PERCARBONATE_SHEETS,
    },
    Rule {
        id: CautionId::PeroxideHot,
        condition: |act, s| hot(act, s, s.holds_peroxide(), 50.0, 60.0),
        source: "sodium percarbonate, producer's safety and handling sheet: self-accelerating above 50 °C",
    },
    Rule {
        id: CautionId::PowderReturned,
        condition: |act, s| {
            when(matches!(act, Act::OpeningBottle | Act::MakingLiquor) && percarbonate(s), Care)
        },
        source: PERCARBONATE_SHEETS,
    },
    Rule {
        id: CautionId::HypochloriteHot,
        condition: |act, s| hot(act, s, s.holds_hypochlorite(), 40.0, 60.0),
        source: "Smook; Rydholm (from memory)",
    },
    Rule {
        id: CautionId::HypochloritePhLow,
        condition: |act, s| {
            let low = s.ph.filter(|ph| ph.get() < 9.0)?.get();
            let applies = act == Act::Bath && s.holds_hypochlorite();
            applies.then(|| (Care, vec![("ph", Value::Ph(low))]))
        },
        source: "Clibbens & Ridge 1927 (from memory)",
    },
    Rule {
        id: CautionId::BlendingHot,
        condition: |act, s| {
            let applies = match act {
                Act::BlendingHot => may_be_warmer(s.temperature, 40.0),
                Act::Bath => s.blender && s.warmer_than(40.0),
                _ => false,
            };
            when(applies, Danger)
        },
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::BlendingPeroxide,
        condition: |act, s| when(blending(act, s) && s.holds_peroxide(), Danger),
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::BlendingBleach,
        condition: |act, s| when(blending(act, s) && s.holds_hypochlorite(), Care),
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::PeroxideAsAntichlor,
        condition: peroxide_as_antichlor,
        source: OXYGEN_VOLUME,
    },
    Rule {
        id: CautionId::SulfiteWithAcid,
        condition: |act, s| {
            when(matches!(act, Act::AddingAntichlor | Act::AddingAcid) && s.sulfite, Care)
        },
        source: SAFETY_SHEETS,
    },
    Rule {
        id: CautionId::AluminiumWithAlkali,
        condition: |act, s| {
            let here = matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath);
            when(here && s.material == Some(Material::Aluminium), Danger)
        },
        source: "alkali on aluminium gives hydrogen (from memory)",
    },
    Rule {
        id: CautionId::MetalWithBleach,
        condition: metal,
        source: "Stanford Environmental Health & Safety for stainless steel; others from memory",
    },
    Rule {
        id: CautionId::HeatingBleach,
        condition: |act, s| {
            when(act == Act::Heating && (s.holds_hypochlorite() || s.holds_peroxide()), Care)
        },
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::Scald,
        condition: |act, s| {
            let applies = match act {
                Act::Heating => may_be_warmer(s.temperature, 45.0),
                Act::Bath => s.warmer_than(45.0),
                _ => false,
            };
            when(applies, Care)
        },
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::StrongBottle,
        condition: |act, s| {
            let applies = handling(act) && hypochlorite(s);
            stronger_than(HOUSEHOLD, s.bottle_strength.filter(|_| applies))
        },
        source: SAFETY_SHEETS,
    },
    Rule {
        id: CautionId::HighCharge,
        condition: high_charge,
        source: "Rydholm; Smook (from memory); published peroxide trials",
    },
    Rule {
        id: CautionId::EyesAndHands,
        condition: |act, _| {
            when(matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::AddingAcid), Care)
        },
        source: "safety data sheets: H318 for sodium percarbonate",
    },
    Rule {
        id: CautionId::Air,
        condition: |act, s| {
            let here =
                matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::Bath | Act::AddingAcid);
            when(here && s.may_hold_hypochlorite(), Care)
        },
        source: "OSHA ceiling 1 ppm, NIOSH 15-minute ceiling 0.5 ppm chlorine",
    },
    Rule {
        id: CautionId::IntoWater,
        condition: |act, s| {
            when(act == Act::AddingAcid || (act == Act::MakingLiquor && percarbonate(s)), Care)
        },
        source: SAFETY_SHEETS,
    },
    Rule {
        id: CautionId::StoringBleach,
        condition: |act, s| when(act == Act::Storing && s.oxidant.is_some(), Care),
        source: "AWWA B300 storage addendum; Rutala et al. 1998",
    },
    Rule {
        id: CautionId::StoringPulp,
        condition: |act, s| {
            let untested = s.oxidant.is_none() && s.residual != Residual::None;
            when(act == Act::Storing && untested, Care)
        },
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::DrainOneAtATime,
        condition: |act, s| {
            let clean = s.oxidant.is_none() && s.residual == Residual::None;
            when(act == Act::Draining && !clean, Danger)
        },
        source: MIXING_BLEACH,
    },
    Rule {
        id: CautionId::DrainStrong,
        condition: |act, s| {
            stronger_than(DRAIN_STRONG, s.strength.filter(|_| act == Act::Draining))
        },
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::NotForFood,
        condition: |act, _| when(matches!(act, Act::MakingLiquor | Act::BlendingHot), Note),
        source: COMMON_PRACTICE,
    },
    Rule {
        id: CautionId::LabelFirst,
        condition: |_, _| when(true, Note),
        source: "product label, local codes, licensed practice",
    },
];

const COMMON_PRACTICE: &str = "common practice, no source";
const MIXING_BLEACH: &str =
    "CDC MMWR 1991: chlorine gas toxicity from mixture of bleach with other cleaning products";
const OXYGEN_VOLUME: &str = "stoichiometry: 24.5 L of oxygen per mole (computed)";
const PERCARBONATE_SHEETS: &str =
    "sodium percarbonate, producer's safety and handling sheet; safety data sheets";
const SAFETY_SHEETS: &str = "safety data sheets (from memory)";

/// Strongest household bleach: 8.25 % NaOCl by mass, 87 g/L available chlorine.
const HOUSEHOLD: f64 = 88.0;

/// Undiluted 5.25 % bleach, g/L available chlorine.
const UNDILUTED: f64 = 53.4;

/// Strength above which liquor is diluted or used up before draining, g/L.
const DRAIN_STRONG: f64 = 1.0;

/// Highest strength of hypochlorite for peroxide as antichlor, g/L, in an open
/// vessel.
const ANTICHLOR_MAX: f64 = 2.0;

fn when(applies: bool, severity: Severity) -> Option<(Severity, Values)> {
    applies.then(|| (severity, Vec::new()))
}

fn making(act: Act) -> bool {
    matches!(act, Act::ChoosingBleach | Act::OpeningBottle | Act::MakingLiquor)
}

fn handling(act: Act) -> bool {
    making(act) || act == Act::Bath
}

fn blending(act: Act, s: &Situation) -> bool {
    act == Act::BlendingHot || (act == Act::Bath && s.blender)
}

fn hypochlorite(s: &Situation) -> bool {
    s.oxidant == Some(Oxidant::Hypochlorite)
}

fn percarbonate(s: &Situation) -> bool {
    s.oxidant == Some(Oxidant::Percarbonate)
}

/// An unknown temperature may be.
fn may_be_warmer(temperature: Option<Celsius>, limit: f64) -> bool {
    temperature.is_none_or(|t| t.get() > limit)
}

fn stronger_than(limit: f64, strength: Option<MassConcentration>) -> Option<(Severity, Values)> {
    strength
        .filter(|c| in_grams_per_litre(*c) > limit)
        .map(|c| (Care, vec![("strength", Value::Concentration(c))]))
}

fn hot(
    act: Act,
    s: &Situation,
    present: bool,
    care: f64,
    danger: f64,
) -> Option<(Severity, Values)> {
    let temperature = s.temperature?.get();
    let here = matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath);
    (here && present && temperature > care).then(|| {
        let (severity, limit) = if temperature > danger { (Danger, danger) } else { (Care, care) };
        let values =
            vec![("temperature", Value::Celsius(temperature)), ("limit", Value::Celsius(limit))];
        (severity, values)
    })
}

fn chlorine(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let here = matches!(act, Act::Bath | Act::AddingAcid | Act::MakingLiquor);
    if !(here && s.holds_hypochlorite()) {
        return None;
    }
    let ph = s.ph?.get();
    let limit = gas_ph(s);
    (ph < limit).then(|| (Danger, vec![("ph", Value::Ph(ph)), ("limit", Value::Ph(limit))]))
}

/// The pH below which chlorine over the liquor may exceed the NIOSH ceiling, at
/// equilibrium in a closed vessel: the worst case, not the air of a room. An
/// unknown strength counts as undiluted household bleach, an unknown
/// temperature as 25 °C.
fn gas_ph(s: &Situation) -> f64 {
    let chlorine = s.strength.map_or(UNDILUTED, in_grams_per_litre) / CHLORINE.grams_per_mole;
    let salt = s.chloride_molar.map_or(0.0, |chloride| (chloride - chlorine).max(0.0));
    let celsius = s.temperature.map_or(25.0, |t| t.get().clamp(5.0, 80.0));
    let mix = Mix::new(celsius)
        .map(|mix| mix.with_bleach(moles_per_litre(chlorine)).with_salt(moles_per_litre(salt)));
    // `None` where the liquor holds too little chlorine to matter.
    mix.and_then(|mix| Liquor::of(&mix).gas_ph(NIOSH_CEILING_PPM)).ok().flatten().unwrap_or(0.0)
}

fn peroxide_as_antichlor(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let meeting = act == Act::AddingAntichlor
        && s.residual == Residual::Hypochlorite
        && s.oxidant.is_some_and(Oxidant::is_peroxide);
    let weak = s.strength.is_some_and(|c| in_grams_per_litre(c) <= ANTICHLOR_MAX);
    let open = s.closed == Some(false);
    (meeting && !(weak && open))
        .then(|| (Danger, vec![("limit", Value::Concentration(grams_per_litre(ANTICHLOR_MAX)))]))
}

fn metal(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let attacked = match s.material? {
        Material::Aluminium | Material::OtherMetal => s.holds_hypochlorite() || s.holds_peroxide(),
        Material::Stainless => s.holds_hypochlorite(),
        Material::Plastic | Material::Glass | Material::Enamel => false,
    };
    when(attacked && matches!(act, Act::MakingLiquor | Act::Bath | Act::Storing), Care)
}

fn high_charge(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let usual = customary(s.oxidant?);
    let charge = in_share(s.charge?);
    (act == Act::Bath && charge > usual.high).then(|| {
        (Care, vec![("charge", Value::Share(charge)), ("usual", Value::Share(usual.high))])
    })
}
