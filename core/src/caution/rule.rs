//! The rules: one row for each hazard.

use super::{Act, Caution, CautionId, Material, Residual, Severity, Situation};
use crate::{
    bath::customary,
    chemistry::{
        Oxidant,
        equilibrium::Mix,
        headspace::{Headspace, NIOSH_CEILING_PPM},
        substance::{CHLORINE, moles_per_litre},
    },
    message::{Message, Value},
    quantity::{Celsius, MassConcentration, grams_per_litre, in_grams_per_litre, in_share},
};

use CautionId::*;
use Severity::{Care, Danger, Note};

/// A hazard, its source and its condition.
pub(super) struct Rule {
    pub(super) id: CautionId,
    source: &'static str,
    condition: Condition,
}

/// Where a hazard applies, with its severity and the values of its message.
type Condition = fn(Act, &Situation) -> Option<(Severity, Values)>;
type Values = Vec<(&'static str, Value)>;

const fn rule(id: CautionId, source: &'static str, condition: Condition) -> Rule {
    Rule { id, source, condition }
}

impl Rule {
    pub(super) fn caution(&self, act: Act, situation: &Situation) -> Option<Caution> {
        let (severity, values) = (self.condition)(act, situation)?;
        let message = Message { values, ..Message::new(self.id.say()) };
        Some(Caution { id: self.id, severity, message, source: self.source })
    }
}

/// Every rule, in the order of [`CautionId`].
pub(super) const RULES: &[Rule] = &[
    rule(BleachWithAcid, MIXING_BLEACH, |act, s| {
        let adding = act == Act::AddingAcid && s.may_hold_hypochlorite();
        when(adding || (making(act) && hypochlorite(s)), Danger)
    }),
    rule(
        ChlorineFromLiquor,
        "Wang & Margerum 1994 and Sander 2015 (computed); limits OSHA, NIOSH",
        chlorine,
    ),
    rule(ResidualUnknown, COMMON_PRACTICE, |act, s| {
        when(act == Act::AddingAcid && s.residual == Residual::Unknown, Danger)
    }),
    rule(
        BleachWithAmmonia,
        "Stanford Environmental Health & Safety, bleach solutions",
        |act, s| when(making(act) && hypochlorite(s), Danger),
    ),
    rule(BleachWithPeroxide, OXYGEN_VOLUME, |act, s| {
        let both = s.holds_hypochlorite() && s.holds_peroxide();
        let untested = s.oxidant.is_some() && s.residual == Residual::Unknown;
        let choosing = matches!(act, Act::ChoosingBleach | Act::MakingLiquor);
        when((handling(act) && both) || (choosing && untested), Danger)
    }),
    rule(BleachWithSolvent, "haloform reaction (from memory)", |act, s| {
        when(making(act) && hypochlorite(s), Danger)
    }),
    rule(PeroxideClosed, PERCARBONATE_SHEETS, |act, s| {
        let applies = match act {
            Act::Storing => s.holds_peroxide(),
            Act::MakingLiquor => percarbonate(s),
            Act::Bath => s.holds_peroxide() && s.closed == Some(true),
            _ => false,
        };
        when(applies, Danger)
    }),
    rule(
        PeroxideHot,
        "sodium percarbonate, producer's safety and handling sheet: self-accelerating above 50 °C",
        |act, s| hot(act, s, s.holds_peroxide(), 50.0, 60.0),
    ),
    rule(PowderReturned, PERCARBONATE_SHEETS, |act, s| {
        when(matches!(act, Act::OpeningBottle | Act::MakingLiquor) && percarbonate(s), Care)
    }),
    rule(HypochloriteHot, "Smook; Rydholm (from memory)", |act, s| {
        hot(act, s, s.holds_hypochlorite(), 40.0, 60.0)
    }),
    rule(HypochloritePhLow, "Clibbens & Ridge 1927 (from memory)", |act, s| {
        let low = s.ph.filter(|ph| ph.get() < 9.0)?.get();
        let applies = act == Act::Bath && s.holds_hypochlorite();
        applies.then(|| (Care, vec![("ph", Value::Ph(low))]))
    }),
    rule(BlendingHot, COMMON_PRACTICE, |act, s| {
        let applies = match act {
            Act::BlendingHot => may_be_warmer(s.temperature, 40.0),
            Act::Bath => s.blender && s.warmer_than(40.0),
            _ => false,
        };
        when(applies, Danger)
    }),
    rule(BlendingPeroxide, COMMON_PRACTICE, |act, s| {
        when(blending(act, s) && s.holds_peroxide(), Danger)
    }),
    rule(BlendingBleach, COMMON_PRACTICE, |act, s| {
        when(blending(act, s) && s.holds_hypochlorite(), Care)
    }),
    rule(PeroxideAsAntichlor, OXYGEN_VOLUME, peroxide_as_antichlor),
    rule(SulfiteWithAcid, SAFETY_SHEETS, |act, s| {
        when(matches!(act, Act::AddingAntichlor | Act::AddingAcid) && s.sulfite, Care)
    }),
    rule(AluminiumWithAlkali, "alkali on aluminium gives hydrogen (from memory)", |act, s| {
        let here = matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath);
        when(here && s.material == Some(Material::Aluminium), Danger)
    }),
    rule(
        MetalWithBleach,
        "Stanford Environmental Health & Safety for stainless steel; others from memory",
        metal,
    ),
    rule(HeatingBleach, COMMON_PRACTICE, |act, s| {
        when(act == Act::Heating && (s.holds_hypochlorite() || s.holds_peroxide()), Care)
    }),
    rule(Scald, COMMON_PRACTICE, |act, s| {
        let applies = match act {
            Act::Heating => may_be_warmer(s.temperature, 45.0),
            Act::Bath => s.warmer_than(45.0),
            _ => false,
        };
        when(applies, Care)
    }),
    rule(StrongBottle, SAFETY_SHEETS, |act, s| {
        let applies = handling(act) && hypochlorite(s);
        stronger_than(HOUSEHOLD, s.bottle_strength.filter(|_| applies))
    }),
    rule(HighCharge, "Rydholm; Smook (from memory); published peroxide trials", high_charge),
    rule(EyesAndHands, "safety data sheets: H318 for sodium percarbonate", |act, _| {
        when(matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::AddingAcid), Care)
    }),
    rule(Air, "OSHA ceiling 1 ppm, NIOSH 15-minute ceiling 0.5 ppm chlorine", |act, s| {
        let here =
            matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::Bath | Act::AddingAcid);
        when(here && s.may_hold_hypochlorite(), Care)
    }),
    rule(IntoWater, SAFETY_SHEETS, |act, s| {
        when(act == Act::AddingAcid || (act == Act::MakingLiquor && percarbonate(s)), Care)
    }),
    rule(StoringBleach, "AWWA B300 storage addendum; Rutala et al. 1998", |act, s| {
        when(act == Act::Storing && s.oxidant.is_some(), Care)
    }),
    rule(StoringPulp, COMMON_PRACTICE, |act, s| {
        let untested = s.oxidant.is_none() && s.residual != Residual::None;
        when(act == Act::Storing && untested, Care)
    }),
    rule(DrainOneAtATime, MIXING_BLEACH, |act, s| {
        let clean = s.oxidant.is_none() && s.residual == Residual::None;
        when(act == Act::Draining && !clean, Danger)
    }),
    rule(DrainStrong, COMMON_PRACTICE, |act, s| {
        stronger_than(DRAIN_STRONG, s.strength.filter(|_| act == Act::Draining))
    }),
    rule(NotForFood, COMMON_PRACTICE, |act, _| {
        when(matches!(act, Act::MakingLiquor | Act::BlendingHot), Note)
    }),
    rule(LabelFirst, "product label, local codes, licensed practice", |_, _| when(true, Note)),
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
    mix.and_then(|mix| Headspace::of(&mix).gas_ph(NIOSH_CEILING_PPM)).ok().flatten().unwrap_or(0.0)
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
