//! Bringing a cooled bath back into its temperature range: hot water, or a water bath.

use super::vessel::HeatVessel;
use super::{BATH_TEMPERATURE, HeatError, reheat};
use crate::quantity::{
    Basis, Celsius, Estimate, Interval, Mass, OutOfRange, QuantityKind, Ratio, in_grams, share,
};

/// A bath warmed with hot water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotWaterAdded {
    pub hot: Mass,
    pub reaches: Celsius,
    /// Oven-dry fibre over all, after the addition.
    pub consistency: Ratio,
    /// Oxidant per litre after the addition, over that before.
    pub strength_factor: f64,
}

/// Hot water that brings a bath of fibre and liquor to `target`, and what it does to
/// consistency and strength. The target is of the mixed bath: pour slowly and stir, since the
/// pulp around the stream is hotter meanwhile.
///
/// # Errors
/// A target outside `range`; [`HeatError::TooCold`] if the water is no hotter than the target.
pub fn add_hot_water(
    oven_dry: Mass,
    liquor: Mass,
    now: Celsius,
    target: Celsius,
    range: Interval<Celsius>,
    hot: Celsius,
) -> Result<HotWaterAdded, HeatError> {
    check_target(target, range)?;
    let added = reheat(oven_dry, liquor, now, target, hot)?;
    let (fibre, before, more) = (in_grams(oven_dry), in_grams(liquor), in_grams(added));
    Ok(HotWaterAdded {
        hot: added,
        reaches: if target > now { target } else { now },
        consistency: share(fibre / (fibre + before + more)),
        strength_factor: before / (before + more),
    })
}

/// A vessel warmed in a water bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaterBathWarming {
    /// Until the target.
    pub minutes: Estimate<f64>,
    /// Where both would settle if left; losses to the room neglected.
    pub settles_at: Celsius,
    /// Take it out before: the earliest time at which it may pass the range. `None` if it
    /// settles within the range.
    pub take_out_before: Option<f64>,
}

/// Heat that passes from water outside to pulp inside, W/K, through the wetted wall: films of
/// 100 to 400 W/(m²·K) in still water outside and 50 to 300 in pulp stirred now and then (own
/// estimate), in series with the wall.
pub fn water_bath_conductance(vessel: &HeatVessel) -> Estimate<f64> {
    let through = |outside: f64, inside: f64| {
        vessel.wall / (vessel.wall_resistance + 1.0 / outside + 1.0 / inside)
    };
    Estimate {
        value: through(200.0, 120.0),
        low: through(100.0, 50.0),
        high: through(400.0, 300.0),
        basis: Basis::Assumed,
    }
}

/// Time in a water bath that warms a bath of heat capacity `capacity` J/K to `target`.
///
/// Two well mixed bodies exchange heat by `conductance`, W/K: the difference decays
/// exponentially.
///
/// # Errors
/// A target outside `range`; [`HeatError::TooCold`] with the temperature at which both settle,
/// if that is not above the target.
pub fn warm_in_water_bath(
    capacity: f64,
    now: Celsius,
    target: Celsius,
    range: Interval<Celsius>,
    water: (Mass, Celsius),
    conductance: Estimate<f64>,
) -> Result<WaterBathWarming, HeatError> {
    check_target(target, range)?;
    let outside = in_grams(water.0) * super::WATER_HEAT;
    let (inside_c, outside_c) = (now.get(), water.1.get());
    let settles = (capacity * inside_c + outside * outside_c) / (capacity + outside);
    let settles_at = Celsius::new(settles)?;
    // Seconds until the bath is at a temperature between its own and the end.
    let until = |celsius: f64, conductance: f64| {
        let rate = conductance * (1.0 / capacity + 1.0 / outside);
        ((settles - inside_c) / (settles - celsius)).ln() / rate
    };
    let minutes = if target <= now {
        Estimate::exact(0.0, conductance.basis)
    } else if settles_at <= target {
        return Err(HeatError::TooCold { target, reaches: settles_at });
    } else {
        let minutes = |conductance| until(target.get(), conductance) / 60.0;
        Estimate {
            value: minutes(conductance.value),
            low: minutes(conductance.high),
            high: minutes(conductance.low),
            basis: conductance.basis,
        }
    };
    let take_out_before = (settles_at > range.high).then(|| {
        if now >= range.high { 0.0 } else { until(range.high.get(), conductance.high) / 60.0 }
    });
    Ok(WaterBathWarming { minutes, settles_at, take_out_before })
}

