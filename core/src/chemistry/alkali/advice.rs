//! What to do about the pH of a bath, judged by the pH of a sample cooled to
//! [`WINDOW_CELSIUS`].
//!
//! Only alkali is ever advised: acid would release chlorine from hypochlorite. A bath above its
//! window needs rinsing or dilution.

use super::reagent::AlkaliReagent;
use super::window::{PhWindow, WINDOW_CELSIUS};
use crate::chemistry::equilibrium::{EquilibriumError, Mix};
use crate::chemistry::substance::moles_per_litre;
use crate::message::Field;
use crate::quantity::{Basis, Estimate, MassConcentration, OutOfRange, PH, QuantityKind};

pub const BATH_VOLUME: Field = Field("bath_volume");

/// What to do about a bath's pH; `ph` is that at [`WINDOW_CELSIUS`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// Inside the window: add nothing.
    Leave { ph: Estimate<f64> },
    /// Below the window: add this much per litre of bath, at the bath's temperature. Add the low end first, stir, measure
    /// again: the reading may have been too low.
    Add { ph: Estimate<f64>, alkali: AlkaliReagent, dose: Estimate<MassConcentration> },
    /// Above the window: rinse the pulp better, or dilute the bath. Never acid.
    TooHigh { ph: Estimate<f64> },
}

/// Advice for a bath whose pH is predicted from its contents.
///
/// # Errors
/// A mix that cannot be solved, or a window that this alkali cannot reach.
pub fn from_recipe(
    mix: &Mix,
    window: PhWindow,
    alkali: AlkaliReagent,
) -> Result<Advice, EquilibriumError> {
    let cooled = mix.brought_to(WINDOW_CELSIUS)?;
    let ph = Estimate::exact(cooled.solve()?.ph(), Basis::Computed);
    advise(mix, window, alkali, ph, |_| Ok(cooled))
}

/// Advice for a bath whose pH was measured in liquor at `celsius`; `reading` carries the error
/// of strip or meter. A strip shows the pH at [`WINDOW_CELSIUS`]: it is thin and cools within
/// seconds, and its colours are printed for that temperature (from memory).
///
/// The difference between reading and recipe is taken as strong acid or base.
///
/// # Errors
/// A pH outside 0-14, a temperature outside 5-80 °C, a mix that cannot be solved, or a window
/// that this alkali cannot reach.
pub fn from_reading(
    mix: &Mix,
    reading: Estimate<f64>,
    celsius: f64,
    window: PhWindow,
    alkali: AlkaliReagent,
) -> Result<Advice, EquilibriumError> {
    for ph in [reading.value, reading.low, reading.high] {
        OutOfRange::check(PH, QuantityKind::Ph, ph, 0.0, 14.0)?;
    }
    let explained = |mix: &Mix, ph: f64| -> Result<Mix, EquilibriumError> {
        Ok(mix.with_strong_acid(-mix.hidden_base(ph)?))
    };
    let cooled = mix.brought_to(WINDOW_CELSIUS)?;
    let ph = if celsius == WINDOW_CELSIUS {
        reading
    } else {
        let read = mix.brought_to(celsius)?;
        let at = |ph: f64| -> Result<f64, EquilibriumError> {
            Ok(explained(&read, ph)?.brought_to(WINDOW_CELSIUS)?.solve()?.ph())
        };
        let value = at(reading.value)?;
        // An end beyond the model moves by as much as the value.
        let end = |ph: f64| at(ph).unwrap_or(ph + value - reading.value);
        Estimate { value, low: end(reading.low), high: end(reading.high), basis: reading.basis }
    };
    advise(mix, window, alkali, ph, |ph| explained(&cooled, ph))
}

