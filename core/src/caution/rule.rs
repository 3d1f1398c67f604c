//! The rules: one row for each hazard.

use super::{Act, Caution, CautionId, Material, Residual, Severity, Situation, condition};
use crate::message::{Message, Value};

use CautionId::*;
use Severity::{Care, Danger, Note};

/// A hazard, its source and its condition.
pub(super) struct Rule {
    pub(super) id: CautionId,
    source: &'static str,
    condition: Condition,
}

/// Where a hazard applies.
type Condition = fn(Act, &Situation) -> Option<Finding>;
/// Its severity and the values of its message.
pub(super) type Finding = (Severity, Vec<(&'static str, Value)>);

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
        when(adding || (making(act) && s.may_use_hypochlorite()), Danger)
    }),
    rule(
        ChlorineFromLiquor,
        "Wang & Margerum 1994 and Sander 2015 (computed); limits OSHA, NIOSH",
        condition::chlorine,
    ),
    rule(ResidualUnknown, COMMON_PRACTICE, condition::residual_unknown),
    rule(
        BleachWithAmmonia,
        "Stanford Environmental Health & Safety, bleach solutions",
        |act, s| when(making(act) && s.may_use_hypochlorite(), Danger),
    ),
    rule(BleachWithPeroxide, OXYGEN_VOLUME, |act, s| {
        when((making(act) || act == Act::Bath) && s.may_hold_both(), Danger)
    }),
    rule(BleachWithSolvent, "haloform reaction (from memory)", |act, s| {
        when(making(act) && s.may_use_hypochlorite(), Danger)
    }),
    rule(PeroxideClosed, PERCARBONATE_SHEETS, |act, s| {
        let applies = match act {
            Act::Storing => s.may_hold_peroxide(),
            Act::MakingLiquor => s.may_use_peroxide(),
            Act::Bath => s.may_hold_peroxide() && s.closed != Some(false),
            _ => false,
        };
        when(applies, Danger)
    }),
    rule(
        PeroxideHot,
        "sodium percarbonate, producer's safety and handling sheet: self-accelerating above 50 °C",
        condition::peroxide_hot,
    ),
    rule(PowderReturned, PERCARBONATE_SHEETS, |act, s| {
        let here = matches!(act, Act::OpeningBottle | Act::MakingLiquor);
        when(here && s.may_use_percarbonate(), Care)
    }),
    rule(
        HypochloriteHot,
        "Smook; Rydholm (from memory); 60 °C own estimate",
        condition::hypochlorite_hot,
    ),
    rule(
        HypochloritePhLow,
        "Clibbens & Ridge 1927 (from memory); pH 8.5 own estimate",
        condition::hypochlorite_ph_low,
    ),
    rule(BlendingHot, COMMON_PRACTICE, condition::blending_hot),
    rule(BlendingPeroxide, COMMON_PRACTICE, |act, s| {
        when(blending(act, s) && s.may_hold_peroxide(), Danger)
    }),
    rule(BlendingBleach, COMMON_PRACTICE, |act, s| {
        when(blending(act, s) && s.may_hold_hypochlorite(), Care)
    }),
    rule(PeroxideAsAntichlor, OXYGEN_VOLUME, condition::peroxide_as_antichlor),
    rule(SulfiteWithAcid, SAFETY_SHEETS, |act, s| {
        when(matches!(act, Act::AddingAntichlor | Act::AddingAcid) && s.sulfite, Care)
    }),
    rule(AluminiumWithAlkali, "alkali on aluminium gives hydrogen (from memory)", |act, s| {
        let here = matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath);
        when(here && matches!(s.material, None | Some(Material::Aluminium)), Danger)
    }),
    rule(
        MetalWithBleach,
        "Stanford Environmental Health & Safety for stainless steel; others from memory",
        condition::metal,
    ),
    rule(HeatingBleach, COMMON_PRACTICE, |act, s| {
        when(act == Act::Heating && s.may_hold_oxidant(), Care)
    }),
    rule(Scald, COMMON_PRACTICE, condition::scald),
    rule(StrongBottle, SAFETY_SHEETS, condition::strong_bottle),
    rule(
        HighCharge,
        "Rydholm; Smook (from memory); published peroxide trials",
        condition::high_charge,
    ),
    rule(EyesAndHands, "safety data sheets: H318 for sodium percarbonate", |act, _| {
        let here =
            matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::Bath | Act::AddingAcid);
        when(here, Care)
    }),
    rule(Air, "OSHA ceiling 1 ppm, NIOSH 15-minute ceiling 0.5 ppm chlorine", |act, s| {
        let here =
            matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::Bath | Act::AddingAcid);
        when(here && s.may_hold_hypochlorite(), Care)
    }),
    rule(IntoWater, SAFETY_SHEETS, |act, s| {
        // Percarbonate, or the soda ash that goes with peroxide.
        let powder = act == Act::MakingLiquor && s.may_use_peroxide();
        when(act == Act::AddingAcid || powder, Care)
    }),
    rule(StoringBleach, "AWWA B300 storage addendum; Rutala et al. 1998", |act, s| {
        when(act == Act::Storing && s.oxidant.possible().next().is_some(), Care)
    }),
    rule(StoringPulp, COMMON_PRACTICE, |act, s| {
        when(act == Act::Storing && s.residual != Residual::None, Care)
    }),
    rule(DrainOneAtATime, MIXING_BLEACH, |act, s| {
        when(act == Act::Draining && s.may_hold_oxidant(), Danger)
    }),
    rule(DrainStrong, COMMON_PRACTICE, condition::drain_strong),
    rule(NotForFood, COMMON_PRACTICE, |act, _| {
        when(matches!(act, Act::MakingLiquor | Act::BlendingHot), Note)
    }),
    rule(LabelFirst, "product label, local codes, licensed practice", |_, _| when(true, Note)),
    rule(
        StrongBath,
        "common practice, no source; own estimate; CLP Annex VI for peroxide (from memory)",
        condition::strong_bath,
    ),
    rule(
        LongBath,
        "Smook; Rydholm (from memory): one to three hours; 8 hours own estimate",
        condition::long_bath,
    ),
    rule(AlkaliBurns, "CLP 3.2, 3.3: corrosive pH (from memory)", condition::alkali_burns),
    rule(
        AlkaliSwellsFibre,
        "alkali swelling of cellulose (from memory)",
        condition::alkali_swells_fibre,
    ),
    rule(
        PeroxideWithSolvent,
        "acetone peroxide; mixtures of peroxide with organic matter (from memory)",
        |act, s| when(making(act) && s.may_use_peroxide(), Danger),
    ),
    rule(PeroxideWithAcid, "peracetic acid equilibrium (from memory)", |act, s| {
        let adding = act == Act::AddingAcid && s.may_hold_peroxide();
        when(adding || (making(act) && s.may_use_peroxide()), Danger)
    }),
    rule(
        PeroxideWithRust,
        "J. Loss Prev. Process Ind. 2009, 22:15 (abstract read): iron and copper ions; Zhao et al. 2018",
        |act, s| {
            let here = matches!(act, Act::MakingLiquor | Act::Bath);
            when(here && s.may_hold_peroxide() && s.rust != Some(false), Care)
        },
    ),
    rule(PhUnknown, UNKNOWN, condition::ph_unknown),
    rule(TemperatureUnknown, UNKNOWN, condition::temperature_unknown),
    rule(DoseUnknown, UNKNOWN, condition::dose_unknown),
    rule(TimeUnknown, UNKNOWN, condition::time_unknown),
    rule(BottleUnknown, UNKNOWN, condition::bottle_unknown),
];

const COMMON_PRACTICE: &str = "common practice, no source";
const MIXING_BLEACH: &str =
    "CDC MMWR 1991: chlorine gas toxicity from mixture of bleach with other cleaning products";
const OXYGEN_VOLUME: &str = "stoichiometry: 24.5 L of oxygen per mole (computed)";
const PERCARBONATE_SHEETS: &str =
    "sodium percarbonate, producer's safety and handling sheet; safety data sheets";
const SAFETY_SHEETS: &str = "safety data sheets (from memory)";
const UNKNOWN: &str = "own rule: what is unknown counts as the worst case";

pub(super) fn when(applies: bool, severity: Severity) -> Option<Finding> {
    applies.then(|| (severity, Vec::new()))
}

/// The acts of choosing a bleach, opening it and making a liquor of it.
pub(super) fn making(act: Act) -> bool {
    matches!(act, Act::ChoosingBleach | Act::OpeningBottle | Act::MakingLiquor)
}

fn blending(act: Act, s: &Situation) -> bool {
    act == Act::BlendingHot || (act == Act::Bath && s.blender)
}
