//! What a forecast is made of: the bath as known, with ranges.

use crate::bath::CoolingBath;
use crate::bath::kinetics::{BathEvent, ParameterDistribution};
use crate::chemistry::equilibrium::Mix;
use crate::chemistry::{EquilibriumError, Oxidant};
use crate::message::Field;
use crate::quantity::{Basis, Estimate, OutOfRange, PH, QuantityKind, TEMPERATURE};
use serde::{Deserialize, Serialize};

pub const FORECAST_STRENGTH: Field = Field("forecast_strength");
pub const FORECAST_CONSISTENCY: Field = Field("forecast_consistency");
pub const FORECAST_LIGHTNESS: Field = Field("forecast_lightness");
pub const FORECAST_PARAMETER: Field = Field("forecast_parameter");

/// Longest forecast, minutes.
pub const LONGEST_FORECAST: f64 = 24.0 * 60.0;

/// Why no forecast was made.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ForecastError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(transparent)]
    Equilibrium(#[from] EquilibriumError),
}

/// The bath at its start, and what is planned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ForecastRequest {
    pub oxidant: Oxidant,
    /// What is dissolved besides the oxidant: soda, salts. Its hidden alkali is set by `ph`.
    /// At the temperature of the start.
    pub mix: Mix,
    /// Oxidant of the charge in the liquor, mol/L.
    pub strength: Estimate<f64>,
    /// Share of it that is powder not dissolved yet; 0 unless percarbonate.
    pub undissolved: f64,
    /// pH with all dissolved, at the temperature of the start.
    pub ph: Estimate<f64>,
    /// °C.
    pub celsius: Estimate<f64>,
    /// Oven-dry fibre over all, 0 to 1.
    pub consistency: Estimate<f64>,
    /// CIE L* of the *dry* pulp at the start.
    pub lightness: Estimate<f64>,
    /// Its a* and b*.
    pub hue: [Estimate<f64>; 2],
    /// Dried over wet K/S, from pairs of this pulp; `None` if no pair is known, and then no
    /// wet lightness is forecast or compared with.
    pub drying: Option<Estimate<f64>>,
    /// Vessel, room and losses; `None` for a bath that is kept at its temperature.
    pub cooling: Option<CoolingBath>,
    pub events: Vec<BathEvent>,
    /// What the parameters are drawn from: the literature, or what was learnt.
    pub parameters: ParameterDistribution,
    /// Times to report, rising, from 0.
    pub minutes: Vec<f64>,
}

/// Further times where powder dissolves: the pH leaps with its first grains.
pub const DISSOLVING_MINUTES: [f64; 4] = [0.05, 0.2, 0.5, 1.0];

/// Times that show a bath of some hours: close at first, when it changes fastest.
pub fn usual_minutes(until: f64) -> Vec<f64> {
    const EARLY: [f64; 8] = [0.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0];
    let until = until.clamp(0.0, LONGEST_FORECAST);
    let every = if until <= 360.0 { 20.0 } else { 60.0 };
    let mut minutes: Vec<f64> = EARLY.into_iter().filter(|minute| *minute < until).collect();
    let mut next = 60.0;
    while next < until {
        minutes.push(next);
        next += every;
    }
    minutes.push(until);
    minutes
}

impl ForecastRequest {
    /// Checks every range.
    ///
    /// # Errors
    /// Strength above 0.5 mol/L, a pH outside 3-13, a temperature outside 5-80 °C, a
    /// consistency above 50 %, L* outside 5-99.5, a* or b* outside -40 to 60, parameters that are
    /// not those of the oxidant or no numbers, or times that do not rise from 0 to at most
    /// [`LONGEST_FORECAST`].
    pub fn check(&self) -> Result<(), ForecastError> {
        self.strength.check(FORECAST_STRENGTH, QuantityKind::Number, 0.0, 0.5)?;
        self.ph.check(PH, QuantityKind::Ph, 3.0, 13.0)?;
        self.celsius.check(TEMPERATURE, QuantityKind::Temperature, 5.0, 80.0)?;
        self.consistency.check(FORECAST_CONSISTENCY, QuantityKind::Share, 0.0, 0.5)?;
        self.lightness.check(FORECAST_LIGHTNESS, QuantityKind::Number, 5.0, 99.5)?;
        for hue in self.hue {
            hue.check(FORECAST_LIGHTNESS, QuantityKind::Number, -40.0, 60.0)?;
        }
        if !self.parameters.is_for(self.oxidant) {
            OutOfRange::check(FORECAST_PARAMETER, QuantityKind::Number, f64::NAN, 0.0, 1.0)?;
        }
        let share = Estimate::exact(self.undissolved, Basis::Computed);
        share.check(FORECAST_STRENGTH, QuantityKind::Share, 0.0, 1.0)?;
        let rises = self.minutes.windows(2).all(|pair| pair[0] < pair[1]);
        let last = if rises { self.minutes.last().copied().unwrap_or(-1.0) } else { -1.0 };
        let first = self.minutes.first().copied().unwrap_or(-1.0);
        for minutes in [first, last] {
            let kind = QuantityKind::Duration;
            OutOfRange::check(FORECAST_TIME, kind, minutes, 0.0, LONGEST_FORECAST)?;
        }
        Ok(())
    }
}

pub const FORECAST_TIME: Field = Field("forecast_time");
