//! pH and chlorine gas along an antichlor dose, from nothing added to all added.
//!
//! At share `f` of the stoichiometric dose, hypochlorite `c (1 - f)` is left, the rest has
//! become chloride, and each mole consumed has given the protons of its [`Reaction`]. HSO4-
//! counts as fully dissociated and diketogulonic acid as a strong acid, which errs towards
//! low pH. The gas is that of a closed vessel at equilibrium
//! ([`headspace`](crate::chemistry::headspace)); an open vessel has less, by an amount that
//! nothing here determines, so both are judged alike.

use super::reaction::Reaction;
use super::reagent::{AntichlorReagent, Excess};
use crate::chemistry::alkali::BICARBONATE;
use crate::chemistry::equilibrium::{Constants, EquilibriumError, Mix};
use crate::chemistry::headspace::Headspace;
use crate::chemistry::substance::{in_moles_per_litre, moles_per_litre};
use crate::quantity::{Basis, Estimate};

/// pH of a liquor that was not measured: 9.5 is the low end of the bath's window, 8.5 the
/// pH below which a hypochlorite bath is a danger in itself, 11 the high end of the window (own
/// estimate). No lye and no soda are assumed.
pub const UNMEASURED_PH: Estimate<f64> =
    Estimate { value: 9.5, low: 8.5, high: 11.0, basis: Basis::Assumed };

/// Temperature of the liquor, °C: cold tap to hand-warm (common practice, no source).
const CELSIUS: Estimate<f64> =
    Estimate { value: 20.0, low: 10.0, high: 40.0, basis: Basis::Assumed };

/// Steps of the search for the worst point.
const STEPS: u32 = 48;

/// One point of a dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoursePoint {
    /// Share of the stoichiometric dose added, 0 to 1.
    pub share: f64,
    pub ph: f64,
    /// Chlorine in the air over the liquor, ppm by volume: closed vessel, equilibrium.
    pub chlorine_ppm: f64,
}

/// pH before, during and after a dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhCourse {
    pub start: Estimate<f64>,
    /// Most chlorine in the air at the bad end of every range.
    pub worst: CoursePoint,
    /// With the excess of the usual dose.
    pub end: Estimate<f64>,
}

/// Change of pH by a dose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhShift {
    Down,
    Steady,
    Up,
}

impl PhShift {
    /// Locale key.
    pub fn word(self) -> &'static str {
        match self {
            Self::Down => "antichlor-ph-down",
            Self::Steady => "antichlor-ph-steady",
            Self::Up => "antichlor-ph-up",
        }
    }
}

impl PhCourse {
    /// Whether the pH may fall by half a unit (a step of a strip) or more; else whether it
    /// rises by as much.
    pub fn shift(&self) -> PhShift {
        const STEP: f64 = 0.5;
        if self.end.low < self.start.low - STEP {
            PhShift::Down
        } else if self.end.value > self.start.value + STEP {
            PhShift::Up
        } else {
            PhShift::Steady
        }
    }
}

/// Liquor at the start of a dose, amounts in mol/L.
#[derive(Clone, Copy, Debug)]
pub(super) struct Liquor {
    pub chlorine: Estimate<f64>,
    /// Before soda was added.
    pub ph: Estimate<f64>,
    /// Soda ash added, by the volume that dilutes it most.
    pub soda_ash: f64,
}

impl Liquor {
    /// The course of this reagent.
    pub fn course(&self, reagent: AntichlorReagent) -> Result<PhCourse, EquilibriumError> {
        let nominal = self.nominal()?.ends(reagent)?;
        let worst = self.worst(CELSIUS.high)?.ends(reagent)?;
        // Beyond the model at the good end: no range above the value.
        let best = self.best().and_then(|bound| bound.ends(reagent)).unwrap_or(nominal);
        let range = |value: f64, low: f64, high: f64| Estimate {
            value,
            low: low.min(value),
            high: high.max(value),
            basis: Basis::Computed,
        };
        Ok(PhCourse {
            start: range(nominal.start, worst.start, best.start),
            worst: self.worst_point(reagent)?,
            end: range(nominal.lowest_end, worst.lowest_end, best.highest_end),
        })
    }

    /// The point with most chlorine in the air, at the bad end of every range.
    pub fn worst_point(&self, reagent: AntichlorReagent) -> Result<CoursePoint, EquilibriumError> {
        let at = |celsius: f64| {
            let bound = self.worst(celsius)?;
            bound.worst_point(bound.hidden_base()?, reagent.most_acid_reaction())
        };
        let (cold, warm) = (at(CELSIUS.low)?, at(CELSIUS.high)?);
        Ok(if cold.chlorine_ppm > warm.chlorine_ppm { cold } else { warm })
    }

