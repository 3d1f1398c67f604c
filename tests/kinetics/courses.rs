//! Writes random baths with their parameters and our courses, for `against_scipy.py`.
//!
//! JSON on standard output: the SIT coefficients, the equilibrium constants at every half
//! degree, the baths, and the seconds that one bath takes here. Amounts are mol per kilogram of
//! water.

mod random;

use bleachfield_core::bath::kinetics::{
    BathModel, BathPoint, BathStart, CoolingTable, ParameterValues, priors,
};
use bleachfield_core::bath::{
    BathCover, CoolingBath, HeatVessel, LossFactors, RoomAir, VesselMaterial, VesselShape,
    heat_capacity,
};
use bleachfield_core::chemistry::Oxidant;
use bleachfield_core::chemistry::equilibrium::{Constants, ConstantsTable, Mix, interaction};
use bleachfield_core::chemistry::substance::{in_moles_per_litre, moles_per_litre};
use bleachfield_core::quantity::{grams, millilitres};
use random::Random;
use serde_json::{Map, Value, json};
use std::hint::black_box;
use std::io::{self, Write};
use std::time::Instant;

const BATHS: usize = 200;
const MINUTES: [f64; 9] = [0.0, 2.0, 5.0, 10.0, 20.0, 40.0, 80.0, 140.0, 240.0];

struct Bath {
    start: BathStart,
    values: ParameterValues,
    model: BathModel,
    cooling: Option<CoolingBath>,
    soda: f64,
    oxidant: f64,
    base: f64,
    course: Vec<BathPoint>,
}

fn main() -> io::Result<()> {
    let mut random = Random::new(20_261_127);
    let baths: Vec<Bath> =
        (0..BATHS).map(|_| bath(&mut random)).collect::<Option<_>>().ok_or_else(complaint)?;
    let report = json!({
        "minutes": MINUTES,
        "constants": constants()?,
        "epsilon": {
            "hydroxide": interaction::HYDROXIDE,
            "bicarbonate": interaction::BICARBONATE,
            "carbonate_per_strength": interaction::CARBONATE_PER_STRENGTH,
            "hypochlorite": interaction::HYPOCHLORITE,
            "chloride": interaction::CHLORIDE,
            "perhydroxyl": interaction::PERHYDROXYL,
            "acetate": interaction::ACETATE,
            "hydrogen_chloride": interaction::HYDROGEN_CHLORIDE,
            "carbon_dioxide": interaction::CARBON_DIOXIDE,
        },
        "baths": baths.iter().map(exported).collect::<Vec<Value>>(),
        "seconds_per_bath": seconds_per_bath(&baths),
    });
    writeln!(io::stdout(), "{report}")
}

fn complaint() -> io::Error {
    io::Error::other("a bath could not be simulated")
}

fn bath(random: &mut Random) -> Option<Bath> {
    let oxidant = [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide]
        [(3.0 * random.share()) as usize];
    let chlorine = oxidant == Oxidant::Hypochlorite;
    let celsius = if chlorine { random.between(15.0, 45.0) } else { random.between(30.0, 70.0) };
    let ph = if chlorine { random.between(8.5, 11.5) } else { random.between(9.5, 11.5) };
    let (soda, strength) = (random.between(0.001, 0.02), random.between(0.003, 0.08));
    let powder = if oxidant == Oxidant::Percarbonate { strength / 1.5 } else { 0.0 };
    let water = Mix::new(celsius).ok()?.with_baking_soda(moles_per_litre(soda));
    let full = match oxidant {
        Oxidant::Hypochlorite => water.with_bleach(moles_per_litre(strength)),
        Oxidant::Peroxide => water.with_peroxide(moles_per_litre(strength)),
        Oxidant::Percarbonate => water.with_percarbonate(moles_per_litre(powder)),
    };
    let base = full.hidden_base(ph).ok()?;
    // Powder brings its own; the liquor begins with soda alone.
    let mix = if powder > 0.0 { water } else { full.with_strong_acid(-base) };
    let base = in_moles_per_litre(base);
    let start = BathStart {
        oxidant,
        mix,
        undissolved: powder,
        powder_base: if powder > 0.0 { base / powder } else { 0.0 },
        fibre: random.between(0.01, 0.1),
        celsius,
    };
    let points: Vec<f64> = priors(oxidant).iter().map(|_| random.share()).collect();
    let values = ParameterValues::drawn(oxidant, |row| points[row]);
    let cooling = random.chance(0.5).then(|| vessel(random.between(2.0, 20.0)));
    let table = cooling.as_ref().map_or_else(CoolingTable::none, CoolingTable::new);
    let model = BathModel::new(ConstantsTable::new(), table);
    let course = model.simulate(&start, &values, LossFactors::ONE, &[], &MINUTES).ok()?;
    let soluble = if powder > 0.0 { 0.0 } else { strength };
    Some(Bath { start, values, model, cooling, soda, oxidant: soluble, base, course })
}

