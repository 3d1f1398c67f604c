//! Temperature of a cooling bath over time, and what two readings say of its losses.

use super::evaporation::RoomAir;
use super::vessel::{HeatVessel, LossFactors};
use super::{HeatError, PULP_HEAT, WATER_HEAT};
use crate::quantity::{Basis, Celsius, Estimate, Interval, Mass, in_grams};

/// Heat capacity of fibre and liquor, J/K. The vessel's own is left out: 1 to 3 % of a full
/// bucket's.
pub fn heat_capacity(oven_dry: Mass, liquor: Mass) -> f64 {
    in_grams(oven_dry) * PULP_HEAT + in_grams(liquor) * WATER_HEAT
}

/// A bath that cools in its vessel.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct CoolingBath {
    /// J/K.
    pub capacity: f64,
    pub vessel: HeatVessel,
    pub air: RoomAir,
    pub factors: LossFactors<Estimate<f64>>,
}

impl CoolingBath {
    /// Temperature after some hours, with the range of the loss factors together.
    pub fn after(&self, start: Celsius, hours: f64) -> Estimate<f64> {
        let at = |factors: LossFactors<f64>| self.temperature(start.get(), hours, &factors);
        let (value, slow, fast) = self.by_factor(at);
        Estimate {
            value,
            low: value.min(slow).min(fast),
            high: value.max(slow).max(fast),
            basis: self.basis(),
        }
    }

    /// Hours until the bath is below `limit`; `None` if it may never be. An end of the range
    /// that is not reached within [`LONGEST_HOURS`] is infinite.
    pub fn hours_until_below(&self, start: Celsius, limit: Celsius) -> Option<Estimate<f64>> {
        let until =
            |factors: LossFactors<f64>| self.hours_until(start.get(), limit.get(), &factors);
        let (value, slow, fast) = self.by_factor(until);
        value.is_finite().then(|| Estimate {
            value,
            low: fast.min(value),
            high: slow.max(value),
            basis: self.basis(),
        })
    }

    /// Factor on all losses from one pair of readings, `hours` apart, by the same thermometer:
    /// half a degree of error on either.
    ///
    /// # Errors
    /// [`HeatError::NoCooling`] unless the temperature fell, by no more than losses 20 times the
    /// assumed ones explain.
    pub fn learn(
        &self,
        start: Celsius,
        end: Celsius,
        hours: f64,
    ) -> Result<LossFactors<Estimate<f64>>, HeatError> {
        let (start, end) = (start.get(), end.get());
        let factor = |start: f64, end: f64| self.factor_for(start, end, hours);
        let usable = hours > 0.0 && hours.is_finite() && end < start;
        let value = factor(start, end).filter(|_| usable).ok_or(HeatError::NoCooling)?;
        let low = factor(start - READING_ERROR, end + READING_ERROR).unwrap_or(LEAST_FACTOR);
        let high = factor(start + READING_ERROR, end - READING_ERROR).unwrap_or(MOST_FACTOR);
        let learnt = Estimate { value, low, high, basis: Basis::Measured };
        Ok(LossFactors { evaporation: learnt, dry: learnt })
    }

    fn basis(&self) -> Basis {
        self.factors.evaporation.basis.max(self.factors.dry.basis)
    }

    /// `of` at the factors' values, at their low and at their high ends.
    fn by_factor(&self, of: impl Fn(LossFactors<f64>) -> f64) -> (f64, f64, f64) {
        let LossFactors { evaporation, dry } = self.factors;
        let at = |evaporation, dry| of(LossFactors { evaporation, dry });
        (
            at(evaporation.value, dry.value),
            at(evaporation.low, dry.low),
            at(evaporation.high, dry.high),
        )
    }

    fn watts(&self, celsius: f64, factors: &LossFactors<f64>) -> f64 {
        self.vessel.loss(celsius, &self.air).scaled(factors)
    }

    fn temperature(&self, start: f64, hours: f64, factors: &LossFactors<f64>) -> f64 {
        cooled(self.capacity, start, 3600.0 * hours, |celsius| self.watts(celsius, factors))
    }

    fn hours_until(&self, start: f64, limit: f64, factors: &LossFactors<f64>) -> f64 {
        if start <= limit {
            return 0.0;
        }
        let mut celsius = start;
        let mut hours = 0.0;
        while hours < LONGEST_HOURS {
            let next = self.temperature(celsius, STEP_HOURS, factors);
            if next < limit {
                return hours + STEP_HOURS * (celsius - limit) / (celsius - next);
            }
            celsius = next;
            hours += STEP_HOURS;
        }
        f64::INFINITY
    }

    /// Bisection: the temperature falls with the factor.
    fn factor_for(&self, start: f64, end: f64, hours: f64) -> Option<f64> {
        let left = |factor: f64| {
            let factors = LossFactors { evaporation: factor, dry: factor };
            self.temperature(start, hours, &factors)
        };
        let (mut low, mut high) = (LEAST_FACTOR, MOST_FACTOR);
        if !(left(low) > end && left(high) < end) {
            return None;
        }
        for _ in 0..40 {
            let middle = (low * high).sqrt();
            if left(middle) > end { low = middle } else { high = middle }
        }
        Some((low * high).sqrt())
    }
}

/// Error of one reading against another by the same thermometer, °C (own estimate).
const READING_ERROR: f64 = 0.5;
const LEAST_FACTOR: f64 = 0.05;
const MOST_FACTOR: f64 = 20.0;
/// Longest time that a cooling bath is followed.
pub const LONGEST_HOURS: f64 = 48.0;
const STEP_HOURS: f64 = 0.1;