    fn nominal(&self) -> Result<Bound, EquilibriumError> {
        Ok(Bound {
            chlorine: self.chlorine.value,
            ph: self.ph.value,
            bicarbonate: BICARBONATE.value,
            soda_ash: self.soda_ash,
            constants: Constants::at(CELSIUS.value)?,
        })
    }

    fn worst(&self, celsius: f64) -> Result<Bound, EquilibriumError> {
        Ok(Bound {
            chlorine: self.chlorine.high,
            ph: self.ph.low,
            bicarbonate: BICARBONATE.low,
            soda_ash: self.soda_ash,
            constants: Constants::at(celsius)?,
        })
    }

    fn best(&self) -> Result<Bound, EquilibriumError> {
        Ok(Bound {
            chlorine: self.chlorine.low,
            ph: self.ph.high,
            bicarbonate: BICARBONATE.high,
            soda_ash: self.soda_ash,
            constants: Constants::at(CELSIUS.low)?,
        })
    }
}

/// pH at both ends of a dose.
#[derive(Clone, Copy, Debug)]
struct Ends {
    start: f64,
    /// Over the reactions.
    lowest_end: f64,
    highest_end: f64,
}

/// One choice of all uncertain inputs; amounts in mol/L.
#[derive(Clone, Copy, Debug)]
struct Bound {
    chlorine: f64,
    ph: f64,
    bicarbonate: f64,
    soda_ash: f64,
    constants: Constants,
}

impl Bound {
    /// Strong base, mol/L, besides bleach and tap water, that explains the pH before soda.
    fn hidden_base(&self) -> Result<f64, EquilibriumError> {
        let plain = Mix::at(self.constants)
            .with_bleach(moles_per_litre(self.chlorine))
            .with_baking_soda(moles_per_litre(self.bicarbonate));
        Ok(in_moles_per_litre(plain.hidden_base(self.ph)?))
    }

    /// The liquor at share `f` of the dose.
    fn mix(&self, hidden: f64, reaction: &Reaction, f: f64) -> Mix {
        let consumed = f * self.chlorine;
        let moles = moles_per_litre;
        Mix::at(self.constants)
            .with_bleach(moles(self.chlorine - consumed))
            .with_salt(moles(2.0 * consumed))
            .with_baking_soda(moles(self.bicarbonate))
            .with_soda_ash(moles(self.soda_ash))
            .with_sulfate(moles(consumed * reaction.divalent_per_chlorine().max(0.0)))
            .with_strong_acid(moles(consumed * reaction.acid_per_chlorine() - hidden))
    }

    fn point(
        &self,
        hidden: f64,
        reaction: &Reaction,
        share: f64,
    ) -> Result<CoursePoint, EquilibriumError> {
        let mix = self.mix(hidden, reaction, share);
        let ph = mix.solve()?.ph();
        Ok(CoursePoint { share, ph, chlorine_ppm: Headspace::of(&mix).ppm_at(ph) })
    }

    /// The point with most chlorine: a grid that is finer towards the end of the dose, where
    /// the last hypochlorite meets all of the acid, then a search between its neighbours.
    fn worst_point(
        &self,
        hidden: f64,
        reaction: &Reaction,
    ) -> Result<CoursePoint, EquilibriumError> {
        let share_at = |u: f64| 1.0 - (1.0 - u).powi(2);
        let at = |u: f64| self.point(hidden, reaction, share_at(u));
        let step = 1.0 / f64::from(STEPS);
        let (mut worst, mut middle) = (at(0.0)?, 0.0);
        for i in 1..=STEPS {
            let u = f64::from(i) * step;
            let point = at(u)?;
            if point.chlorine_ppm > worst.chlorine_ppm {
                (worst, middle) = (point, u);
            }
        }
        let (mut low, mut high) = ((middle - step).max(0.0), (middle + step).min(1.0));
        for _ in 0..16 {
            let third = (high - low) / 3.0;
            let (a, b) = (at(low + third)?, at(high - third)?);
            for point in [a, b] {
                if point.chlorine_ppm > worst.chlorine_ppm {
                    worst = point;
                }
            }
            if a.chlorine_ppm < b.chlorine_ppm {
                low += third;
            } else {
                high -= third;
            }
        }
        Ok(worst)
    }

    fn ends(&self, reagent: AntichlorReagent) -> Result<Ends, EquilibriumError> {
        let hidden = self.hidden_base()?;
        let mut ends = Ends { start: self.ph, lowest_end: f64::INFINITY, highest_end: 0.0 };
        for reaction in reagent.reactions() {
            ends.start = self.mix(hidden, reaction, 0.0).solve()?.ph();
            let end = self.end_ph(hidden, reaction, reagent.excess())?;
            ends.lowest_end = ends.lowest_end.min(end);
            ends.highest_end = ends.highest_end.max(end);
        }
        Ok(ends)
    }

