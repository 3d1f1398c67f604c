//! Water vapour over a warm bath: vapour pressure, latent heat, and published forms of the
//! evaporation from an open surface.

/// Pressure of the air, hPa.
pub(super) const STANDARD_PRESSURE: f64 = 1013.25;

/// hPa per mmHg.
const PER_MERCURY: f64 = 1.333_224;

/// Saturation vapour pressure over water, hPa. Magnus form, -45 to 60 °C (read); at 71 °C it is
/// 1 % above steam tables.
pub fn saturation_pressure(celsius: f64) -> f64 {
    6.112 * (17.62 * celsius / (243.12 + celsius)).exp()
}

/// Latent heat of evaporation, kJ/kg: `2500 - 2.4 T`, °C (read), within 0.5 % at 0-80 °C.
pub fn latent_heat(celsius: f64) -> f64 {
    2500.0 - 2.4 * celsius
}

/// The air over a bath.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct RoomAir {
    pub celsius: f64,
    /// 0 to 1.
    pub relative_humidity: f64,
    /// m/s at the surface; 0 in a room without draught.
    pub speed: f64,
}

impl RoomAir {
    /// Still air, half saturated.
    pub fn still(celsius: f64) -> Self {
        Self { celsius, relative_humidity: 0.5, speed: 0.0 }
    }

    /// Partial pressure of its water vapour, hPa.
    pub fn vapour_pressure(&self) -> f64 {
        self.relative_humidity * saturation_pressure(self.celsius)
    }
}

/// Evaporation and convection from open warm water, W/m².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenSurface {
    pub evaporation: f64,
    pub convection: f64,
}

/// Ryan & Harleman (1973), `(2.7 dTv^(1/3) + 3.1 U)(es - ea)` W/m² with pressures in *mbar*
/// (read; one software manual prints kPa), dTv the difference of virtual temperatures and U in
/// m/s. For heated ponds without or with little wind; against tank losses at 32 to 71 °C within
/// 20 %. Convection follows by Bowen's ratio, 0.61 hPa/K (from memory).
pub fn open_surface(celsius: f64, air: &RoomAir) -> OpenSurface {
    const BOWEN: f64 = 0.61;
    let (at_surface, in_air) = (saturation_pressure(celsius), air.vapour_pressure());
    let virtual_kelvin = |celsius: f64, vapour: f64| {
        (celsius + 273.15) / (1.0 - 0.378 * (vapour / STANDARD_PRESSURE).min(0.9))
    };
    let lift = virtual_kelvin(celsius, at_surface) - virtual_kelvin(air.celsius, in_air);
    let per_hectopascal = 2.7 * lift.max(0.0).cbrt() + 3.1 * air.speed;
    OpenSurface {
        evaporation: per_hectopascal * (at_surface - in_air).max(0.0),
        convection: per_hectopascal * BOWEN * (celsius - air.celsius),
    }
}

/// kg of water for each kg of dry air at a vapour pressure in hPa.
pub fn humidity_ratio(vapour_pressure: f64) -> f64 {
    0.622 * vapour_pressure / (STANDARD_PRESSURE - vapour_pressure)
}

/// Evaporation, kg/(m²·h): `(25 + 19 v)(xs - x)` with humidity ratios and m/s (engineering
/// tables, read; made for pools).
pub fn evaporation_by_humidity(speed: f64, at_surface: f64, in_air: f64) -> f64 {
    (25.0 + 19.0 * speed) * (at_surface - in_air)
}

/// Evaporation, kg/(m²·h): `(42.6 + 37.6 V)(Pw - Pa)/Hv` with mmHg, m/s and kJ/kg (Carrier's
/// type of form, secondary source; made for pools).
pub fn evaporation_by_mercury(speed: f64, at_surface: f64, in_air: f64, latent: f64) -> f64 {
    (42.6 + 37.6 * speed) * (at_surface - in_air) / latent
}

/// Least and most of the three published forms, W/m²: their spread is ±25 to 30 %, and measured
/// evaporation deviates from its best correlations by 18 to 26 % on average (Shah 2002, abstract).
pub fn evaporation_spread(celsius: f64, air: &RoomAir) -> (f64, f64) {
    let (at_surface, in_air) = (saturation_pressure(celsius), air.vapour_pressure());
    let latent = latent_heat(celsius);
    let watts = |per_hour: f64| per_hour.max(0.0) * latent / 3.6;
    let forms = [
        open_surface(celsius, air).evaporation,
        watts(evaporation_by_humidity(
            air.speed,
            humidity_ratio(at_surface),
            humidity_ratio(in_air),
        )),
        watts(evaporation_by_mercury(
            air.speed,
            at_surface / PER_MERCURY,
            in_air / PER_MERCURY,
            latent,
        )),
    ];
    (forms.into_iter().fold(f64::MAX, f64::min), forms.into_iter().fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn evaporation_rises_faster_than_the_temperature() {
        let air = RoomAir::still(20.0);
        let per_degree = |celsius: f64| open_surface(celsius, &air).evaporation / (celsius - 20.0);
        assert!(per_degree(70.0) > 2.5 * per_degree(35.0));
        let draught = RoomAir { speed: 0.5, ..air };
        assert!(open_surface(50.0, &draught).evaporation > open_surface(50.0, &air).evaporation);
    }

    #[test]
    fn water_as_cold_as_its_saturated_room_neither_evaporates_nor_cools() {
        let damp = RoomAir { relative_humidity: 1.0, ..RoomAir::still(20.0) };
        let surface = open_surface(20.0, &damp);
        assert_eq!((surface.evaporation, surface.convection), (0.0, 0.0));
    }
}
