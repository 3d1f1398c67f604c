//! A bath over time, with what is done to it on the way.

use super::cooling_table::CoolingTable;
use super::integrator::{IntegrationError, Tolerance, integrate};
use super::parameter::ParameterValues;
use super::system::{
    BathState, BathSystem, CELSIUS_SCALE, OwnDecay, RateConstants, SCISSION_SCALE,
};
use crate::bath::heat::LossFactors;
use crate::chemistry::alkali::WINDOW_CELSIUS;
use crate::chemistry::equilibrium::{BathEquilibrium, ConstantsTable, Mix};
use crate::chemistry::{EquilibriumError, Oxidant};
use serde::{Deserialize, Serialize};

/// Why a bath could not be simulated.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SimulationError {
    #[error(transparent)]
    Equilibrium(#[from] EquilibriumError),
    #[error(transparent)]
    Integration(#[from] IntegrationError),
}

/// A bath at its start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathStart {
    pub oxidant: Oxidant,
    /// What is dissolved.
    pub mix: Mix,
    /// Percarbonate that is stirred in and not dissolved yet, mol/L, as Na2CO3·1.5H2O2; not
    /// part of `mix`.
    pub undissolved: f64,
    /// Strong base that each mol of it brings besides its own soda, mol; acid if negative.
    pub powder_base: f64,
    /// Oven-dry fibre for each kg of liquor, kg.
    pub fibre: f64,
    pub celsius: f64,
}

/// What is done to a bath on the way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathEvent {
    pub minutes: f64,
    /// Volume before over volume after: below 1 where water was added.
    pub share: f64,
    /// What was added, mol for each litre of the bath afterwards, at the temperature that it had;
    /// a mix of pure water for a dilution or for warming alone.
    pub added: Mix,
    /// °C of the bath right afterwards; `None` if it follows from mixing by volume.
    pub reaches: Option<f64>,
}

/// A bath at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathPoint {
    pub minutes: f64,
    /// Oxidant in the liquor, mol/L.
    pub oxidant: f64,
    pub ph: f64,
    /// pH of a sample cooled to [`WINDOW_CELSIUS`], as a strip shows it.
    pub cooled_ph: f64,
    pub celsius: f64,
    /// K/S over that at the start.
    pub colour: f64,
    /// Scissions for each glucose unit.
    pub scissions: f64,
    /// Shares of the fast and slow consumers that are left.
    pub consumers: [f64; 2],
}

/// Tolerances of the simulation: its error is below a hundredth of any band's width (of 500 draws
/// 0.03 L* and 0.03 pH at most; a fifth of it takes a fifth more time).
const TOLERANCE: Tolerance = Tolerance { relative: 5e-3, absolute: 5e-4 };

/// What all simulations of one bath share.
#[derive(Clone, Debug)]
pub struct BathModel {
    pub table: ConstantsTable,
    pub cooling: CoolingTable,
    pub tolerance: Tolerance,
}

impl BathModel {
    /// With the usual tolerance.
    pub fn new(table: ConstantsTable, cooling: CoolingTable) -> Self {
        Self { table, cooling, tolerance: TOLERANCE }
    }

    /// Simulates a bath and reports it at `minutes`, which rise.
    ///
    /// # Errors
    /// A start or addition beyond the equilibrium solver, or a course that cannot be integrated.
    pub fn simulate(
        &self,
        start: &BathStart,
        values: &ParameterValues,
        loss: LossFactors<f64>,
        events: &[BathEvent],
        minutes: &[f64],
    ) -> Result<Vec<BathPoint>, SimulationError> {
        let mut run = Run::new(self, start, values, loss)?;
        let mut events = events.iter().peekable();
        let mut points = Vec::with_capacity(minutes.len());
        for &time in minutes {
            while let Some(event) = events.next_if(|event| event.minutes <= time) {
                run.advance(event.minutes)?;
                run.apply(event)?;
            }
            run.advance(time)?;
            points.push(run.point());
        }
        Ok(points)
    }
}

/// A simulation under way.
struct Run<'a> {
    system: BathSystem<'a>,
    state: BathState,
    minutes: f64,
    step: Option<f64>,
    ph: f64,
    tolerance: Tolerance,
}

/// Longest time over which the activity coefficients are kept, minutes.
const LONGEST_STRETCH: f64 = 20.0;

