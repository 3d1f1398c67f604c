//! The conditions of the rules that look at a measured fact. Each takes the worst end of the
//! fact's range.

use super::{
    Act, Material, Severity, Situation,
    rule::{Finding, making, when},
};
use crate::{
    bath::customary,
    chemistry::{
        Oxidant, Residual,
        alkali::PhWindow,
        bath_limit::{ALKALI_DANGER_PH, HYPOCHLORITE_DANGER_PH, Limit, bath_limits},
        dechlorination::PEROXIDE_LIMIT,
        equilibrium::{COLDEST, HOTTEST, Mix},
        headspace::{Headspace, NIOSH_CEILING_PPM},
        substance::{CHLORINE, in_moles_per_litre, moles_per_litre},
    },
    message::Value,
    quantity::{
        Celsius, Interval, MassConcentration, grams_per_litre, in_grams_per_litre, in_share,
    },
};

use Severity::{Care, Danger};

/// Strongest household bleach: 8.25 % NaOCl by mass, 87 g/L available chlorine.
const HOUSEHOLD: f64 = 88.0;

/// An unknown strength of hypochlorite, g/L: more than the strongest bottle that is accepted has
/// (15 % NaOCl by mass, 175 g/L).
const STRONGEST: f64 = 200.0;

/// Strength above which liquor is diluted or used up before draining, g/L (common practice, no
/// source).
const DRAIN_STRONG: f64 = 1.0;

/// Temperature of pulp that is not blended, and of water that scalds, °C (common practice, no
/// source).
const BLENDING_HOT: f64 = 40.0;
const SCALDING: f64 = 45.0;

/// Chloride per available chlorine, by moles, in a bottle that has lost three quarters of its
/// strength as 3 OCl⁻ → ClO₃⁻ + 2 Cl⁻ (computed; fresh bleach has 1).
const CHLORIDE_PER_CHLORINE: f64 = 6.0;

impl Limit {
    /// The severity of a value and the limit that it is above.
    fn passed_by(self, value: f64) -> Option<(Severity, f64)> {
        if value > self.danger {
            Some((Danger, self.danger))
        } else if value > self.care {
            Some((Care, self.care))
        } else {
            None
        }
    }
}

/// The graver of two findings, the first of equals.
fn worst(findings: impl Iterator<Item = Finding>) -> Option<Finding> {
    findings.reduce(|a, b| if b.0 > a.0 { b } else { a })
}

/// Any part of the interval is above the limit, or the interval is unknown.
fn may_be_above(interval: Option<Interval<Celsius>>, limit: f64) -> bool {
    interval.is_none_or(|interval| interval.high.get() > limit)
}

/// The acts in which the temperature of a bleach matters.
fn warming(act: Act) -> bool {
    matches!(act, Act::MakingLiquor | Act::Heating | Act::Bath)
}

pub(super) fn peroxide_hot(act: Act, s: &Situation) -> Option<Finding> {
    hot(s, warming(act) && s.may_hold_peroxide(), Oxidant::Peroxide)
}

pub(super) fn hypochlorite_hot(act: Act, s: &Situation) -> Option<Finding> {
    hot(s, warming(act) && s.may_hold_hypochlorite(), Oxidant::Hypochlorite)
}

fn hot(s: &Situation, here: bool, oxidant: Oxidant) -> Option<Finding> {
    let celsius = s.temperature.filter(|_| here)?.high.get();
    let (severity, limit) = bath_limits(oxidant).celsius.passed_by(celsius)?;
    let values = vec![("temperature", Value::Celsius(celsius)), ("limit", Value::Celsius(limit))];
    Some((severity, values))
}

pub(super) fn temperature_unknown(act: Act, s: &Situation) -> Option<Finding> {
    let matters = warming(act) && s.may_hold_oxidant();
    when(matters && s.temperature.is_none(), Danger)
}

pub(super) fn blending_hot(act: Act, s: &Situation) -> Option<Finding> {
    let blended = act == Act::BlendingHot || (act == Act::Bath && s.blender);
    when(blended && may_be_above(s.temperature, BLENDING_HOT), Danger)
}

