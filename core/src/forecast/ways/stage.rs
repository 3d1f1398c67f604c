//! The course of one bath for one draw, in pulp as the baths before it left it.

use super::bath::PlannedBath;
use crate::bath::kinetics::{
    BathModel, BathPoint, Parameter, ParameterDistribution, ParameterValues, priors,
};
use crate::bath::{BathCover, LossFactors};
use crate::chemistry::Oxidant;
use crate::forecast::bath_inputs::{BathInputs, simulate_request};
use crate::forecast::draw::Draw;

/// The pulp between two baths, after a wash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PulpNow {
    /// K/S over that before the first bath.
    pub colour: f64,
    /// Scissions for each glucose unit since then.
    pub scissions: f64,
    /// Shares of the consumers that are left.
    pub consumers: [f64; 2],
    /// What bleached it last.
    pub last: Option<Oxidant>,
}

impl PulpNow {
    pub(super) fn fresh() -> Self {
        Self { colour: 1.0, scissions: 0.0, consumers: [1.0, 1.0], last: None }
    }

    /// After a bath of this oxidant that ended at `point`.
    pub(super) fn after(self, oxidant: Oxidant, point: &BathPoint) -> Self {
        let [fast, slow] = self.consumers;
        Self {
            colour: self.colour * point.colour,
            scissions: self.scissions + point.scissions,
            consumers: [fast * point.consumers[0], slow * point.consumers[1]],
            last: Some(oxidant),
        }
    }
}

/// Dimensions of a draw: of the pulp, of each bath's inputs, of the parameters. The pulp's are
/// the same in all baths, so that a pulp that is hard to bleach is hard in both.
pub(super) const LIGHTNESS: usize = 0;
const FLOOR_SHARED: usize = 1;
const CONSUMERS_SHARED: usize = 2;
const POLYMERIZATION: usize = 3;
const INPUTS: usize = 4;
const INPUTS_OF_BATH: usize = 4;
const HYPOCHLORITE: usize = 16;
const PEROXIDE: usize = 48;

/// Chain length of the pulp before its first bath.
pub(super) fn start_polymerization(draw: &Draw) -> f64 {
    let rows = priors(Oxidant::Hypochlorite);
    let row = rows.iter().find(|prior| prior.parameter == Parameter::StartPolymerization);
    row.map_or(1000.0, |prior| prior.quantile(draw.point(POLYMERIZATION)))
}

/// The course of the `nth` bath of a way; `None` where it cannot be simulated.
pub(super) fn course(
    bath: &PlannedBath,
    model: &BathModel,
    draw: &Draw,
    nth: usize,
    pulp: &PulpNow,
) -> Option<Vec<BathPoint>> {
    let request = &bath.forecast;
    let first = INPUTS + INPUTS_OF_BATH * nth;
    let consistency = draw.estimate(first + 3, request.consistency);
    let factors = LossFactors::assumed(BathCover::Lid);
    let inputs = BathInputs {
        strength: draw.estimate(first, request.strength),
        ph: draw.estimate(first + 1, request.ph),
        celsius: draw.estimate(first + 2, request.celsius),
        fibre: consistency / (1.0 - consistency),
        lightness: request.lightness.value,
        drying: 1.0,
        evaporation: factors.evaporation.value,
        dry_loss: factors.dry.value,
        hue: request.hue.map(|hue| hue.value),
    };
    let values = values(&request.parameters, draw, pulp);
    let (_, course) = simulate_request(request, model, &inputs, &values, &request.minutes)?;
    Some(course)
}

/// The parameters for pulp that was bleached before. A bath's colour counts from its own start,
/// where it is `c` of the first: the equation `dc/dt = -k (c - f)²` is then that of a rate
/// constant `k c` and a floor `f / c`.
///
/// How far the floor of one oxidant is that of the other is not known: in a draw anywhere from
/// its own floor under what is left (they remove different colour) to its floor under the first
/// colour (they remove the same). So too for what consumed the first oxidant (own estimates, as
/// wide as can be).
fn values(parameters: &ParameterDistribution, draw: &Draw, pulp: &PulpNow) -> ParameterValues {
    let oxidant = parameters.oxidant();
    let first = if oxidant.is_peroxide() { PEROXIDE } else { HYPOCHLORITE };
    let values = parameters.drawn(|row| draw.point(first + row));
    let Some(last) = pulp.last else { return values };
    let same = last.may_meet(oxidant);
    let shared = |dimension| if same { 1.0 } else { draw.point(dimension) };
    let floor = values.get(Parameter::ColourFloor) / pulp.colour.powf(shared(FLOOR_SHARED));
    let [fast, slow] = pulp.consumers.map(|left| left.powf(shared(CONSUMERS_SHARED)));
    values
        .with(Parameter::ColourRate, values.get(Parameter::ColourRate) * pulp.colour)
        .with(Parameter::ColourFloor, floor.min(1.0))
        .with(Parameter::FastConsumers, values.get(Parameter::FastConsumers) * fast)
        .with(Parameter::SlowConsumers, values.get(Parameter::SlowConsumers) * slow)
}
