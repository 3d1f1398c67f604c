//! Cost of a plan with its ranges (as on each keystroke), of a refusal with its
//! remedies, and of parsing a typed number.

#![allow(clippy::unwrap_used)]

use bleachfield_core::{
    bath::{BathAim, BathSize, Bleach, Bottle, LabelBasis, PlanRequest, Powder, PowderBasis, plan},
    chemistry::Residual,
    message::Field,
    pulp::{DrynessSource, WetPulp},
    quantity::{Celsius, NumberSpec, QuantityKind, grams, share, weighed},
};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn request(bleach: Bleach, consistency: f64) -> PlanRequest {
    let pulp =
        WetPulp::new(weighed(grams(1000.0)), DrynessSource::Assumed.estimate().unwrap()).unwrap();
    let (aim, size) = (BathAim::Charge(share(0.02)), BathSize::Consistency(share(consistency)));
    let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(40.0).unwrap());
    PlanRequest { residual: Residual::None, ..request }
}

fn benches(c: &mut Criterion) {
    let bottle = Bleach::Hypochlorite(Bottle::labelled(5.25, LabelBasis::NaoclByMass));
    let powder = Bleach::Percarbonate(Powder::labelled(share(0.28), PowderBasis::Peroxide));
    let (hypochlorite, percarbonate) = (request(bottle, 0.05), request(powder, 0.05));
    let too_wet = request(bottle, 0.30);
    assert!(plan(&hypochlorite).is_ok() && plan(&percarbonate).is_ok() && plan(&too_wet).is_err());
    c.bench_function("plan/hypochlorite", |b| b.iter(|| plan(black_box(&hypochlorite))));
    c.bench_function("plan/percarbonate", |b| b.iter(|| plan(black_box(&percarbonate))));
    c.bench_function("plan/refused_with_remedies", |b| b.iter(|| plan(black_box(&too_wet))));
    let spec = NumberSpec::new(Field("bath_volume"), QuantityKind::Volume);
    c.bench_function("parse/mixed_fraction", |b| b.iter(|| spec.parse(black_box("1 1/2 cups"))));
}

criterion_group!(all, benches);
criterion_main!(all);
