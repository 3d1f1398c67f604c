//! How many rinses, of how much water, and how long they take.
//! Not here: the inputs, which are `request`, and the calculation, which is `job`.

use super::balance::Bound;
use super::job::{WashJob, smallest_rinse};
use super::request::{check_efficiency, check_pulp, check_water};
use super::{Efficiency, PulpLiquor, RinsePlan, SqueezedPulp, Targets, Wash, WashError};
use crate::quantity::{Estimate, Volume, in_grams, in_millilitres};

impl Wash {
    /// The wash that reaches every target with rinses of `each` water.
    ///
    /// # Errors
    /// [`WashError`]: a squeeze drier than 45 %, water of zero or less, a
    /// target at or below the tap's concentration, more than
    /// [`MOST_RINSES`](super::MOST_RINSES).
    pub fn rinses_of(&self, each: Volume) -> Result<RinsePlan, WashError> {
        let job = WashJob::new(self)?;
        check_water(each)?;
        let litres = in_millilitres(each) / 1000.0;
        let (rinses, slowest) = job.count(litres, Bound::Nominal)?;
        Ok(job.plan(rinses, slowest, litres))
    }

    /// The liquor after `rinses` rinses of `each` water, whatever the targets.
    ///
    /// # Errors
    /// As [`Wash::rinses_of`], without the targets.
    pub fn after(&self, rinses: u32, each: Volume) -> Result<PulpLiquor, WashError> {
        let job = WashJob::new(&Self { targets: Targets::default(), ..*self })?;
        check_water(each)?;
        Ok(job.left(in_millilitres(each) / 1000.0, rinses))
    }

    /// The plan that uses least water: many small rinses, each large enough to
    /// stir the pulp in, none larger than `bucket` holds.
    ///
    /// # Errors
    /// As [`Wash::rinses_of`], and if the bucket is too small to stir the pulp in.
    pub fn least_water(&self, bucket: Volume) -> Result<RinsePlan, WashError> {
        WashJob::new(self)?.cheapest(bucket, |_, litres| litres)
    }

    /// The plan that takes least time: few large rinses, none larger than
    /// `bucket` holds.
    ///
    /// # Errors
    /// As [`Wash::least_water`].
    pub fn least_time(&self, bucket: Volume) -> Result<RinsePlan, WashError> {
        WashJob::new(self)?.cheapest(bucket, |minutes, _| minutes)
    }
}

/// Least water in which squeezed pulp can be stirred by hand, for one rinse.
///
/// # Errors
/// [`WashError`]: no pulp, or a dryness that no squeeze gives.
pub fn least_rinse(pulp: &SqueezedPulp) -> Result<Volume, WashError> {
    check_pulp(pulp)?;
    Ok(smallest_rinse(pulp))
}

/// The same water in a number of rinses.
#[derive(Clone, Debug, PartialEq)]
pub struct RinseSplit {
    pub rinses: u32,
    pub each: Volume,
    /// Share of each solute's excess over the tap that is left.
    pub left: Estimate<f64>,
}

/// What `total` water leaves when used in one rinse, in two, up to `most`.
///
/// # Errors
/// As [`Wash::rinses_of`], without the targets.
pub fn compare(
    pulp: &SqueezedPulp,
    total: Volume,
    most: u32,
    efficiency: Efficiency,
) -> Result<Vec<RinseSplit>, WashError> {
    check_pulp(pulp)?;
    check_efficiency(efficiency)?;
    check_water(total)?;
    let held = pulp.held();
    let left = |held: f64, exponent: f64, n: u32| {
        let litres = in_millilitres(total) / 1000.0 / f64::from(n);
        (held / (held + litres)).powf(exponent * f64::from(n))
    };
    let litres_held = |mass| in_grams(mass) / 1000.0;
    Ok((1..=most.max(1))
        .map(|n| RinseSplit {
            rinses: n,
            each: total / f64::from(n),
            left: Estimate {
                value: left(litres_held(held.value), efficiency.exponent.value, n),
                low: left(litres_held(held.low), efficiency.exponent.high, n),
                high: left(litres_held(held.high), efficiency.exponent.low, n),
                basis: held.basis.max(efficiency.exponent.basis),
            },
        })
        .collect())
}
