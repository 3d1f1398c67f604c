//! Between the pH that a person reads and the alkali that a rinse thins.

use super::{ReadingPair, Tap};
use crate::chemistry::{EquilibriumError, alkali::Alkali};
use crate::quantity::{MassConcentration, Volume};

impl Alkali {
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
    ) -> Result<ReadingPair, EquilibriumError> {
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
    ) -> Result<Tap, EquilibriumError> {
        Ok(Tap {
            alkali: Some(self.strength(tap_ph, celsius)?),
            salt: Some(hardness),
            ..Tap::default()
        })
    }
}
