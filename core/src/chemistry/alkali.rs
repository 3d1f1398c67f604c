//! Bringing a bath into its pH window with alkali, and the cook's alkali that pulp carries.
//!
//! Only ever upwards: while hypochlorite is present, acid would release chlorine, so a bath
//! that is too alkaline is answered with rinsing and dilution.

use super::equilibrium::{Mix, Reagent};
use super::refusal::{Refusal, within};
use super::substance::{
    SODIUM_BICARBONATE, SODIUM_CARBONATE, SODIUM_CARBONATE_DECAHYDRATE,
    SODIUM_CARBONATE_MONOHYDRATE, SODIUM_HYDROXIDE, Substance, in_moles_per_litre, moles_per_litre,
};
use crate::message::Field;
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, PH, QuantityKind, Volume, in_grams, in_millilitres,
};
use uom::si::f64::MolarConcentration;

/// The field that a refusal about a volume of bath belongs beside.
pub const BATH_VOLUME: Field = Field("bath_volume");

/// Bicarbonate in the water.
pub const WATER_BICARBONATE: Field = Field("water_bicarbonate");

/// Bicarbonate of tap water, mol/L: soft and hard water have 0 to 5 mmol/L (from memory).
pub const BICARBONATE: Estimate<f64> =
    Estimate { value: 0.002, low: 0.0, high: 0.005, basis: Basis::Assumed };

/// The pH that a bath should keep to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    pub low: f64,
    pub high: f64,
    /// Where to aim inside it.
    pub aim: f64,
}

impl Window {
    /// Hypochlorite: 9.5-11. Below 9 HOCl attacks cellulose, worst at pH 6-8 (from memory).
    pub const HYPOCHLORITE: Self = Self { low: 9.5, high: 11.0, aim: 10.3 };
    /// Peroxide: 10.3-11.3 (common practice, no source).
    pub const PEROXIDE: Self = Self { low: 10.3, high: 11.3, aim: 10.7 };
}

/// An alkali as it is weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Alkali {
    /// Na2CO3.
    SodaAsh,
    /// Na2CO3·H2O.
    SodaMonohydrate,
    /// Na2CO3·10H2O, washing soda in crystals.
    WashingSoda,
    /// NaOH.
    Lye,
    /// NaHCO3: holds near 8.3, reaches no window of a bleach bath by itself.
    BakingSoda,
}

impl Alkali {
    /// Every alkali, mildest to handle first.
    pub const ALL: [Self; 5] =
        [Self::SodaAsh, Self::WashingSoda, Self::SodaMonohydrate, Self::BakingSoda, Self::Lye];

    /// What is weighed.
    pub fn substance(self) -> Substance {
        match self {
            Self::SodaAsh => SODIUM_CARBONATE,
            Self::SodaMonohydrate => SODIUM_CARBONATE_MONOHYDRATE,
            Self::WashingSoda => SODIUM_CARBONATE_DECAHYDRATE,
            Self::Lye => SODIUM_HYDROXIDE,
            Self::BakingSoda => SODIUM_BICARBONATE,
        }
    }

    /// How many level teaspoons so much of it is. A spoon measures volume, and powders of one
    /// name differ: light and dense soda ash by a factor of two (suppliers' data, 0.57 to 1.05
    /// g/mL); the others are given a quarter either way. `None` for lye, which is weighed.
    pub fn teaspoons(self, mass: Estimate<Mass>) -> Option<Estimate<f64>> {
        let (density, off) = match self {
            Self::SodaAsh => (0.8, 0.35),
            Self::SodaMonohydrate => (1.0, 0.25),
            Self::WashingSoda => (0.82, 0.25),
            Self::BakingSoda => (1.0, 0.25),
            Self::Lye => return None,
        };
        let spoons = |mass: Mass, density: f64| in_grams(mass) / (density * TEASPOON);
        Some(Estimate {
            value: spoons(mass.value, density),
            low: spoons(mass.low, density * (1.0 + off)),
            high: spoons(mass.high, density * (1.0 - off)),
            basis: Basis::Assumed,
        })
    }

    fn reagent(self) -> Reagent {
        match self {
            Self::SodaAsh | Self::SodaMonohydrate | Self::WashingSoda => Reagent::SodaAsh,
            Self::Lye => Reagent::Lye,
            Self::BakingSoda => Reagent::BakingSoda,
        }
    }
}

/// A level teaspoon, mL.
const TEASPOON: f64 = 5.0;

