//! The sums under a wash plan, in bare litres and grams per litre.

use super::plan::{MOST_RINSES, Pace, RinsePlan, RinseStep, STIRRABLE, Wash};
use super::refusal::strength;
use super::{DRIEST_SQUEEZE, Efficiency, Liquor, Lump, Solute, WashRefusal, worse};
use crate::quantity::{
    Estimate, MassConcentration, Volume, grams_per_litre, in_grams, in_grams_per_litre,
    in_millilitres, in_share, millilitres,
};

/// Which end of the inputs' ranges is followed.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Case {
    Easy,
    Likely,
    Hard,
}

/// One solute on its way down, in bare g/L.
struct Fall {
    solute: Solute,
    start: Estimate<f64>,
    tap: f64,
    target: Option<f64>,
}

/// A checked washing job, in bare litres and g/L.
pub(super) struct Job {
    falls: Vec<Fall>,
    held: Estimate<f64>,
    smallest: f64,
    efficiency: Efficiency,
    pace: Pace,
    liquor: Liquor,
}

impl Job {
    pub(super) fn new(wash: &Wash) -> Result<Self, WashRefusal> {
        let Wash { lump, liquor, efficiency, pace, .. } = *wash;
        check_lump(&lump)?;
        check_efficiency(efficiency)?;
        pace.check()?;
        let mut falls = Vec::new();
        for solute in Solute::ALL {
            falls.extend(fall(solute, wash)?);
        }
        let held = lump.held().map(|mass| in_grams(mass) / 1000.0);
        let fibre = in_grams(lump.dry_fibre().value) / 1000.0;
        // Water to add so that fibre is 5 % of fibre + held + added.
        let smallest = (fibre / STIRRABLE - fibre - held.value).max(0.0);
        Ok(Self { falls, held, smallest, efficiency, pace, liquor })
    }

    /// Share of the excess over the tap that one rinse of `litres` leaves.
    fn ratio(&self, litres: f64, case: Case) -> f64 {
        let (held, exponent) = match case {
            Case::Easy => (self.held.low, self.efficiency.exponent.high),
            Case::Likely => (self.held.value, self.efficiency.exponent.value),
            Case::Hard => (self.held.high, self.efficiency.exponent.low),
        };
        (held / (held + litres)).powf(exponent)
    }

    /// Rinses of `litres` to reach every target, and the solute that asks for most.
    pub(super) fn count(
        &self,
        litres: f64,
        case: Case,
    ) -> Result<(u32, Option<Solute>), WashRefusal> {
        let ratio = self.ratio(litres, case);
        let mut worst = (0, None);
        for fall in &self.falls {
            let needed = fall.rinses(ratio, case);
            if needed > f64::from(MOST_RINSES) {
                return Err(WashRefusal::TooManyRinses {
                    solute: fall.solute,
                    limit: MOST_RINSES.into(),
                });
            }
            if needed as u32 > worst.0 {
                worst = (needed as u32, Some(fall.solute));
            }
        }
        Ok(worst)
    }

    /// Least water each, in litres, with which `rinses` rinses reach every target.
    fn each_for(&self, rinses: u32) -> f64 {
        let power = self.efficiency.exponent.value * f64::from(rinses);
        self.falls
            .iter()
            .filter_map(|fall| fall.wanted(Case::Likely))
            .map(|share| self.held.value * (share.powf(-1.0 / power) - 1.0))
            .fold(0.0, f64::max)
    }

