//! Conversion between the pH of a liquor and its alkali.

use crate::chemistry::equilibrium::{EquilibriumError, Mix, Reagent};
use crate::chemistry::substance::{SODIUM_CARBONATE, SODIUM_HYDROXIDE, Substance};
use crate::quantity::{Basis, Estimate, MassConcentration, grams_per_litre};

/// Error of a pH strip either way: its step (common practice, no source).
pub const STRIP_PH: f64 = 0.5;

/// A pH read off a strip, ±[`STRIP_PH`].
pub fn strip_ph(ph: f64) -> Estimate<f64> {
    Estimate { value: ph, low: (ph - STRIP_PH).max(0.0), high: ph + STRIP_PH, basis: Basis::Strip }
}

/// Error of a pH meter either way (common practice, no source).
pub const METER_PH: f64 = 0.1;

/// A pH read off a meter, ±[`METER_PH`].
pub fn meter_ph(ph: f64) -> Estimate<f64> {
    let (low, high) = ((ph - METER_PH).max(0.0), ph + METER_PH);
    Estimate { value: ph, low, high, basis: Basis::Measured }
}

/// The alkali of a liquor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Alkali {
    /// Na2CO3, from soda ash, washing soda or percarbonate.
    SodaAsh,
    /// NaOH.
    Lye,
}

impl Alkali {
    /// The pure substance in which its strength is given.
    pub fn substance(self) -> Substance {
        match self {
            Self::SodaAsh => SODIUM_CARBONATE,
            Self::Lye => SODIUM_HYDROXIDE,
        }
    }

    /// Its reagent in the solver.
    pub fn reagent(self) -> Reagent {
        match self {
            Self::SodaAsh => Reagent::SodaAsh,
            Self::Lye => Reagent::Lye,
        }
    }

    /// pH of water at `celsius` with this strength, closed to the air.
    ///
    /// # Errors
    /// A temperature outside 5–80 °C, or a strength beyond the activity model.
    pub fn ph(self, strength: MassConcentration, celsius: f64) -> Result<f64, EquilibriumError> {
        let amount = self.substance().molar(strength);
        Ok(Mix::new(celsius)?.with(self.reagent(), amount).solve()?.ph())
    }

    /// Strength in water at `celsius` that gives this pH; zero at or below the pH of pure
    /// water.
    ///
    /// A strip's ± 0.5 pH is a factor of three or more in strength: soda ash above pH 11 and
    /// lye above pH 13 are poorly determined by pH.
    ///
    /// # Errors
    /// A pH outside 0–14 or beyond the reach of this alkali; a temperature outside 5–80 °C.
    pub fn strength(self, ph: f64, celsius: f64) -> Result<MassConcentration, EquilibriumError> {
        let water = Mix::new(celsius)?;
        let neutral = water.solve()?.ph();
        // Below neutral the tap contains dissolved CO2 and no alkali.
        if ph >= 0.0 && ph <= neutral {
            return Ok(grams_per_litre(0.0));
        }
        Ok(self.substance().mass_concentration(water.dose(self.reagent(), ph)?))
    }

    /// [`Self::strength`] over the range of a pH reading.
    ///
    /// # Errors
    /// As [`Self::strength`] at the value and the low end. A high end beyond the reach of this
    /// alkali is taken as three times the value.
    pub fn strength_range(
        self,
        ph: Estimate<f64>,
        celsius: f64,
    ) -> Result<Estimate<MassConcentration>, EquilibriumError> {
        let value = self.strength(ph.value, celsius)?;
        Ok(Estimate {
            value,
            low: self.strength(ph.low, celsius)?,
            high: self.strength(ph.high, celsius).unwrap_or(value * 3.0),
            basis: ph.basis,
        })
    }
}
