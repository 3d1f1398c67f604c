//! The wash plan against simulations that know nothing of its formulae.
//!
//! One counts particles one by one; the other steps a bucket with two kinds of
//! water in it, free and inside the fibre, through time. Neither uses the
//! core's closed forms, and both are seeded, so that they say the same each time.
#![allow(clippy::unwrap_used)]

use bleachfield_core::{
    pulp::wash::{
        Efficiency, PulpLiquor, RinsePair, RinseTiming, SqueezedPulp, TapWater, Targets, Wash,
        efficiency::fit,
    },
    quantity::{Basis, Estimate, grams, grams_per_litre, in_grams_per_litre, millilitres, share},
};

/// A small generator of the xorshift family (Marsaglia 2003).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// `held` litres of water in 200 g of fibre at 2 g/L of salt, tap at `tap` g/L.
fn wash(held: f64, tap: f64, efficiency: Efficiency) -> Wash {
    let dry = 0.2;
    Wash {
        pulp: SqueezedPulp {
            wet_mass: Estimate::exact(grams(1000.0 * (dry + held)), Basis::Measured),
            dryness: Estimate::exact(share(dry / (dry + held)), Basis::Measured),
        },
        liquor: PulpLiquor {
            salt: Some(Estimate::exact(grams_per_litre(2.0), Basis::Measured)),
            ..PulpLiquor::default()
        },
        targets: Targets::default(),
        tap: TapWater { salt: Some(grams_per_litre(tap)), ..TapWater::default() },
        efficiency,
        timing: RinseTiming::default(),
    }
}

fn planned(wash: &Wash, rinses: u32, litres: f64) -> f64 {
    let left = wash.after(rinses, millilitres(1000.0 * litres)).unwrap();
    in_grams_per_litre(left.salt.unwrap().value)
}

#[test]
fn particles_drawn_one_by_one_agree_with_ideal_mixing() {
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    for (held, litres, rinses) in [(0.8, 5.0, 1), (0.8, 2.0, 3), (0.9, 2.0, 2), (0.3, 0.5, 4)] {
        let particles = 400_000;
        let mut stayed = 0;
        for _ in 0..particles {
            // A particle stays if, each time, it happens to be in the water that
            // the fibre keeps.
            if (0..rinses).all(|_| dice.roll() * (held + litres) < held) {
                stayed += 1;
            }
        }
        let seen = f64::from(stayed) / f64::from(particles);
        let ours = planned(&wash(held, 0.0, Efficiency::ideal()), rinses, litres) / 2.0;
        let spread = (ours * (1.0 - ours) / f64::from(particles)).sqrt();
        assert!((seen - ours).abs() < 4.5 * spread, "{seen} against {ours} ± {spread}");
    }
}

/// Free water and water inside the fibre, exchanging by a first-order law.
struct Bucket {
    free: f64,
    inside: f64,
    c_free: f64,
    c_inside: f64,
}

impl Bucket {
    const INSIDE_SHARE: f64 = 0.4;

    fn new(held: f64, strength: f64) -> Self {
        let inside = Self::INSIDE_SHARE * held;
        Self { free: held - inside, inside, c_free: strength, c_inside: strength }
    }

    /// Pour in, soak for `minutes`, squeeze back to what was held.
    fn rinse(&mut self, litres: f64, tap: f64, minutes: f64, half_time: f64) {
        let kept = self.free;
        self.c_free = (self.c_free * self.free + tap * litres) / (self.free + litres);
        self.free += litres;
        // Explicit Euler, a hundredth of a minute at a time.
        let rate = std::f64::consts::LN_2 / half_time * self.inside;
        for _ in 0..(minutes * 100.0) as u32 {
            let crossing = 0.01 * rate * (self.c_inside - self.c_free);
            self.c_inside -= crossing / self.inside;
            self.c_free += crossing / self.free;
        }
        self.free = kept;
    }

    /// What a strip in the squeezed-out liquor sees.
    fn squeezed(&self) -> f64 {
        self.c_free
    }

    fn mean(&self) -> f64 {
        (self.c_free * self.free + self.c_inside * self.inside) / (self.free + self.inside)
    }
}

#[test]
fn a_long_soak_washes_as_the_ideal_plan_says() {
    for tap in [0.0, 0.1] {
        let mut bucket = Bucket::new(0.8, 2.0);
        for rinse in 1..=5 {
            bucket.rinse(3.0, tap, 240.0, 5.0);
            let ours = planned(&wash(0.8, tap, Efficiency::ideal()), rinse, 3.0);
            assert!(
                (bucket.mean() - ours).abs() < 1e-6 * 2.0,
                "rinse {rinse}: {} against {ours}",
                bucket.mean()
            );
        }
    }
}

#[test]
fn a_short_soak_is_worse_than_ideal_and_is_learnt_from_strips() {
    // Soaks of 10 minutes against water that comes out of the fibre with a
    // half-time of 5 and of 12 minutes.
    for half_time in [5.0, 12.0] {
        let (held, litres) = (0.8, 3.0);
        let mut bucket = Bucket::new(held, 2.0);
        let mut pairs = Vec::new();
        bucket.rinse(litres, 0.0, 10.0, half_time);
        for _ in 0..3 {
            let before = bucket.squeezed();
            bucket.rinse(litres, 0.0, 10.0, half_time);
            pairs.push(RinsePair {
                before: grams_per_litre(before),
                after: grams_per_litre(bucket.squeezed()),
                tap: grams_per_litre(0.0),
                held: millilitres(1000.0 * held),
                water: millilitres(1000.0 * litres),
            });
        }
        let fitted = fit(&pairs).unwrap().unwrap();

        // Two more rinses, foretold from what is left now.
        let now = bucket.mean();
        bucket.rinse(litres, 0.0, 10.0, half_time);
        bucket.rinse(litres, 0.0, 10.0, half_time);
        let truth = bucket.mean() / now;
        let told = wash(held, 0.0, fitted).after(2, millilitres(1000.0 * litres)).unwrap();
        let told = told.salt.unwrap().map(|left| in_grams_per_litre(left) / 2.0);
        let ideal = planned(&wash(held, 0.0, Efficiency::ideal()), 2, litres) / 2.0;
        assert!(ideal < 0.7 * truth, "ideal mixing flatters: {ideal} against {truth}");
        assert!(told.value > ideal && told.value < truth * 1.05, "{told:?} against {truth}");
        // Strips see the free water, which clears first: the range has to reach the truth.
        assert!(told.low < truth && truth < told.high, "{told:?} against {truth}");
    }
}
