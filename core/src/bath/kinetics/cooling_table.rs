//! Cooling of a bath as a table over its temperature: what the integration of a bath asks for
//! thousands of times.

use crate::bath::heat::{CoolingBath, LossFactors};

const LOWEST: f64 = 0.0;
const HIGHEST: f64 = 90.0;
const STEP: f64 = 1.0;

/// Rates of cooling of one bath.
#[derive(Clone, Debug)]
pub struct CoolingTable {
    /// By evaporation, and by convection and radiation, K/s.
    rows: Vec<[f64; 2]>,
}

impl CoolingTable {
    /// The table of a bath in its vessel and room.
    pub fn new(bath: &CoolingBath) -> Self {
        let count = ((HIGHEST - LOWEST) / STEP) as usize;
        let row = |row: usize| {
            let loss = bath.vessel.loss(LOWEST + STEP * row as f64, &bath.air);
            [loss.evaporation / bath.capacity, (loss.convection + loss.radiation) / bath.capacity]
        };
        Self { rows: (0..=count).map(row).collect() }
    }

    /// A bath that is kept at its temperature.
    pub fn none() -> Self {
        Self { rows: vec![[0.0; 2]; 2] }
    }

    /// dT/dt, K/s, at a temperature in °C; `thinning` is the mass at the start over that now.
    #[inline]
    pub fn slope(&self, celsius: f64, factors: &LossFactors<f64>, thinning: f64) -> f64 {
        let place = ((celsius - LOWEST) / STEP).clamp(0.0, (self.rows.len() - 1) as f64);
        let row = (place as usize).min(self.rows.len() - 2);
        let share = place - row as f64;
        let between = |part: usize| {
            let low = self.rows[row][part];
            low + share * (self.rows[row + 1][part] - low)
        };
        -(factors.evaporation * between(0) + factors.dry * between(1)) * thinning
    }
}
