//! Strength of a hypochlorite bottle today, from the best evidence.
//!
//! A titration outranks a strip, a strip the label. The evidence is aged to today by
//! [`decay`](super::decay), and the result names it. Strengths are grams of available chlorine
//! per litre.

use super::decay::{DecayExtrapolation, STRENGTH, StoredHypochlorite, check_age};
use super::hypochlorite_limit::check_hypochlorite;
use super::strength_error::StrengthError;
use super::substance::{CHLORINE, moles_per_litre};
use crate::message::Field;
use crate::quantity::{
    Basis, Estimate, MassConcentration, OutOfRange, QuantityKind, grams_per_litre,
    in_grams_per_litre,
};

pub const DILUTION: Field = Field("dilution");

/// Free lye in a bottle of hypochlorite whose label does not give it, mol/L.
///
/// Household bleach reads pH 11.5 to 13 (safety data sheets, from memory); trade liquors,
/// stronger than 8.25 % NaOCl by mass, are made with 0.2 to 0.73 % NaOH by mass (Powell
/// Fabrication, specific gravity tables; read).
pub fn free_lye(available_chlorine: MassConcentration) -> Estimate<f64> {
    /// 8.25 % NaOCl by mass, g/L.
    const STRONGEST_HOUSEHOLD: f64 = 88.0;
    let (value, low, high) = if in_grams_per_litre(available_chlorine) > STRONGEST_HOUSEHOLD {
        (0.1, 0.05, 0.2)
    } else {
        (0.03, 0.005, 0.1)
    };
    Estimate { value, low, high, basis: Basis::Assumed }
}

/// Storage of a bottle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StorageConditions {
    /// °C, with its range over the time of storage.
    pub celsius: Estimate<f64>,
    /// Opened, or badly closed.
    pub opened: bool,
    /// In a clear bottle or in light.
    pub lit: bool,
}

/// A known strength of a bottle on an earlier day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrengthEvidence {
    pub kind: EvidenceKind,
    /// Available chlorine on that day.
    pub strength: Estimate<MassConcentration>,
    pub days_ago: f64,
}

/// Kind of evidence, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EvidenceKind {
    Titration,
    Strip,
    Label,
}

/// A bottle's strength today.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BottleStrength {
    /// Available chlorine now; the upper end is the best case of the decay law.
    pub available_chlorine: Estimate<MassConcentration>,
    /// Share left of the strength in the evidence, 0 to 1.
    pub left: Estimate<f64>,
    /// The evidence that was used.
    pub rests_on: EvidenceKind,
    /// Where the decay law was extrapolated.
    pub extrapolation: DecayExtrapolation,
    /// Opened or lit: the lower end is widened by losses outside the decay law.
    pub widened: bool,
}

/// Strength today by the best evidence; among equals the most recent.
///
/// # Errors
/// No evidence; an impossible strength; a date in the future; a storage temperature
/// outside 0-100 °C.
pub fn strength_now(
    evidence: &[StrengthEvidence],
    storage: &StorageConditions,
) -> Result<BottleStrength, StrengthError> {
    for one in evidence {
        check_age(one.days_ago)?;
    }
    aged(best(evidence).ok_or(StrengthError::Missing { field: STRENGTH })?, storage)
}

/// The evidence that [`strength_now`] uses.
pub fn best(evidence: &[StrengthEvidence]) -> Option<&StrengthEvidence> {
    evidence.iter().min_by(|a, b| a.kind.cmp(&b.kind).then(a.days_ago.total_cmp(&b.days_ago)))
}

/// Strength from a strip that read `reading_ppm` mg/L in a sample diluted to `parts` times its
/// volume; the range of the reading is that of the strip's neighbouring steps.
///
/// # Errors
/// A dilution below 1 or above 100 000; an impossible strength.
pub fn from_strip(
    reading_ppm: Estimate<f64>,
    parts: f64,
) -> Result<Estimate<MassConcentration>, StrengthError> {
    OutOfRange::check(DILUTION, QuantityKind::Number, parts, 1.0, 1e5)?;
    let strength = reading_ppm.map(|ppm| grams_per_litre(ppm * parts / 1000.0));
    let found = Estimate { basis: Basis::Strip, ..strength };
    check_hypochlorite(found.value, None)?;
    Ok(found)
}

fn aged(
    evidence: &StrengthEvidence,
    storage: &StorageConditions,
) -> Result<BottleStrength, StrengthError> {
    /// Worst-case factor on the rate: half-lives of the law are up to 1.6 times longer than
    /// the handbook's for strong bleach (White, Handbook of Chlorination, from memory).
    const WORST_RATE: f64 = 1.6;
    /// Diluted in the sense of Rutala's study: below this, g/L.
    const DILUTED: f64 = 10.0;
    check_hypochlorite(evidence.strength.value, None)?;
    let days = evidence.days_ago;
    let hypochlorite = CHLORINE.molar(evidence.strength.value);
    let lye = moles_per_litre(free_lye(evidence.strength.value).value);
    let stored_at = |celsius| StoredHypochlorite::new(hypochlorite, lye, celsius);
    let middle = stored_at(storage.celsius.value)?;
    let cool = stored_at(storage.celsius.low)?;
    let warm = stored_at(storage.celsius.high)?;
    let diluted = in_grams_per_litre(evidence.strength.value) < DILUTED;
    let (least, most) = other_losses_per_day(diluted, storage);

    let high = cool.left_after(days)? * (-least * days).exp();
    let low = warm.left_at_rate(days, WORST_RATE)? * (-most * days).exp();
    let widened = storage.opened || storage.lit;
    let law = middle.left_after(days)?;
    let value = if widened { (low * high).sqrt().min(law) } else { law.clamp(low, high) };
    let basis = match evidence.kind {
        EvidenceKind::Titration if days < 1.0 => Basis::Measured,
        EvidenceKind::Strip if days < 1.0 => Basis::Strip,
        _ if evidence.strength.basis == Basis::Assumed
            || storage.celsius.basis == Basis::Assumed =>
        {
            Basis::Assumed
        }
        _ => Basis::Computed,
    };
    let left = Estimate { value, low, high, basis };
    Ok(BottleStrength {
        available_chlorine: Estimate {
            value: evidence.strength.value * value,
            low: evidence.strength.low * low,
            high: evidence.strength.high * high,
            basis,
        },
        left,
        rests_on: evidence.kind,
        extrapolation: middle.extrapolation(),
        widened,
    })
}

