//! A simulated studio: hidden parameters, a true rate law, and the baths that it makes.

use super::other_law::{OtherLaw, other_course};
use super::random::Random;
use bleachfield_core::bath::kinetics::{
    BathModel, BathStart, CoolingTable, Parameter, ParameterDistribution, ParameterValues, priors,
};
use bleachfield_core::bath::{
    BathCover, CoolingBath, HeatVessel, LossFactors, RoomAir, VesselMaterial, VesselShape,
    heat_capacity,
};
use bleachfield_core::chemistry::Oxidant;
use bleachfield_core::chemistry::equilibrium::{ConstantsTable, Mix};
use bleachfield_core::chemistry::substance::{in_moles_per_litre, moles_per_litre};
use bleachfield_core::forecast::ForecastRequest;
use bleachfield_core::quantity::{Basis, Estimate, grams, millilitres};

/// Minutes that every simulated bath lasts.
pub const LONGEST: usize = 180;

/// Which law the truth follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Law {
    /// That of the model, with other parameters.
    Same,
    /// Other orders, a third consumer, metals that the pulp sets free, damage that levels off.
    Other,
}

/// A studio with one fibre.
pub struct Studio {
    pub oxidant: Oxidant,
    pub law: Law,
    hidden: ParameterValues,
    other: OtherLaw,
    /// Dried over wet K/S of its fibre.
    drying: f64,
}

/// The inputs of a bath as they really are.
#[derive(Clone, Copy, Debug)]
pub struct TrueInputs {
    pub strength: f64,
    pub ph: f64,
    pub celsius: f64,
    /// kg of fibre for each kg of liquor.
    pub fibre: f64,
    pub lightness: f64,
    pub drying: f64,
    pub loss: LossFactors<f64>,
}

/// A bath at one minute.
#[derive(Clone, Copy, Debug, Default)]
pub struct TruePoint {
    pub oxidant: f64,
    pub ph: f64,
    /// pH of a sample cooled to 25 °C.
    pub cooled_ph: f64,
    pub celsius: f64,
    /// K/S over that at the start.
    pub colour: f64,
    /// Share of the chain length lost.
    pub chain_loss: f64,
}

/// A bath: as the person knows it, and as it is at every minute.
pub struct Bath {
    pub request: ForecastRequest,
    pub inputs: TrueInputs,
    pub course: Vec<TruePoint>,
    values: ParameterValues,
}

impl Studio {
    /// Parameters from anywhere in the literature's ranges.
    pub fn new(seed: u64, law: Law) -> Self {
        let mut random = Random::new(seed);
        let oxidant =
            if random.chance(0.6) { Oxidant::Hypochlorite } else { Oxidant::Percarbonate };
        let points: Vec<f64> = priors(oxidant).iter().map(|_| random.between(0.03, 0.97)).collect();
        let hidden = ParameterValues::drawn(oxidant, |row| points[row]);
        let other = OtherLaw::drawn(&mut random);
        Self { oxidant, law, hidden, other, drying: random.between(0.42, 0.58) }
    }

    /// The next bath, after `seen` others. How much lighter the pulp dries is assumed at first,
    /// and then known from own pairs of wet and dried swatches, ever better.
    pub fn bath(&self, seen: usize, random: &mut Random) -> Option<Bath> {
        let mut request = request(self.oxidant, random)?;
        let part = if seen == 0 { 0.2 } else { (0.12 / (seen as f64).sqrt()).max(0.04) };
        let middle =
            if seen == 0 { 0.5 } else { self.drying / random.between(1.0 - part, 1.0 + part) };
        request.drying = Some(Estimate::within(middle, part, Basis::Measured));
        let within = |estimate: Estimate<f64>, random: &mut Random| {
            random.between(estimate.low, estimate.high)
        };
        let consistency = within(request.consistency, random);
        let factors = request.cooling?.factors;
        let inputs = TrueInputs {
            strength: within(request.strength, random),
            ph: within(request.ph, random),
            celsius: within(request.celsius, random),
            fibre: consistency / (1.0 - consistency),
            lightness: within(request.lightness, random),
            drying: self.drying,
            loss: LossFactors {
                evaporation: within(factors.evaporation, random),
                dry: within(factors.dry, random),
            },
        };
        let values = self.of_batch(random);
        let course = self.course(&request, &inputs, &values)?;
        Some(Bath { request, inputs, course, values })
    }

