//! What a search for ways to a colour is made of.

use crate::bath::{Bleach, ExpressedWater};
use crate::chemistry::Residual;
use crate::forecast::{FORECAST_LIGHTNESS, ForecastError};
use crate::pulp::WetPulp;
use crate::quantity::{Estimate, QuantityKind};

/// The pulp, what is at hand, and what is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct WayRequest {
    pub pulp: WetPulp,
    /// The person's own bleaches; of each oxidant the first is used.
    pub bleaches: Vec<Bleach>,
    /// CIE L* of the dry pulp now.
    pub lightness: Estimate<f64>,
    /// CIE L* of the dry pulp to reach.
    pub target: f64,
    /// Share of the chain length that may be lost, 0 to 1.
    pub most_chain_loss: f64,
    /// Oxidant of an earlier bath that may still be in the pulp.
    pub residual: Residual,
    pub expressed_water: Option<ExpressedWater>,
}

impl WayRequest {
    /// # Errors
    /// L* of pulp or target outside 5-99.5.
    pub fn check(&self) -> Result<(), ForecastError> {
        self.lightness.check(FORECAST_LIGHTNESS, QuantityKind::Number, 5.0, 99.5)?;
        let target =
            Estimate { value: self.target, low: self.target, high: self.target, ..self.lightness };
        target.check(FORECAST_LIGHTNESS, QuantityKind::Number, 5.0, 99.5)?;
        Ok(())
    }
}
