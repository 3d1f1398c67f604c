//! Heat balance of a bath: mixing hot and cold water, cooling, reheating.
//!
//! Mixing is by heat content, `T = sum(m c T) / sum(m c)`. The heat capacity of
//! water varies by less than 1 % between 4 and 99 °C (IAPWS-IF97), an error of
//! 0.03 °C in the mix. [`Cooling`] follows Newton, `T = Ta + (T0 - Ta) exp(-t/tau)`,
//! with tau measured once for the studio's own vessel. [`CoolingBath`] adds up evaporation,
//! convection and radiation of a vessel, since the losses of an open bath rise much faster
//! than its temperature.
//!
//! * `evaporation`: water vapour, and the open surface; `vessel`: sizes, materials, losses;
//! * `course`: temperature over time; `warming`: back into the range.

mod course;
mod evaporation;
mod vessel;
mod warming;

pub use course::*;
pub use evaporation::*;
pub use vessel::*;
pub use warming::*;

use crate::{
    message::{Field, Message, Value},
    pulp::WetPulp,
    quantity::{
        Basis, Celsius, Estimate, Mass, MassDensity, OutOfRange, QuantityKind, Volume, grams,
        in_grams, in_grams_per_millilitre, millilitres,
    },
};

/// Hot and cold water to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotAndCold {
    pub hot: Mass,
    pub cold: Mass,
    /// The volumes, each at its own temperature.
    pub hot_volume: Volume,
    pub cold_volume: Volume,
    /// Temperature of the bath.
    pub reaches: Celsius,
}

/// Why a temperature cannot be reached or a cooling trial not be used.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HeatError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// With all the water hot the bath reaches only `reaches`.
    #[error("{} °C is above {} °C, the highest that can be reached", target.get(), reaches.get())]
    TooCold { target: Celsius, reaches: Celsius },
    /// With all the water cold the bath still reaches `reaches`.
    #[error("{} °C is below {} °C, the lowest that can be reached", target.get(), reaches.get())]
    TooHot { target: Celsius, reaches: Celsius },
    /// The temperature did not fall, or fell below the room.
    #[error("the temperature did not fall towards that of the room")]
    NoCooling,
}

impl HeatError {
    /// The message for a person, beside the field concerned.
    pub fn message(&self) -> Message {
        let degrees = |key, target: &Celsius, reaches: &Celsius| {
            Message::new(key)
                .beside(BATH_TEMPERATURE)
                .with("target", Value::Celsius(target.get()))
                .with("reaches", Value::Celsius(reaches.get()))
        };
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::TooCold { target, reaches } => degrees("refusal-heat-too_cold", target, reaches),
            Self::TooHot { target, reaches } => degrees("refusal-heat-too_hot", target, reaches),
            Self::NoCooling => Message::new("refusal-heat-no_cooling").beside(COOLED_TO),
        }
    }
}

/// Splits `water` into hot and cold so that water and pulp reach `target`.
///
/// # Errors
/// [`HeatError::TooCold`] or [`HeatError::TooHot`] with the temperature that can be reached.
pub fn hot_and_cold(
    water: Mass,
    pulp: Option<(&WetPulp, Celsius)>,
    target: Celsius,
    hot: Celsius,
    cold: Celsius,
) -> Result<HotAndCold, HeatError> {
    let water_g = in_grams(water);
    OutOfRange::check(WATER_MASS, QuantityKind::Mass, water_g, 0.0, 5e6)?;
    let (hot_c, cold_c) = (hot.get(), cold.get());
    let (pulp_heat, pulp_c) = match pulp {
        Some((pulp, at)) => {
            pulp.check()?;
            let (dry, wet) = (in_grams(pulp.oven_dry().value), in_grams(pulp.water().value));
            (dry * PULP_HEAT + wet * WATER_HEAT, at.get())
        }
        None => (0.0, cold_c),
    };
    let all = water_g * WATER_HEAT + pulp_heat;
    let reach = |hot_g: f64| {
        let cold_g = water_g - hot_g;
        (WATER_HEAT * (hot_g * hot_c + cold_g * cold_c) + pulp_heat * pulp_c) / all
    };
    let all_hot = Celsius::new(reach(water_g))?;
    let all_cold = Celsius::new(reach(0.0))?;
    let (lowest, highest) =
        if all_hot < all_cold { (all_hot, all_cold) } else { (all_cold, all_hot) };
    if target > highest {
        return Err(HeatError::TooCold { target, reaches: highest });
    }
    if target < lowest {
        return Err(HeatError::TooHot { target, reaches: lowest });
    }
    let hot_g = if all_hot == all_cold {
        0.0
    } else {
        let part = (target.get() - all_cold.get()) / (all_hot.get() - all_cold.get());
        (water_g * part).clamp(0.0, water_g)
    };
    let (hot_mass, cold_mass) = (grams(hot_g), grams(water_g - hot_g));
    Ok(HotAndCold {
        hot: hot_mass,
        cold: cold_mass,
        hot_volume: water_volume(hot_mass, hot),
        cold_volume: water_volume(cold_mass, cold),
        reaches: Celsius::new(reach(hot_g))?,
    })
}

