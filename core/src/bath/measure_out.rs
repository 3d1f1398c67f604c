//! What is really measured out: figures that scale and jug can show and that lie inside the
//! range of the need; a weak solution first where the need is too small for them.

use super::{BleachAmount, Dose};
use crate::quantity::{
    ComputedEstimate, Mass, Resolution, Volume, grams, in_grams, in_millilitres, millilitres,
};

/// The amounts to measure out for a bath, or for one of its loads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredOut {
    pub dose: MeasuredDose,
    pub soda_ash: Option<Mass>,
    /// Water to add: without that of the solution.
    pub water: Volume,
}

/// How the bleach is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MeasuredDose {
    Direct(BleachAmount),
    Solution(DoseSolution),
}

/// A solution of the bleach, of which a part goes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DoseSolution {
    /// Bleach and water to mix.
    pub bleach: BleachAmount,
    pub water: Volume,
    /// How much of the mixture goes in.
    pub take: Volume,
    /// What that is of the bleach itself, for whoever has a finer measure.
    pub holds: BleachAmount,
}

impl MeasuredDose {
    /// The bleach that goes in.
    pub fn amount(&self) -> BleachAmount {
        match *self {
            Self::Direct(amount) => amount,
            Self::Solution(DoseSolution { holds, .. }) => holds,
        }
    }

    /// The water that goes in with it.
    pub fn water(&self) -> Volume {
        match *self {
            Self::Direct(_) => millilitres(0.0),
            Self::Solution(DoseSolution { water, take, bleach, .. }) => {
                let whole = in_millilitres(water) + liquid_ml(bleach);
                take * (in_millilitres(water) / whole)
            }
        }
    }
}

/// What to measure out for each of `loads` equal loads.
pub fn measure_out(
    dose: &Dose,
    soda_ash: Option<ComputedEstimate<Mass>>,
    water: &ComputedEstimate<Volume>,
    loads: u32,
) -> MeasuredOut {
    let part = 1.0 / f64::from(loads.max(1));
    let dose = match dose {
        Dose::Bottle(volume) => bottle(Need::of(volume.map(in_millilitres), part)),
        Dose::Powder(mass) => powder(Need::of(mass.map(in_grams), part)),
    };
    let of_solution = in_millilitres(dose.water());
    let need = Need::of(water.map(in_millilitres), part);
    let water = Need {
        value: (need.value - of_solution).max(0.0),
        low: (need.low - of_solution).max(0.0),
        high: (need.high - of_solution).max(0.0),
    };
    MeasuredOut {
        dose,
        soda_ash: soda_ash.map(|mass| grams(on_scale(Need::of(mass.map(in_grams), part)))),
        water: millilitres(in_jug(water)),
    }
}

/// Bleach and water of a solution, mL (or g of powder and mL): a tenth and a hundredth of the
/// bleach. 10 mL can be measured to 5 % with any syringe (common practice, no source).
const SOLUTIONS: [(f64, f64); 2] = [(10.0, 90.0), (10.0, 990.0)];
const POWDER_SOLUTIONS: [(f64, f64); 2] = [(1.0, 99.0), (1.0, 999.0)];

/// Marks of scales and jugs, the coarsest first: g and mL.
const SCALE_STEPS: [f64; 3] = [5.0, 1.0, 0.1];
const JUG_STEPS: [f64; 5] = [100.0, 10.0, 5.0, 1.0, 0.5];

/// An amount that is needed, with the range that would do, in mL or g.
#[derive(Clone, Copy)]
struct Need {
    value: f64,
    low: f64,
    high: f64,
}

impl Need {
    fn of(need: ComputedEstimate<f64>, part: f64) -> Self {
        Self { value: need.value * part, low: need.low * part, high: need.high * part }
    }

    /// Rounded to the coarsest of the `steps`, none above `coarsest`, that keeps it in range.
    fn rounded(self, coarsest: f64, steps: &[f64]) -> Option<f64> {
        let slack = 1e-9 * self.value.abs();
        steps.iter().filter(|step| **step <= coarsest * 1.000_001).find_map(|step| {
            let (rounded, _) = Resolution { step: *step }.round(self.value);
            let within = self.low - slack <= rounded && rounded <= self.high + slack;
            (within && (rounded > 0.0 || self.value <= 0.0)).then_some(rounded)
        })
    }

    /// By a finer measure than a studio's.
    fn finely(self) -> f64 {
        self.rounded(0.1, &[0.1, 0.01, 0.001]).unwrap_or(self.value)
    }
}

fn bottle(need: Need) -> MeasuredDose {
    let direct = |ml| MeasuredDose::Direct(BleachAmount::Bottle(millilitres(ml)));
    if let Some(ml) = need.rounded(jug_step(need.value), &JUG_STEPS) {
        return direct(ml);
    }
    let solution = SOLUTIONS.iter().find_map(|(bleach, water)| {
        solution(need, bleach / (bleach + water), bleach + water).map(|(take, part)| {
            MeasuredDose::Solution(DoseSolution {
                bleach: BleachAmount::Bottle(millilitres(*bleach)),
                water: millilitres(*water),
                take: millilitres(take),
                holds: BleachAmount::Bottle(millilitres(take * part)),
            })
        })
    });
    solution.unwrap_or_else(|| direct(need.finely()))
}

