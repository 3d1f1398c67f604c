//! The inputs of a bath as known, and its course for one value of each.

use super::quantity::SampleConstants;
use super::request::{ForecastError, ForecastRequest};
use crate::bath::kinetics::{BathModel, BathPoint, BathStart, CoolingTable, ParameterValues};
use crate::bath::{BathCover, LossFactors};
use crate::chemistry::equilibrium::{ConstantsTable, Mix};
use crate::chemistry::substance::{in_moles_per_litre, moles_per_litre};
use crate::chemistry::{EquilibriumError, Oxidant};
use crate::quantity::{Basis, Estimate};

/// Number of inputs of a bath that have a range.
pub(crate) const INPUTS: usize = 10;

/// One value for each input of a bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct BathInputs {
    /// mol/L.
    pub strength: f64,
    pub ph: f64,
    pub celsius: f64,
    /// Oven-dry fibre for each kg of liquor, kg.
    pub fibre: f64,
    /// CIE L* of the dry pulp.
    pub lightness: f64,
    /// Dried over wet K/S.
    pub drying: f64,
    pub evaporation: f64,
    pub dry_loss: f64,
    /// a* and b* of the dry pulp.
    pub hue: [f64; 2],
}

impl BathInputs {
    /// Each by its number, in the order of [`input_ranges`].
    pub(crate) fn from_fn(value: impl FnMut(usize) -> f64) -> Self {
        let mut number = 0..INPUTS;
        let mut value = value;
        let mut next = || value(number.next().unwrap_or(0));
        Self {
            strength: next(),
            ph: next(),
            celsius: next(),
            fibre: next(),
            lightness: next(),
            drying: next(),
            evaporation: next(),
            dry_loss: next(),
            hue: [next(), next()],
        }
    }
}

/// The ranges of the inputs, in the order of [`BathInputs`].
pub(crate) fn input_ranges(request: &ForecastRequest) -> [Estimate<f64>; INPUTS] {
    let factors =
        request.cooling.map_or_else(|| LossFactors::assumed(BathCover::Lid), |bath| bath.factors);
    [
        request.strength,
        request.ph,
        request.celsius,
        fibre_per_liquor(request.consistency),
        request.lightness,
        request.drying.unwrap_or(Estimate::exact(1.0, Basis::Assumed)),
        factors.evaporation,
        factors.dry,
        request.hue[0],
        request.hue[1],
    ]
}

/// The model of a request's bath.
pub(crate) fn request_model(request: &ForecastRequest) -> BathModel {
    let cooling = request.cooling.as_ref().map_or_else(CoolingTable::none, CoolingTable::new);
    BathModel::new(ConstantsTable::new(), cooling)
}

/// That the bath is one for the equilibrium solver at its values.
pub(crate) fn check_contents(request: &ForecastRequest) -> Result<(), ForecastError> {
    contents(request, request.strength.value, request.ph.value)?.mix.solve()?;
    Ok(())
}

/// The course of a request's bath for one value of each input and parameter; `None` where it
/// cannot be simulated.
pub(crate) fn simulate_request(
    request: &ForecastRequest,
    model: &BathModel,
    inputs: &BathInputs,
    values: &ParameterValues,
    minutes: &[f64],
) -> Option<(SampleConstants, Vec<BathPoint>)> {
    let contents = contents(request, inputs.strength, inputs.ph).ok()?;
    let celsius = inputs.celsius.clamp(5.0, 80.0);
    let start = BathStart {
        oxidant: request.oxidant,
        mix: contents.mix.brought_to(celsius).ok()?,
        undissolved: contents.undissolved,
        powder_base: contents.powder_base,
        fibre: inputs.fibre,
        celsius,
    };
    let loss = LossFactors { evaporation: inputs.evaporation, dry: inputs.dry_loss };
    let course = model.simulate(&start, values, loss, &request.events, minutes).ok()?;
    let constants = SampleConstants::new(inputs, values, request.drying.is_some());
    Some((constants, course))
}

/// The bath's contents at its start; fibre and temperature are set by the caller.
pub(super) struct Contents {
    /// What is dissolved, with the alkali that gives the pH once all is.
    pub mix: Mix,
    /// mol/L of percarbonate.
    pub undissolved: f64,
    pub powder_base: f64,
}

pub(super) fn contents(
    request: &ForecastRequest,
    strength: f64,
    ph: f64,
) -> Result<Contents, EquilibriumError> {
    let amount = moles_per_litre;
    let dissolved = |mix: Mix| -> Result<Contents, EquilibriumError> {
        let mix = mix.with_strong_acid(-mix.hidden_base(ph)?);
        Ok(Contents { mix, undissolved: 0.0, powder_base: 0.0 })
    };
    match request.oxidant {
        Oxidant::Hypochlorite => dissolved(request.mix.with_bleach(amount(strength))),
        Oxidant::Peroxide => dissolved(request.mix.with_peroxide(amount(strength))),
        Oxidant::Percarbonate => {
            let powder = strength / 1.5;
            let base = request.mix.with_percarbonate(amount(powder)).hidden_base(ph)?;
            let undissolved = powder * request.undissolved;
            let share = 1.0 - request.undissolved;
            let mix = request
                .mix
                .with_percarbonate(amount(powder - undissolved))
                .with_strong_acid(-base * share);
            let powder_base = in_moles_per_litre(base) / powder.max(1e-9);
            Ok(Contents { mix, undissolved, powder_base })
        }
    }
}

/// Fibre for each kg of liquor by consistency.
fn fibre_per_liquor(consistency: Estimate<f64>) -> Estimate<f64> {
    let per_liquor = |share: f64| share / (1.0 - share);
    Estimate { basis: Basis::Computed, ..consistency.map(per_liquor) }
}
