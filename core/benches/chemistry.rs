//! Cost of one equilibrium solve, of a dose, and of the chart's curve.
#![allow(clippy::unwrap_used, missing_docs)]

use bleachfield_core::chemistry::{
    equilibrium::{Constants, Mix, Reagent, species_curve},
    substance::moles_per_litre,
};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn baths(celsius: f64) -> [(&'static str, Mix); 5] {
    let water = Mix::new(celsius).unwrap();
    let molar = moles_per_litre;
    [
        ("water", water),
        ("hypochlorite and soda", water.with_bleach(molar(0.0282)).with_soda_ash(molar(0.0094))),
        ("percarbonate", water.with_percarbonate(molar(0.0637))),
        (
            "acidified",
            water
                .with_bleach(molar(0.0282))
                .with_acetic_acid(molar(0.04))
                .with_soda_ash(molar(0.005)),
        ),
        (
            "all solutes",
            water
                .with_bleach(molar(0.02))
                .with_soda_ash(molar(0.01))
                .with_baking_soda(molar(0.01))
                .with_lye(molar(0.005))
                .with_acetic_acid(molar(0.01))
                .with_citric_acid(molar(0.005))
                .with_sulfate(molar(0.01)),
        ),
    ]
}

fn solve(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("solve");
    for (name, mix) in baths(25.0) {
        group
            .bench_function(name, |bencher| bencher.iter(|| black_box(&mix).solve().unwrap().ph()));
    }
    group.finish();
    criterion.bench_function("constants", |bencher| {
        bencher.iter(|| Constants::at(black_box(25.0)).unwrap());
    });
    let low_ph = Mix::new(25.0).unwrap().with_bleach(moles_per_litre(0.0282));
    criterion.bench_function("dose of soda ash to pH 10.5", |bencher| {
        bencher.iter(|| black_box(&low_ph).dose(Reagent::SodaAsh, 10.5).unwrap());
    });
}

fn curve(criterion: &mut Criterion) {
    let [_, (_, bath), ..] = baths(25.0);
    criterion.bench_function("species curve of 200 points", |bencher| {
        bencher.iter(|| species_curve(black_box(&bath), 200).unwrap());
    });
}

criterion_group!(benches, solve, curve);
criterion_main!(benches);
