//! pH of the liquor and the alkali that makes it so, in both directions.
//! Not here: the equilibrium itself, which is `chemistry::equilibrium`.

use super::{RinsePair, TapWater};
use crate::chemistry::{
    Refusal,
    equilibrium::{Mix, Reagent},
    substance::{SODIUM_CARBONATE, SODIUM_HYDROXIDE, Substance},
};
use crate::quantity::{Basis, Estimate, MassConcentration, Volume, grams_per_litre};

/// Error of a pH strip either way: its step (common practice, no source).
pub const STRIP_PH: f64 = 0.5;

/// A pH read off a strip, ±[`STRIP_PH`].
pub fn strip_ph(ph: f64) -> Estimate<f64> {
    Estimate { value: ph, low: (ph - STRIP_PH).max(0.0), high: ph + STRIP_PH, basis: Basis::Strip }
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
    /// The pure substance in which its concentrations are expressed.
    pub fn substance(self) -> Substance {
        match self {
            Self::SodaAsh => SODIUM_CARBONATE,
            Self::Lye => SODIUM_HYDROXIDE,
        }
    }

    /// pH of water at `celsius` with this much of it, closed to the air.
    ///
    /// # Errors
    /// A temperature outside 5–80 °C, or a strength beyond the activity model.
    pub fn ph(self, strength: MassConcentration, celsius: f64) -> Result<f64, Refusal> {
        let amount = self.substance().molar(strength);
        let mix = Mix::new(celsius)?;
        let mix = match self {
            Self::SodaAsh => mix.with_soda_ash(amount),
            Self::Lye => mix.with_lye(amount),
        };
        Ok(mix.solve()?.ph())
    }

    /// Its concentration in water at `celsius` with this pH; zero at or below
    /// the pH of pure water.
    ///
    /// A strip's ± 0.5 pH is a factor of three or more in this: above 11 for
    /// soda ash and above 13 for lye, a pH determines the concentration poorly.
    ///
    /// # Errors
    /// A pH outside 0–14 or above what this alkali reaches; a temperature
    /// outside 5–80 °C.
    pub fn strength(self, ph: f64, celsius: f64) -> Result<MassConcentration, Refusal> {
        let water = Mix::new(celsius)?;
        let neutral = water.solve()?.ph();
        let reagent = match self {
            Self::SodaAsh => Reagent::SodaAsh,
            Self::Lye => Reagent::Lye,
        };
        // Tap water below neutral holds dissolved CO2 and no alkali.
        if ph >= 0.0 && ph <= neutral {
            return Ok(grams_per_litre(0.0));
        }
        Ok(self.substance().mass_concentration(water.dose(reagent, ph)?))
    }

    /// Its concentration by a pH reading, over the range of the reading.
    ///
    /// # Errors
    /// As [`Alkali::strength`] at the value and the low end. A high end above
    /// what this alkali reaches is taken as three times the value.
    pub fn strength_range(
        self,
        ph: Estimate<f64>,
        celsius: f64,
    ) -> Result<Estimate<MassConcentration>, Refusal> {
        let value = self.strength(ph.value, celsius)?;
        Ok(Estimate {
            value,
            low: self.strength(ph.low, celsius)?,
            high: self.strength(ph.high, celsius).unwrap_or(value * 3.0),
            basis: ph.basis,
        })
    }

    /// Two pH readings of the squeezed-out liquor, before and after one rinse,
    /// as concentrations to fit an efficiency to.
    ///
    /// # Errors
    /// As [`Alkali::strength`].
    pub fn rinse_pair(
        self,
        (before, after): (f64, f64),
        tap_ph: f64,
        celsius: f64,
        held: Volume,
        water: Volume,
    ) -> Result<RinsePair, Refusal> {
        Ok(RinsePair {
            before: self.strength(before, celsius)?,
            after: self.strength(after, celsius)?,
            tap: self.strength(tap_ph, celsius)?,
            held,
            water,
        })
    }

    /// Tap water of this pH and hardness (as CaCO3): the alkali of its pH, and
    /// its hardness as salt.
    ///
    /// # Errors
    /// As [`Alkali::strength`].
    pub fn tap(
        self,
        tap_ph: f64,
        hardness: MassConcentration,
        celsius: f64,
    ) -> Result<TapWater, Refusal> {
        Ok(TapWater {
            alkali: Some(self.strength(tap_ph, celsius)?),
            salt: Some(hardness),
            ..TapWater::default()
        })
    }
}
