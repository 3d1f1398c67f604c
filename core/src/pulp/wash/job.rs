//! The calculation of a wash, in litres and g/L: all solutes over a number of rinses.
//! Not here: the balance of one solute, which is `balance`, and the public plans (`plan`).

use super::balance::{Bound, SoluteBalance};
use super::request::{STIRRABLE, check_efficiency, check_pulp, check_water};
use super::{
    Efficiency, MOST_RINSES, PulpLiquor, RinseTiming, Solute, SqueezedPulp, Wash, WashError,
};
use crate::quantity::{Estimate, Volume, grams_per_litre, in_grams, in_millilitres, millilitres};

/// A wash from the first rinse to the last.
#[derive(Clone, Debug, PartialEq)]
pub struct RinsePlan {
    /// Rinses to do.
    pub rinses: u32,
    /// Fewest by the ranges of the inputs.
    pub fewest: u32,
    /// Most by the ranges of the inputs; `None` above [`MOST_RINSES`].
    pub most: Option<u32>,
    /// Clean water for each.
    pub each: Volume,
    /// Clean water altogether.
    pub water: Volume,
    /// Time altogether.
    pub minutes: f64,
    /// The solute that decided the number; `None` if nothing needs washing.
    pub slowest: Option<Solute>,
    /// The wash, rinse by rinse.
    pub steps: Vec<RinseStep>,
    /// The washing exponent, with its range.
    pub efficiency: Efficiency,
}

/// The liquor after one rinse and squeeze.
#[derive(Clone, Debug, PartialEq)]
pub struct RinseStep {
    /// 1 for the first rinse.
    pub number: u32,
    /// Concentration of each known solute in the water still held.
    pub left: PulpLiquor,
}

/// A checked wash, in litres and g/L.
pub(super) struct WashJob {
    balances: Vec<SoluteBalance>,
    held: Estimate<f64>,
    /// Least water in which the pulp can be stirred.
    smallest: f64,
    efficiency: Efficiency,
    timing: RinseTiming,
}

/// Water to add so that the fibre is [`STIRRABLE`] of fibre, held and added water.
pub(super) fn smallest_rinse(pulp: &SqueezedPulp) -> Volume {
    let (fibre, held) = (in_grams(pulp.dry_fibre().value), in_grams(pulp.held().value));
    // 1 g of water is 1 mL.
    millilitres((fibre / STIRRABLE - fibre - held).max(0.0))
}

impl WashJob {
    pub(super) fn new(wash: &Wash) -> Result<Self, WashError> {
        let Wash { pulp, efficiency, timing, .. } = *wash;
        check_pulp(&pulp)?;
        check_efficiency(efficiency)?;
        timing.check()?;
        let mut balances = Vec::new();
        for solute in Solute::ALL {
            balances.extend(SoluteBalance::of(solute, wash)?);
        }
        let held = pulp.held().map(|mass| in_grams(mass) / 1000.0);
        let smallest = in_millilitres(smallest_rinse(&pulp)) / 1000.0;
        Ok(Self { balances, held, smallest, efficiency, timing })
    }

    /// Rinses of `litres` to reach every target, and the solute that needs most.
    pub(super) fn count(
        &self,
        litres: f64,
        bound: Bound,
    ) -> Result<(u32, Option<Solute>), WashError> {
        let ratio = self.ratio(litres, bound);
        let mut worst = (0, None);
        for balance in &self.balances {
            let needed = balance.rinses(ratio, bound);
            if needed > f64::from(MOST_RINSES) {
                let (solute, limit) = (balance.solute, MOST_RINSES.into());
                return Err(WashError::TooManyRinses { solute, limit });
            }
            if needed as u32 > worst.0 {
                worst = (needed as u32, Some(balance.solute));
            }
        }
        Ok(worst)
    }

