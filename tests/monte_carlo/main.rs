//! Stated ranges of plans against random draws of all their inputs.
//!
//! Each input is drawn within its stated range: as likely below its value as above it, and
//! evenly on either side. The bath that follows is worked out by
//! formulae of its own: only the solver and the stated assumptions are the core's. A result's
//! range must hold 90 to 99 % of 2000 draws, for every result of every plan.
//!
//!     cargo test -p bleachfield-tests --test monte_carlo -- --nocapture   # prints the table

#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod bath;
mod plans;

use bath::{Drawn, Outcome};
use bleachfield_core::{
    bath::{Dose, Plan, plan},
    quantity::{
        ComputedEstimate, Estimate, in_grams, in_grams_per_litre, in_millilitres, in_share,
    },
};
use rand_xoshiro::{
    SplitMix64,
    rand_core::{Rng, SeedableRng},
};

const DRAWS: usize = 2000;

/// Random numbers, the same each time.
struct Random(SplitMix64);

impl Random {
    /// As likely below `value` as above it, and evenly on either side.
    fn within(&mut self, Estimate { value, low, high, .. }: Estimate<f64>) -> f64 {
        let end = if self.share() < 0.5 { low } else { high };
        value + (end - value) * self.share()
    }

    /// Evenly from 0 up to 1.
    fn share(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

#[test]
fn stated_ranges_hold_90_to_99_percent() {
    let mut random = Random(SplitMix64::seed_from_u64(12));
    let mut failed = Vec::new();
    println!("{:44}{}", "plan", Outcome::NAMES.map(|name| format!("{name:>12}")).concat());
    for (name, request) in plans::all() {
        let made = plan(&request).unwrap_or_else(|error| panic!("{name}: {error}"));
        let stated = stated(&made);
        let mut inside = [0; Outcome::COUNT];
        for _ in 0..DRAWS {
            let drawn = Drawn::new(&request, &made, &mut random);
            let Outcome(found) = drawn.outcome(&request, &made);
            for (i, found) in found.into_iter().enumerate() {
                inside[i] += usize::from((stated[i].low..=stated[i].high).contains(&found));
            }
        }
        let shares = inside.map(|inside| inside as f64 / DRAWS as f64);
        println!("{name:44}{}", shares.map(|share| format!("{:11.1}%", 100.0 * share)).concat());
        for (i, share) in shares.into_iter().enumerate() {
            if !(0.90..=0.99).contains(&share) {
                failed.push(format!("{name}, {}: {share:.3} ({:?})", Outcome::NAMES[i], stated[i]));
            }
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

/// The stated ranges, in the order of [`Outcome::NAMES`].
fn stated(plan: &Plan) -> [ComputedEstimate<f64>; Outcome::COUNT] {
    let ph = plan.ph.unwrap();
    [
        match plan.dose {
            Dose::Bottle(volume) => volume.map(in_millilitres),
            Dose::Powder(mass) => mass.map(in_grams),
        },
        plan.water_volume.map(in_millilitres),
        plan.charge.map(in_share),
        plan.strength.map(in_grams_per_litre),
        plan.consistency.map(in_share),
        ph.ph,
        ph.ph_at_25,
    ]
}