    pub(super) fn best(
        &self,
        bucket: Volume,
        cost: impl Fn(f64, f64) -> f64,
    ) -> Result<RinsePlan, WashRefusal> {
        positive_water(bucket)?;
        // The bucket holds the lump's own water too; its fibre is small beside that.
        let room = in_millilitres(bucket) / 1000.0 - self.held.value;
        if room < self.smallest || room <= 0.0 {
            return Err(WashRefusal::BucketTooSmall {
                given: bucket,
                needed: millilitres((self.smallest + self.held.value) * 1000.0),
            });
        }
        if self.falls.iter().all(|fall| fall.wanted(Case::Likely).is_none()) {
            return Ok(self.plan(0, None, self.smallest));
        }
        (1..=MOST_RINSES)
            .filter_map(|n| {
                let litres = self.each_for(n).max(self.smallest) * (1.0 + 1e-9);
                (litres <= room).then(|| {
                    let minutes = self.pace.minutes(n, millilitres(litres * 1000.0));
                    (cost(minutes, litres * f64::from(n)), n, litres)
                })
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or_else(
                || self.count(room, Case::Likely).map(|(n, slowest)| self.plan(n, slowest, room)),
                |(_, n, litres)| {
                    let slowest = self.count(litres, Case::Likely)?.1;
                    Ok(self.plan(n, slowest, litres))
                },
            )
    }

    pub(super) fn plan(&self, rinses: u32, slowest: Option<Solute>, litres: f64) -> RinsePlan {
        let each = millilitres(litres * 1000.0);
        RinsePlan {
            rinses,
            fewest: self.count(litres, Case::Easy).map_or(rinses, |(n, _)| n.min(rinses)),
            most: self.count(litres, Case::Hard).ok().map(|(n, _)| n.max(rinses)),
            each,
            water: each * f64::from(rinses),
            minutes: self.pace.minutes(rinses, each),
            slowest,
            steps: (1..=rinses)
                .map(|n| RinseStep { number: n, left: self.left(litres, n) })
                .collect(),
            efficiency: self.efficiency,
        }
    }

    pub(super) fn left(&self, litres: f64, rinses: u32) -> Liquor {
        let mut left = Liquor::default();
        let power = f64::from(rinses);
        for fall in &self.falls {
            let at = |start: f64, case| {
                fall.tap + (start - fall.tap) * self.ratio(litres, case).powf(power)
            };
            let ends = [
                at(fall.start.low, Case::Easy),
                at(fall.start.low, Case::Hard),
                at(fall.start.high, Case::Easy),
                at(fall.start.high, Case::Hard),
            ];
            let basis = self.liquor.get(fall.solute).map_or(fall.start.basis, |known| known.basis);
            left.set(
                fall.solute,
                Some(Estimate {
                    value: grams_per_litre(at(fall.start.value, Case::Likely)),
                    low: grams_per_litre(ends.iter().copied().fold(f64::INFINITY, f64::min)),
                    high: grams_per_litre(ends.iter().copied().fold(0.0, f64::max)),
                    basis: worse(basis, self.efficiency.exponent.basis),
                }),
            );
        }
        left
    }
}

impl Fall {
    /// Share of the excess over the tap that may be left; `None` if nothing is asked.
    fn wanted(&self, case: Case) -> Option<f64> {
        let start = match case {
            Case::Easy => self.start.low,
            Case::Likely => self.start.value,
            Case::Hard => self.start.high,
        };
        let target = self.target?;
        (start > target).then(|| (target - self.tap) / (start - self.tap))
    }

    /// Whole rinses to get there when each leaves `ratio`.
    fn rinses(&self, ratio: f64, case: Case) -> f64 {
        self.wanted(case).map_or(0.0, |share| (share.ln() / ratio.ln() - 1e-9).ceil().max(1.0))
    }
}

fn fall(solute: Solute, wash: &Wash) -> Result<Option<Fall>, WashRefusal> {
    let target = wash.targets.get(solute);
    let floor = wash.tap.get(solute).unwrap_or_else(|| grams_per_litre(0.0));
    strength(solute, floor)?;
    let Some(start) = wash.liquor.get(solute) else {
        return target.map_or(Ok(None), |_| Err(WashRefusal::StrengthUnknown { solute }));
    };
    strength(solute, start.value)?;
    strength(solute, start.low)?;
    strength(solute, start.high)?;
    if let Some(target) = target {
        check_target(solute, target, floor)?;
    }
    Ok(Some(Fall {
        solute,
        start: start.map(in_grams_per_litre),
        tap: in_grams_per_litre(floor),
        target: target.map(in_grams_per_litre),
    }))
}

fn check_target(
    solute: Solute,
    target: MassConcentration,
    tap: MassConcentration,
) -> Result<(), WashRefusal> {
    let grams = in_grams_per_litre(target);
    if !(grams.is_finite() && grams > 0.0) {
        Err(WashRefusal::ImpossibleTarget { solute, given: target })
    } else if tap >= target {
        Err(WashRefusal::BelowTap { solute, tap, target })
    } else {
        Ok(())
    }
}

pub(super) fn check_lump(lump: &Lump) -> Result<(), WashRefusal> {
    for given in [lump.wet_mass.low, lump.wet_mass.value, lump.wet_mass.high] {
        if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
            return Err(WashRefusal::NoLump { given });
        }
    }
    for given in [lump.dryness.low, lump.dryness.value, lump.dryness.high] {
        let dryness = in_share(given);
        if dryness > DRIEST_SQUEEZE {
            return Err(WashRefusal::SqueezeTooDry { given });
        }
        if !(dryness.is_finite() && dryness > 0.0) {
            return Err(WashRefusal::SqueezeTooWet { given });
        }
    }
    Ok(())
}

pub(super) fn check_efficiency(efficiency: Efficiency) -> Result<(), WashRefusal> {
    let exponent = efficiency.exponent;
    for given in [exponent.low, exponent.value, exponent.high] {
        if !(given.is_finite() && given > 0.0 && given <= 2.0) {
            return Err(WashRefusal::BadEfficiency { given });
        }
    }
    Ok(())
}

pub(super) fn positive_water(given: Volume) -> Result<(), WashRefusal> {
    let volume = in_millilitres(given);
    if volume.is_finite() && volume > 0.0 { Ok(()) } else { Err(WashRefusal::NoWater { given }) }
}