pub(super) fn scald(act: Act, s: &Situation) -> Option<Finding> {
    let here = matches!(act, Act::Heating | Act::Bath);
    when(here && may_be_above(s.temperature, SCALDING), Care)
}

/// The acts in which the liquor may give off chlorine.
fn may_release_chlorine(act: Act, s: &Situation) -> bool {
    matches!(act, Act::Bath | Act::AddingAcid | Act::MakingLiquor) && s.may_hold_hypochlorite()
}

/// The acts in which a person handles an alkaline liquor.
fn handling_liquor(act: Act) -> bool {
    matches!(act, Act::Bath | Act::MakingLiquor)
}

pub(super) fn chlorine(act: Act, s: &Situation) -> Option<Finding> {
    let ph = s.ph.filter(|_| may_release_chlorine(act, s))?.low.get();
    let limit = gas_ph(s);
    (ph < limit).then(|| (Danger, vec![("ph", Value::Ph(ph)), ("limit", Value::Ph(limit))]))
}

/// The highest pH at which chlorine over the liquor may exceed the NIOSH ceiling, at equilibrium
/// in a closed vessel: the worst case, not the air of a room. The chloride is that of an old
/// bottle; an unknown strength counts as the strongest bottle.
fn gas_ph(s: &Situation) -> f64 {
    let strength = s.strength.map_or(grams_per_litre(STRONGEST), |strength| strength.high);
    let chlorine = in_moles_per_litre(CHLORINE.molar(strength));
    let salt = moles_per_litre(chlorine * (CHLORIDE_PER_CHLORINE - 1.0));
    let end = |celsius: Celsius| celsius.get().clamp(COLDEST, HOTTEST);
    let at = s.temperature.map_or(Interval { low: COLDEST, high: HOTTEST }, |t| t.map(end));
    let limit = |celsius: f64| {
        let mix = Mix::new(celsius).ok()?.with_bleach(moles_per_litre(chlorine)).with_salt(salt);
        // `None` where the liquor holds too little chlorine to matter.
        Headspace::of(&mix).gas_ph(NIOSH_CEILING_PPM).ok().flatten()
    };
    // Over temperature it has a minimum but no maximum inside: one of the ends is the worst.
    [at.low, at.high].into_iter().filter_map(limit).fold(0.0, f64::max)
}

pub(super) fn hypochlorite_ph_low(act: Act, s: &Situation) -> Option<Finding> {
    let ph = s.ph.filter(|_| act == Act::Bath && s.may_hold_hypochlorite())?.low.get();
    let window = PhWindow::HYPOCHLORITE.low;
    (ph < window).then(|| {
        let severity = if ph < HYPOCHLORITE_DANGER_PH { Danger } else { Care };
        (severity, vec![("ph", Value::Ph(ph)), ("limit", Value::Ph(window))])
    })
}

pub(super) fn alkali_burns(act: Act, s: &Situation) -> Option<Finding> {
    strongly_alkaline(s, handling_liquor(act), Danger)
}

pub(super) fn alkali_swells_fibre(act: Act, s: &Situation) -> Option<Finding> {
    strongly_alkaline(s, act == Act::Bath, Care)
}

fn strongly_alkaline(s: &Situation, here: bool, severity: Severity) -> Option<Finding> {
    let ph = s.ph.filter(|_| here)?.high.get();
    let values = || vec![("ph", Value::Ph(ph)), ("limit", Value::Ph(ALKALI_DANGER_PH))];
    (ph > ALKALI_DANGER_PH).then(|| (severity, values()))
}

pub(super) fn ph_unknown(act: Act, s: &Situation) -> Option<Finding> {
    when(s.ph.is_none() && (handling_liquor(act) || may_release_chlorine(act, s)), Danger)
}

pub(super) fn high_charge(act: Act, s: &Situation) -> Option<Finding> {
    let charge = in_share(s.charge.filter(|_| act == Act::Bath)?.high);
    worst(s.oxidant.possible().filter_map(|oxidant| {
        let usual = customary(oxidant);
        let limit = Limit { care: usual.high, danger: usual.limit };
        let (severity, _) = limit.passed_by(charge)?;
        Some((
            severity,
            vec![("charge", Value::Share(charge)), ("usual", Value::Share(usual.high))],
        ))
    }))
}

