//! pH of one bath while its temperature and contents change, for integrations that ask for
//! thousands of them.
//!
//! The balance and the root finding are those of the solver. What is saved: the constants are
//! interpolated from a table (0.5 °C apart: below 0.0002 pH), and the activity coefficients are
//! kept between two calls of [`BathEquilibrium::refresh`].

use super::activity::{ActivityCoefficients, MAX_IONIC_STRENGTH, too_concentrated};
use super::balance::ProtonReference;
use super::conditional::ConditionalConstants;
use super::constants::{COLDEST, Constants, HOTTEST};
use super::error::EquilibriumError;
use super::mix::Mix;
use super::solver;
use super::totals::Totals;
use std::cell::Cell;

/// The equilibrium constants at every half degree of the solver's range.
#[derive(Clone, Debug)]
pub struct ConstantsTable {
    rows: Vec<Constants>,
}

const STEP: f64 = 0.5;

/// Size of the last Newton step: the error after it is about its square.
const LAST_STEP: f64 = 1e-3;

impl ConstantsTable {
    /// Costs about 50 µs: make it once.
    pub fn new() -> Self {
        let count = ((HOTTEST - COLDEST) / STEP) as usize;
        let rows = (0..=count).filter_map(|row| Constants::at(COLDEST + STEP * row as f64).ok());
        Self { rows: rows.collect() }
    }

    /// The constants at a temperature, cut off at the ends of the table.
    fn at(&self, celsius: f64) -> Constants {
        let place = ((celsius - COLDEST) / STEP).clamp(0.0, (self.rows.len() - 1) as f64);
        let row = (place as usize).min(self.rows.len() - 2);
        let (low, high) = (&self.rows[row], &self.rows[row + 1]);
        let share = place - row as f64;
        let between = |of: fn(&Constants) -> f64| of(low) + share * (of(high) - of(low));
        Constants {
            celsius,
            water: between(|c| c.water),
            carbonic_1: between(|c| c.carbonic_1),
            carbonic_2: between(|c| c.carbonic_2),
            hypochlorous: between(|c| c.hypochlorous),
            chlorine_hydrolysis: between(|c| c.chlorine_hydrolysis),
            peroxide: between(|c| c.peroxide),
            acetic: between(|c| c.acetic),
            debye_slope: between(|c| c.debye_slope),
            ..*low
        }
    }
}

impl Default for ConstantsTable {
    fn default() -> Self {
        Self::new()
    }
}

/// What changes in a bath, mol per kg of water.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BathChange {
    /// The oxidant that is there now, in all its forms.
    pub oxidant: f64,
    /// Carboxylic acid formed since the start, taken to be as strong as acetic acid.
    pub acid: f64,
    /// Percarbonate dissolved since the start, as Na2CO3·1.5H2O2; its peroxide counts in
    /// `oxidant`.
    pub percarbonate: f64,
}

/// The oxidant's forms at equilibrium, mol per kg of water. Those of another oxidant are 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OxidantForms {
    /// Hydrogen ion activity.
    pub h: f64,
    pub hypochlorous_acid: f64,
    pub hypochlorite: f64,
    pub hydrogen_peroxide: f64,
    pub perhydroxyl: f64,
}

impl OxidantForms {
    pub fn ph(&self) -> f64 {
        -self.h.log10()
    }
}

/// One bath, followed over time.
#[derive(Clone, Debug)]
pub struct BathEquilibrium<'a> {
    table: &'a ConstantsTable,
    /// mol/kg, with the oxidant of the start.
    base: Totals,
    kilograms_per_litre: f64,
    is_peroxide: bool,
    /// Strong base, mol, that each mol of percarbonate brings besides its own soda; acid if
    /// negative.
    powder_base: f64,
    activity: ActivityCoefficients,
    /// Start of the root finding: the root found last.
    ln_h: Cell<f64>,
    ionic_strength: f64,
}

impl<'a> BathEquilibrium<'a> {
    /// A bath that begins as `mix`, as if closed to the air. It contains one oxidant: peroxide
    /// if the mix has any or `is_peroxide` says that it will.
    ///
    /// # Errors
    /// As [`Mix::solve`].
    pub fn new(
        table: &'a ConstantsTable,
        mix: &Mix,
        is_peroxide: bool,
    ) -> Result<Self, EquilibriumError> {
        mix.solve()?;
        let base = Totals { open_carbon_dioxide: None, ..mix.totals() };
        let constants = mix.constants();
        let root = solver::solve(&base, constants);
        Ok(Self {
            table,
            base,
            kilograms_per_litre: constants.kilograms_per_litre,
            is_peroxide: is_peroxide || base.peroxide > 0.0,
            powder_base: 0.0,
            activity: root.conditional.activity,
            ln_h: Cell::new(root.h.ln()),
            ionic_strength: root.ionic_strength,
        })
    }

