//! Writes random baths, with our constants and our answers, for `tests/phreeqc/compare.py`.
//!
//! JSON on standard output: the SIT coefficients, and for each of a set of temperatures the
//! constants in use (so that both programs use the same) and the baths, in moles per kilogram
//! of water, with our pH and ionic strength; `pitzer`: mixtures of sodium salts for
//! `pitzer.dat`; and the number of baths solved in a second.

use bleachfield_core::chemistry::{
    equilibrium::{Air, Constants, Mix, STRONG_IN_SALTS, Solution, interaction, model_error},
    substance::moles_per_litre,
};
use rand_xoshiro::{
    SplitMix64,
    rand_core::{Rng, SeedableRng},
};
use serde_json::{Value, json};
use std::{
    hint::black_box,
    io::{self, Write},
    ops::RangeInclusive,
    time::Instant,
};

const TEMPERATURES: usize = 16;
const BATHS_EACH: usize = 50;
/// Ionic strengths, mol/kg, and number of the mixtures for Pitzer's model.
const PITZER_MIXTURES: [(RangeInclusive<f64>, usize); 2] =
    [(0.005..=0.1, 80), (0.1..=STRONG_IN_SALTS, 120)];
/// Random baths tried at each temperature; those of too high an ionic strength do not count.
const MOST_ATTEMPTS: usize = 20 * BATHS_EACH;
const PARTS: [&str; 11] = [
    "hypochlorite",
    "salt",
    "lye",
    "soda_ash",
    "baking_soda",
    "carbon_dioxide",
    "peroxide",
    "acetic_acid",
    "citric_acid",
    "sulfate",
    "open_pco2",
];

fn main() -> io::Result<()> {
    let mut random = SplitMix64::seed_from_u64(20_240_607);
    let mut groups = Vec::new();
    let mut baths = Vec::new();
    for index in 0..TEMPERATURES {
        let celsius = 5.0 + 75.0 * index as f64 / (TEMPERATURES - 1) as f64;
        let constants = Constants::at(celsius).map_err(complaint)?;
        let mut members = Vec::new();
        for _ in 0..MOST_ATTEMPTS {
            if members.len() == BATHS_EACH {
                break;
            }
            let (mix, amounts) = bath(&mut random, constants)?;
            if let Ok(solution) = mix.solve()
                && solution.ionic_strength() <= STRONG_IN_SALTS
            {
                baths.push(mix);
                members.push(solved(celsius, &amounts, &solution));
            }
        }
        if members.len() < BATHS_EACH {
            return Err(io::Error::other(format!("only {} baths at {celsius} °C", members.len())));
        }
        groups.push(json!({"constants": exported(&constants), "baths": members}));
    }
    let mut pitzer = Vec::new();
    for (ionic_strength, count) in &PITZER_MIXTURES {
        pitzer.extend(pitzer_mixtures(&mut random, ionic_strength, *count)?);
    }
    let report = json!({
        "epsilon": exported_interaction(),
        "groups": groups,
        "pitzer": pitzer,
        "solves_per_second": rate(&baths),
    });
    writeln!(io::stdout(), "{report}")
}

fn solved(celsius: f64, amounts: &Value, solution: &Solution) -> Value {
    json!({
        "celsius": celsius,
        "amounts": amounts,
        "ph": solution.ph(),
        "ionic_strength": solution.ionic_strength(),
        "model_error": model_error(solution.ionic_strength()),
    })
}

/// Alkaline mixtures of sodium hydroxide, carbonate, bicarbonate, chloride and sulfate, at 5
/// to 60 °C.
fn pitzer_mixtures(
    random: &mut SplitMix64,
    ionic_strength: &RangeInclusive<f64>,
    count: usize,
) -> io::Result<Vec<Value>> {
    /// Most of each in mol/kg, and its index in [`PARTS`].
    const MOST: [(usize, f64); 5] = [(1, 0.9), (2, 0.5), (3, 0.3), (4, 0.3), (9, 0.2)];
    let mut found = Vec::new();
    for _ in 0..100 * count {
        if found.len() == count {
            return Ok(found);
        }
        let celsius = 5.0 + 55.0 * unit(random);
        let mut amount = [0.0; PARTS.len()];
        for (part, most) in MOST {
            if unit(random) < 0.6 {
                amount[part] = most * 10_f64.powf(-2.5 * unit(random));
            }
        }
        let solution = mix(&amount, Constants::at(celsius).map_err(complaint)?).solve();
        if amount[2..5].iter().sum::<f64>() > 0.0
            && let Ok(solution) = solution
            && ionic_strength.contains(&solution.ionic_strength())
        {
            found.push(solved(celsius, &named(&amount), &solution));
        }
    }
    Err(io::Error::other(format!("only {} mixtures for Pitzer's model", found.len())))
}

