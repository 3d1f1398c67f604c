//! Checks of the cook.

use super::{RowInputs, refused};
use bleachfield_core::{
    pulp::cook::{
        CookAlkali, CookRequest, HeatPoint, boiling_point, equivalent as same_alkali,
        relative_rate as rate, severity,
    },
    quantity::{Basis, Estimate, grams, in_grams, in_share, millilitres, share},
};

pub(super) fn relative_rate(inputs: &RowInputs) -> Result<f64, String> {
    Ok(rate(inputs.number("celsius")?))
}

pub(super) fn rate_ratio(inputs: &RowInputs) -> Result<f64, String> {
    Ok(rate(inputs.number("hot")?) / rate(inputs.number("cold")?))
}

pub(super) fn hold(inputs: &RowInputs) -> Result<f64, String> {
    let celsius = inputs.number("celsius")?;
    let minutes = inputs.number("minutes")?;
    Ok(severity(&[HeatPoint { minutes: 0.0, celsius }, HeatPoint { minutes, celsius }]))
}

pub(super) fn ramp(inputs: &RowInputs) -> Result<f64, String> {
    let (from, to) = (inputs.number("from")?, inputs.number("to")?);
    let ramp = inputs.number("ramp")?;
    Ok(severity(&[
        HeatPoint { minutes: 0.0, celsius: from },
        HeatPoint { minutes: ramp, celsius: to },
        HeatPoint { minutes: ramp + inputs.number("hold")?, celsius: to },
    ]))
}

pub(super) fn boiling(inputs: &RowInputs) -> Result<f64, String> {
    Ok(boiling_point(inputs.number("metres")?))
}

pub(super) fn charge(inputs: &RowInputs) -> Result<f64, String> {
    let plan = cook(inputs, inputs.number("fibre")?)?.plan().map_err(refused)?;
    Ok(in_grams(plan.alkali.value))
}

pub(super) fn na2o(inputs: &RowInputs) -> Result<f64, String> {
    let plan = cook(inputs, 450.0)?.plan().map_err(refused)?;
    Ok(in_share(plan.as_sodium_oxide))
}

pub(super) fn equivalent(inputs: &RowInputs) -> Result<f64, String> {
    let (from, to) = (alkali(inputs.text("from")?)?, alkali(inputs.text("to")?)?);
    Ok(in_grams(same_alkali(grams(inputs.number("grams")?), from, to)))
}

fn cook(inputs: &RowInputs, fibre: f64) -> Result<CookRequest, String> {
    Ok(CookRequest {
        dry_fibre: Estimate::exact(grams(fibre), Basis::Measured),
        alkali: alkali(inputs.text("alkali")?)?,
        charge: Estimate::exact(share(inputs.number("share")?), Basis::Measured),
        purity: share(1.0),
        litres_per_kilogram: 15.0,
        pot: millilitres(12_000.0),
        celsius: 98.0,
        minutes: 150.0,
    })
}

fn alkali(name: &str) -> Result<CookAlkali, String> {
    match name {
        "soda_ash" => Ok(CookAlkali::SodaAsh),
        "monohydrate" => Ok(CookAlkali::WashingSodaMonohydrate),
        "decahydrate" => Ok(CookAlkali::WashingSodaDecahydrate),
        "lye" => Ok(CookAlkali::Lye),
        other => Err(format!("no alkali is called {other}")),
    }
}
