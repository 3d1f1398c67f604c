//! The inputs of a wash and their limits.
//! Not here: the calculation, which is `job`, and the plans, which are `plan`.

use super::efficiency::MOST_EXPONENT;
use super::{DRIEST_SQUEEZE, Efficiency, PulpLiquor, SqueezedPulp, TapWater, Targets, WashError};
use crate::pulp::consistency::check_positive;
use crate::quantity::{Volume, in_millilitres, in_share};

/// Most rinses of a plan; a wash that needs more calls for a drier squeeze or
/// more water.
pub const MOST_RINSES: u32 = 24;

/// Thickest slurry that can be stirred by hand, oven-dry share: 5 % (common
/// practice, no source).
pub const STIRRABLE: f64 = 0.05;

/// A wash: the pulp and its liquor, how far to rinse, and with what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wash {
    pub pulp: SqueezedPulp,
    pub liquor: PulpLiquor,
    pub targets: Targets,
    pub tap: TapWater,
    pub efficiency: Efficiency,
    pub timing: RinseTiming,
}

/// How long one rinse takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinseTiming {
    /// Soak per rinse, minutes. Liquor inside fibre walls needs 10–15 minutes
    /// to diffuse out (common practice, no source).
    pub soak_minutes: f64,
    /// Tipping, draining and squeezing, minutes per rinse.
    pub handling_minutes: f64,
    /// Tap flow, litres per minute; `None` if the water is ready.
    pub litres_per_minute: Option<f64>,
}

impl Default for RinseTiming {
    /// 10 minutes of soak, 5 of handling, a kitchen tap of 8 L/min (common
    /// practice, no source).
    fn default() -> Self {
        Self { soak_minutes: 10.0, handling_minutes: 5.0, litres_per_minute: Some(8.0) }
    }
}

impl RinseTiming {
    /// Minutes for `rinses` rinses of `each` water.
    pub fn minutes(&self, rinses: u32, each: Volume) -> f64 {
        let filling =
            self.litres_per_minute.map_or(0.0, |flow| in_millilitres(each) / 1000.0 / flow);
        f64::from(rinses) * (self.soak_minutes + self.handling_minutes + filling)
    }

    pub(super) fn check(&self) -> Result<(), WashError> {
        let flow = self.litres_per_minute.unwrap_or(1.0);
        for minutes in [self.soak_minutes, self.handling_minutes] {
            if !minutes.is_finite() || minutes < 0.0 {
                return Err(WashError::BadTiming { minutes });
            }
        }
        if !(flow.is_finite() && flow > 0.0) {
            return Err(WashError::BadTiming { minutes: flow });
        }
        Ok(())
    }
}

pub(super) fn check_pulp(pulp: &SqueezedPulp) -> Result<(), WashError> {
    check_positive(pulp.wet_mass).map_err(|given| WashError::NoPulp { given })?;
    // The value first: a refusal names what was said.
    for given in [pulp.dryness.value, pulp.dryness.low, pulp.dryness.high] {
        let dryness = in_share(given);
        if dryness > DRIEST_SQUEEZE {
            return Err(WashError::SqueezeTooDry { given });
        }
        if !(dryness.is_finite() && dryness > 0.0) {
            return Err(WashError::SqueezeTooWet { given });
        }
    }
    Ok(())
}

pub(super) fn check_efficiency(efficiency: Efficiency) -> Result<(), WashError> {
    let exponent = efficiency.exponent;
    for given in [exponent.low, exponent.value, exponent.high] {
        if !(given.is_finite() && given > 0.0 && given <= MOST_EXPONENT) {
            return Err(WashError::BadEfficiency { given });
        }
    }
    Ok(())
}

pub(super) fn check_water(given: Volume) -> Result<(), WashError> {
    let volume = in_millilitres(given);
    if volume.is_finite() && volume > 0.0 { Ok(()) } else { Err(WashError::NoWater { given }) }
}