/// What to do about a bath's pH.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// It is in the window; nothing to add.
    Leave { ph: Estimate<f64> },
    /// Below it: weigh this in, per litre of bath. The low end is for a reading that was too
    /// low, so start there, stir, and read again.
    Add { ph: Estimate<f64>, alkali: Alkali, dose: Estimate<MassConcentration> },
    /// Above it: rinse the pulp better, or thin the bath. Never acid.
    TooHigh { ph: Estimate<f64> },
}

/// What to add for a bath whose pH is predicted from what is in it.
///
/// # Errors
/// A mix that cannot be solved, or a window that this alkali cannot reach.
pub fn from_recipe(mix: &Mix, window: Window, alkali: Alkali) -> Result<Advice, Refusal> {
    let ph = Estimate::exact(mix.solve()?.ph(), Basis::Computed);
    advise(window, alkali, ph, |_| Ok(*mix))
}

/// What to add for a bath whose pH was read, with the error of strip or meter in `reading`.
///
/// What the reading shows and the recipe does not is taken as strong acid or base.
///
/// # Errors
/// A pH outside 0-14, a mix that cannot be solved, or a window that this alkali cannot reach.
pub fn from_reading(
    mix: &Mix,
    reading: Estimate<f64>,
    window: Window,
    alkali: Alkali,
) -> Result<Advice, Refusal> {
    for ph in [reading.value, reading.low, reading.high] {
        within(PH, QuantityKind::Ph, ph, 0.0, 14.0)?;
    }
    advise(window, alkali, reading, |ph| Ok(mix.with_strong_acid(-mix.hidden_base(ph)?)))
}