    /// pH at the end, with the excess of the reagent in equilibrium.
    fn end_ph(
        &self,
        hidden: f64,
        reaction: &Reaction,
        excess: Option<Excess>,
    ) -> Result<f64, EquilibriumError> {
        let mix = self.mix(hidden, reaction, 1.0);
        let Some(excess) = excess else { return Ok(mix.solve()?.ph()) };
        let moles = excess.moles_per_chlorine * self.chlorine;
        let with_excess_at = |ph: f64| {
            let share = 1.0 / (1.0 + 10_f64.powf(excess.pka - ph));
            mix.with_strong_acid(moles_per_litre(moles * (share - excess.dissociated)))
        };
        // The mix is the more acid the higher the pH at which the excess dissociates.
        let (mut low, mut high) = (0.0, 14.0);
        for _ in 0..40 {
            let ph = f64::midpoint(low, high);
            if with_excess_at(ph).solve()?.ph() > ph {
                low = ph;
            } else {
                high = ph;
            }
        }
        Ok(f64::midpoint(low, high))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn liquor(moles: f64, ph: f64) -> Liquor {
        let exact = |value| Estimate::exact(value, Basis::Measured);
        Liquor { chlorine: exact(moles), ph: exact(ph), soda_ash: 0.0 }
    }

    fn bound(moles: f64, ph: f64, bicarbonate: f64, celsius: f64) -> Bound {
        let constants = Constants::at(celsius).unwrap();
        Bound { chlorine: moles, ph, bicarbonate, soda_ash: 0.0, constants }
    }

    #[test]
    fn the_search_finds_the_highest_point_of_a_fine_grid() {
        for reagent in AntichlorReagent::ALL {
            for (moles, ph) in [(0.001, 9.0), (0.02, 9.0), (0.1, 9.9), (0.1, 10.5)] {
                let bound = bound(moles, ph, 0.0, 40.0);
                let hidden = bound.hidden_base().unwrap();
                for reaction in reagent.reactions() {
                    let found = bound.worst_point(hidden, reaction).unwrap().chlorine_ppm;
                    let at = |f| bound.point(hidden, reaction, f).unwrap().chlorine_ppm;
                    let grid = (0..=2000).map(|i| at(f64::from(i) / 2000.0)).fold(0.0, f64::max);
                    assert!(found >= 0.99 * grid, "{reagent:?} {moles} {ph}: {found} {grid}");
                }
            }
        }
    }

    #[test]
    fn the_worst_of_bicarbonate_and_temperature_is_at_the_ends_that_are_tried() {
        for reagent in AntichlorReagent::ALL {
            for (moles, ph) in [(0.001, 7.0), (0.02, 9.0), (0.1, 9.9)] {
                let worst = liquor(moles, ph).worst_point(reagent).unwrap().chlorine_ppm;
                for bicarbonate in [BICARBONATE.low, BICARBONATE.value, BICARBONATE.high] {
                    for celsius in [CELSIUS.low, 18.0, 25.0, 32.0, CELSIUS.high] {
                        let bound = bound(moles, ph, bicarbonate, celsius);
                        let hidden = bound.hidden_base().unwrap();
                        for reaction in reagent.reactions() {
                            let found = bound.worst_point(hidden, reaction).unwrap().chlorine_ppm;
                            assert!(found <= 1.01 * worst, "{bicarbonate} {celsius} {reagent:?}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn thiosulfate_to_tetrathionate_raises_ph_and_to_sulfate_lowers_it() {
        let bound = bound(0.0141, 10.3, 0.0, 20.0);
        let hidden = bound.hidden_base().unwrap();
        let ends = AntichlorReagent::ThiosulfatePentahydrate
            .reactions()
            .iter()
            .map(|reaction| bound.end_ph(hidden, reaction, None).unwrap());
        let ends: Vec<f64> = ends.collect();
        // 0.00705 mol/L of acid; none; 0.0282 mol/L of base.
        assert!((ends[0] - 2.25).abs() < 0.15, "{ends:?}");
        assert!((9.5..11.0).contains(&ends[1]), "{ends:?}");
        assert!((ends[2] - 12.5).abs() < 0.2, "{ends:?}");
    }

    #[test]
    fn excess_of_sulfite_holds_the_end_above_neutral() {
        let end = liquor(0.0141, 9.8).course(AntichlorReagent::Sulfite).unwrap().end;
        assert!((8.0..10.0).contains(&end.value), "{end:?}");
    }
}