fn powder(need: Need) -> MeasuredDose {
    let direct = |g| MeasuredDose::Direct(BleachAmount::Powder(grams(g)));
    let coarsest = Resolution::scale(grams(need.value)).step;
    if let Some(g) = need.rounded(coarsest, &SCALE_STEPS) {
        return direct(g);
    }
    // The volume of so thin a solution is that of its water, within 1 %.
    let solution = POWDER_SOLUTIONS.iter().find_map(|(powder, water)| {
        solution(need, powder / (powder + water), powder + water).map(|(take, part)| {
            MeasuredDose::Solution(DoseSolution {
                bleach: BleachAmount::Powder(grams(*powder)),
                water: millilitres(powder + water),
                take: millilitres(take),
                holds: BleachAmount::Powder(grams(take * part)),
            })
        })
    });
    solution.unwrap_or_else(|| direct(need.finely()))
}

/// How much of a solution goes in, and the bleach in 1 mL of it; `None` if that cannot be
/// measured either, or is more than there is.
fn solution(need: Need, part: f64, whole: f64) -> Option<(f64, f64)> {
    let of_it = Need { value: need.value / part, low: need.low / part, high: need.high / part };
    let take = of_it.rounded(jug_step(of_it.value), &JUG_STEPS)?;
    (take <= whole).then_some((take, part))
}

/// The volume that an amount of bleach adds to a solution, mL; powder dissolves into it.
fn liquid_ml(amount: BleachAmount) -> f64 {
    match amount {
        BleachAmount::Bottle(volume) => in_millilitres(volume),
        BleachAmount::Powder(_) => 0.0,
    }
}

fn jug_step(ml: f64) -> f64 {
    Resolution::jug(millilitres(ml)).step
}

fn in_jug(need: Need) -> f64 {
    need.rounded(jug_step(need.value), &JUG_STEPS).unwrap_or_else(|| need.finely())
}

fn on_scale(need: Need) -> f64 {
    let coarsest = Resolution::scale(grams(need.value)).step;
    need.rounded(coarsest, &SCALE_STEPS).unwrap_or_else(|| need.finely())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn need(value: f64, low: f64, high: f64) -> ComputedEstimate<f64> {
        ComputedEstimate { low, high, ..ComputedEstimate::exact(value) }
    }

    fn bottle_out(dose: ComputedEstimate<f64>, water: f64, loads: u32) -> MeasuredOut {
        let water = ComputedEstimate::exact(millilitres(water));
        measure_out(&Dose::Bottle(dose.map(millilitres)), None, &water, loads)
    }

    #[test]
    fn a_dose_below_the_marks_of_a_syringe_is_taken_from_a_solution() {
        let out = bottle_out(need(0.37, 0.33, 0.43), 20.0, 1);
        let MeasuredDose::Solution(solution) = out.dose else { panic!("{out:?}") };
        assert_eq!(solution.bleach, BleachAmount::Bottle(millilitres(10.0)));
        assert_eq!(solution.water, millilitres(90.0));
        assert!((in_millilitres(solution.take) - 3.5).abs() < 1e-9, "{solution:?}");
        // 3.5 mL of it bring 3.15 mL of water, so that much less is added.
        assert!((in_millilitres(out.dose.water()) - 3.15).abs() < 1e-9);
        assert!((in_millilitres(out.water) - 16.85).abs() < 0.01, "{out:?}");
    }

    #[test]
    fn a_dose_that_a_jug_shows_is_poured() {
        let out = bottle_out(need(64.8, 60.0, 70.0), 2930.0, 1);
        let poured = |ml| MeasuredDose::Direct(BleachAmount::Bottle(millilitres(ml)));
        assert_eq!(out.dose, poured(65.0));
        assert_eq!(out.water, millilitres(2930.0));
        // A narrow range takes finer marks.
        assert_eq!(bottle_out(need(287.7, 287.0, 288.4), 0.0, 1).dose, poured(288.0));
        assert_eq!(bottle_out(need(104.0, 96.0, 112.0), 3520.0, 8).dose, poured(13.0));
    }

    #[test]
    fn a_pinch_of_powder_is_taken_from_a_solution() {
        let dose = Dose::Powder(need(0.24, 0.22, 0.26).map(grams));
        let out = measure_out(&dose, None, &ComputedEstimate::exact(millilitres(100.0)), 1);
        let MeasuredDose::Solution(solution) = out.dose else { panic!("{out:?}") };
        assert_eq!(solution.bleach, BleachAmount::Powder(grams(1.0)));
        assert_eq!(in_millilitres(solution.take), 24.0);
        assert!((in_millilitres(out.water) - 76.0).abs() < 1e-6);
    }
}
