//! Loss of peroxide in a liquor by temperature, pH and time.

use crate::chemistry::decay::AGE;
use crate::chemistry::equilibrium::Constants;
use crate::quantity::{Basis, Estimate, OutOfRange, PH, QuantityKind};

/// Temperature and pH of a peroxide liquor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PeroxideConditions {
    pub celsius: f64,
    pub ph: f64,
}

/// Rate of loss of peroxide at `to` relative to `from`.
///
/// Rate = k[H2O2][HO2-] with 38 kJ/mol (9 kcal/mol), 20-110 °C, Stevens & Hsieh (1996;
/// abstract read). The range runs to 45 kJ/mol (Moldenius & Sjögren 1982, of bleaching;
/// read). A study of percarbonate found its fastest loss at pH 10.5, governed by metals, so
/// the dependence on pH holds for clean liquor. Only the ratio is meaningful: the rate
/// itself depends on traces of metal.
///
/// # Errors
/// A temperature outside 5-80 °C or a pH outside 7-13.
pub fn relative_loss(
    from: PeroxideConditions,
    to: PeroxideConditions,
) -> Result<Estimate<f64>, OutOfRange> {
    const STEVENS: f64 = 38_000.0;
    const MOLDENIUS: f64 = 45_000.0;
    let rate = |at: PeroxideConditions| -> Result<f64, OutOfRange> {
        let ph = OutOfRange::check(PH, QuantityKind::Ph, at.ph, 7.0, 13.0)?;
        let constant = Constants::at(at.celsius)?.peroxide;
        let dissociated = constant / (constant + 10_f64.powf(-ph));
        Ok(dissociated * (1.0 - dissociated))
    };
    let forms = rate(to)? / rate(from)?;
    let arrhenius = |energy: f64| activation(energy, from.celsius, to.celsius);
    let (a, b) = (forms * arrhenius(STEVENS), forms * arrhenius(MOLDENIUS));
    Ok(Estimate { value: a, low: a.min(b), high: a.max(b), basis: Basis::Computed })
}

/// Arrhenius factor between two temperatures in °C for an activation energy in J/mol.
pub fn activation(joules_per_mole: f64, from_celsius: f64, to_celsius: f64) -> f64 {
    let per_kelvin = 1.0 / (from_celsius + 273.15) - 1.0 / (to_celsius + 273.15);
    (joules_per_mole / 8.314 * per_kelvin).exp()
}

/// First-order rate of loss with lignin-bound iron, per minute. Zhao et al. (2018),
/// BioResources 13:3922 (abstract read).
pub const LOSS_WITH_IRON: f64 = 0.0068;
/// The same with lignin-bound iron and manganese, and EDTA; not a clean liquor.
pub const LOSS_WITH_METALS_AND_EDTA: f64 = 0.0004;

/// Share of the peroxide left in made-up liquor after some minutes at a temperature and pH.
///
/// From [`LOSS_WITH_IRON`] and [`LOSS_WITH_METALS_AND_EDTA`]. The temperature of that study was
/// not read: 60 °C is assumed, 40 to 70 °C, at pH 10.5, and [`relative_loss`] goes from there
/// to the liquor. Clean liquor is slower than any of the study, and one with more metal
/// faster; a factor of three is taken either way (own estimate). The value is at the geometric
/// mean of the two rates.
///
/// # Errors
/// A time below zero or above 30 days; a temperature outside 5-80 °C; a pH outside 7-13.
pub fn left_in_liquor(
    minutes: f64,
    liquor: PeroxideConditions,
) -> Result<Estimate<f64>, OutOfRange> {
    const SPREAD: f64 = 3.0;
    let minutes = OutOfRange::check(AGE, QuantityKind::Duration, minutes, 0.0, 30.0 * 1440.0)?;
    let from_study_at =
        |celsius: f64| relative_loss(PeroxideConditions { celsius, ph: 10.5 }, liquor);
    let (nominal, cool, warm) = (from_study_at(60.0)?, from_study_at(40.0)?, from_study_at(70.0)?);
    let left = |per_minute: f64| (-per_minute * minutes).exp();
    Ok(Estimate {
        value: left((LOSS_WITH_METALS_AND_EDTA * LOSS_WITH_IRON).sqrt() * nominal.value),
        low: left(LOSS_WITH_IRON * SPREAD * cool.high),
        high: left(LOSS_WITH_METALS_AND_EDTA / SPREAD * warm.low),
        basis: Basis::Assumed,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn loss_is_fastest_at_the_pka() {
        let at = |ph| PeroxideConditions { celsius: 25.0, ph };
        let loss = |ph| relative_loss(at(10.0), at(ph)).unwrap().value;
        assert!(loss(11.65) > loss(10.5) && loss(11.65) > loss(12.8));
        assert!((loss(10.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn share_left_after_a_day_is_between_wide_bounds() {
        let at = |celsius| PeroxideConditions { celsius, ph: 10.5 };
        let day = left_in_liquor(1440.0, at(20.0)).unwrap();
        assert!(day.low < 0.05 && day.high > 0.95, "{day:?}");
        assert!(left_in_liquor(-1.0, at(20.0)).is_err());
    }

    #[test]
    fn warm_liquor_loses_more() {
        let at = |celsius| PeroxideConditions { celsius, ph: 10.5 };
        let left = |celsius| left_in_liquor(60.0, at(celsius)).unwrap();
        for (cool, warm) in [(20.0, 40.0), (40.0, 60.0)] {
            let (cool, warm) = (left(cool), left(warm));
            assert!(warm.value < cool.value && warm.low < cool.low && warm.high < cool.high);
            assert!(warm.value.ln() / cool.value.ln() > 3.0);
        }
    }
}
