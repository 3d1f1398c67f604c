//! The differential equations of a bath.
//!
//! State, all of about 1: see [`BathState`]. The pH at every step is that of the equilibrium
//! solver, for the oxidant left, the acid formed and the powder dissolved.

use super::cooling_table::CoolingTable;
use super::integrator::AutonomousSystem;
use super::law::{
    ACID_PER_SCISSION, GAS_CONSTANT, GLUCOSE_UNIT, OXIDANT_PER_SCISSION, ScissionRates,
    bleaching_hypochlorite, bleaching_peroxide, hypochlorous_decay_rate, peroxide_decay_share,
    scission_rate,
};
use super::parameter::{Parameter, ParameterValues, reference_celsius};
use crate::bath::heat::LossFactors;
use crate::chemistry::Oxidant;
use crate::chemistry::decay::rate_constant;
use crate::chemistry::equilibrium::{BathChange, BathEquilibrium, OxidantForms};

/// Number of state variables.
pub(super) const STATES: usize = 8;

/// A bath's state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct BathState {
    /// Over the scale of concentration.
    pub oxidant: f64,
    /// Share of the fast consumers that is left.
    pub fast: f64,
    pub slow: f64,
    /// K/S over that at the start.
    pub colour: f64,
    /// Over the scale of concentration.
    pub acid: f64,
    /// Scissions for each 1000 glucose units.
    pub scissions: f64,
    /// Percarbonate not dissolved yet, over the scale of concentration.
    pub solid: f64,
    /// °C over [`CELSIUS_SCALE`].
    pub celsius: f64,
}

pub(super) const CELSIUS_SCALE: f64 = 50.0;
pub(super) const SCISSION_SCALE: f64 = 1e-3;

impl BathState {
    pub(super) fn to_array(self) -> [f64; STATES] {
        let Self { oxidant, fast, slow, colour, acid, scissions, solid, celsius } = self;
        [oxidant, fast, slow, colour, acid, scissions, solid, celsius]
    }

    pub(super) fn from_array(y: [f64; STATES]) -> Self {
        let [oxidant, fast, slow, colour, acid, scissions, solid, celsius] = y;
        Self { oxidant, fast, slow, colour, acid, scissions, solid, celsius }
    }
}

/// The equations between two events.
pub(super) struct BathSystem<'a> {
    pub oxidant: Oxidant,
    pub equilibrium: BathEquilibrium<'a>,
    pub cooling: &'a CoolingTable,
    pub loss: LossFactors<f64>,
    /// Mass of the bath at the start over that now.
    pub thinning: f64,
    /// mol/kg: what the state's concentrations are multiplied with.
    pub scale: f64,
    /// Fibre, kg for each kg of water.
    pub fibre: f64,
    /// Percarbonate at the last event, over `scale`.
    pub solid_at_start: f64,
    pub constants: RateConstants,
    pub decay: OwnDecay,
}

/// Decay of hypochlorite by itself, near one temperature and ionic strength.
#[derive(Clone, Copy, Debug)]
pub(super) struct OwnDecay {
    kelvin: f64,
    /// Of OCl-, kg/(mol·s), and of HOCl with OCl-, kg²/(mol²·s).
    base: f64,
    acid: f64,
}

impl OwnDecay {
    /// Activation energies over R, K: of the laws in `decay` and `law`, from enthalpies.
    const BASE_ENERGY: f64 = (101_800.0 + 2600.0) / GAS_CONSTANT;
    const ACID_ENERGY: f64 = (64_000.0 + 2600.0) / GAS_CONSTANT;

    pub(super) fn at(celsius: f64, ionic_strength: f64, factor: f64) -> Self {
        Self {
            kelvin: celsius + 273.15,
            base: factor * rate_constant(celsius, ionic_strength),
            acid: factor * hypochlorous_decay_rate(celsius, 1.0, 1.0),
        }
    }

    /// mol/(kg·s).
    fn rate(&self, kelvin: f64, acid: f64, base: f64) -> f64 {
        let warmer = 1.0 / self.kelvin - 1.0 / kelvin;
        self.base * (Self::BASE_ENERGY * warmer).exp() * base * base
            + self.acid * (Self::ACID_ENERGY * warmer).exp() * acid * acid * base
    }
}

