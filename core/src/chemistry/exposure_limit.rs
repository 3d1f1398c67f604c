//! Occupational exposure limits for substances in the air, each once, with its source.
//!
//! For grown workers in good health; a basis for cautions, not a promise of safety.

use super::substance::Substance;

/// Limits for one substance in the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExposureLimits {
    /// Unit of the limits.
    pub unit: AirUnit,
    /// NIOSH recommended exposure limit.
    pub niosh: f64,
    /// OSHA permissible exposure limit.
    pub osha: f64,
    /// Immediately dangerous to life or health (IDLH), NIOSH.
    pub dangerous: f64,
}

/// Unit of a concentration in air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AirUnit {
    /// Parts per million by volume: a gas.
    Ppm,
    /// A dust or mist.
    MilligramsPerCubicMetre,
}

/// Chlorine: NIOSH 15-minute ceiling, OSHA ceiling (read), IDLH of 1994 (read).
pub const CHLORINE: ExposureLimits =
    ExposureLimits { unit: AirUnit::Ppm, niosh: 0.5, osha: 1.0, dangerous: 10.0 };

/// Hydrogen peroxide: NIOSH and OSHA mean over a shift, IDLH (read, as quoted by AIHA).
pub const HYDROGEN_PEROXIDE: ExposureLimits =
    ExposureLimits { unit: AirUnit::Ppm, niosh: 1.0, osha: 1.0, dangerous: 75.0 };

/// Sulfur dioxide: NIOSH mean over a shift (15 minutes: 5 ppm), OSHA mean over a shift, IDLH
/// (NIOSH pocket guide; from memory).
pub const SULFUR_DIOXIDE: ExposureLimits =
    ExposureLimits { unit: AirUnit::Ppm, niosh: 2.0, osha: 5.0, dangerous: 100.0 };

/// Sodium hydroxide: NIOSH ceiling, OSHA mean over a shift, IDLH (NIOSH pocket guide; from
/// memory).
pub const SODIUM_HYDROXIDE: ExposureLimits = ExposureLimits {
    unit: AirUnit::MilligramsPerCubicMetre,
    niosh: 2.0,
    osha: 2.0,
    dangerous: 10.0,
};

/// A gas in milligrams per cubic metre from parts per million, at 25 °C and one atmosphere.
pub fn milligrams_per_cubic_metre(gas: Substance, ppm: f64) -> f64 {
    /// Molar volume of an ideal gas, L/mol: `R T / p` with R = 8.314 46 J/(mol·K).
    const LITRES_PER_MOLE: f64 = 8.314_46 * 298.15 / 101.325;
    ppm * gas.grams_per_mole / LITRES_PER_MOLE
}