/// `cooled_at` is the bath at [`WINDOW_CELSIUS`] with a pH there.
fn advise(
    mix: &Mix,
    window: PhWindow,
    alkali: AlkaliReagent,
    ph: Estimate<f64>,
    cooled_at: impl Fn(f64) -> Result<Mix, EquilibriumError>,
) -> Result<Advice, EquilibriumError> {
    if ph.value > window.high {
        return Ok(Advice::TooHigh { ph });
    }
    if ph.value >= window.low {
        return Ok(Advice::Leave { ph });
    }
    let dose = |ph: f64| -> Result<MassConcentration, EquilibriumError> {
        let moles = if ph >= window.aim {
            moles_per_litre(0.0)
        } else {
            let cooled = cooled_at(ph)?;
            let expansion =
                mix.constants().kilograms_per_litre / cooled.constants().kilograms_per_litre;
            cooled.dose(alkali.reagent(), window.aim)? * expansion
        };
        Ok(alkali.substance().mass_concentration(moles))
    };
    let dose = Estimate {
        value: dose(ph.value)?,
        low: dose(ph.high)?,
        high: dose(ph.low)?,
        basis: Basis::Computed,
    };
    Ok(Advice::Add { ph, alkali, dose })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::chemistry::substance::SODIUM_CARBONATE;
    use crate::quantity::in_grams_per_litre;

    const WINDOW: PhWindow = PhWindow::HYPOCHLORITE;

    fn liquor() -> Mix {
        Mix::new(20.0).unwrap().with_bleach(moles_per_litre(0.0282))
    }

    fn strip(ph: f64) -> Estimate<f64> {
        Estimate { value: ph, low: ph - 0.5, high: ph + 0.5, basis: Basis::Strip }
    }

    #[test]
    fn soda_dose_reaches_the_aim() {
        let advice =
            from_reading(&liquor(), strip(8.5), WINDOW_CELSIUS, WINDOW, AlkaliReagent::SodaAsh)
                .unwrap();
        let Advice::Add { dose, .. } = advice else { unreachable!("{advice:?}") };
        assert!(dose.low < dose.value && dose.value < dose.high);
        let cooled = liquor().brought_to(WINDOW_CELSIUS).unwrap();
        let hidden = cooled.hidden_base(8.5).unwrap();
        let dosed =
            cooled.with_strong_acid(-hidden).with_soda_ash(SODIUM_CARBONATE.molar(dose.value));
        assert!((dosed.solve().unwrap().ph() - WINDOW.aim).abs() < 1e-3);
    }

    #[test]
    fn washing_soda_dose_is_heavier_by_the_ratio_of_molar_masses() {
        let grams =
            |alkali| match from_reading(&liquor(), strip(8.5), WINDOW_CELSIUS, WINDOW, alkali)
                .unwrap()
            {
                Advice::Add { dose, .. } => in_grams_per_litre(dose.value),
                other => unreachable!("{other:?}"),
            };
        let ratio = grams(AlkaliReagent::WashingSoda) / grams(AlkaliReagent::SodaAsh);
        assert!((ratio - 286.141 / 105.988).abs() < 1e-9);
        assert!(grams(AlkaliReagent::Lye) < grams(AlkaliReagent::SodaAsh));
    }

    #[test]
    fn baking_soda_is_refused_for_a_bleach_window() {
        let refused =
            from_reading(&liquor(), strip(8.5), WINDOW_CELSIUS, WINDOW, AlkaliReagent::BakingSoda);
        assert!(refused.is_err());
    }

    #[test]
    fn ph_above_the_window_gets_no_acid() {
        let advice =
            from_reading(&liquor(), strip(12.0), WINDOW_CELSIUS, WINDOW, AlkaliReagent::SodaAsh)
                .unwrap();
        assert!(matches!(advice, Advice::TooHigh { .. }));
        assert!(
            from_reading(&liquor(), strip(14.2), WINDOW_CELSIUS, WINDOW, AlkaliReagent::SodaAsh)
                .is_err()
        );
    }

    /// 10 g/L of pure percarbonate, as it is in a bath of 50 °C.
    fn hot_percarbonate() -> Mix {
        Mix::new(50.0).unwrap().with_percarbonate(moles_per_litre(0.0637))
    }

    #[test]
    fn hot_bath_is_judged_by_its_cooled_sample() {
        let hot = hot_percarbonate();
        assert!(hot.solve().unwrap().ph() < PhWindow::PEROXIDE.low, "at the bath's temperature");
        let advice = from_recipe(&hot, PhWindow::PEROXIDE, AlkaliReagent::SodaAsh).unwrap();
        assert!(matches!(advice, Advice::Leave { .. }), "{advice:?}");
    }

    #[test]
    fn reading_counts_at_the_temperature_of_the_sample() {
        let (hot, window) = (hot_percarbonate(), PhWindow::PEROXIDE);
        let meter = Estimate::exact(hot.solve().unwrap().ph(), Basis::Measured);
        let advice = |celsius| from_reading(&hot, meter, celsius, window, AlkaliReagent::SodaAsh);
        assert!(matches!(advice(50.0).unwrap(), Advice::Leave { .. }));
        let Advice::Add { ph, .. } = advice(WINDOW_CELSIUS).unwrap() else { unreachable!() };
        assert_eq!(ph, meter);
        assert!(advice(90.0).is_err());
    }

    #[test]
    fn recipe_inside_the_window_is_left() {
        let advice = from_recipe(&liquor(), WINDOW, AlkaliReagent::SodaAsh).unwrap();
        assert!(matches!(advice, Advice::Leave { .. }), "{advice:?}");
    }
}
