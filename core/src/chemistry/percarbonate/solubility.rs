//! Solubility of percarbonate, and precipitation of its soda ash by hard water.

use super::powder::POWDER;
use crate::chemistry::substance::CALCIUM_CARBONATE;
use crate::quantity::{
    QuantityKind, MassConcentration, OutOfRange, TEMPERATURE, grams_per_litre, in_grams_per_litre,
};
use uom::si::f64::MolarConcentration;

/// Most percarbonate to dissolve in a litre.
///
/// 140 g/L at 20 °C (ECHA registration dossier; read), 120 at 10 °C (from memory), linear
/// below 20 °C. The 150 to 185 g/L reported for 30 to 40 °C (from memory) are of
/// decomposing liquor, so above 20 °C the limit stays at 140.
///
/// # Errors
/// Outside 5-80 °C.
pub fn solubility(celsius: f64) -> Result<MassConcentration, OutOfRange> {
    let celsius = OutOfRange::check(TEMPERATURE, QuantityKind::Temperature, celsius, 5.0, 80.0)?;
    Ok(grams_per_litre(140.0 - 2.0 * (20.0 - celsius).max(0.0)))
}

/// Refuses more pure percarbonate than dissolves.
///
/// # Errors
/// More than [`solubility`], or a temperature outside 5-80 °C.
pub fn check_dissolves(percarbonate: MassConcentration, celsius: f64) -> Result<(), OutOfRange> {
    let most = in_grams_per_litre(solubility(celsius)?);
    let given = in_grams_per_litre(percarbonate);
    OutOfRange::check(POWDER, QuantityKind::Concentration, given, 0.0, most)?;
    Ok(())
}

/// Soda ash precipitated by hard water as calcium carbonate: one mole per mole of hardness,
/// hardness as CaCO3. An upper bound, since some calcium stays dissolved.
pub fn soda_lost_to_hardness(hardness: MassConcentration) -> MolarConcentration {
    CALCIUM_CARBONATE.molar(hardness)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn solubility_does_not_rise_above_20_degrees() {
        assert_eq!(solubility(60.0).unwrap(), solubility(20.0).unwrap());
        assert!(solubility(10.0).unwrap() < solubility(20.0).unwrap());
        assert!(check_dissolves(grams_per_litre(141.0), 40.0).is_err());
        assert!(check_dissolves(grams_per_litre(20.0), 40.0).is_ok());
    }
}