impl<'a> Run<'a> {
    fn new(
        model: &'a BathModel,
        start: &BathStart,
        values: &ParameterValues,
        loss: LossFactors<f64>,
    ) -> Result<Self, SimulationError> {
        let is_peroxide = start.oxidant.is_peroxide();
        let equilibrium = BathEquilibrium::new(&model.table, &start.mix, is_peroxide)?
            .with_powder_base(start.powder_base);
        let solid = start.undissolved.max(0.0) / equilibrium.kilograms_per_litre();
        let dissolved = equilibrium.oxidant();
        // Never 0: an empty bath has a state too.
        let scale = (dissolved + 1.5 * solid).max(1e-6);
        let state = BathState {
            oxidant: dissolved / scale,
            fast: 1.0,
            slow: 1.0,
            colour: 1.0,
            acid: 0.0,
            scissions: 0.0,
            solid: solid / scale,
            celsius: start.celsius / CELSIUS_SCALE,
        };
        let system = BathSystem {
            oxidant: start.oxidant,
            equilibrium,
            cooling: &model.cooling,
            loss,
            thinning: 1.0,
            scale,
            fibre: start.fibre,
            solid_at_start: state.solid,
            constants: RateConstants::new(start.oxidant, values),
            decay: OwnDecay::at(start.celsius, 0.0, 0.0),
        };
        let mut run =
            Self { system, state, minutes: 0.0, step: None, ph: 0.0, tolerance: model.tolerance };
        run.refresh()?;
        Ok(run)
    }

    /// To a time, in stretches that begin short: the bath changes fastest at first.
    fn advance(&mut self, minutes: f64) -> Result<(), SimulationError> {
        while self.minutes < minutes {
            let longest = (1.0 + self.minutes).min(LONGEST_STRETCH);
            let to = if self.minutes + 1.5 * longest > minutes {
                minutes
            } else {
                self.minutes + longest
            };
            let span = 60.0 * (to - self.minutes);
            let done =
                integrate(&self.system, &self.state.to_array(), span, self.step, self.tolerance)?;
            self.state = BathState::from_array(done.y);
            self.step = Some(done.next_step);
            self.minutes = to;
            self.refresh()?;
        }
        Ok(())
    }

    /// Solves the pH in full, with new activity coefficients.
    fn refresh(&mut self) -> Result<(), SimulationError> {
        let change = self.system.change(&self.state);
        let celsius = CELSIUS_SCALE * self.state.celsius;
        let system = &mut self.system;
        self.ph = system.equilibrium.refresh(celsius, &change)?;
        let strength = system.equilibrium.ionic_strength();
        system.decay = OwnDecay::at(celsius, strength, system.constants.decay_factor);
        Ok(())
    }

    fn apply(&mut self, event: &BathEvent) -> Result<(), SimulationError> {
        let system = &mut self.system;
        let change = system.change(&self.state);
        system.equilibrium = system.equilibrium.mixed_with(&change, event.share, &event.added)?;
        self.state.oxidant = system.equilibrium.oxidant() / system.scale;
        self.state.acid = 0.0;
        self.state.solid *= event.share;
        system.solid_at_start = self.state.solid;
        let added = event.added.constants().celsius;
        let mixed = event.share * CELSIUS_SCALE * self.state.celsius + (1.0 - event.share) * added;
        self.state.celsius = event.reaches.unwrap_or(mixed) / CELSIUS_SCALE;
        system.fibre *= event.share;
        system.thinning *= event.share;
        self.step = None;
        self.refresh()
    }

    /// With the activity coefficients of the bath: within 0.02 pH of the full solver.
    fn cooled_ph(&self) -> f64 {
        let change = self.system.change(&self.state);
        self.system.equilibrium.forms(WINDOW_CELSIUS, &change).ph()
    }

    fn point(&self) -> BathPoint {
        let state = &self.state;
        let litre = self.system.scale * self.system.equilibrium.kilograms_per_litre();
        BathPoint {
            minutes: self.minutes,
            oxidant: litre * state.oxidant.max(0.0),
            ph: self.ph,
            cooled_ph: self.cooled_ph(),
            celsius: CELSIUS_SCALE * state.celsius,
            colour: state.colour,
            scissions: SCISSION_SCALE * state.scissions,
            consumers: [state.fast.max(0.0), state.slow.max(0.0)],
        }
    }
}

#[cfg(test)]
mod tests;
