//! How strong a hypochlorite bottle is by now, from the best evidence there is.
//!
//! A titration beats a strip, a strip beats the label; each is carried from its day to today
//! by [`decay`](super::decay), and the answer says which it rests on. Strengths are grams of
//! available chlorine per litre.

use super::decay::{AGE, Beyond, STRENGTH, Stored};
use super::refusal::{Refusal, within};
use super::substance::{CHLORINE, SODIUM_HYPOCHLORITE, in_moles_per_litre, moles_per_litre};
use crate::message::Field;
use crate::quantity::{
    Basis, Estimate, MassConcentration, MassDensity, OutOfRange, QuantityKind, grams_per_litre,
    in_grams_per_litre, in_grams_per_millilitre,
};

/// Strongest hypochlorite that is held to exist, NaOCl by mass (common practice, no source:
/// trade liquors stop near 15 %).
pub const STRONGEST_SHARE: f64 = 0.15;
/// Free lye taken for a bottle that does not say, mol/L (common practice, no source).
pub const USUAL_LYE: f64 = 0.1;

/// The field that a refusal about a strip's dilution belongs beside.
pub const DILUTION: Field = Field("dilution");

/// How a bottle was kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keeping {
    /// °C, with the range that it saw.
    pub celsius: Estimate<f64>,
    /// Opened, or badly closed.
    pub opened: bool,
    /// In a clear bottle, or in the light.
    pub lit: bool,
}

/// One thing known about a bottle's strength, and how many days ago it was so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    pub kind: EvidenceKind,
    /// Available chlorine on that day.
    pub strength: Estimate<MassConcentration>,
    pub days_ago: f64,
}

/// What sort of evidence, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EvidenceKind {
    Titration,
    Strip,
    Label,
}

/// A bottle's strength today.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Available chlorine now; the upper end is the law's best case.
    pub available_chlorine: Estimate<MassConcentration>,
    /// Share left of what the evidence showed, 0 to 1.
    pub left: Estimate<f64>,
    /// Which evidence this rests on.
    pub rests_on: EvidenceKind,
    /// Where the decay law was stretched.
    pub beyond: Beyond,
    /// Opened or lit: the lower end is widened by losses that no law describes.
    pub widened: bool,
}

/// Strength today from everything that is known, by the best evidence; among equals, the most
/// recent.
///
/// # Errors
/// No evidence at all; strength that cannot be; a date in the future; a storage temperature
/// outside 0-100 °C.
pub fn strength_now(evidence: &[Evidence], keeping: &Keeping) -> Result<Strength, Refusal> {
    for one in evidence {
        within(AGE, QuantityKind::Duration, one.days_ago * 1440.0, 0.0, 100.0 * 365.25 * 1440.0)?;
    }
    aged(best(evidence).ok_or(Refusal::Missing { field: STRENGTH })?, keeping)
}

/// The evidence that [`strength_now`] rests on.
pub fn best(evidence: &[Evidence]) -> Option<&Evidence> {
    evidence.iter().min_by(|a, b| a.kind.cmp(&b.kind).then(a.days_ago.total_cmp(&b.days_ago)))
}

/// Strength from a strip that read `reading_ppm` mg/L of a sample thinned to `parts` times its
/// volume; its ends are the strip's neighbouring steps.
///
/// # Errors
/// A dilution below 1 or above 100 000; a strength that cannot be.
pub fn from_strip(
    reading_ppm: Estimate<f64>,
    parts: f64,
) -> Result<Estimate<MassConcentration>, Refusal> {
    within(DILUTION, QuantityKind::Number, parts, 1.0, 1e5)?;
    let strength = |ppm: f64| grams_per_litre(ppm * parts / 1000.0);
    let found = Estimate {
        value: strength(reading_ppm.value),
        low: strength(reading_ppm.low),
        high: strength(reading_ppm.high),
        basis: Basis::Strip,
    };
    refuse_impossible(found.value, None)?;
    Ok(found)
}

