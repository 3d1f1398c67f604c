//! Writes random baths, with our constants and our answers, for `tests/phreeqc/compare.py`.
//!
//! JSON on standard output: for each of a set of temperatures the constants in use (so that
//! the other program cannot drift from them) and the baths, in moles per kilogram of water,
//! with our pH and ionic strength; and how many baths we solve in a second.

use bleachfield_core::chemistry::{
    equilibrium::{Air, Constants, DAVIES_GOOD_TO, Mix},
    substance::moles_per_litre,
};
use serde_json::{Value, json};
use std::{
    hint::black_box,
    io::{self, Write},
    time::Instant,
};

const TEMPERATURES: usize = 16;
const BATHS_EACH: usize = 50;
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
    let mut random = SplitMix(20_240_607);
    let mut groups = Vec::new();
    let mut baths = Vec::new();
    for index in 0..TEMPERATURES {
        let celsius = 5.0 + 75.0 * index as f64 / (TEMPERATURES - 1) as f64;
        let constants = Constants::at(celsius).map_err(complaint)?;
        let mut members = Vec::new();
        while members.len() < BATHS_EACH {
            let (mix, amounts) = bath(&mut random, constants)?;
            let Ok(solution) = mix.solve() else { continue };
            if solution.ionic_strength() > DAVIES_GOOD_TO {
                continue;
            }
            baths.push(mix);
            members.push(json!({
                "amounts": amounts,
                "ph": solution.ph(),
                "ionic_strength": solution.ionic_strength(),
            }));
        }
        groups.push(json!({"constants": exported(&constants), "baths": members}));
    }
    let report = json!({"groups": groups, "solves_per_second": rate(&baths)});
    writeln!(io::stdout(), "{report}")
}

/// A bath of any of the parts, each from a trace to a strong dose, one oxidant at most.
fn bath(random: &mut SplitMix, constants: Constants) -> io::Result<(Mix, Value)> {
    let mut amount = [0.0; PARTS.len()];
    for amount in &mut amount[..10] {
        if random.unit() < 0.5 {
            *amount = 10_f64.powf(-5.0 + 4.2 * random.unit());
        }
    }
    let oxidant = random.unit();
    if oxidant < 0.6 {
        amount[6] = 0.0
    } else {
        amount[0] = 0.0
    }
    amount[10] = -1.0;
    // Air above a closed-in carbonate would make the total meaningless, so either or.
    if random.unit() < 0.1 {
        amount[10] = 10_f64.powf(-4.0 + 2.0 * random.unit());
        amount[3..6].fill(0.0);
    }
    let molar = |index: usize| moles_per_litre(amount[index] * constants.kilograms_per_litre);
    let closed = Mix::at(constants)
        .with_hypochlorite(molar(0))
        .with_salt(molar(1))
        .with_lye(molar(2))
        .with_soda_ash(molar(3))
        .with_baking_soda(molar(4))
        .with_carbon_dioxide(molar(5))
        .with_peroxide(molar(6))
        .with_acetic_acid(molar(7))
        .with_citric_acid(molar(8))
        .with_sulfate(molar(9));
    let mix = if amount[10] > 0.0 {
        closed.under(Air::Open { carbon_dioxide_atm: amount[10] }).map_err(complaint)?
    } else {
        closed
    };
    let named: serde_json::Map<String, Value> = PARTS
        .iter()
        .zip(amount)
        .map(|(name, amount)| ((*name).to_owned(), amount.into()))
        .collect();
    Ok((mix, Value::Object(named)))
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

/// Steele, Lea & Flood (2014), "Fast splittable pseudorandom number generators".
struct SplitMix(u64);

impl SplitMix {
    /// A number from 0 up to 1.
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }
}
