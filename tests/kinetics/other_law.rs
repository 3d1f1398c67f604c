//! Another rate law than the model's, on purpose: to see what learning does when the model is
//! wrong. Invented; no source.
//!
//! Against the model: consumption of an order below 1 in the oxidant; a third consumer between
//! the fast and the slow one; colour lost by first order above a floor (the model: second), and
//! by another order in the oxidant; metals that the pulp sets free as its consumers are spent;
//! acid that the slow consumers form more of; damage that slows down as the open parts of the
//! cellulose are used up. Only the equilibrium of the liquor is the core's.

use super::random::Random;
use super::studio::{LONGEST, TrueInputs, TruePoint, base, chain_loss, mix_with};
use bleachfield_core::bath::kinetics::{
    Parameter, ParameterValues, arrhenius, peroxide_decay_share, reference_celsius,
};
use bleachfield_core::chemistry::Oxidant;
use bleachfield_core::chemistry::equilibrium::Species;
use bleachfield_core::chemistry::substance::moles_per_litre;
use bleachfield_core::forecast::ForecastRequest;

/// What of the law differs between studios.
#[derive(Clone, Copy, Debug)]
pub struct OtherLaw {
    /// Order of consumption in the oxidant.
    order: f64,
    /// Order of the loss of colour in the oxidant.
    colour_order: f64,
    /// Third consumer, as a share of the slow one, and its rate as a share of the fast one's.
    middle: f64,
    middle_rate: f64,
    /// Metals set free, over those there at the start.
    metals: f64,
}

impl OtherLaw {
    pub fn drawn(random: &mut Random) -> Self {
        Self {
            order: random.between(0.6, 0.9),
            colour_order: random.between(0.7, 1.3),
            middle: random.between(0.2, 0.6),
            middle_rate: random.between(0.25, 0.5),
            metals: random.between(1.0, 6.0),
        }
    }
}

/// Oxidant in which both laws have the same rate, mol/L: usual in the first minutes.
const USUAL: f64 = 0.01;
/// Steps in a minute.
const STEPS: usize = 6;

#[derive(Clone, Copy)]
struct State {
    oxidant: f64,
    pools: [f64; 3],
    colour: f64,
    acid: f64,
    scissions: f64,
    celsius: f64,
}

/// Forms of the oxidant, mol/L.
#[derive(Clone, Copy)]
struct Forms {
    ph: f64,
    cooled_ph: f64,
    acid: f64,
    base: f64,
}

pub fn other_course(
    request: &ForecastRequest,
    inputs: &TrueInputs,
    values: &ParameterValues,
    law: &OtherLaw,
) -> Option<Vec<TruePoint>> {
    let base = base(request, inputs)?;
    let cooling = request.cooling?;
    let mut state = State {
        oxidant: inputs.strength,
        pools: [1.0; 3],
        colour: 1.0,
        acid: 0.0,
        scissions: 0.0,
        celsius: inputs.celsius,
    };
    let chain = values.get(Parameter::StartPolymerization);
    let mut points = Vec::with_capacity(LONGEST + 1);
    for _ in 0..=LONGEST {
        let forms = forms(request, inputs, base, &state)?;
        points.push(TruePoint {
            oxidant: state.oxidant,
            ph: forms.ph,
            cooled_ph: forms.cooled_ph,
            celsius: state.celsius,
            colour: state.colour,
            chain_loss: chain_loss(chain, state.scissions),
        });
        for _ in 0..STEPS {
            advance(&mut state, request.oxidant, &forms, inputs, values, law);
        }
        let watts = cooling.vessel.loss(state.celsius, &cooling.air).scaled(&inputs.loss);
        state.celsius -= 60.0 * watts / cooling.capacity;
    }
    Some(points)
}

fn forms(
    request: &ForecastRequest,
    inputs: &TrueInputs,
    base: f64,
    state: &State,
) -> Option<Forms> {
    let pair = if request.oxidant == Oxidant::Hypochlorite {
        [Species::HypochlorousAcid, Species::Hypochlorite]
    } else {
        [Species::HydrogenPeroxide, Species::Perhydroxyl]
    };
    let mix = mix_with(request, inputs, state.oxidant, base)?
        .with_strong_acid(moles_per_litre(state.acid))
        .brought_to(state.celsius)
        .ok()?;
    let solution = mix.solve().ok()?;
    let cooled_ph = mix.brought_to(25.0).ok()?.solve().ok()?.ph();
    let [acid, base] = pair.map(|species| solution.moles_per_litre(species).max(0.0));
    Some(Forms { ph: solution.ph(), cooled_ph, acid, base })
}

/// One explicit step, with the forms of the oxidant in the shares of the minute's start.
fn advance(
    state: &mut State,
    oxidant: Oxidant,
    forms: &Forms,
    inputs: &TrueInputs,
    values: &ParameterValues,
    law: &OtherLaw,
) {
    use Parameter::*;
    let get = |parameter| values.get(parameter);
    let seconds = 60.0 / STEPS as f64;
    let reference = reference_celsius(oxidant);
    let warmer = |energy| arrhenius(1000.0 * get(energy), reference, state.celsius);
    let all = (forms.acid + forms.base).max(1e-12);
    let left = state.oxidant.max(0.0);
    let (acid, base) = (left * forms.acid / all, left * forms.base / all);
    let chlorine = oxidant == Oxidant::Hypochlorite;
    let effective = if chlorine { base + get(AcidSpeedup) * acid } else { base };
    let by_order = |order: f64| USUAL * (effective / USUAL).max(0.0).powf(order);
    let bleach = warmer(BleachEnergy);
    let fast = get(FastRate) * bleach * by_order(law.order);
    let rates = [fast, fast * law.middle_rate, fast * get(SlowRatio)];
    let sizes = [get(FastConsumers), law.middle * get(SlowConsumers), get(SlowConsumers)];
    let colour_rate = if chlorine {
        get(ColourRate) * by_order(law.colour_order)
    } else {
        get(ColourRate) * USUAL.sqrt() * (effective / USUAL).max(0.0).powf(0.5 * law.colour_order)
    };
    let yields = [0.7, 0.9, 1.3].map(|factor| factor * get(AcidYield));
    let mut spent = 0.0;
    for nth in 0..3 {
        let used = state.pools[nth] * (1.0 - (-rates[nth] * seconds).exp());
        state.pools[nth] -= used;
        spent += inputs.fibre * sizes[nth] * used;
        state.acid += yields[nth] * inputs.fibre * sizes[nth] * used;
    }
    let freed = 1.0 + law.metals * (1.0 - state.pools[0]);
    let share = if chlorine { 1.0 } else { peroxide_decay_share(acid, base) };
    spent += seconds * get(MetalLoss) * warmer(MetalEnergy) * freed * share * left;
    let above = (state.colour - get(ColourFloor)).max(0.0);
    state.colour -= above * (1.0 - (-0.6 * colour_rate * bleach * seconds).exp());
    let attack = if chlorine {
        let by_acid = arrhenius(1000.0 * get(ScissionAcidEnergy), reference, state.celsius);
        let by_acid = by_acid * get(ScissionAcidRatio);
        warmer(ScissionEnergy) * base
            + by_acid * acid * (1.0 + get(ScissionTogetherRatio) * base / left.max(1e-12))
    } else {
        warmer(ScissionEnergy) * left
    };
    let open = 1.0 / (1.0 + 200.0 * state.scissions);
    state.scissions += seconds * get(ScissionRate) * attack * open;
    state.oxidant = (left - spent).max(0.0);
}