/// Refuses hypochlorite above [`STRONGEST_SHARE`] by mass.
///
/// # Errors
/// [`Refusal::OutOfRange`] in g/L, with the strongest that this density allows.
pub fn refuse_impossible(
    available_chlorine: MassConcentration,
    density: Option<MassDensity>,
) -> Result<(), Refusal> {
    let grams = in_grams_per_litre(available_chlorine);
    let per_litre = density.map_or_else(|| usual_density(grams), in_grams_per_millilitre);
    let hypochlorite_per_chlorine = SODIUM_HYPOCHLORITE.grams_per_mole / CHLORINE.grams_per_mole;
    let share_at =
        |grams: f64, density: f64| grams * hypochlorite_per_chlorine / (1000.0 * density);
    let share = share_at(grams, per_litre);
    if (0.0..=STRONGEST_SHARE).contains(&share) {
        return Ok(());
    }
    // The same share at this density, or on the usual line of density against strength.
    let highest = match density {
        Some(_) => STRONGEST_SHARE * 1000.0 * per_litre / hypochlorite_per_chlorine,
        None => {
            998.0 * STRONGEST_SHARE
                / (hypochlorite_per_chlorine - 1000.0 * DENSITY_SLOPE * STRONGEST_SHARE)
        }
    };
    Err(Refusal::OutOfRange(OutOfRange {
        subject: STRENGTH,
        given: grams,
        min: 0.0,
        max: highest,
        kind: QuantityKind::Concentration,
    }))
}

/// g/mL per g/L of available chlorine at 20 °C, with the salt that comes with it: fitted to
/// SG 1.157 at 120 g/L without lye (Powell Fabrication, read); ±0.02 for real products.
const DENSITY_SLOPE: f64 = 0.001_31;

fn usual_density(available_chlorine_grams_per_litre: f64) -> f64 {
    0.998 + DENSITY_SLOPE * available_chlorine_grams_per_litre
}

/// The slowest and fastest that losses outside the law go, as a first-order rate per day.
///
/// Rutala et al. (1998), Infect. Control Hosp. Epidemiol. (abstract read): thinned liquor in
/// closed brown bottles at 20 °C kept 97-100 % for 30 days; open and in the light at 1:50 to
/// 1:100 it kept 40-50 %. What an opened or lit bottle at full strength loses was not in it;
/// we allow a tenth of the rate of the thin liquor (an assumption, no source).
fn other_losses_per_day(thin: bool, keeping: &Keeping) -> (f64, f64) {
    const DAYS: f64 = 30.0;
    let exposed = keeping.opened || keeping.lit;
    let closed_worst = -(0.97_f64.ln()) / DAYS;
    let open_best = -(0.50_f64.ln()) / DAYS;
    let open_worst = -(0.40_f64.ln()) / DAYS;
    match (thin, exposed) {
        (false, false) => (0.0, 0.0),
        (true, false) => (0.0, closed_worst),
        (false, true) => (0.0, 0.1 * open_worst),
        // Only opened, or only lit, may be kinder than both.
        (true, true) if !(keeping.opened && keeping.lit) => (0.0, open_worst),
        (true, true) => (open_best * 0.5, open_worst),
    }
}

fn aged(evidence: &Evidence, keeping: &Keeping) -> Result<Strength, Refusal> {
    /// The law's half-lives against the handbook's: up to 1.6 times too long for strong
    /// bleach (White, Handbook of Chlorination, from memory).
    const PESSIMIST: f64 = 1.6;
    /// Liquor below this is thin in the sense of Rutala's dilutions, g/L.
    const THIN: f64 = 10.0;
    refuse_impossible(evidence.strength.value, None)?;
    let days = evidence.days_ago;
    let stored = |strength: MassConcentration, celsius: f64| {
        Stored::new(moles_per_litre(chlorine_moles(strength)), moles_per_litre(USUAL_LYE), celsius)
    };
    let middle = stored(evidence.strength.value, keeping.celsius.value)?;
    let cool = stored(evidence.strength.value, keeping.celsius.low)?;
    let warm = stored(evidence.strength.value, keeping.celsius.high)?;
    let thin = in_grams_per_litre(evidence.strength.value) < THIN;
    let (least, most) = other_losses_per_day(thin, keeping);

    let high = cool.left_after(days)? * (-least * days).exp();
    let low = warm.left_at_rate(days, PESSIMIST)? * (-most * days).exp();
    let widened = keeping.opened || keeping.lit;
    let law = middle.left_after(days)?;
    let value = if widened { (low * high).sqrt().min(law) } else { law.clamp(low, high) };
    let basis = match evidence.kind {
        EvidenceKind::Titration if days < 1.0 => Basis::Measured,
        EvidenceKind::Strip if days < 1.0 => Basis::Strip,
        _ if evidence.strength.basis == Basis::Assumed
            || keeping.celsius.basis == Basis::Assumed =>
        {
            Basis::Assumed
        }
        _ => Basis::Computed,
    };
    let left = Estimate { value, low, high, basis };
    Ok(Strength {
        available_chlorine: Estimate {
            value: evidence.strength.value * value,
            low: evidence.strength.low * low,
            high: evidence.strength.high * high,
            basis,
        },
        left,
        rests_on: evidence.kind,
        beyond: middle.beyond(),
        widened,
    })
}

