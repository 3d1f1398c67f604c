//! Cost of a forecast of four hours, and of weighing it by a reading. In the browser, slowed down
//! four times, 100 samples have 150 ms, 500 have 600 ms, and a reading has 50 ms.

#![allow(clippy::unwrap_used)]

use bleachfield_core::{
    bath::{
        BathCover, CoolingBath, HeatVessel, LossFactors, RoomAir, VesselMaterial, VesselShape,
        heat_capacity, kinetics::ParameterDistribution,
    },
    chemistry::{Oxidant, equilibrium::Mix, substance::moles_per_litre},
    forecast::{Forecast, ForecastQuantity, ForecastReading, ForecastRequest, usual_minutes},
    quantity::{Basis, Estimate, grams, millilitres},
};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn request(oxidant: Oxidant, celsius: f64, strength: f64, ph: f64) -> ForecastRequest {
    let off = |value, off| Estimate::plus_minus(value, off, Basis::Assumed);
    let volume = millilitres(10_000.0);
    ForecastRequest {
        oxidant,
        mix: Mix::new(celsius).unwrap().with_baking_soda(moles_per_litre(0.006)),
        strength: Estimate::within(strength, 0.15, Basis::Assumed),
        undissolved: if oxidant == Oxidant::Percarbonate { 1.0 } else { 0.0 },
        ph: off(ph, 0.3),
        celsius: off(celsius, 2.0),
        consistency: off(0.05, 0.01),
        lightness: off(68.0, 2.0),
        hue: [off(5.0, 1.5), off(20.0, 3.0)],
        drying: Some(off(0.5, 0.1)),
        cooling: Some(CoolingBath {
            capacity: heat_capacity(grams(500.0), grams(9500.0)),
            vessel: HeatVessel::preset(
                volume,
                VesselShape::Bucket,
                VesselMaterial::Plastic,
                BathCover::Lid,
            ),
            air: RoomAir::still(20.0),
            factors: LossFactors::assumed(BathCover::Lid),
        }),
        events: Vec::new(),
        parameters: ParameterDistribution::literature(oxidant),
        minutes: usual_minutes(240.0),
    }
}

fn benches(c: &mut Criterion) {
    let baths = [
        ("hypochlorite", request(Oxidant::Hypochlorite, 38.0, 0.0148, 10.5)),
        ("percarbonate", request(Oxidant::Percarbonate, 50.0, 0.0464, 10.2)),
    ];
    for (name, request) in baths {
        for count in [100, 500] {
            c.bench_function(&format!("forecast/{name}_{count}"), |b| {
                b.iter(|| {
                    let mut forecast = Forecast::new(black_box(request.clone()), 1).unwrap();
                    forecast.extend(count);
                    forecast.bands(ForecastQuantity::DryLightness)
                });
            });
        }
        let mut forecast = Forecast::new(request, 1).unwrap();
        forecast.extend(500);
        let reading = ForecastReading {
            minutes: 30.0,
            of: ForecastQuantity::Ph,
            value: Estimate::plus_minus(10.0, 0.5, Basis::Strip),
        };
        c.bench_function(&format!("forecast/{name}_weigh_by_a_reading"), |b| {
            b.iter(|| {
                forecast.weigh(black_box(&[reading]));
                forecast.bands(ForecastQuantity::DryLightness)
            });
        });
    }
}

criterion_group!(all, benches);
criterion_main!(all);
