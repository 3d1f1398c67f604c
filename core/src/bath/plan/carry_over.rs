//! Carry-over: the alkali of the cook, or the acid, that rinsed pulp still holds in its water.

use crate::{
    chemistry::{
        EquilibriumError,
        equilibrium::{Mix, Reagent},
        substance::{in_moles_per_litre, moles_per_litre},
    },
    message::Field,
    quantity::{Basis, Estimate},
};

/// Water expressed (squeezed) from rinsed pulp, as a measure of carry-over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExpressedWater {
    /// pH by strip or meter at room temperature.
    pub ph: Estimate<f64>,
    pub alkali: ResidualAlkali,
}

/// The alkali of the cook. At the same pH soda holds far more alkali than lye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ResidualAlkali {
    /// Soda ash, washing soda, wood ash.
    Soda,
    /// Lye or lime; air turns part of it to carbonate while the pulp stands.
    Lye,
    Unknown,
}

impl ExpressedWater {
    /// Not tested; rinsed until it no longer feels slippery: pH 8.5, 7 to 10
    /// (common practice, no source).
    pub fn unknown() -> Self {
        let ph = Estimate { value: 8.5, low: 7.0, high: 10.0, basis: Basis::Assumed };
        Self { ph, alkali: ResidualAlkali::Unknown }
    }

    /// Any part of the reading's range is below [`ACID_PULP_PH`].
    pub fn may_be_acid(&self) -> bool {
        let neutral = self.ph.low >= ACID_PULP_PH;
        !neutral
    }
}

impl ResidualAlkali {
    /// Share of the alkali that is carbonate (common practice, no source).
    pub fn carbonate_share(self) -> Estimate<f64> {
        let (value, low, high) = match self {
            Self::Soda => (1.0, 0.7, 1.0),
            Self::Lye => (0.2, 0.0, 0.5),
            Self::Unknown => (0.5, 0.0, 1.0),
        };
        Estimate { value, low, high, basis: Basis::Assumed }
    }
}

/// Below this, pulp's water is acid: distilled water in air reads 5.6 (own estimate).
pub const ACID_PULP_PH: f64 = 6.0;

/// Acid in the pulp's water relative to acetic acid that gives the same pH. A pH tells
/// little of a weak acid's amount: 0 is strong acid alone, which the pH gives exactly; above
/// 1 the acid is weaker than acetic, or partly neutralised (own estimate).
pub const CARRIED_ACID_FACTOR: Estimate<f64> =
    Estimate { value: 1.0, low: 0.0, high: 3.0, basis: Basis::Assumed };

/// Field for the pH of expressed water.
pub const CARRY_OVER_PH: Field = Field("carry_over_ph");

/// Solver for the alkali or acid in the pulp's water.
pub(super) struct CarryOver {
    /// Pure water at [`TEST_CELSIUS`].
    water: Mix,
}

/// What the pulp's water holds besides tap water, mol/L; the alternatives that give its pH.
#[derive(Clone, Copy)]
pub(super) enum Carried {
    /// As lye alone and as soda ash alone; `None` where soda ash cannot reach the pH.
    Alkali { lye: f64, soda_ash: Option<f64> },
    /// As strong acid alone and as acetic acid alone.
    Acid { strong: f64, acetic: f64 },
}

impl CarryOver {
    pub(super) fn new() -> Result<Self, EquilibriumError> {
        Ok(Self { water: Mix::new(TEST_CELSIUS)? })
    }

    /// What brings tap water of `bicarbonate` mol/L to `ph`.
    pub(super) fn carried(&self, ph: f64, bicarbonate: f64) -> Result<Carried, EquilibriumError> {
        let tap = self.water.with_baking_soda(moles_per_litre(bicarbonate));
        if ph < tap.solve()?.ph() {
            let strong = -in_moles_per_litre(tap.hidden_base(ph)?);
            let acetic = match tap.dose(Reagent::AceticAcid, ph) {
                Ok(dose) => in_moles_per_litre(dose).min(MOST_ACETIC),
                Err(_) => MOST_ACETIC,
            };
            return Ok(Carried::Acid { strong, acetic: acetic.max(strong) });
        }
        let dose = |reagent| match tap.dose(reagent, ph) {
            Ok(dose) => Ok(Some(in_moles_per_litre(dose))),
            Err(
                EquilibriumError::Unreachable { .. } | EquilibriumError::TooConcentrated { .. },
            ) => Ok(None),
            Err(refusal) => Err(refusal),
        };
        match dose(Reagent::Lye)? {
            Some(lye) => Ok(Carried::Alkali { lye, soda_ash: dose(Reagent::SodaAsh)? }),
            None => Err(EquilibriumError::Unreachable { target_ph: ph }),
        }
    }
}

impl Carried {
    pub(super) fn is_alkali(self) -> bool {
        matches!(self, Self::Alkali { lye, .. } if lye > 0.0)
    }

    /// `mix` with `share` litres of the pulp's water per litre. `carbonate` is the share of
    /// soda ash in the alkali, `acid` as in [`CARRIED_ACID_FACTOR`].
    pub(super) fn add_to(self, mix: Mix, share: f64, carbonate: f64, acid: f64) -> Mix {
        match self {
            Self::Alkali { lye, soda_ash: None } => mix.with_lye(moles_per_litre(lye * share)),
            Self::Alkali { lye, soda_ash: Some(ash) } => mix
                .with_lye(moles_per_litre((1.0 - carbonate) * lye * share))
                .with_soda_ash(moles_per_litre(carbonate * ash * share)),
            Self::Acid { strong, acetic } => mix
                .with_strong_acid(moles_per_litre((1.0 - acid).max(0.0) * strong * share))
                .with_acetic_acid(moles_per_litre(acid * acetic * share)),
        }
    }
}

/// Temperature of expressed water when its pH is read, °C (common practice, no
/// source).
const TEST_CELSIUS: f64 = 20.0;

/// Most acetic acid in the pulp's water, mol/L: undiluted household vinegar (from memory).
const MOST_ACETIC: f64 = 0.83;

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;

    #[test]
    fn acid_water_gives_its_ph_with_either_acid() {
        let (ph, tap) = (4.0, 0.002);
        let carried = CarryOver::new().unwrap().carried(ph, tap).unwrap();
        let water = Mix::new(TEST_CELSIUS).unwrap().with_baking_soda(moles_per_litre(tap));
        for acid in [0.0, 1.0] {
            let made = carried.add_to(water, 1.0, 0.5, acid).solve().unwrap().ph();
            assert!((made - ph).abs() < 1e-6, "{acid}: {made}");
        }
        let three_times = carried.add_to(water, 1.0, 0.5, 3.0).solve().unwrap().ph();
        assert!(three_times < ph);
    }

    #[test]
    fn any_part_of_the_reading_below_6_is_acid() {
        let read = |low, high| ExpressedWater {
            ph: Estimate { value: high, low, high, basis: Basis::Strip },
            alkali: ResidualAlkali::Soda,
        };
        assert!(read(5.9, 6.9).may_be_acid() && read(f64::NAN, 7.0).may_be_acid());
        assert!(!read(6.0, 7.0).may_be_acid() && !ExpressedWater::unknown().may_be_acid());
    }
}