/// Temperature, °C, of a body of `capacity` J/K after some seconds, losing `watts` at a
/// temperature. Runge-Kutta of fourth order in steps of at most half a minute.
pub fn cooled(capacity: f64, start: f64, seconds: f64, watts: impl Fn(f64) -> f64) -> f64 {
    let seconds = seconds.max(0.0);
    let steps = (seconds / 30.0).ceil().max(1.0);
    let step = seconds / steps;
    let slope = |celsius: f64| -watts(celsius) / capacity;
    let mut celsius = start;
    for _ in 0..steps as u64 {
        let k1 = slope(celsius);
        let k2 = slope(celsius + 0.5 * step * k1);
        let k3 = slope(celsius + 0.5 * step * k2);
        let k4 = slope(celsius + step * k3);
        celsius += step / 6.0 * (k1 + 2.0 * (k2 + k3) + k4);
    }
    celsius
}

/// A bath's temperature against the range that it should stay in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RangePosition {
    Below,
    Within,
    Above,
}

/// Where a temperature is against its range.
pub fn range_position(now: Celsius, range: Interval<Celsius>) -> RangePosition {
    if now < range.low {
        RangePosition::Below
    } else if now > range.high {
        RangePosition::Above
    } else {
        RangePosition::Within
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::super::{BathCover, VesselMaterial, VesselShape};
    use super::*;
    use crate::quantity::{grams, millilitres};

    fn c(value: f64) -> Celsius {
        Celsius::new(value).unwrap()
    }

    fn bath(cover: BathCover) -> CoolingBath {
        CoolingBath {
            capacity: heat_capacity(grams(500.0), grams(19_500.0)),
            vessel: HeatVessel::preset(
                millilitres(20_000.0),
                VesselShape::Bucket,
                VesselMaterial::Plastic,
                cover,
            ),
            air: RoomAir::still(20.0),
            factors: LossFactors::assumed(cover),
        }
    }

    /// Newton's law has an exact solution.
    #[test]
    fn linear_loss_cools_exponentially() {
        for hours in [0.0, 0.3, 2.0, 12.0] {
            let found = cooled(80_000.0, 60.0, 3600.0 * hours, |t| 5.0 * (t - 20.0));
            let exact = 20.0 + 40.0 * (-5.0 * 3600.0 * hours / 80_000.0_f64).exp();
            assert!((found - exact).abs() < 1e-6, "{hours}: {found} {exact}");
        }
    }

    #[test]
    fn the_bath_cools_towards_the_room_within_its_range() {
        for cover in [BathCover::Open, BathCover::Lid, BathCover::Insulated] {
            let bath = bath(cover);
            let mut last = 60.0;
            for hours in [0.5, 1.0, 2.0, 4.0, 24.0] {
                let after = bath.after(c(60.0), hours);
                assert!(after.low < after.value && after.value < after.high);
                assert!(after.value < last && after.low > 10.0);
                last = after.value;
            }
            let until = bath.hours_until_below(c(45.0), c(40.0)).unwrap();
            assert!(until.low < until.value && until.value < until.high, "{until:?}");
            assert!((bath.after(c(45.0), until.value).value - 40.0).abs() < 0.02);
        }
        assert_eq!(bath(BathCover::Lid).hours_until_below(c(45.0), c(15.0)), None);
    }

    #[test]
    fn two_readings_narrow_the_course_and_reproduce_themselves() {
        let assumed = bath(BathCover::Lid);
        let learnt = assumed.learn(c(50.0), c(44.0), 1.5).unwrap();
        let known = CoolingBath { factors: learnt, ..assumed };
        assert!((known.after(c(50.0), 1.5).value - 44.0).abs() < 0.01);
        let width = |bath: &CoolingBath| {
            let after = bath.after(c(50.0), 3.0);
            after.high - after.low
        };
        assert!(width(&known) < width(&assumed));
        for (end, hours) in [(50.0, 1.0), (55.0, 1.0), (44.0, 0.0), (44.0, f64::NAN), (15.0, 0.1)] {
            assert!(assumed.learn(c(50.0), c(end), hours).is_err(), "{end} {hours}");
        }
    }

    /// Home-brew measurements: 15.1 L in a cooler, 164 to 155 °F in an hour, and another from
    /// 152 to 148 °F; 70 °F in the room assumed.
    #[test]
    fn insulated_coolers_lose_heat_within_the_range() {
        let cooler = CoolingBath {
            capacity: heat_capacity(grams(0.0), grams(15_100.0)),
            vessel: HeatVessel::preset(
                millilitres(15_100.0),
                VesselShape::Bucket,
                VesselMaterial::Plastic,
                BathCover::Insulated,
            ),
            air: RoomAir::still(21.1),
            factors: LossFactors::assumed(BathCover::Insulated),
        };
        for (start, end) in [(73.3, 68.3), (66.7, 64.4)] {
            let after = cooler.after(c(start), 1.0);
            assert!(after.low <= end && end <= after.high, "{end} {after:?}");
        }
    }

    #[test]
    fn a_reading_is_placed_against_its_range() {
        let range = Interval { low: c(35.0), high: c(40.0) };
        assert_eq!(range_position(c(34.9), range), RangePosition::Below);
        assert_eq!(range_position(c(35.0), range), RangePosition::Within);
        assert_eq!(range_position(c(40.1), range), RangePosition::Above);
    }
}