/// Temperature of a mixture of waters; `None` without water.
pub fn mixed(waters: &[(Mass, Celsius)]) -> Option<Celsius> {
    let mass: f64 = waters.iter().map(|(mass, _)| in_grams(*mass)).sum();
    let heat: f64 = waters.iter().map(|(mass, at)| in_grams(*mass) * at.get()).sum();
    Celsius::new(heat / mass).ok()
}

/// Newtonian cooling of a vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    pub room: Celsius,
    /// Time constant in hours: the excess over the room falls to 37 %.
    pub tau_hours: Estimate<f64>,
}

impl Cooling {
    /// A lidded bucket of about 20 L: 6.9 h, 3.7 to 11 h. Wall losses of 5 to 15
    /// W/m2 K (textbook free convection and radiation, from memory) on 0.42 m2.
    /// An open hot bath loses far more by evaporation: measure once.
    pub fn assumed(room: Celsius) -> Self {
        let basis = Basis::Assumed;
        Self { room, tau_hours: Estimate { value: 6.9, low: 3.7, high: 11.1, basis } }
    }

    /// From one trial: water that cooled from `start` to `end` in `hours`.
    ///
    /// # Errors
    /// [`HeatError::NoCooling`] unless the temperature fell and stayed above the room.
    pub fn measured(
        room: Celsius,
        start: Celsius,
        end: Celsius,
        hours: f64,
    ) -> Result<Self, HeatError> {
        let (above, left) = (start.get() - room.get(), end.get() - room.get());
        let cooled = hours > 0.0 && hours.is_finite() && left > 0.0 && above > left;
        let tau = hours / (above / left).ln();
        if !(cooled && tau.is_finite()) {
            return Err(HeatError::NoCooling);
        }
        // Uncertainty: half a degree on either reading.
        let at = |off: f64| hours / ((above - off) / (left + off)).ln();
        let high = if above - 0.5 > left + 0.5 { at(0.5) } else { tau * 10.0 };
        let low = if left > 0.5 { at(-0.5) } else { tau / 2.0 };
        let basis = Basis::Measured;
        Ok(Self { room, tau_hours: Estimate { value: tau, low: low.min(tau), high, basis } })
    }

    /// Temperature after `hours`.
    pub fn after(&self, start: Celsius, hours: f64) -> Celsius {
        let room = self.room.get();
        let value = room + (start.get() - room) * (-hours.max(0.0) / self.tau_hours.value).exp();
        // Between the start and the room, so always a temperature of water.
        Celsius::new(value).unwrap_or(self.room)
    }

    /// Hours until a bath at `start` is below `limit`, with the range from tau.
    /// `None` if that never happens.
    pub fn hours_until_below(&self, start: Celsius, limit: Celsius) -> Option<Estimate<f64>> {
        let (above, left) = (start.get() - self.room.get(), limit.get() - self.room.get());
        if start <= limit {
            return Some(Estimate::exact(0.0, self.tau_hours.basis));
        }
        (left > 0.0).then(|| self.tau_hours.map(|tau| tau * (above / left).ln()))
    }
}

/// Mass of hot water that heats a bath from `now` to `target`. It dilutes the
/// bath by as much.
///
/// # Errors
/// [`HeatError::TooCold`] if the water is no hotter than the target.
pub fn reheat(
    oven_dry: Mass,
    liquor: Mass,
    now: Celsius,
    target: Celsius,
    hot: Celsius,
) -> Result<Mass, HeatError> {
    if target <= now {
        return Ok(grams(0.0));
    }
    if hot <= target {
        return Err(HeatError::TooCold { target, reaches: hot });
    }
    let heat = in_grams(oven_dry) * PULP_HEAT + in_grams(liquor) * WATER_HEAT;
    let mass = heat * (target.get() - now.get()) / (WATER_HEAT * (hot.get() - target.get()));
    OutOfRange::check(WATER_MASS, QuantityKind::Mass, mass, 0.0, 5e6)?;
    Ok(grams(mass))
}

/// Density of water (see [`crate::chemistry::water`]).
pub fn water_density(at: Celsius) -> MassDensity {
    crate::chemistry::water::density(at.get())
}