/// Parameters in the units of the equations.
#[derive(Clone, Copy, Debug)]
pub(super) struct RateConstants {
    reference_kelvin: f64,
    fast_pool: f64,
    slow_pool: f64,
    fast: f64,
    slow: f64,
    colour: f64,
    floor: f64,
    speedup: f64,
    acid_yield: f64,
    scission: f64,
    scission_acid: f64,
    scission_together: f64,
    metal: f64,
    pub decay_factor: f64,
    dissolving: f64,
    /// Activation energies over R, K.
    bleach_energy: f64,
    scission_energy: f64,
    scission_acid_energy: f64,
    metal_energy: f64,
}

impl RateConstants {
    pub(super) fn new(oxidant: Oxidant, values: &ParameterValues) -> Self {
        let get = |parameter| values.get(parameter);
        let energy = |parameter| 1000.0 * values.get(parameter) / GAS_CONSTANT;
        let scission = get(Parameter::ScissionRate);
        let scission_acid = scission * get(Parameter::ScissionAcidRatio);
        let dissolving = get(Parameter::DissolvingTime);
        Self {
            reference_kelvin: reference_celsius(oxidant) + 273.15,
            fast_pool: get(Parameter::FastConsumers),
            slow_pool: get(Parameter::SlowConsumers),
            fast: get(Parameter::FastRate),
            slow: get(Parameter::FastRate) * get(Parameter::SlowRatio),
            colour: get(Parameter::ColourRate),
            floor: get(Parameter::ColourFloor),
            speedup: get(Parameter::AcidSpeedup),
            acid_yield: get(Parameter::AcidYield),
            scission,
            scission_acid,
            scission_together: scission_acid * get(Parameter::ScissionTogetherRatio),
            metal: get(Parameter::MetalLoss),
            decay_factor: get(Parameter::DecayFactor),
            dissolving: if dissolving > 0.0 { 1.0 / dissolving } else { 0.0 },
            bleach_energy: energy(Parameter::BleachEnergy),
            scission_energy: energy(Parameter::ScissionEnergy),
            scission_acid_energy: energy(Parameter::ScissionAcidEnergy),
            metal_energy: energy(Parameter::MetalEnergy),
        }
    }
}

/// Rates at one state, 1/s or mol/(kg·s).
struct Rates {
    /// Effective oxidant times rate constant: of the fast and slow consumers, of the colour.
    fast: f64,
    slow: f64,
    colour: f64,
    scission: f64,
    /// Oxidant lost to nothing.
    waste: f64,
}

impl BathSystem<'_> {
    /// What the equilibrium solver has to know of a state.
    pub(super) fn change(&self, state: &BathState) -> BathChange {
        BathChange {
            oxidant: self.scale * state.oxidant.max(0.0),
            acid: self.scale * state.acid.max(0.0),
            percarbonate: self.scale * (self.solid_at_start - state.solid).max(0.0),
        }
    }

    fn rates(&self, state: &BathState) -> Rates {
        let k = &self.constants;
        let celsius = (CELSIUS_SCALE * state.celsius).clamp(0.0, 100.0);
        let forms = self.equilibrium.forms(celsius, &self.change(state));
        let kelvin = celsius + 273.15;
        let warmer = 1.0 / k.reference_kelvin - 1.0 / kelvin;
        let bleach = (k.bleach_energy * warmer).exp();
        let scission = (k.scission_energy * warmer).exp();
        let metal = k.metal * (k.metal_energy * warmer).exp();
        if self.oxidant.is_peroxide() {
            self.peroxide_rates(&forms, bleach, scission, metal)
        } else {
            let acid = (k.scission_acid_energy * warmer).exp();
            self.hypochlorite_rates(&forms, kelvin, bleach, [scission, acid], metal)
        }
    }

    fn hypochlorite_rates(
        &self,
        forms: &OxidantForms,
        kelvin: f64,
        bleach: f64,
        [scission, scission_acid]: [f64; 2],
        metal: f64,
    ) -> Rates {
        let k = &self.constants;
        let (acid, base) = (forms.hypochlorous_acid, forms.hypochlorite);
        let effective = bleach * bleaching_hypochlorite(acid, base, k.speedup);
        let scissions = ScissionRates {
            hypochlorite: k.scission * scission,
            hypochlorous_acid: k.scission_acid * scission_acid,
            together: k.scission_together * scission_acid,
        };
        Rates {
            fast: k.fast * effective,
            slow: k.slow * effective,
            colour: k.colour * effective,
            scission: scission_rate(&scissions, acid, base),
            waste: self.decay.rate(kelvin, acid, base) + metal * (acid + base),
        }
    }

    fn peroxide_rates(
        &self,
        forms: &OxidantForms,
        bleach: f64,
        scission: f64,
        metal: f64,
    ) -> Rates {
        let k = &self.constants;
        let (acid, base) = (forms.hydrogen_peroxide, forms.perhydroxyl);
        Rates {
            fast: k.fast * bleach * base,
            slow: k.slow * bleach * base,
            colour: k.colour * bleach * bleaching_peroxide(base),
            scission: k.scission * scission * (acid + base),
            waste: metal * peroxide_decay_share(acid, base) * (acid + base),
        }
    }
}

