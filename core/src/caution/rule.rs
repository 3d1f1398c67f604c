//! The rules, one per hazard.

use super::{Act, Caution, CautionId, Material, Residual, Severity, Situation};
use crate::{
    bath::{Oxidant, customary},
    chemistry::{
        equilibrium::Mix,
        headspace::{Headspace, NIOSH_CEILING_PPM},
        substance::{CHLORINE, moles_per_litre},
    },
    message::{Message, Value},
    quantity::{in_grams_per_litre, in_share},
};

use Severity::{Care, Danger, Note};

impl CautionId {
    /// The caution as it stands, if its condition holds.
    pub(super) fn look(self, act: Act, s: &Situation) -> Option<Caution> {
        let (severity, values) = self.condition(act, s)?;
        let message = values.into_iter().fold(Message::new(self.say()), |m, (k, v)| m.with(k, v));
        Some(Caution { id: self, severity, message, source: self.source() })
    }

    fn condition(self, act: Act, s: &Situation) -> Option<(Severity, Values)> {
        let when = |condition: bool, severity| condition.then(|| (severity, Vec::new()));
        let making = matches!(act, Act::ChoosingBleach | Act::OpeningBottle | Act::MakingLiquor);
        let handling = making || act == Act::Bath;
        let hypochlorite = s.oxidant == Some(Oxidant::Hypochlorite);
        let percarbonate = s.oxidant == Some(Oxidant::Percarbonate);
        match self {
            CautionId::BleachWithAcid => when(
                (act == Act::AddingAcid && s.may_hold_hypochlorite()) || (making && hypochlorite),
                Danger,
            ),
            CautionId::ChlorineFromLiquor => chlorine(act, s),
            CautionId::ResidualUnknown => {
                when(act == Act::AddingAcid && s.residual == Residual::Unknown, Danger)
            }
            CautionId::BleachWithAmmonia | CautionId::BleachWithSolvent => {
                when(making && hypochlorite, Danger)
            }
            CautionId::BleachWithPeroxide => when(
                (handling && s.holds_hypochlorite() && s.holds_peroxide())
                    || (matches!(act, Act::ChoosingBleach | Act::MakingLiquor)
                        && s.oxidant.is_some()
                        && s.residual == Residual::Unknown),
                Danger,
            ),
            CautionId::PeroxideClosed => when(
                (act == Act::Storing && s.holds_peroxide())
                    || (act == Act::MakingLiquor && percarbonate)
                    || (act == Act::Bath && s.holds_peroxide() && s.closed == Some(true)),
                Danger,
            ),
            CautionId::PeroxideHot => hot(act, s, s.holds_peroxide(), 50.0, 60.0),
            CautionId::PowderReturned => {
                when(matches!(act, Act::OpeningBottle | Act::MakingLiquor) && percarbonate, Care)
            }
            CautionId::HypochloriteHot => hot(act, s, s.holds_hypochlorite(), 40.0, 60.0),
            CautionId::HypochloritePhLow => {
                let low = s.ph.filter(|ph| ph.get() < 9.0);
                (act == Act::Bath && s.holds_hypochlorite())
                    .then_some(low)?
                    .map(|ph| (Care, vec![("ph", Value::Ph(ph.get()))]))
            }
            CautionId::BlendingHot => when(
                act == Act::BlendingHot && s.temperature.is_none_or(|t| t.get() > 40.0),
                Danger,
            )
            .or_else(|| when(act == Act::Bath && s.blender && s.warmer_than(40.0), Danger)),
            CautionId::BlendingPeroxide => when(blending(act, s) && s.holds_peroxide(), Danger),
            CautionId::BlendingBleach => when(blending(act, s) && s.holds_hypochlorite(), Care),
            CautionId::PeroxideAsAntichlor => peroxide_as_antichlor(act, s),
            CautionId::SulfiteWithAcid => {
                when((act == Act::AddingAntichlor || act == Act::AddingAcid) && s.sulfite, Care)
            }
            CautionId::AluminiumWithAlkali => when(
                s.material == Some(Material::Aluminium)
                    && matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath),
                Danger,
            ),
            CautionId::MetalWithBleach => metal(act, s),
            CautionId::HeatingBleach => {
                when(act == Act::Heating && (s.holds_hypochlorite() || s.holds_peroxide()), Care)
            }
            CautionId::Scald => when(
                (act == Act::Heating && s.temperature.is_none_or(|t| t.get() > 45.0))
                    || (act == Act::Bath && s.warmer_than(45.0)),
                Care,
            ),
            CautionId::StrongBottle => {
                let strong = s.bottle_strength.filter(|c| in_grams_per_litre(*c) > HOUSEHOLD);
                strong
                    .filter(|_| handling && hypochlorite)
                    .map(|c| (Care, vec![("strength", Value::Concentration(c))]))
            }
            CautionId::HighCharge => high_charge(act, s),
            CautionId::EyesAndHands => {
                when(matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::AddingAcid), Care)
            }
            CautionId::Air => when(
                matches!(act, Act::OpeningBottle | Act::MakingLiquor | Act::Bath | Act::AddingAcid)
                    && s.may_hold_hypochlorite(),
                Care,
            ),
            CautionId::IntoWater => {
                when(act == Act::AddingAcid || (act == Act::MakingLiquor && percarbonate), Care)
            }
            CautionId::StoringBleach => when(act == Act::Storing && s.oxidant.is_some(), Care),
            CautionId::StoringPulp => when(
                act == Act::Storing && s.oxidant.is_none() && s.residual != Residual::None,
                Care,
            ),
            CautionId::DrainOneAtATime => {
                let clean = s.oxidant.is_none() && s.residual == Residual::None;
                when(act == Act::Draining && !clean, Danger)
            }
            CautionId::DrainStrong => {
                let strong = s.strength.filter(|c| in_grams_per_litre(*c) > DRAIN_STRONG);
                strong
                    .filter(|_| act == Act::Draining)
                    .map(|c| (Care, vec![("strength", Value::Concentration(c))]))
            }
            CautionId::NotForFood => {
                when(matches!(act, Act::MakingLiquor | Act::BlendingHot), Note)
            }
            CautionId::LabelFirst => Some((Note, Vec::new())),
        }
    }

    fn source(self) -> &'static str {
        match self {
            CautionId::BleachWithAcid | CautionId::DrainOneAtATime => {
                "CDC MMWR 1991: chlorine gas toxicity from mixture of bleach with other cleaning products"
            }
            CautionId::ChlorineFromLiquor => {
                "Wang & Margerum 1994 and Sander 2015 (computed); limits OSHA, NIOSH"
            }
            CautionId::ResidualUnknown => "common practice, no source",
            CautionId::BleachWithAmmonia => {
                "Stanford Environmental Health & Safety, bleach solutions"
            }
            CautionId::BleachWithPeroxide | CautionId::PeroxideAsAntichlor => {
                "stoichiometry: 24.5 L of oxygen per mole (computed)"
            }
            CautionId::BleachWithSolvent => "haloform reaction (from memory)",
            CautionId::PeroxideClosed | CautionId::PowderReturned => {
                "sodium percarbonate, producer's safety and handling sheet; safety data sheets"
            }
            CautionId::PeroxideHot => {
                "sodium percarbonate, producer's safety and handling sheet: self-accelerating above 50 °C"
            }
            CautionId::HypochloriteHot => "Smook; Rydholm (from memory)",
            CautionId::HypochloritePhLow => "Clibbens & Ridge 1927 (from memory)",
            CautionId::BlendingHot
            | CautionId::BlendingPeroxide
            | CautionId::BlendingBleach
            | CautionId::HeatingBleach
            | CautionId::Scald
            | CautionId::NotForFood
            | CautionId::StoringPulp
            | CautionId::DrainStrong => "common practice, no source",
            CautionId::SulfiteWithAcid => "safety data sheets (from memory)",
            CautionId::AluminiumWithAlkali => "alkali on aluminium gives hydrogen (from memory)",
            CautionId::MetalWithBleach => {
                "Stanford Environmental Health & Safety for stainless steel; others from memory"
            }
            CautionId::StrongBottle => "safety data sheets (from memory)",
            CautionId::HighCharge => "Rydholm; Smook (from memory); published peroxide trials",
            CautionId::EyesAndHands => "safety data sheets: H318 for sodium percarbonate",
            CautionId::Air => "OSHA ceiling 1 ppm, NIOSH 15-minute ceiling 0.5 ppm chlorine",
            CautionId::IntoWater => "safety data sheets (from memory)",
            CautionId::StoringBleach => "AWWA B300 storage addendum; Rutala et al. 1998",
            CautionId::LabelFirst => "product label, local codes, licensed practice",
        }
    }
}