    /// With a powder that brings this much strong base, mol for each mol of percarbonate,
    /// besides its own soda (acid if negative): its filler, or what of the pulp it meets.
    #[must_use]
    pub fn with_powder_base(mut self, powder_base: f64) -> Self {
        self.powder_base = powder_base;
        self
    }

    /// Kilograms of water in a litre of the bath at its start.
    pub fn kilograms_per_litre(&self) -> f64 {
        self.kilograms_per_litre
    }

    /// Oxidant at the start, mol/kg.
    pub fn oxidant(&self) -> f64 {
        if self.is_peroxide { self.base.peroxide } else { self.base.hypochlorite }
    }

    /// Ionic strength at the last refresh, mol/kg.
    pub fn ionic_strength(&self) -> f64 {
        self.ionic_strength
    }

    /// Solves this state in full and keeps its activity coefficients.
    ///
    /// # Errors
    /// Ionic strength above 3 mol/kg.
    pub fn refresh(&mut self, celsius: f64, change: &BathChange) -> Result<f64, EquilibriumError> {
        let root = solver::solve(&self.totals(change), &self.table.at(celsius));
        if !root.ionic_strength.is_finite() || root.ionic_strength > MAX_IONIC_STRENGTH {
            return Err(too_concentrated(root.ionic_strength));
        }
        self.activity = root.conditional.activity;
        self.ln_h.set(root.h.ln());
        self.ionic_strength = root.ionic_strength;
        Ok(-root.h.log10())
    }

    /// The forms of the oxidant, with the activity coefficients of the last refresh. Until the
    /// next one a function of its arguments, within 1e-6 of ln h: the root finding begins at
    /// the root found last.
    pub fn forms(&self, celsius: f64, change: &BathChange) -> OxidantForms {
        let totals = self.totals(change);
        let conditional = ConditionalConstants::new(&self.table.at(celsius), self.activity);
        let reference = ProtonReference::of(&totals);
        let start = self.ln_h.get();
        let (ln_h, _) =
            solver::root_at_fixed_activity(&totals, &reference, &conditional, start, LAST_STEP);
        self.ln_h.set(ln_h);
        let h = ln_h.exp();
        let (mut acid, mut base) = (0.0, 0.0);
        let mut forms = OxidantForms {
            h,
            hypochlorous_acid: 0.0,
            hypochlorite: 0.0,
            hydrogen_peroxide: 0.0,
            perhydroxyl: 0.0,
        };
        let mut split = |constant: f64| {
            let dissociated = constant / (constant + h);
            base = change.oxidant * dissociated;
            acid = change.oxidant - base;
        };
        if self.is_peroxide {
            split(conditional.peroxide);
            (forms.hydrogen_peroxide, forms.perhydroxyl) = (acid, base);
        } else {
            split(conditional.hypochlorous);
            (forms.hypochlorous_acid, forms.hypochlorite) = (acid, base);
        }
        forms
    }

    /// The bath after `share` of it (1 for all) was made up with `added`, mol per litre of the
    /// new bath, in the state `change`; what changed until now becomes part of the base.
    ///
    /// # Errors
    /// As [`Mix::solve`]; another oxidant than the bath's.
    pub fn mixed_with(
        &self,
        change: &BathChange,
        share: f64,
        added: &Mix,
    ) -> Result<Self, EquilibriumError> {
        let (mine, more) = (self.totals(change).scaled(share), added.totals());
        let other = if self.is_peroxide { more.hypochlorite } else { more.peroxide };
        if other > 0.0 {
            return Err(EquilibriumError::TwoOxidants);
        }
        let base = mine.plus(&more);
        let mut mixed = Self { base, ..self.clone() };
        let change = BathChange { oxidant: mixed.oxidant(), ..BathChange::default() };
        mixed.refresh(added.constants().celsius, &change)?;
        Ok(mixed)
    }

