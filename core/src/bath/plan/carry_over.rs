//! Carry-over: the alkali of the cook that rinsed pulp still holds in its water.

use crate::{
    chemistry::{
        Refusal,
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
}

impl ResidualAlkali {
    /// Share of the alkali that is carbonate (common practice, no source).
    pub(super) fn carbonate_share(self) -> Estimate<f64> {
        let (value, low, high) = match self {
            Self::Soda => (1.0, 0.7, 1.0),
            Self::Lye => (0.2, 0.0, 0.5),
            Self::Unknown => (0.5, 0.0, 1.0),
        };
        Estimate { value, low, high, basis: Basis::Assumed }
    }
}

/// Field for the pH of expressed water.
pub const CARRY_OVER_PH: Field = Field("carry_over_ph");

/// Solver for the alkali in the pulp's water.
pub(super) struct CarryOver {
    /// Pure water at [`TEST_CELSIUS`].
    water: Mix,
}

/// Alkali in the pulp's water, mol/L: as lye alone and as soda ash alone.
#[derive(Clone, Copy)]
pub(super) struct Alkalinity {
    lye: f64,
    /// `None` where soda ash cannot reach the pH.
    soda_ash: Option<f64>,
}

impl CarryOver {
    pub(super) fn new() -> Result<Self, Refusal> {
        Ok(Self { water: Mix::new(TEST_CELSIUS)? })
    }

    /// Alkali that brings tap water of `bicarbonate` mol/L to `ph`.
    pub(super) fn alkalinity(&self, ph: f64, bicarbonate: f64) -> Result<Alkalinity, Refusal> {
        let tap = self.water.with_baking_soda(moles_per_litre(bicarbonate));
        if ph <= tap.solve()?.ph() {
            return Ok(Alkalinity { lye: 0.0, soda_ash: Some(0.0) });
        }
        let dose = |reagent| match tap.dose(reagent, ph) {
            Ok(dose) => Ok(Some(in_moles_per_litre(dose))),
            Err(Refusal::Unreachable { .. } | Refusal::TooConcentrated { .. }) => Ok(None),
            Err(refusal) => Err(refusal),
        };
        match dose(Reagent::Lye)? {
            Some(lye) => Ok(Alkalinity { lye, soda_ash: dose(Reagent::SodaAsh)? }),
            None => Err(Refusal::Unreachable { target_ph: ph }),
        }
    }
}

impl Alkalinity {
    pub(super) fn is_positive(self) -> bool {
        self.lye > 0.0
    }

    /// Lye and soda ash, mol/L, where `carbonate` is the share of soda ash.
    pub(super) fn divided(self, carbonate: f64) -> (f64, f64) {
        match self.soda_ash {
            Some(ash) => ((1.0 - carbonate) * self.lye, carbonate * ash),
            None => (self.lye, 0.0),
        }
    }
}

/// Temperature of expressed water when its pH is read, °C (common practice, no
/// source).
const TEST_CELSIUS: f64 = 20.0;
