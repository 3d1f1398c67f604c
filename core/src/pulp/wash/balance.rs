//! One solute from the liquor before the first rinse to its target, in g/L.
//! Not here: the number and volume of rinses for all solutes together, which is `job`.

use super::{Solute, Wash, WashError};
use crate::quantity::{Estimate, MassConcentration, grams_per_litre, in_grams_per_litre};

/// Which bound of the inputs' ranges is followed.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Bound {
    /// Fewest rinses.
    Best,
    /// The values themselves.
    Nominal,
    /// Most rinses.
    Worst,
}

impl Bound {
    /// The bound of a range in which more is worse.
    pub(super) fn of_burden(self, range: Estimate<f64>) -> f64 {
        match self {
            Self::Best => range.low,
            Self::Nominal => range.value,
            Self::Worst => range.high,
        }
    }

    /// The bound of a range in which more is better.
    pub(super) fn of_benefit(self, range: Estimate<f64>) -> f64 {
        match self {
            Self::Best => range.high,
            Self::Nominal => range.value,
            Self::Worst => range.low,
        }
    }
}

/// Mass balance of one solute over a wash, in g/L.
pub(super) struct SoluteBalance {
    pub(super) solute: Solute,
    pub(super) start: Estimate<f64>,
    pub(super) tap: f64,
    target: Option<f64>,
}

impl SoluteBalance {
    /// The balance of a solute; `None` if it is neither known nor asked for.
    ///
    /// # Errors
    /// A negative concentration, a target at or below the tap's, or a target
    /// for a solute of unknown concentration.
    pub(super) fn of(solute: Solute, wash: &Wash) -> Result<Option<Self>, WashError> {
        let target = wash.targets.get(solute);
        let floor = wash.tap.get(solute).unwrap_or_else(|| grams_per_litre(0.0));
        check_strength(solute, floor)?;
        let Some(start) = wash.liquor.get(solute) else {
            return target.map_or(Ok(None), |_| Err(WashError::StrengthUnknown { solute }));
        };
        check_strength(solute, start.value)?;
        check_strength(solute, start.low)?;
        check_strength(solute, start.high)?;
        if let Some(target) = target {
            check_target(solute, target, floor)?;
        }
        Ok(Some(Self {
            solute,
            start: start.map(in_grams_per_litre),
            tap: in_grams_per_litre(floor),
            target: target.map(in_grams_per_litre),
        }))
    }

    /// Share of the excess over the tap that may be left; `None` if there is no
    /// target or it is met already.
    pub(super) fn allowed_share(&self, bound: Bound) -> Option<f64> {
        let start = bound.of_burden(self.start);
        let target = self.target?;
        (start > target).then(|| (target - self.tap) / (start - self.tap))
    }

    /// Whole rinses to the target when each leaves `ratio` of the excess.
    pub(super) fn rinses(&self, ratio: f64, bound: Bound) -> f64 {
        self.allowed_share(bound)
            .map_or(0.0, |share| (share.ln() / ratio.ln() - 1e-9).ceil().max(1.0))
    }
}

fn check_strength(solute: Solute, given: MassConcentration) -> Result<(), WashError> {
    let grams = in_grams_per_litre(given);
    if grams.is_finite() && grams >= 0.0 {
        Ok(())
    } else {
        Err(WashError::NegativeStrength { solute, given })
    }
}

fn check_target(
    solute: Solute,
    target: MassConcentration,
    tap: MassConcentration,
) -> Result<(), WashError> {
    let grams = in_grams_per_litre(target);
    if !(grams.is_finite() && grams > 0.0) {
        Err(WashError::ImpossibleTarget { solute, given: target })
    } else if tap >= target {
        Err(WashError::BelowTap { solute, tap, target })
    } else {
        Ok(())
    }
}