/// Slowest and fastest losses outside the decay law, first-order rates per day.
///
/// Rutala et al. (1998), Infect. Control Hosp. Epidemiol. (abstract read): diluted liquor in
/// closed brown bottles at 20 °C kept 97-100 % for 30 days; open and in the light at 1:50 to
/// 1:100 it kept 40-50 %. Opened or lit bottles at full strength were not studied;
/// a tenth of the rate of the diluted liquor is taken (an assumption, no source).
fn other_losses_per_day(diluted: bool, storage: &StorageConditions) -> (f64, f64) {
    const DAYS: f64 = 30.0;
    let exposed = storage.opened || storage.lit;
    let closed_worst = -(0.97_f64.ln()) / DAYS;
    let open_best = -(0.50_f64.ln()) / DAYS;
    let open_worst = -(0.40_f64.ln()) / DAYS;
    match (diluted, exposed) {
        (false, false) => (0.0, 0.0),
        (true, false) => (0.0, closed_worst),
        (false, true) => (0.0, 0.1 * open_worst),
        // Only opened, or only lit, may lose less than both together.
        (true, true) if !(storage.opened && storage.lit) => (0.0, open_worst),
        (true, true) => (open_best * 0.5, open_worst),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn storage(celsius: f64, opened: bool, lit: bool) -> StorageConditions {
        StorageConditions { celsius: Estimate::exact(celsius, Basis::Measured), opened, lit }
    }

    fn label(grams: f64, days_ago: f64) -> StrengthEvidence {
        let strength = Estimate::exact(grams_per_litre(grams), Basis::Label);
        StrengthEvidence { kind: EvidenceKind::Label, strength, days_ago }
    }

    #[test]
    fn a_titration_outranks_a_newer_strip() {
        let known = |grams| Estimate::exact(grams_per_litre(grams), Basis::Measured);
        let measured =
            |kind, grams, days_ago| StrengthEvidence { kind, strength: known(grams), days_ago };
        let titration = measured(EvidenceKind::Titration, 40.0, 20.0);
        let strip = measured(EvidenceKind::Strip, 30.0, 0.0);
        let evidence = [label(53.0, 200.0), strip, titration];
        let now = strength_now(&evidence, &storage(20.0, false, false)).unwrap();
        assert_eq!(now.rests_on, EvidenceKind::Titration);
        let without = strength_now(&evidence[..2], &storage(20.0, false, false)).unwrap();
        assert_eq!(without.rests_on, EvidenceKind::Strip);
        assert!(strength_now(&[], &storage(20.0, false, false)).is_err());
    }

    #[test]
    fn opened_and_lit_lower_only_the_low_end() {
        let closed = strength_now(&[label(53.0, 90.0)], &storage(20.0, false, false)).unwrap();
        let lit = strength_now(&[label(53.0, 90.0)], &storage(20.0, true, true)).unwrap();
        assert!(lit.left.low < closed.left.low);
        assert_eq!(lit.left.high, closed.left.high);
        assert!(lit.left.value < closed.left.value);
        assert!(lit.widened && !closed.widened);
    }

    #[test]
    fn diluted_open_liquor_loses_half_in_a_month() {
        let thin = strength_now(&[label(1.0, 30.0)], &storage(20.0, true, true)).unwrap();
        assert!(thin.left.low <= 0.40 && thin.left.high >= 0.50);
        assert!((0.4..0.55).contains(&thin.left.value));
        assert!(thin.extrapolation.dilute);
    }

    #[test]
    fn impossible_strength_and_future_date_are_errors() {
        let refused = strength_now(&[label(240.0, 0.0)], &storage(20.0, false, false));
        let Err(StrengthError::OutOfRange(error)) = refused else { unreachable!("{refused:?}") };
        assert!((170.0..180.0).contains(&error.max));
        assert!(check_hypochlorite(grams_per_litre(170.0), None).is_ok());
        assert!(strength_now(&[label(50.0, -3.0)], &storage(20.0, false, false)).is_err());
    }

    #[test]
    fn strip_reading_is_multiplied_by_its_dilution() {
        let reading = Estimate { value: 100.0, low: 50.0, high: 200.0, basis: Basis::Strip };
        let found = from_strip(reading, 500.0).unwrap();
        assert!((in_grams_per_litre(found.value) - 50.0).abs() < 1e-9);
        assert!(from_strip(reading, 0.5).is_err());
        assert!(from_strip(reading, 5000.0).is_err());
    }
}
