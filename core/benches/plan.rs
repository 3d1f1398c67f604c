//! A whole plan with its ranges, as a screen asks for it on each keystroke, and
//! a refusal with the ways round it.

#![allow(clippy::unwrap_used)]

use bleachfield_core::{
    bath::{Aim, Bleach, Bottle, LabelBasis, PlanRequest, Powder, PowderBasis, Size, plan},
    caution::Residual,
    message::Field,
    pulp::{DrynessFrom, WetPulp},
    quantity::{Celsius, NumberSpec, QuantityKind, grams, read, share, weighed},
};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn request(bleach: Bleach, consistency: f64) -> PlanRequest {
    let dryness = DrynessFrom::Assumed.estimate().unwrap();
    PlanRequest {
        pulp: WetPulp::new(weighed(grams(1000.0)), dryness).unwrap(),
        bleach,
        aim: Aim::Charge(share(0.02)),
        size: Size::Consistency(share(consistency)),
        temperature: Celsius::new(40.0).unwrap(),
        carried: Residual::None,
        squeezed: None,
        company: Vec::new(),
        on_hand: None,
        vessel: None,
        minutes: None,
        cooling: None,
    }
}

fn benches(c: &mut Criterion) {
    let bottle = Bleach::Hypochlorite(Bottle::labelled(5.25, LabelBasis::NaoclByMass));
    let powder = Bleach::Percarbonate(Powder::labelled(share(0.28), PowderBasis::Peroxide));
    let (hypochlorite, percarbonate) = (request(bottle, 0.05), request(powder, 0.05));
    let too_wet = request(bottle, 0.30);
    assert!(plan(&hypochlorite).is_ok() && plan(&percarbonate).is_ok() && plan(&too_wet).is_err());
    c.bench_function("plan/hypochlorite", |b| b.iter(|| plan(black_box(&hypochlorite))));
    c.bench_function("plan/percarbonate", |b| b.iter(|| plan(black_box(&percarbonate))));
    c.bench_function("plan/refused_with_ways", |b| b.iter(|| plan(black_box(&too_wet))));
    let asked = NumberSpec::new(Field("bath_volume"), QuantityKind::Volume);
    c.bench_function("read/mixed_fraction", |b| b.iter(|| read(black_box("1 1/2 cups"), &asked)));
}

criterion_group!(all, benches);
criterion_main!(all);
