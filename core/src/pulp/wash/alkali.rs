//! Readings of a wash as concentrations of the alkali.
//! Not here: pH and alkali of a liquor, which are `chemistry::alkali`.

use super::{RinsePair, TapWater};
use crate::chemistry::{EquilibriumError, alkali::Alkali};
use crate::quantity::{MassConcentration, Volume};

impl Alkali {
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
    ) -> Result<RinsePair, EquilibriumError> {
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
    ) -> Result<TapWater, EquilibriumError> {
        Ok(TapWater {
            alkali: Some(self.strength(tap_ph, celsius)?),
            salt: Some(hardness),
            ..TapWater::default()
        })
    }
}