fn advise(
    window: Window,
    alkali: Alkali,
    ph: Estimate<f64>,
    bath_at: impl Fn(f64) -> Result<Mix, Refusal>,
) -> Result<Advice, Refusal> {
    if ph.value > window.high {
        return Ok(Advice::TooHigh { ph });
    }
    if ph.value >= window.low {
        return Ok(Advice::Leave { ph });
    }
    let dose = |ph: f64| -> Result<MassConcentration, Refusal> {
        let moles = if ph >= window.aim {
            moles_per_litre(0.0)
        } else {
            bath_at(ph)?.dose(alkali.reagent(), window.aim)?
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

/// The cook's alkali that rinsed pulp still holds, by the pH of the liquor squeezed from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CarryOver {
    /// In the pulp's own water, if all of it were lye.
    pub as_lye: Estimate<MolarConcentration>,
    /// In the pulp's own water, if all of it were soda ash. At the same pH soda carries far
    /// more alkali than lye, so the two bound what is there. `None` where no soda within the
    /// model's reach reads so high: then there is lye in it.
    pub as_soda_ash: Option<Estimate<MolarConcentration>>,
}

impl CarryOver {
    /// From the pH of squeezed-out liquor at a temperature in °C. Neutral or below carries
    /// nothing.
    ///
    /// # Errors
    /// A pH outside 0-14, a temperature outside 5-80 °C, or more alkali than the model takes.
    pub fn from_squeezed(ph: Estimate<f64>, celsius: f64) -> Result<Self, Refusal> {
        let water = Mix::new(celsius)?;
        let neutral = water.solve()?.ph();
        let equivalent = |reagent: Reagent| -> Result<Estimate<MolarConcentration>, Refusal> {
            let at = |ph: f64| {
                within(PH, QuantityKind::Ph, ph, 0.0, 14.0)?;
                if ph <= neutral { Ok(moles_per_litre(0.0)) } else { water.dose(reagent, ph) }
            };
            Ok(Estimate {
                value: at(ph.value)?,
                low: at(ph.low)?,
                high: at(ph.high)?,
                basis: ph.basis,
            })
        };
        let as_soda_ash = match equivalent(Reagent::SodaAsh) {
            Err(Refusal::TooConcentrated { .. } | Refusal::Unreachable { .. }) => None,
            found => Some(found?),
        };
        Ok(Self { as_lye: equivalent(Reagent::Lye)?, as_soda_ash })
    }

    /// The mix with this alkali in it as lye and as soda ash: the least and the most that it
    /// can be, once the pulp's water is spread over the bath.
    ///
    /// # Errors
    /// More pulp water than bath, or a volume that is none.
    pub fn into_bath(
        &self,
        mix: &Mix,
        pulp_water: Volume,
        bath: Volume,
    ) -> Result<(Mix, Option<Mix>), Refusal> {
        let whole = within(BATH_VOLUME, QuantityKind::Volume, in_millilitres(bath), 1e-6, 1e9)?;
        let part =
            within(BATH_VOLUME, QuantityKind::Volume, in_millilitres(pulp_water), 0.0, whole)?
                / whole;
        let spread =
            |amount: MolarConcentration| moles_per_litre(in_moles_per_litre(amount) * part);
        Ok((
            mix.with_lye(spread(self.as_lye.value)),
            self.as_soda_ash.map(|soda| mix.with_soda_ash(spread(soda.value))),
        ))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::{grams, in_grams_per_litre, millilitres};

    fn liquor() -> Mix {
        Mix::new(20.0).unwrap().with_bleach(moles_per_litre(0.0282))
    }

    fn strip(ph: f64) -> Estimate<f64> {
        Estimate { value: ph, low: ph - 0.5, high: ph + 0.5, basis: Basis::Strip }
    }

    #[test]
    fn soda_brings_a_slack_bath_to_its_aim() {
        let advice =
            from_reading(&liquor(), strip(8.5), Window::HYPOCHLORITE, Alkali::SodaAsh).unwrap();
        let Advice::Add { dose, .. } = advice else { unreachable!("{advice:?}") };
        assert!(dose.low < dose.value && dose.value < dose.high);
        let hidden = liquor().hidden_base(8.5).unwrap();
        let dosed =
            liquor().with_strong_acid(-hidden).with_soda_ash(SODIUM_CARBONATE.molar(dose.value));
        assert!((dosed.solve().unwrap().ph() - Window::HYPOCHLORITE.aim).abs() < 1e-3);
    }

    #[test]
    fn washing_soda_is_more_than_twice_as_heavy() {
        let grams = |alkali| match from_reading(&liquor(), strip(8.5), Window::HYPOCHLORITE, alkali)
            .unwrap()
        {
            Advice::Add { dose, .. } => in_grams_per_litre(dose.value),
            other => unreachable!("{other:?}"),
        };
        let ratio = grams(Alkali::WashingSoda) / grams(Alkali::SodaAsh);
        assert!((ratio - 286.141 / 105.988).abs() < 1e-9);
        assert!(grams(Alkali::Lye) < grams(Alkali::SodaAsh));
    }

    #[test]
    fn spoons_widen_the_band_and_lye_is_weighed() {
        let mass = Estimate::within(grams(8.0), 0.1, Basis::Computed);
        let spoons = Alkali::SodaAsh.teaspoons(mass).unwrap();
        assert!((spoons.value - 2.0).abs() < 1e-9);
        assert!(spoons.low < 1.4 && spoons.high > 3.3);
        assert_eq!(Alkali::Lye.teaspoons(mass), None);
    }

    #[test]
    fn baking_soda_is_refused_for_a_bleach_window() {
        let refused = from_reading(&liquor(), strip(8.5), Window::HYPOCHLORITE, Alkali::BakingSoda);
        assert!(refused.is_err());
    }

    #[test]
    fn too_high_is_never_answered_with_acid() {
        let advice =
            from_reading(&liquor(), strip(12.0), Window::HYPOCHLORITE, Alkali::SodaAsh).unwrap();
        assert!(matches!(advice, Advice::TooHigh { .. }));
        let sour = from_reading(&liquor(), strip(14.2), Window::HYPOCHLORITE, Alkali::SodaAsh);
        assert!(sour.is_err());
    }

    #[test]
    fn over_rinsed_and_under_rinsed_pulp_show_in_the_number() {
        let ph = |squeezed: f64| {
            let carried =
                CarryOver::from_squeezed(Estimate::exact(squeezed, Basis::Strip), 20.0).unwrap();
            let (lye, soda) =
                carried.into_bath(&liquor(), millilitres(4000.0), millilitres(10_000.0)).unwrap();
            (lye.solve().unwrap().ph(), soda.map(|soda| soda.solve().unwrap().ph()))
        };
        let plain = liquor().solve().unwrap().ph();
        assert!((ph(7.0).0 - plain).abs() < 1e-6);
        assert!(ph(11.0).0 > plain && ph(11.0).1.unwrap() > ph(11.0).0);
        assert!(ph(12.5).0 > Window::HYPOCHLORITE.high && ph(12.5).1.is_none());
    }

    #[test]
    fn recipe_alone_is_advised_too() {
        let advice = from_recipe(&liquor(), Window::HYPOCHLORITE, Alkali::SodaAsh).unwrap();
        assert!(matches!(advice, Advice::Leave { .. }), "{advice:?}");
    }
}