/// A bath is never to be warmed above its range.
fn check_target(target: Celsius, range: Interval<Celsius>) -> Result<(), OutOfRange> {
    let (low, high) = (range.low.get(), range.high.get());
    OutOfRange::check(BATH_TEMPERATURE, QuantityKind::Temperature, target.get(), low, high)
        .map(|_| ())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::super::{cooled, heat_capacity, mixed};
    use super::*;
    use crate::{property, quantity::grams, quantity::in_share};

    fn c(value: f64) -> Celsius {
        Celsius::new(value).unwrap()
    }

    fn range() -> Interval<Celsius> {
        Interval { low: c(35.0), high: c(40.0) }
    }

    #[test]
    fn hot_water_warms_and_thins_the_bath() {
        let (fibre, liquor) = (grams(500.0), grams(9500.0));
        let made = add_hot_water(fibre, liquor, c(30.0), c(38.0), range(), c(90.0)).unwrap();
        let more = in_grams(made.hot);
        assert!((in_share(made.consistency) - 500.0 / (10_000.0 + more)).abs() < 1e-12);
        assert!((made.strength_factor - 9500.0 / (9500.0 + more)).abs() < 1e-12);
        let water = add_hot_water(grams(0.0), liquor, c(30.0), c(38.0), range(), c(90.0)).unwrap();
        let mix = mixed(&[(liquor, c(30.0)), (water.hot, c(90.0))]).unwrap();
        assert!((mix.get() - 38.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_is_warmed_above_its_range() {
        let refused = add_hot_water(grams(1.0), grams(9.0), c(30.0), c(41.0), range(), c(90.0));
        assert!(matches!(refused, Err(HeatError::OutOfRange(_))));
        let water = (grams(20_000.0), c(70.0));
        let conductance = Estimate::within(20.0, 0.5, Basis::Assumed);
        let warm =
            |target| warm_in_water_bath(40_000.0, c(30.0), c(target), range(), water, conductance);
        assert!(matches!(warm(45.0), Err(HeatError::OutOfRange(_))));
        let made = warm(38.0).unwrap();
        assert!(made.settles_at > c(40.0) && made.take_out_before.unwrap() > made.minutes.low);
    }

    #[test]
    fn a_mild_water_bath_may_stay_and_a_cool_one_is_refused() {
        let conductance = Estimate::within(20.0, 0.5, Basis::Assumed);
        let warm = |mass: f64, celsius: f64| {
            let water = (grams(mass), c(celsius));
            warm_in_water_bath(40_000.0, c(30.0), c(38.0), range(), water, conductance)
        };
        assert_eq!(warm(200_000.0, 40.0).unwrap().take_out_before, None);
        assert!(matches!(warm(2000.0, 45.0), Err(HeatError::TooCold { .. })));
    }

    /// The closed form against the integrator of `course`, on the difference of both bodies.
    #[test]
    fn the_time_in_the_water_bath_is_that_of_the_integrated_course() {
        let cases = (20.0..34.0_f64, 50.0..80.0_f64, 5_000.0..40_000.0_f64, 5.0..60.0_f64);
        property::check(cases, 40, |(now, hot, mass, watts_per_kelvin)| {
            let capacity = heat_capacity(grams(400.0), grams(9600.0));
            let conductance = Estimate::exact(watts_per_kelvin, Basis::Assumed);
            let water = (grams(mass), c(hot));
            let made = warm_in_water_bath(capacity, c(now), c(38.0), range(), water, conductance);
            let Ok(made) = made else { return Ok(false) };
            let settles = made.settles_at.get();
            // The bath's distance from the end shrinks as one body's with the joint capacity.
            let outside = mass * 4.18;
            let joint = 1.0 / (1.0 / capacity + 1.0 / outside);
            let seconds = 60.0 * made.minutes.value;
            let left = cooled(joint, settles - now, seconds, |d| watts_per_kelvin * d);
            proptest::prop_assert!((settles - left - 38.0).abs() < 1e-4, "{made:?}");
            Ok(true)
        });
    }
}
