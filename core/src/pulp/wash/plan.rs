//! How many rinses, of how much water, and how long they take.

use super::job::{Case, Job, check_efficiency, check_lump, positive_water};
use super::{Efficiency, Liquor, Lump, Solute, Tap, Targets, WashRefusal};
use crate::quantity::{Estimate, Volume, in_grams, in_millilitres};

/// Nobody rinses more often than this; needing more means a drier squeeze or
/// more water is wanted.
pub const MOST_RINSES: u32 = 24;

/// Thickest slurry that can be stirred through by hand, oven-dry share:
/// 5 % (common practice, no source).
pub const STIRRABLE: f64 = 0.05;

/// How long things take at this sink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    /// Soak per rinse, minutes. Liquor inside fibre walls needs 10–15 minutes
    /// to even out (common practice, no source).
    pub soak_minutes: f64,
    /// Tipping, draining and squeezing, minutes a rinse.
    pub handling_minutes: f64,
    /// Tap flow, litres a minute; `None` if water stands ready.
    pub litres_per_minute: Option<f64>,
}

impl Default for Pace {
    /// 10 minutes of soak, 5 of handling, a kitchen tap of 8 L/min (common
    /// practice, no source).
    fn default() -> Self {
        Self { soak_minutes: 10.0, handling_minutes: 5.0, litres_per_minute: Some(8.0) }
    }
}

impl Pace {
    /// Minutes for `rinses` rinses of `each` water.
    pub fn minutes(&self, rinses: u32, each: Volume) -> f64 {
        let filling =
            self.litres_per_minute.map_or(0.0, |flow| in_millilitres(each) / 1000.0 / flow);
        f64::from(rinses) * (self.soak_minutes + self.handling_minutes + filling)
    }

    pub(super) fn check(&self) -> Result<(), WashRefusal> {
        let flow = self.litres_per_minute.unwrap_or(1.0);
        for minutes in [self.soak_minutes, self.handling_minutes] {
            if !minutes.is_finite() || minutes < 0.0 {
                return Err(WashRefusal::BadPace { minutes });
            }
        }
        if flow.is_finite() && flow > 0.0 {
            Ok(())
        } else {
            Err(WashRefusal::BadPace { minutes: flow })
        }
    }
}

/// The state after one rinse and squeeze.
#[derive(Clone, Debug, PartialEq)]
pub struct RinseStep {
    /// 1 for the first rinse.
    pub number: u32,
    /// Strength of each known solute in the water still held.
    pub left: Liquor,
}

/// A wash from the first rinse to the last.
#[derive(Clone, Debug, PartialEq)]
pub struct RinsePlan {
    /// Rinses to do.
    pub rinses: u32,
    /// Fewest and most that the ranges of the inputs allow; the most is
    /// `None` where the worst case needs more than [`MOST_RINSES`].
    pub fewest: u32,
    pub most: Option<u32>,
    /// Clean water for each.
    pub each: Volume,
    /// Clean water altogether.
    pub water: Volume,
    /// Time altogether.
    pub minutes: f64,
    /// The solute that decided the count; `None` if nothing needs washing.
    pub slowest: Option<Solute>,
    /// The wash, rinse by rinse.
    pub steps: Vec<RinseStep>,
    /// The washing exponent that was used, and how well it is known.
    pub efficiency: Efficiency,
}

/// The same water, split otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct SplitRow {
    pub rinses: u32,
    pub each: Volume,
    /// Share of each solute's excess over the tap that is left.
    pub left: Estimate<f64>,
}

/// A washing job: what is in the lump, how far it has to go, and with what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wash {
    pub lump: Lump,
    pub liquor: Liquor,
    pub targets: Targets,
    pub tap: Tap,
    pub efficiency: Efficiency,
    pub pace: Pace,
}

impl Wash {
    /// The wash that reaches every target with rinses of `each` water.
    ///
    /// # Errors
    /// Whatever [`WashRefusal`] names: a squeeze drier than 45 %, water of
    /// nothing or less, a target below what the tap carries, more than
    /// [`MOST_RINSES`].
    pub fn rinses_of(&self, each: Volume) -> Result<RinsePlan, WashRefusal> {
        let job = Job::new(self)?;
        positive_water(each)?;
        let litres = in_millilitres(each) / 1000.0;
        let (rinses, slowest) = job.count(litres, Case::Likely)?;
        Ok(job.plan(rinses, slowest, litres))
    }

    /// What `rinses` rinses of `each` water leave, whatever the targets.
    ///
    /// # Errors
    /// As [`Wash::rinses_of`], without the targets.
    pub fn after(&self, rinses: u32, each: Volume) -> Result<Liquor, WashRefusal> {
        let job = Job::new(&Self { targets: Targets::default(), ..*self })?;
        positive_water(each)?;
        Ok(job.left(in_millilitres(each) / 1000.0, rinses))
    }

    /// The plan that uses the least water: many small rinses, none too small
    /// to stir the lump through, none larger than `bucket` holds.
    ///
    /// # Errors
    /// As [`Wash::rinses_of`], and if the bucket is too small to stir the lump in.
    pub fn least_water(&self, bucket: Volume) -> Result<RinsePlan, WashRefusal> {
        Job::new(self)?.best(bucket, |_, litres| litres)
    }

    /// The plan that takes the least time: few large rinses, as large as
    /// `bucket` holds.
    ///
    /// # Errors
    /// As [`Wash::least_water`].
    pub fn least_time(&self, bucket: Volume) -> Result<RinsePlan, WashRefusal> {
        Job::new(self)?.best(bucket, |minutes, _| minutes)
    }
}

/// What `total` water leaves when used in one rinse, in two, up to `most`.
///
/// # Errors
/// As [`Wash::rinses_of`], without the targets.
pub fn compare(
    lump: &Lump,
    total: Volume,
    most: u32,
    efficiency: Efficiency,
) -> Result<Vec<SplitRow>, WashRefusal> {
    check_lump(lump)?;
    check_efficiency(efficiency)?;
    positive_water(total)?;
    let held = lump.held();
    let left = |held: f64, exponent: f64, n: u32| {
        let litres = in_millilitres(total) / 1000.0 / f64::from(n);
        (held / (held + litres)).powf(exponent * f64::from(n))
    };
    let kilos = |mass| in_grams(mass) / 1000.0;
    Ok((1..=most.max(1))
        .map(|n| SplitRow {
            rinses: n,
            each: total / f64::from(n),
            left: Estimate {
                value: left(kilos(held.value), efficiency.exponent.value, n),
                low: left(kilos(held.low), efficiency.exponent.high, n),
                high: left(kilos(held.high), efficiency.exponent.low, n),
                basis: super::worse(held.basis, efficiency.exponent.basis),
            },
        })
        .collect())
}
