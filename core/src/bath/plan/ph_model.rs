//! The pH of a planned bath as a function of its uncertain inputs.
//!
//! What decides the pH is seldom measured: lye in the bottle or soda in the powder, alkali or
//! acid carried over by the pulp, bicarbonate of tap water. Each enters with its range, as do
//! the inputs of the material balance, the bath's temperature and the solver's own error, so
//! that the result names the input to measure.

use super::{
    balance,
    carry_over::{CARRIED_ACID_FACTOR, CARRY_OVER_PH, Carried, CarryOver, ExpressedWater},
    check::CheckedRequest,
    request::Bleach,
    solve::SolvedBath,
};
use crate::{
    bath::heat::{BATH_TEMPERATURE, THERMOMETER_ERROR},
    chemistry::{
        EquilibriumError,
        alkali::{BICARBONATE, WATER_BICARBONATE, WINDOW_CELSIUS},
        bottle::free_lye,
        equilibrium::{COLDEST, Constants, HOTTEST, Mix, model_error},
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE, in_moles_per_litre,
            moles_per_litre,
        },
    },
    message::Field,
    quantity::{
        Basis, ComputedEstimate, Estimate, UncertainInput, Volume, grams_per_litre, millilitres,
        propagate_uncertainty,
    },
};

/// Field for the kind of carried-over alkali.
pub const CARRIED_ALKALI: Field = Field("carried_alkali");
/// Field for the kind and amount of carried-over acid.
pub const CARRIED_ACID: Field = Field("carried_acid");
/// Field for free lye in the bottle.
pub const BOTTLE_LYE: Field = Field("bottle_lye");
/// Field for the share of soda ash in what is not percarbonate.
pub const POWDER_FILLER: Field = Field("powder_filler");
/// Field for the soda ash that is weighed for a peroxide bath.
pub const SODA_ASH: Field = Field("soda_ash");
/// Field for the error of the pH model itself.
pub const PH_MODEL: Field = Field("ph_model");

/// Share of soda ash in what is not percarbonate: laundry powders are filled with
/// it, pure powder hardly at all (from memory).
pub const FILLER: Estimate<f64> =
    Estimate { value: 0.5, low: 0.0, high: 1.0, basis: Basis::Assumed };

/// Soda ash over what is to be weighed: a kitchen scale, and water that the powder has drawn
/// (common practice, no source).
pub const SODA_WEIGHED: Estimate<f64> =
    Estimate { value: 1.0, low: 0.9, high: 1.05, basis: Basis::Computed };

/// Wet mass, dryness, strength and density of the bleach; pH of expressed water, carbonate
/// share of its alkali, factor of its acid; lye or soda ash of the bleach, bicarbonate of tap
/// water (mol/L), temperature (°C), error of the model (pH).
pub(super) const INPUTS: usize = 11;

/// The bath, measured out as planned, as a function of its uncertain inputs.
pub(super) struct PhModel<'a> {
    checked: &'a CheckedRequest<'a>,
    inputs: [UncertainInput; INPUTS],
    /// Dose (mL or g) and water (g).
    measured: (f64, f64),
    /// Soda ash weighed for a peroxide bath, g.
    soda_ash: f64,
    carry_over: CarryOver,
    /// What the pulp's water holds at the inputs' values.
    carried: Carried,
    nominal: NominalBath,
    /// At the bath's temperature and at [`WINDOW_CELSIUS`].
    constants: Constants,
    cool: Constants,
}

/// The bath at its inputs' values.
#[derive(Clone, Copy)]
pub(super) struct NominalBath {
    pub(super) mix: Mix,
    pub(super) liquor: Volume,
    /// mol/kg.
    pub(super) ionic_strength: f64,
    pub(super) carries_alkali: bool,
}

impl<'a> PhModel<'a> {
    pub(super) fn new(
        checked: &'a CheckedRequest<'a>,
        bath: &SolvedBath,
    ) -> Result<Self, EquilibriumError> {
        let celsius = checked.request.temperature.get();
        let constants = Constants::at(celsius)?;
        let temperature = Estimate {
            value: celsius,
            low: (celsius - THERMOMETER_ERROR).max(COLDEST),
            high: (celsius + THERMOMETER_ERROR).min(HOTTEST),
            basis: Basis::Measured,
        };
        let own = own_alkali(checked);
        let expressed = checked.request.expressed_water.unwrap_or_else(ExpressedWater::unknown);
        let [wet, dryness, strength, density] = checked.inputs;
        let inputs = [
            wet,
            dryness,
            strength,
            density,
            UncertainInput::of(CARRY_OVER_PH, expressed.ph),
            UncertainInput::of(CARRIED_ALKALI, expressed.alkali.carbonate_share()),
            UncertainInput::of(CARRIED_ACID, CARRIED_ACID_FACTOR),
            own,
            UncertainInput::of(WATER_BICARBONATE, BICARBONATE),
            UncertainInput::of(BATH_TEMPERATURE, temperature),
            UncertainInput::of(PH_MODEL, Estimate::exact(0.0, Basis::Computed)),
        ];
        let carry_over = CarryOver::new()?;
        let carried = carry_over.carried(expressed.ph.value, BICARBONATE.value)?;
        let nominal = NominalBath {
            mix: Mix::at(constants),
            liquor: millilitres(0.0),
            ionic_strength: 0.0,
            carries_alkali: carried.is_alkali(),
        };
        let measured = (bath.dose.value, bath.water.value);
        let soda_ash = bath.soda_ash.map_or(0.0, |mass| mass.value);
        let cool = Constants::at(WINDOW_CELSIUS)?;
        Self { checked, inputs, measured, soda_ash, carry_over, carried, nominal, constants, cool }
            .solved()
    }