type Values = Vec<(&'static str, Value)>;

/// Strongest household bleach: 8.25 % NaOCl by mass, 87 g/L available chlorine.
const HOUSEHOLD: f64 = 88.0;

/// Undiluted 5.25 % bleach, g/L available chlorine.
const UNDILUTED: f64 = 53.4;

/// g/L above which a liquor is thinned or used up before it is drained.
const DRAIN_STRONG: f64 = 1.0;

/// Peroxide may take the last of the hypochlorite out up to here, g/L, in an
/// open vessel.
const ANTICHLOR_AT_MOST: f64 = 2.0;

fn blending(act: Act, s: &Situation) -> bool {
    act == Act::BlendingHot || (act == Act::Bath && s.blender)
}

fn hot(act: Act, s: &Situation, here: bool, care: f64, danger: f64) -> Option<(Severity, Values)> {
    let temperature = s.temperature?.get();
    let looked_at = matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath);
    (looked_at && here && temperature > care).then(|| {
        let severity = if temperature > danger { Danger } else { Care };
        let values = vec![
            ("temperature", Value::Celsius(temperature)),
            ("limit", Value::Celsius(if severity == Danger { danger } else { care })),
        ];
        (severity, values)
    })
}

fn chlorine(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let looked_at = matches!(act, Act::Bath | Act::AddingAcid | Act::MakingLiquor);
    if !(looked_at && s.holds_hypochlorite()) {
        return None;
    }
    let ph = s.ph?.get();
    let limit = gas_ph(s);
    (ph < limit).then(|| (Danger, vec![("ph", Value::Ph(ph)), ("limit", Value::Ph(limit))]))
}