    fn course(
        &self,
        request: &ForecastRequest,
        inputs: &TrueInputs,
        values: &ParameterValues,
    ) -> Option<Vec<TruePoint>> {
        match self.law {
            Law::Same => same_course(request, inputs, values),
            Law::Other => other_course(request, inputs, values, &self.other),
        }
    }

    /// At each minute the chance that more than `limit` of the chain length is lost, for somebody
    /// who knows all of the bath but what no reading tells: how fast this fibre is damaged.
    pub fn damage_chances(&self, bath: &Bath, limit: f64, random: &mut Random) -> Vec<f64> {
        use Parameter::*;
        const DRAWS: usize = 80;
        let unread = [
            ScissionRate,
            ScissionEnergy,
            ScissionAcidRatio,
            ScissionAcidEnergy,
            ScissionTogetherRatio,
            StartPolymerization,
        ];
        let rows = priors(self.oxidant);
        let mut past = vec![0.0; LONGEST + 1];
        let mut drawn = 0.0;
        for _ in 0..DRAWS {
            let points: Vec<f64> = rows.iter().map(|_| random.share()).collect();
            let other = ParameterValues::drawn(self.oxidant, |row| points[row]);
            let known =
                unread.into_iter().filter(|unread| rows.iter().any(|row| row.parameter == *unread));
            let values = known.fold(bath.values, |values, of| values.with(of, other.get(of)));
            let Some(course) = self.course(&bath.request, &bath.inputs, &values) else { continue };
            drawn += 1.0;
            for (past, at) in past.iter_mut().zip(&course) {
                *past += f64::from(u8::from(at.chain_loss > limit));
            }
        }
        past.into_iter().map(|past| past / drawn).collect()
    }

    /// Batches of one fibre differ: cook, rinse and water are never quite the same.
    fn of_batch(&self, random: &mut Random) -> ParameterValues {
        use Parameter::*;
        let spread = [
            (FastConsumers, 0.15),
            (SlowConsumers, 0.15),
            (FastRate, 0.1),
            (ColourRate, 0.12),
            (ColourFloor, 0.1),
            (AcidYield, 0.08),
            (ScissionRate, 0.15),
            (MetalLoss, 0.4),
            (StartPolymerization, 0.1),
        ];
        spread.into_iter().fold(self.hidden, |values, (parameter, deviation)| {
            let factor = (deviation * normal(random)).exp();
            values.with(parameter, values.get(parameter) * factor)
        })
    }
}

/// A bath as a person knows it who tested bottle and pulp.
fn request(oxidant: Oxidant, random: &mut Random) -> Option<ForecastRequest> {
    let measured = |value: f64, part: f64| Estimate::within(value, part, Basis::Measured);
    let read = |value: f64, off: f64| Estimate::plus_minus(value, off, Basis::Measured);
    let consistency = random.between(0.035, 0.07);
    let liquor = (1.0 - consistency) / consistency;
    let chlorine = oxidant == Oxidant::Hypochlorite;
    // Available chlorine, or H2O2, on fibre; mol for each kg.
    let charge = if chlorine {
        random.between(0.015, 0.045) / 0.0709
    } else {
        random.between(0.02, 0.05) / 0.034
    };
    let celsius = if chlorine { random.between(32.0, 40.0) } else { random.between(45.0, 58.0) };
    let ph = if chlorine { random.between(10.0, 11.0) } else { random.between(10.1, 10.8) };
    let soda = if chlorine { random.between(0.003, 0.012) } else { 0.003 };
    let litres = random.between(4.0, 15.0);
    Some(ForecastRequest {
        oxidant,
        mix: Mix::new(celsius).ok()?.with_baking_soda(moles_per_litre(soda)),
        strength: measured(charge / liquor, 0.1),
        undissolved: 0.0,
        ph: read(ph, 0.25),
        celsius: read(celsius, 1.0),
        consistency: measured(consistency, 0.08),
        lightness: read(random.between(58.0, 74.0), 1.5),
        hue: [read(3.0, 1.0), read(18.0, 2.0)],
        drying: None,
        cooling: Some(bucket(litres)),
        events: Vec::new(),
        parameters: ParameterDistribution::literature(oxidant),
        minutes: (0..=LONGEST).step_by(10).map(|minute| minute as f64).collect(),
    })
}