/// A bath of random parts, each from 10 µmol/kg to 0.4 mol/kg, with one oxidant at most.
fn bath(random: &mut SplitMix64, constants: Constants) -> io::Result<(Mix, Value)> {
    let mut amount = [0.0; PARTS.len()];
    for amount in &mut amount[..10] {
        if unit(random) < 0.5 {
            *amount = 10_f64.powf(-5.0 + 4.6 * unit(random));
        }
    }
    let oxidant = unit(random);
    if oxidant < 0.6 {
        amount[6] = 0.0
    } else {
        amount[0] = 0.0
    }
    amount[10] = -1.0;
    // Either carbonate of a known total, or carbon dioxide in equilibrium with the air.
    if unit(random) < 0.1 {
        amount[10] = 10_f64.powf(-4.0 + 2.0 * unit(random));
        amount[3..6].fill(0.0);
    }
    let closed = mix(&amount, constants);
    let mix = if amount[10] > 0.0 {
        closed.under(Air::Open { carbon_dioxide_atm: amount[10] }).map_err(complaint)?
    } else {
        closed
    };
    Ok((mix, named(&amount)))
}

/// The bath of these [`PARTS`], mol/kg, closed to the air.
fn mix(amount: &[f64; PARTS.len()], constants: Constants) -> Mix {
    let molar = |index: usize| moles_per_litre(amount[index] * constants.kilograms_per_litre);
    Mix::at(constants)
        .with_hypochlorite(molar(0))
        .with_salt(molar(1))
        .with_lye(molar(2))
        .with_soda_ash(molar(3))
        .with_baking_soda(molar(4))
        .with_carbon_dioxide(molar(5))
        .with_peroxide(molar(6))
        .with_acetic_acid(molar(7))
        .with_citric_acid(molar(8))
        .with_sulfate(molar(9))
}

fn named(amount: &[f64; PARTS.len()]) -> Value {
    let named: serde_json::Map<String, Value> = PARTS
        .iter()
        .zip(amount)
        .map(|(name, amount)| ((*name).to_owned(), (*amount).into()))
        .collect();
    Value::Object(named)
}

fn exported_interaction() -> Value {
    json!({
        "hydroxide": interaction::HYDROXIDE,
        "bicarbonate": interaction::BICARBONATE,
        "carbonate": interaction::CARBONATE,
        "hypochlorite": interaction::HYPOCHLORITE,
        "chloride": interaction::CHLORIDE,
        "perhydroxyl": interaction::PERHYDROXYL,
        "acetate": interaction::ACETATE,
        "citrate": interaction::CITRATE,
        "hydrogen_chloride": interaction::HYDROGEN_CHLORIDE,
        "carbon_dioxide": interaction::CARBON_DIOXIDE,
    })
}

fn exported(constants: &Constants) -> Value {
    json!({
        "celsius": constants.celsius,
        "water": constants.water.log10(),
        "carbonic_1": constants.carbonic_1.log10(),
        "carbonic_2": constants.carbonic_2.log10(),
        "carbon_dioxide_henry": constants.carbon_dioxide_henry.log10(),
        "hypochlorous": constants.hypochlorous.log10(),
        "chlorine_hydrolysis": constants.chlorine_hydrolysis.log10(),
        "peroxide": constants.peroxide.log10(),
        "acetic": constants.acetic.log10(),
        "citric": constants.citric.map(f64::log10),
        "debye_slope": constants.debye_slope,
    })
}

fn rate(baths: &[Mix]) -> f64 {
    const ROUNDS: usize = 200;
    let start = Instant::now();
    for _ in 0..ROUNDS {
        for bath in baths {
            let _ = black_box(black_box(bath).solve());
        }
    }
    (ROUNDS * baths.len()) as f64 / start.elapsed().as_secs_f64()
}

fn complaint(error: impl std::fmt::Debug) -> io::Error {
    io::Error::other(format!("{error:?}"))
}

/// A number from 0 up to 1.
fn unit(random: &mut SplitMix64) -> f64 {
    (random.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
}