/// The pH below which the air over the liquor may pass the NIOSH ceiling, in a
/// closed vessel at equilibrium: a worst case, not a room's air. Not known how
/// strong: as strong as undiluted household bleach. Not known how warm: 25 °C.
fn gas_ph(s: &Situation) -> f64 {
    let chlorine = s.strength.map_or(UNDILUTED, in_grams_per_litre) / CHLORINE.grams_per_mole;
    let salt = s.chloride_molar.map_or(0.0, |chloride| (chloride - chlorine).max(0.0));
    let celsius = s.temperature.map_or(25.0, |t| t.get().clamp(5.0, 80.0));
    let mix = Mix::new(celsius)
        .map(|mix| mix.with_bleach(moles_per_litre(chlorine)).with_salt(moles_per_litre(salt)));
    // No limit at all is how the liquor says that it holds too little to matter.
    mix.and_then(|mix| Headspace::of(&mix).gas_ph(NIOSH_CEILING_PPM)).ok().flatten().unwrap_or(0.0)
}

fn peroxide_as_antichlor(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let meeting = act == Act::AddingAntichlor
        && s.residual == Residual::Hypochlorite
        && s.oxidant.is_some_and(Oxidant::is_peroxide);
    let weak = s.strength.is_some_and(|c| in_grams_per_litre(c) <= ANTICHLOR_AT_MOST);
    let open = s.closed == Some(false);
    (meeting && !(weak && open)).then(|| {
        let limit = crate::quantity::grams_per_litre(ANTICHLOR_AT_MOST);
        (Danger, vec![("limit", Value::Concentration(limit))])
    })
}

fn metal(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let bad = match s.material? {
        Material::Aluminium | Material::OtherMetal => s.holds_hypochlorite() || s.holds_peroxide(),
        Material::Stainless => s.holds_hypochlorite(),
        Material::Plastic | Material::Glass | Material::Enamel => false,
    };
    let here = matches!(act, Act::MakingLiquor | Act::Bath | Act::Storing);
    (bad && here).then(|| (Care, Vec::new()))
}

fn high_charge(act: Act, s: &Situation) -> Option<(Severity, Values)> {
    let usual = customary(s.oxidant?);
    let charge = in_share(s.charge?);
    (act == Act::Bath && charge > usual.high).then(|| {
        (Care, vec![("charge", Value::Share(charge)), ("usual", Value::Share(usual.high))])
    })
}