impl BathSystem<'_> {
    fn slope_at(&self, state: &BathState, rates: &Rates) -> [f64; STATES] {
        let k = &self.constants;
        let (fast, slow) = (rates.fast * state.fast, rates.slow * state.slow);
        let on_pulp = self.fibre * (k.fast_pool * fast + k.slow_pool * slow);
        // Scissions, mol/(kg·s).
        let scissions = rates.scission * self.fibre * 1000.0 / GLUCOSE_UNIT;
        let above_floor = (state.colour - k.floor).max(0.0);
        let dissolves = k.dissolving * state.solid;
        BathState {
            oxidant: 1.5 * dissolves
                - (on_pulp + OXIDANT_PER_SCISSION * scissions + rates.waste) / self.scale,
            fast: -fast,
            slow: -slow,
            colour: -rates.colour * above_floor * above_floor,
            acid: (k.acid_yield * on_pulp + ACID_PER_SCISSION * scissions) / self.scale,
            scissions: rates.scission / SCISSION_SCALE,
            solid: -dissolves,
            celsius: self.cooling.slope(CELSIUS_SCALE * state.celsius, &self.loss, self.thinning)
                / CELSIUS_SCALE,
        }
        .to_array()
    }
}

impl AutonomousSystem<STATES> for BathSystem<'_> {
    fn slope(&self, y: &[f64; STATES]) -> [f64; STATES] {
        let state = BathState::from_array(*y);
        self.slope_at(&state, &self.rates(&state))
    }

    /// By differences. The pools, the colour and the damage change no rate, so that only the
    /// other columns cost an equilibrium.
    fn jacobian(&self, y: &[f64; STATES]) -> [[f64; STATES]; STATES] {
        /// Far above the 1e-6 of the equilibrium, and far below 1.
        const STEP: f64 = 1e-3;
        let state = BathState::from_array(*y);
        let rates = self.rates(&state);
        let here = self.slope_at(&state, &rates);
        let mut rows = [[0.0; STATES]; STATES];
        for (column, changes_rates) in CHANGES_RATES.into_iter().enumerate() {
            let step = STEP * y[column].abs().max(0.03);
            let mut moved = *y;
            moved[column] += step;
            let moved = BathState::from_array(moved);
            // Without powder its column costs nothing.
            let there = if changes_rates && (column != SOLID || self.solid_at_start > 0.0) {
                self.slope_at(&moved, &self.rates(&moved))
            } else {
                self.slope_at(&moved, &rates)
            };
            for (row, (there, here)) in rows.iter_mut().zip(there.iter().zip(here)) {
                row[column] = (there - here) / step;
            }
        }
        rows
    }
}

/// Place of the powder in the state.
const SOLID: usize = 6;

/// Which members of [`BathState`], in its order, the rates depend on.
const CHANGES_RATES: [bool; STATES] = [true, false, false, false, true, false, true, true];