    fn totals(&self, change: &BathChange) -> Totals {
        let mut totals = self.base;
        totals.acetate += change.acid.max(0.0);
        let oxidant = change.oxidant.max(0.0);
        if self.is_peroxide {
            totals.peroxide = oxidant;
            totals.sodium += 2.0 * change.percarbonate;
            totals.carbonate += change.percarbonate;
            totals.add_strong_base(self.powder_base * change.percarbonate);
        } else {
            totals.hypochlorite = oxidant;
            totals.chloride += (self.base.hypochlorite - oxidant).max(0.0);
        }
        totals
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::chemistry::substance::moles_per_litre;
    use crate::property;

    fn bath(chlorine: f64, lye: f64, soda: f64) -> Mix {
        Mix::new(25.0)
            .unwrap()
            .with_bleach(moles_per_litre(chlorine))
            .with_lye(moles_per_litre(lye))
            .with_soda_ash(moles_per_litre(soda))
            .with_baking_soda(moles_per_litre(0.002))
    }

    /// The same state as a mix of its own, solved in full.
    fn full(mix: &Mix, chlorine: f64, celsius: f64, change: &BathChange) -> f64 {
        let spent = chlorine - change.oxidant;
        let acid = change.acid;
        let spent_bleach = mix.with_acetic_acid(moles_per_litre(acid));
        let mut state = spent_bleach.brought_to(celsius).unwrap();
        let expansion = state.constants().kilograms_per_litre / mix.constants().kilograms_per_litre;
        state.spend_hypochlorite(spent * expansion);
        state.solve().unwrap().ph()
    }

    /// With the activity coefficients of a state shortly before: what a step of ten minutes
    /// changes.
    #[test]
    fn ph_of_a_changing_bath_is_that_of_the_full_solver() {
        let table = ConstantsTable::new();
        let worst = std::cell::Cell::new(0.0_f64);
        let cases = (0.003..0.06_f64, 0.0..0.02_f64, 0.0..0.03_f64, 15.0..60.0_f64, 0.0..0.9_f64);
        property::check(cases, 200, |(chlorine, lye, soda, celsius, spent)| {
            let mix = bath(chlorine, lye, soda);
            let mut followed = BathEquilibrium::new(&table, &mix, false).unwrap();
            let scale = followed.kilograms_per_litre();
            let at = |spent: f64| BathChange {
                oxidant: chlorine * (1.0 - spent) / scale,
                acid: 0.6 * chlorine * spent / scale,
                percarbonate: 0.0,
            };
            let litres = |change: &BathChange| BathChange {
                oxidant: change.oxidant * scale,
                acid: change.acid * scale,
                percarbonate: 0.0,
            };
            followed.refresh(celsius + 2.0, &at(spent)).unwrap();
            let now = at(spent + 0.1);
            let found = followed.forms(celsius, &now).ph();
            let exact = full(&mix, chlorine, celsius, &litres(&now));
            worst.set(worst.get().max((found - exact).abs()));
            proptest::prop_assert!((found - exact).abs() < 0.01, "{found} is not {exact}");
            let refreshed = followed.refresh(celsius, &now).unwrap();
            proptest::prop_assert!((refreshed - exact).abs() < 1e-3, "{refreshed} is not {exact}");
            Ok(true)
        });
        assert!(worst.get() > 0.0);
    }

    #[test]
    fn interpolated_constants_are_those_of_the_formulae() {
        let table = ConstantsTable::new();
        for tenths in (50..=800).step_by(7) {
            let celsius = f64::from(tenths) / 10.0;
            let (found, exact) = (table.at(celsius), Constants::at(celsius).unwrap());
            let pairs = [
                (found.water, exact.water),
                (found.carbonic_1, exact.carbonic_1),
                (found.carbonic_2, exact.carbonic_2),
                (found.hypochlorous, exact.hypochlorous),
                (found.peroxide, exact.peroxide),
                (found.acetic, exact.acetic),
                (found.debye_slope, exact.debye_slope),
            ];
            for (found, exact) in pairs {
                assert!((found / exact).log10().abs() < 2e-4, "{celsius}");
            }
        }
    }

    #[test]
    fn additions_and_water_are_those_of_one_mix() {
        let table = ConstantsTable::new();
        let bath = BathEquilibrium::new(&table, &bath(0.03, 0.004, 0.0), false).unwrap();
        let change = BathChange { oxidant: bath.oxidant(), ..BathChange::default() };
        let added = Mix::new(25.0).unwrap().with_soda_ash(moles_per_litre(0.01));
        let mixed = bath.mixed_with(&change, 0.8, &added).unwrap();
        let direct = Mix::new(25.0)
            .unwrap()
            .with_bleach(moles_per_litre(0.024))
            .with_lye(moles_per_litre(0.0032))
            .with_soda_ash(moles_per_litre(0.01))
            .with_baking_soda(moles_per_litre(0.0016));
        let change = BathChange { oxidant: mixed.oxidant(), ..BathChange::default() };
        let exact = direct.solve().unwrap().ph();
        assert!((mixed.forms(25.0, &change).ph() - exact).abs() < 1e-4);
        let peroxide = Mix::new(25.0).unwrap().with_peroxide(moles_per_litre(0.01));
        assert!(matches!(
            bath.mixed_with(&change, 1.0, &peroxide),
            Err(EquilibriumError::TwoOxidants)
        ));
    }
}