    /// The plan of least `cost` (of minutes and of litres in all) within a bucket.
    pub(super) fn cheapest(
        &self,
        bucket: Volume,
        cost: impl Fn(f64, f64) -> f64,
    ) -> Result<RinsePlan, WashError> {
        check_water(bucket)?;
        // The bucket holds the pulp's own water too; the volume of its fibre is neglected.
        let room = in_millilitres(bucket) / 1000.0 - self.held.value;
        if room < self.smallest || room <= 0.0 {
            return Err(WashError::BucketTooSmall {
                given: bucket,
                needed: millilitres((self.smallest + self.held.value) * 1000.0),
            });
        }
        if self.balances.iter().all(|balance| balance.allowed_share(Bound::Nominal).is_none()) {
            return Ok(self.plan(0, None, self.smallest));
        }
        (1..=MOST_RINSES)
            .filter_map(|n| {
                let litres = self.each_for(n).max(self.smallest) * (1.0 + 1e-9);
                (litres <= room).then(|| {
                    let minutes = self.timing.minutes(n, millilitres(litres * 1000.0));
                    (cost(minutes, litres * f64::from(n)), n, litres)
                })
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or_else(
                || self.count(room, Bound::Nominal).map(|(n, slowest)| self.plan(n, slowest, room)),
                |(_, n, litres)| {
                    let slowest = self.count(litres, Bound::Nominal)?.1;
                    Ok(self.plan(n, slowest, litres))
                },
            )
    }

    /// The plan of a given number of rinses of `litres`.
    pub(super) fn plan(&self, rinses: u32, slowest: Option<Solute>, litres: f64) -> RinsePlan {
        let each = millilitres(litres * 1000.0);
        RinsePlan {
            rinses,
            fewest: self.count(litres, Bound::Best).map_or(rinses, |(n, _)| n.min(rinses)),
            most: self.count(litres, Bound::Worst).ok().map(|(n, _)| n.max(rinses)),
            each,
            water: each * f64::from(rinses),
            minutes: self.timing.minutes(rinses, each),
            slowest,
            steps: (1..=rinses)
                .map(|n| RinseStep { number: n, left: self.left(litres, n) })
                .collect(),
            efficiency: self.efficiency,
        }
    }

    /// The liquor after `rinses` rinses of `litres`, with its range.
    pub(super) fn left(&self, litres: f64, rinses: u32) -> PulpLiquor {
        let mut left = PulpLiquor::default();
        let power = f64::from(rinses);
        for balance in &self.balances {
            let at = |start: f64, bound| {
                balance.tap + (start - balance.tap) * self.ratio(litres, bound).powf(power)
            };
            let ends = [
                at(balance.start.low, Bound::Best),
                at(balance.start.low, Bound::Worst),
                at(balance.start.high, Bound::Best),
                at(balance.start.high, Bound::Worst),
            ];
            let range = Estimate {
                value: at(balance.start.value, Bound::Nominal),
                low: ends.iter().copied().fold(f64::INFINITY, f64::min),
                high: ends.iter().copied().fold(0.0, f64::max),
                basis: balance.start.basis.max(self.efficiency.exponent.basis),
            };
            left.set(balance.solute, Some(range.map(grams_per_litre)));
        }
        left
    }

    /// Share of the excess over the tap that one rinse of `litres` leaves.
    fn ratio(&self, litres: f64, bound: Bound) -> f64 {
        let held = bound.of_burden(self.held);
        let exponent = bound.of_benefit(self.efficiency.exponent);
        (held / (held + litres)).powf(exponent)
    }

    /// Least water each, in litres, with which `rinses` rinses reach every target.
    fn each_for(&self, rinses: u32) -> f64 {
        let power = self.efficiency.exponent.value * f64::from(rinses);
        self.balances
            .iter()
            .filter_map(|balance| balance.allowed_share(Bound::Nominal))
            .map(|share| self.held.value * (share.powf(-1.0 / power) - 1.0))
            .fold(0.0, f64::max)
    }
}