fn vessel(litres: f64) -> CoolingBath {
    CoolingBath {
        capacity: heat_capacity(grams(50.0 * litres), grams(950.0 * litres)),
        vessel: HeatVessel::preset(
            millilitres(1000.0 * litres),
            VesselShape::Bucket,
            VesselMaterial::Steel,
            BathCover::Open,
        ),
        air: RoomAir::still(18.0),
        factors: LossFactors::assumed(BathCover::Open),
    }
}

fn exported(bath: &Bath) -> Value {
    let kilograms = bath.start.mix.constants().kilograms_per_litre;
    let parameters: Map<String, Value> = priors(bath.start.oxidant)
        .iter()
        .filter_map(|prior| {
            let name = serde_json::to_value(prior.parameter).ok()?;
            Some((name.as_str()?.to_owned(), json!(bath.values.get(prior.parameter))))
        })
        .collect();
    // K/s at every degree from 0 to 90 °C.
    let cooling = bath.cooling.map(|cooling| {
        let rate = |celsius: i32| {
            cooling.vessel.loss(f64::from(celsius), &cooling.air).total() / cooling.capacity
        };
        (0..=90).map(rate).collect::<Vec<f64>>()
    });
    let course = bath.course.iter().map(|at| {
        json!({
            "oxidant": at.oxidant / kilograms, "ph": at.ph, "celsius": at.celsius,
            "colour": at.colour, "scissions": at.scissions,
        })
    });
    json!({
        "kind": bath.start.oxidant,
        "celsius": bath.start.celsius,
        "fibre": bath.start.fibre,
        "baking_soda": bath.soda / kilograms,
        "oxidant": bath.oxidant / kilograms,
        "powder": bath.start.undissolved / kilograms,
        // With the liquor, or for each mol of powder.
        "base": if bath.start.undissolved > 0.0 { bath.start.powder_base } else { bath.base / kilograms },
        "parameters": parameters,
        "cooling": cooling,
        "course": course.collect::<Vec<Value>>(),
    })
}

fn constants() -> io::Result<Vec<Value>> {
    let at = |row: i32| {
        let constants = Constants::at(5.0 + 0.5 * f64::from(row)).map_err(io::Error::other)?;
        Ok(json!({
            "celsius": constants.celsius,
            "water": constants.water,
            "carbonic_1": constants.carbonic_1,
            "carbonic_2": constants.carbonic_2,
            "hypochlorous": constants.hypochlorous,
            "peroxide": constants.peroxide,
            "acetic": constants.acetic,
            "debye_slope": constants.debye_slope,
        }))
    };
    (0..=150).map(at).collect()
}

fn seconds_per_bath(baths: &[Bath]) -> f64 {
    const ROUNDS: usize = 5;
    let began = Instant::now();
    for _ in 0..ROUNDS {
        for bath in baths {
            let simulated =
                bath.model.simulate(&bath.start, &bath.values, LossFactors::ONE, &[], &MINUTES);
            let _ = black_box(simulated);
        }
    }
    began.elapsed().as_secs_f64() / (ROUNDS * baths.len()) as f64
}
