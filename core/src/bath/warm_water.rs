//! How warm the added water must be so that pulp, water and bleach come to the bath's
//! temperature. Heat that the vessel takes up is not counted: warm it first.

use super::{HeatError, heat};
use crate::{
    chemistry::Oxidant,
    pulp::WetPulp,
    quantity::{Celsius, Mass, grams, in_grams},
};

/// Temperature assumed of pulp, bleach and room, °C (own assumption).
pub const ROOM_CELSIUS: f64 = 20.0;

/// What a bath is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathParts {
    pub fibre: Mass,
    /// Water in the wet pulp.
    pub pulp_water: Mass,
    /// Water to add.
    pub water: Mass,
    /// The bleach as measured out, and soda ash.
    pub bleach: Mass,
}

impl BathParts {
    /// The pulp alone.
    pub fn of_pulp(pulp: &WetPulp) -> Self {
        let none = grams(0.0);
        let (fibre, pulp_water) = (pulp.oven_dry().value, pulp.water().value);
        Self { fibre, pulp_water, water: none, bleach: none }
    }

    /// How warm the water must be, with the rest of the bath at `room`.
    ///
    /// # Errors
    /// [`HeatError::TooCold`] if boiling water is not hot enough, and [`HeatError::TooHot`] if
    /// ice water is not cold enough: each with the temperature that the bath reaches.
    pub fn water_temperature(&self, room: Celsius, target: Celsius) -> Result<Celsius, HeatError> {
        let water = heat::WATER_HEAT * in_grams(self.water);
        let rest = heat::PULP_HEAT * in_grams(self.fibre)
            + heat::WATER_HEAT * in_grams(self.pulp_water + self.bleach);
        let (room_c, target_c) = (room.get(), target.get());
        let needed = target_c + (target_c - room_c) * rest / water;
        if let Ok(needed) = Celsius::new(needed) {
            return Ok(needed);
        }
        let with = |water_c: f64| (water * water_c + rest * room_c) / (water + rest);
        // Without water, and without a difference, all stays at the temperature of the room.
        let reached = |water_c| Celsius::new(with(water_c)).unwrap_or(room);
        Err(if target > room {
            HeatError::TooCold { target, reaches: reached(100.0) }
        } else {
            HeatError::TooHot { target, reaches: reached(0.0) }
        })
    }
}

/// Whether the pulp goes into the water before the bleach: the water is hotter than the
/// literature has baths of this bleach, which breaks down in it until the pulp has cooled it.
pub fn pulp_before_bleach(oxidant: Oxidant, water: Celsius) -> bool {
    water.get() > super::guide(oxidant).temperature.literature.1
}

impl super::Plan {
    /// What to measure out for each of `loads` equal loads.
    pub fn measured_out(&self, loads: u32) -> super::MeasuredOut {
        super::measure_out(&self.dose, self.soda_ash, &self.water_volume, loads)
    }

    /// What the bath is made of, by the amounts of the plan.
    pub fn parts(&self) -> BathParts {
        let (fibre, pulp_water) = (self.oven_dry.value, self.pulp_water.value);
        let water = self.water.value;
        let bleach = self.total_mass.value - fibre - pulp_water - water;
        BathParts { fibre, pulp_water, water, bleach: grams(in_grams(bleach).max(0.0)) }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn c(value: f64) -> Celsius {
        Celsius::new(value).unwrap()
    }

    fn parts(water: f64) -> BathParts {
        let [fibre, pulp_water, bleach] = [200.0, 800.0, 70.0].map(grams);
        BathParts { fibre, pulp_water, water: grams(water), bleach }
    }

    #[test]
    fn the_added_water_heats_pulp_and_bleach() {
        // (200 * 1.34 + 870 * 4.18) * 18 / (2930 * 4.18) = 5.74 K above the bath's 38 °C.
        let needed = parts(2930.0).water_temperature(c(20.0), c(38.0)).unwrap();
        assert!((needed.get() - 43.74).abs() < 0.01, "{needed:?}");
        assert_eq!(parts(2930.0).water_temperature(c(38.0), c(38.0)).unwrap(), c(38.0));
    }

    #[test]
    fn more_than_boiling_water_is_said_with_what_is_reached() {
        let error = parts(300.0).water_temperature(c(20.0), c(60.0)).unwrap_err();
        let HeatError::TooCold { reaches, .. } = error else { panic!("{error:?}") };
        assert!(reaches > c(30.0) && reaches < c(60.0), "{reaches:?}");
        let none = parts(0.0).water_temperature(c(20.0), c(38.0)).unwrap_err();
        let HeatError::TooCold { reaches, .. } = none else { panic!("{none:?}") };
        assert!((reaches.get() - 20.0).abs() < 1e-9, "{reaches:?}");
        assert!(parts(300.0).water_temperature(c(30.0), c(5.0)).is_err());
    }

    #[test]
    fn bleach_does_not_go_into_water_that_destroys_it() {
        assert!(!pulp_before_bleach(Oxidant::Hypochlorite, c(44.0)));
        assert!(pulp_before_bleach(Oxidant::Hypochlorite, c(60.0)));
        assert!(!pulp_before_bleach(Oxidant::Percarbonate, c(60.0)));
    }
}