fn chlorine_moles(available_chlorine: MassConcentration) -> f64 {
    in_moles_per_litre(CHLORINE.molar(available_chlorine))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn kept(celsius: f64, opened: bool, lit: bool) -> Keeping {
        Keeping { celsius: Estimate::exact(celsius, Basis::Measured), opened, lit }
    }

    fn label(grams: f64, days_ago: f64) -> Evidence {
        let strength = Estimate::exact(grams_per_litre(grams), Basis::Label);
        Evidence { kind: EvidenceKind::Label, strength, days_ago }
    }

    #[test]
    fn a_titration_beats_a_newer_strip_and_says_so() {
        let known = |grams| Estimate::exact(grams_per_litre(grams), Basis::Measured);
        let titration =
            Evidence { kind: EvidenceKind::Titration, strength: known(40.0), days_ago: 20.0 };
        let strip = Evidence { kind: EvidenceKind::Strip, strength: known(30.0), days_ago: 0.0 };
        let evidence = [label(53.0, 200.0), strip, titration];
        let now = strength_now(&evidence, &kept(20.0, false, false)).unwrap();
        assert_eq!(now.rests_on, EvidenceKind::Titration);
        let without = strength_now(&evidence[..2], &kept(20.0, false, false)).unwrap();
        assert_eq!(without.rests_on, EvidenceKind::Strip);
        assert!(strength_now(&[], &kept(20.0, false, false)).is_err());
    }

    #[test]
    fn opened_and_lit_widen_downwards_only() {
        let closed = strength_now(&[label(53.0, 90.0)], &kept(20.0, false, false)).unwrap();
        let lit = strength_now(&[label(53.0, 90.0)], &kept(20.0, true, true)).unwrap();
        assert!(lit.left.low < closed.left.low);
        assert_eq!(lit.left.high, closed.left.high);
        assert!(lit.left.value < closed.left.value);
        assert!(lit.widened && !closed.widened);
    }

    #[test]
    fn thin_open_liquor_loses_half_in_a_month() {
        let thin = strength_now(&[label(1.0, 30.0)], &kept(20.0, true, true)).unwrap();
        assert!(thin.left.low <= 0.40 && thin.left.high >= 0.50);
        assert!((0.4..0.55).contains(&thin.left.value));
        assert!(thin.beyond.dilute);
    }

    #[test]
    fn what_cannot_be_is_refused_with_what_can() {
        let refused = strength_now(&[label(240.0, 0.0)], &kept(20.0, false, false));
        let Err(Refusal::OutOfRange(error)) = refused else { unreachable!("{refused:?}") };
        assert!((170.0..180.0).contains(&error.max));
        assert!(refuse_impossible(grams_per_litre(170.0), None).is_ok());
        assert!(strength_now(&[label(50.0, -3.0)], &kept(20.0, false, false)).is_err());
    }

    #[test]
    fn a_strip_counts_its_dilution() {
        let reading = Estimate { value: 100.0, low: 50.0, high: 200.0, basis: Basis::Strip };
        let found = from_strip(reading, 500.0).unwrap();
        assert!((in_grams_per_litre(found.value) - 50.0).abs() < 1e-9);
        assert!(from_strip(reading, 0.5).is_err());
        assert!(from_strip(reading, 5000.0).is_err());
    }
}
