//! Between the pH that a person reads and the alkali that a rinse thins.

use super::{ReadingPair, Tap};
use crate::chemistry::{
    Refusal,
    equilibrium::{Mix, Reagent},
    substance::{SODIUM_CARBONATE, SODIUM_HYDROXIDE, Substance},
};
use crate::quantity::{MassConcentration, Volume, grams_per_litre};

/// Which alkali makes the liquor alkaline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Alkali {
    /// Na2CO3, from soda ash, washing soda or percarbonate.
    SodaAsh,
    /// NaOH.
    Lye,
}

impl Alkali {
    /// The pure substance that strengths of it are counted in.
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

    /// How much of it must be in water at `celsius` for this pH; none at or
    /// below the pH of pure water.
    ///
    /// A strip's ± 0.5 pH is a factor of three or more in this: the pH says far
    /// less about soda ash above 11 and about lye above 13 than it seems to.
    ///
    /// # Errors
    /// A pH outside 0–14 or beyond what this alkali reaches; a temperature
    /// outside 5–80 °C.
    pub fn strength(self, ph: f64, celsius: f64) -> Result<MassConcentration, Refusal> {
        let water = Mix::new(celsius)?;
        let neutral = water.solve()?.ph();
        let reagent = match self {
            Self::SodaAsh => Reagent::SodaAsh,
            Self::Lye => Reagent::Lye,
        };
        // The tap's own pH below neutral is dissolved CO2, no alkali at all.
        if ph >= 0.0 && ph <= neutral {
            return Ok(grams_per_litre(0.0));
        }
        Ok(self.substance().mass_concentration(water.dose(reagent, ph)?))
    }

    /// A pair of pH readings, of the squeezed-out liquor before and after one
    /// rinse, as a pair of strengths to learn from.
    ///
    /// # Errors
    /// As [`Alkali::strength`].
    pub fn reading_pair(
        self,
        (before, after): (f64, f64),
        tap_ph: f64,
        celsius: f64,
        held: Volume,
        water: Volume,
    ) -> Result<ReadingPair, Refusal> {
        Ok(ReadingPair {
            before: self.strength(before, celsius)?,
            after: self.strength(after, celsius)?,
            tap: self.strength(tap_ph, celsius)?,
            held,
            water,
        })
    }

    /// What tap water of this pH and hardness (as CaCO3) brings to a wash: the
    /// alkali that its pH stands for, and at least its hardness as salts.
    ///
    /// # Errors
    /// As [`Alkali::strength`].
    pub fn tap(
        self,
        tap_ph: f64,
        hardness: MassConcentration,
        celsius: f64,
    ) -> Result<Tap, Refusal> {
        Ok(Tap {
            alkali: Some(self.strength(tap_ph, celsius)?),
            salt: Some(hardness),
            ..Tap::default()
        })
    }
}