/// Volume of water at a temperature.
pub fn water_volume(mass: Mass, at: Celsius) -> Volume {
    millilitres(in_grams(mass) / in_grams_per_millilitre(water_density(at)))
}

/// Error of a kitchen thermometer either way, °C (common practice, no source).
pub const THERMOMETER_ERROR: f64 = 2.0;

/// A temperature off a kitchen thermometer, °C, ±[`THERMOMETER_ERROR`].
pub fn by_thermometer(celsius: f64) -> Estimate<f64> {
    Estimate::plus_minus(celsius, THERMOMETER_ERROR, Basis::Measured)
}

pub const BATH_TEMPERATURE: Field = Field("bath_temperature");
pub const WATER_MASS: Field = Field("water_mass");
pub const COOLED_TO: Field = Field("cooled_to");

/// Specific heat, J/(g K). Water at 40 °C (IAPWS-IF97); dry cellulose (handbook
/// value for wood pulp, from memory, ±10 %: under 1 % of a 10 % slurry's).
pub(super) const WATER_HEAT: f64 = 4.18;
pub(super) const PULP_HEAT: f64 = 1.34;

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::quantity::share;

    fn c(value: f64) -> Celsius {
        Celsius::new(value).unwrap()
    }

    fn near(a: f64, b: f64, tolerance: f64) {
        assert!((a - b).abs() <= tolerance, "{a} is not {b}");
    }

    #[test]
    fn hot_and_cold_water_with_pulp_reach_the_target() {
        let pulp = WetPulp::new(
            Estimate::exact(grams(500.0), Basis::Measured),
            Estimate::exact(share(0.2), Basis::OwnRecord),
        )
        .unwrap();
        let made =
            hot_and_cold(grams(1500.0), Some((&pulp, c(15.0))), c(40.0), c(60.0), c(12.0)).unwrap();
        near(made.reaches.get(), 40.0, 1e-9);
        near(in_grams(made.hot) + in_grams(made.cold), 1500.0, 1e-9);
        let alone = hot_and_cold(grams(1500.0), None, c(40.0), c(60.0), c(12.0)).unwrap();
        assert!(made.hot > alone.hot, "cold pulp needs more hot water");
    }

    #[test]
    fn an_unreachable_temperature_gives_the_reachable_one() {
        let error = hot_and_cold(grams(1000.0), None, c(70.0), c(60.0), c(12.0)).unwrap_err();
        let HeatError::TooCold { target, reaches } = error else { panic!("{error:?}") };
        assert_eq!(target, c(70.0));
        near(reaches.get(), 60.0, 1e-9);
        let error = hot_and_cold(grams(1000.0), None, c(5.0), c(60.0), c(12.0)).unwrap_err();
        let HeatError::TooHot { reaches, .. } = error else { panic!("{error:?}") };
        near(reaches.get(), 12.0, 1e-9);
        assert!(hot_and_cold(grams(0.0), None, c(40.0), c(60.0), c(12.0)).is_err());
    }

    #[test]
    fn measured_cooling_reproduces_the_trial() {
        let measured = Cooling::measured(c(20.0), c(60.0), c(50.0), 2.0).unwrap();
        near(measured.after(c(60.0), 2.0).get(), 50.0, 1e-9);
        let tau = measured.tau_hours;
        assert!(tau.low < tau.value && tau.value < tau.high);
        let until = measured.hours_until_below(c(60.0), c(50.0)).unwrap();
        near(until.value, 2.0, 1e-9);
        assert_eq!(measured.hours_until_below(c(60.0), c(20.0)), None);
        assert_eq!(measured.hours_until_below(c(30.0), c(35.0)).unwrap().value, 0.0);
        for (end, hours) in [(60.0, 2.0), (15.0, 2.0), (20.0, 2.0), (50.0, 0.0), (50.0, f64::NAN)] {
            assert!(Cooling::measured(c(20.0), c(60.0), c(end), hours).is_err());
        }
    }

    #[test]
    fn reheating_reaches_the_target() {
        let hot = reheat(grams(0.0), grams(1000.0), c(30.0), c(40.0), c(100.0)).unwrap();
        let mixed = mixed(&[(grams(1000.0), c(30.0)), (hot, c(100.0))]).unwrap();
        near(mixed.get(), 40.0, 1e-9);
        assert_eq!(in_grams(reheat(hot, hot, c(50.0), c(40.0), c(100.0)).unwrap()), 0.0);
        assert!(reheat(hot, hot, c(30.0), c(40.0), c(40.0)).is_err());
    }
}