    /// With the nominal bath, and the error that the solver has there.
    fn solved(mut self) -> Result<Self, EquilibriumError> {
        let (mix, liquor) = self.mix(&self.inputs.map(|input| input.value))?;
        let ionic_strength = mix.solve()?.ionic_strength();
        self.nominal =
            NominalBath { mix, liquor: millilitres(liquor), ionic_strength, ..self.nominal };
        let error = model_error(ionic_strength);
        let input = self.inputs[INPUTS - 1];
        self.inputs[INPUTS - 1] = UncertainInput { low: -error, high: error, ..input };
        Ok(self)
    }

    pub(super) fn nominal(&self) -> &NominalBath {
        &self.nominal
    }

    /// The pH in the bath and of a sample at [`WINDOW_CELSIUS`]; `None` if anywhere in the
    /// inputs' ranges it is beyond the solver.
    pub(super) fn ph(&self) -> Option<[ComputedEstimate<f64>; 2]> {
        propagate_uncertainty(&self.inputs, |x| self.ph_at(x).unwrap_or([f64::NAN; 2]))
    }

    fn ph_at(&self, x: &[f64; INPUTS]) -> Result<[f64; 2], EquilibriumError> {
        let (mix, _) = self.mix(x)?;
        let error = x[INPUTS - 1];
        let (warm, cool) = (mix.solve()?, mix.with_constants(self.cool).solve()?);
        Ok([warm.ph() + error, cool.ph() + error])
    }

    /// The mix, and its volume in mL.
    fn mix(&self, x: &[f64; INPUTS]) -> Result<(Mix, f64), EquilibriumError> {
        let &[wet, dryness, strength, density, ph, carbonate, acid, own, bicarbonate, celsius, _] =
            x;
        let checked = self.checked;
        let bleach = checked.bleach(strength, density);
        let bath = balance::composition(wet, dryness, bleach, self.measured, checked.water_density);
        let liquor = bath.active / bath.strength;
        let constants = if celsius == self.constants.celsius {
            self.constants
        } else {
            Constants::at(celsius)?
        };
        let dose = self.measured.0 / liquor;
        let (mix, water) = match checked.request.bleach {
            Bleach::Hypochlorite(_) => (bottle(constants, bath.strength, dose, own), 1.0 - dose),
            Bleach::Percarbonate(_) => (powder(constants, bath.strength, dose, own), 1.0),
            Bleach::Peroxide(_) => {
                (peroxide(constants, bath.strength, own * self.soda_ash / liquor), 1.0 - dose)
            }
        };
        let mix = mix.with_baking_soda(moles_per_litre(bicarbonate * water));
        let pulp_water = (bath.pulp_water / checked.water_density / liquor).min(1.0);
        let carried = self.carried_at(ph, bicarbonate)?;
        Ok((carried.add_to(mix, pulp_water, carbonate, acid), liquor))
    }

    /// The most expensive step, and only two of the inputs affect it.
    fn carried_at(&self, ph: f64, bicarbonate: f64) -> Result<Carried, EquilibriumError> {
        if (ph, bicarbonate) == (self.inputs[4].value, self.inputs[8].value) {
            return Ok(self.carried);
        }
        self.carry_over.carried(ph, bicarbonate)
    }
}

/// What the bleach itself brings of alkali.
fn own_alkali(checked: &CheckedRequest) -> UncertainInput {
    match checked.request.bleach {
        Bleach::Hypochlorite(_) => {
            let [chlorine, _] = checked.nominal_bleach();
            UncertainInput::of(BOTTLE_LYE, free_lye(grams_per_litre(chlorine * 1000.0)))
        }
        Bleach::Percarbonate(_) => UncertainInput::of(POWDER_FILLER, FILLER),
        Bleach::Peroxide(_) => UncertainInput::of(SODA_ASH, SODA_WEIGHED),
    }
}

/// Liquor of `strength` g/mL of available chlorine, of which `dose` litres per litre are from
/// a bottle with `lye` mol/L.
fn bottle(constants: Constants, strength: f64, dose: f64, lye: f64) -> Mix {
    Mix::at(constants)
        .with_bleach(CHLORINE.molar(grams_per_litre(strength * 1000.0)))
        .with_lye(moles_per_litre(lye * dose))
}

/// Liquor of `strength` g/mL of H2O2 from `dose` kg/L of powder; `ash` is the share of soda ash
/// in what is not percarbonate.
fn powder(constants: Constants, strength: f64, dose: f64, ash: f64) -> Mix {
    let peroxide = HYDROGEN_PEROXIDE.molar(grams_per_litre(strength * 1000.0));
    let percarbonate = peroxide / 1.5;
    let pure = in_moles_per_litre(percarbonate) * SODIUM_PERCARBONATE.grams_per_mole;
    let filler = (1000.0 * dose - pure).max(0.0);
    Mix::at(constants)
        .with_percarbonate(percarbonate)
        .with_soda_ash(SODIUM_CARBONATE.molar(grams_per_litre(ash * filler)))
}

/// Liquor of `strength` g/mL of H2O2 with `soda_ash` g/mL.
fn peroxide(constants: Constants, strength: f64, soda_ash: f64) -> Mix {
    let litre = |per_ml: f64| grams_per_litre(per_ml * 1000.0);
    Mix::at(constants)
        .with_peroxide(HYDROGEN_PEROXIDE.molar(litre(strength)))
        .with_soda_ash(SODIUM_CARBONATE.molar(litre(soda_ash)))
}