fn bucket(litres: f64) -> CoolingBath {
    CoolingBath {
        capacity: heat_capacity(grams(50.0 * litres), grams(950.0 * litres)),
        vessel: HeatVessel::preset(
            millilitres(1000.0 * litres),
            VesselShape::Bucket,
            VesselMaterial::Plastic,
            BathCover::Lid,
        ),
        air: RoomAir::still(19.0),
        factors: LossFactors::assumed(BathCover::Lid),
    }
}

/// The mix of a bath with `left` of its oxidant, mol/L, and the strong base that it began with.
pub fn mix_with(
    request: &ForecastRequest,
    inputs: &TrueInputs,
    left: f64,
    base: f64,
) -> Option<Mix> {
    let amount = moles_per_litre;
    let mix = request.mix;
    let mix = match request.oxidant {
        // Bleach has as much salt as NaOCl, and what is spent becomes salt.
        Oxidant::Hypochlorite => {
            mix.with_hypochlorite(amount(left)).with_salt(amount(2.0 * inputs.strength - left))
        }
        Oxidant::Percarbonate => {
            mix.with_soda_ash(amount(inputs.strength / 1.5)).with_peroxide(amount(left))
        }
        Oxidant::Peroxide => mix.with_peroxide(amount(left)),
    };
    Some(mix.with_strong_acid(amount(-base)))
}

/// Strong base that gives a bath its pH, mol/L.
pub fn base(request: &ForecastRequest, inputs: &TrueInputs) -> Option<f64> {
    let mix = mix_with(request, inputs, inputs.strength, 0.0)?;
    Some(in_moles_per_litre(mix.hidden_base(inputs.ph).ok()?))
}

fn same_course(
    request: &ForecastRequest,
    inputs: &TrueInputs,
    values: &ParameterValues,
) -> Option<Vec<TruePoint>> {
    let mix = mix_with(request, inputs, inputs.strength, base(request, inputs)?)?;
    let mix = mix.brought_to(inputs.celsius).ok()?;
    let start = BathStart {
        oxidant: request.oxidant,
        mix,
        undissolved: 0.0,
        powder_base: 0.0,
        fibre: inputs.fibre,
        celsius: inputs.celsius,
    };
    let cooling = CoolingTable::new(request.cooling.as_ref()?);
    let model = BathModel::new(ConstantsTable::new(), cooling);
    let minutes: Vec<f64> = (0..=LONGEST).map(|minute| minute as f64).collect();
    let course = model.simulate(&start, values, inputs.loss, &[], &minutes).ok()?;
    let chain = values.get(Parameter::StartPolymerization);
    let point = |at: &bleachfield_core::bath::kinetics::BathPoint| TruePoint {
        oxidant: at.oxidant,
        ph: at.ph,
        cooled_ph: at.cooled_ph,
        celsius: at.celsius,
        colour: at.colour,
        chain_loss: chain_loss(chain, at.scissions),
    };
    Some(course.iter().map(point).collect())
}

/// Ekenstam.
pub fn chain_loss(start: f64, scissions: f64) -> f64 {
    1.0 - 1.0 / (1.0 + start * scissions)
}

/// Standard normal, by Box and Muller.
pub fn normal(random: &mut Random) -> f64 {
    let radius = (-2.0 * (1.0 - random.share()).ln()).sqrt();
    radius * (std::f64::consts::TAU * random.share()).cos()
}