pub(super) fn strong_bath(act: Act, s: &Situation) -> Option<Finding> {
    let strength = s.strength.filter(|_| act == Act::Bath)?.high;
    let hypochlorite = s.may_hold_hypochlorite().then_some(Oxidant::Hypochlorite);
    let peroxide = s.may_hold_peroxide().then_some(Oxidant::Peroxide);
    worst(hypochlorite.into_iter().chain(peroxide).filter_map(|oxidant| {
        let limit = bath_limits(oxidant).strength;
        let (severity, _) = limit.passed_by(in_grams_per_litre(strength))?;
        Some((
            severity,
            vec![
                ("strength", Value::Concentration(strength)),
                ("usual", Value::Concentration(grams_per_litre(limit.care))),
            ],
        ))
    }))
}

pub(super) fn drain_strong(act: Act, s: &Situation) -> Option<Finding> {
    let here = act == Act::Draining && s.may_hold_oxidant();
    stronger_than(DRAIN_STRONG, s.strength.filter(|_| here))
}

pub(super) fn dose_unknown(act: Act, s: &Situation) -> Option<Finding> {
    let strength = s.strength.is_none() && s.may_hold_oxidant();
    let charge = s.charge.is_none() && s.oxidant.possible().next().is_some();
    match act {
        Act::Bath => when(strength || charge, Danger),
        Act::Draining => when(strength, Care),
        _ => None,
    }
}

pub(super) fn strong_bottle(act: Act, s: &Situation) -> Option<Finding> {
    stronger_than(HOUSEHOLD, s.bottle_strength.filter(|_| opening_hypochlorite(act, s)))
}

pub(super) fn bottle_unknown(act: Act, s: &Situation) -> Option<Finding> {
    when(opening_hypochlorite(act, s) && s.bottle_strength.is_none(), Care)
}

fn opening_hypochlorite(act: Act, s: &Situation) -> bool {
    making(act) && s.may_use_hypochlorite()
}

fn stronger_than(limit: f64, strength: Option<Interval<MassConcentration>>) -> Option<Finding> {
    let strength = strength?.high;
    (in_grams_per_litre(strength) > limit)
        .then(|| (Care, vec![("strength", Value::Concentration(strength))]))
}

pub(super) fn long_bath(act: Act, s: &Situation) -> Option<Finding> {
    let minutes = s.minutes.filter(|_| act == Act::Bath && s.may_hold_hypochlorite())?.high;
    let limit = bath_limits(Oxidant::Hypochlorite).minutes?;
    let (severity, _) = limit.passed_by(minutes)?;
    let values = vec![("minutes", Value::Minutes(minutes)), ("limit", Value::Minutes(limit.care))];
    Some((severity, values))
}

pub(super) fn time_unknown(act: Act, s: &Situation) -> Option<Finding> {
    when(act == Act::Bath && s.may_hold_hypochlorite() && s.minutes.is_none(), Danger)
}

pub(super) fn peroxide_as_antichlor(act: Act, s: &Situation) -> Option<Finding> {
    let meeting =
        act == Act::AddingAntichlor && s.hypochlorite_may_be_left() && s.may_use_peroxide();
    let weak = s.strength.is_some_and(|c| in_grams_per_litre(c.high) <= PEROXIDE_LIMIT);
    let open = s.closed == Some(false);
    (meeting && !(weak && open))
        .then(|| (Danger, vec![("limit", Value::Concentration(grams_per_litre(PEROXIDE_LIMIT)))]))
}

pub(super) fn metal(act: Act, s: &Situation) -> Option<Finding> {
    let attacked = match s.material {
        None | Some(Material::Aluminium | Material::OtherMetal) => s.may_hold_oxidant(),
        Some(Material::Stainless) => s.may_hold_hypochlorite(),
        Some(Material::Plastic | Material::Glass | Material::Enamel) => false,
    };
    when(attacked && matches!(act, Act::MakingLiquor | Act::Bath | Act::Storing), Care)
}

pub(super) fn residual_unknown(act: Act, s: &Situation) -> Option<Finding> {
    when(act == Act::AddingAcid && s.residual == Residual::Unknown, Danger)
}
