//! Least squares, partial pooling and conformal ranks, by the functions that learning uses.

use super::{ReferenceTable, RowInputs, given, refused};
use bleachfield_core::learning::{
    BatchData, Hierarchy, Information, LeastSquaresSettings, Pooling, conformal_rank, least_squares,
};

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "learning",
    checks: &[
        ("nist", nist),
        ("eight_schools", eight_schools),
        ("brightness_operators", brightness_operators),
        ("conformal_rank", |i| {
            let rank = conformal_rank(i.number("scores")? as usize, i.number("held")?);
            given(rank.map(|rank| rank as f64))
        }),
        ("conformal_least", |i| {
            let held = i.number("held")?;
            given((1..1000).find(|&n| conformal_rank(n, held).is_some()).map(|n| n as f64))
        }),
    ],
};

const MISRA: [(f64, f64); 14] = [
    (77.6, 10.07),
    (114.9, 14.73),
    (141.1, 17.94),
    (190.8, 23.93),
    (239.9, 29.61),
    (289.0, 35.18),
    (332.8, 40.02),
    (378.4, 44.82),
    (434.8, 50.76),
    (477.3, 55.05),
    (536.8, 61.01),
    (593.1, 66.40),
    (689.1, 75.47),
    (760.0, 81.78),
];
const BOX_BOD: [(f64, f64); 6] =
    [(1.0, 109.0), (2.0, 149.0), (3.0, 149.0), (5.0, 191.0), (7.0, 213.0), (10.0, 224.0)];
const RAT_43: [f64; 15] = [
    16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56,
    689.96, 637.56, 717.41,
];

/// Model, data and both starts of a set.
struct NistSet {
    model: fn(f64, &[f64]) -> f64,
    data: Vec<(f64, f64)>,
    starts: [&'static [f64]; 2],
}

fn nist_set(name: &str) -> Result<NistSet, String> {
    let rise: fn(f64, &[f64]) -> f64 = |x, b| b[0] * (1.0 - (-b[1] * x).exp());
    Ok(match name {
        "Misra1a" => {
            NistSet { model: rise, data: MISRA.to_vec(), starts: [&[500.0, 1e-4], &[250.0, 5e-4]] }
        }
        "Misra1b" => NistSet {
            model: |x, b| b[0] * (1.0 - (1.0 + 0.5 * b[1] * x).powi(-2)),
            data: MISRA.to_vec(),
            starts: [&[500.0, 1e-4], &[300.0, 2e-4]],
        },
        "BoxBOD" => {
            NistSet { model: rise, data: BOX_BOD.to_vec(), starts: [&[1.0, 1.0], &[100.0, 0.75]] }
        }
        "Rat43" => NistSet {
            model: |x, b| b[0] / (1.0 + (b[1] - b[2] * x).exp()).powf(1.0 / b[3]),
            data: RAT_43.iter().enumerate().map(|(n, y)| (n as f64 + 1.0, *y)).collect(),
            starts: [&[100.0, 10.0, 1.0, 1.0], &[700.0, 5.0, 0.75, 1.3]],
        },
        other => return Err(format!("no set is called {other}")),
    })
}

/// A parameter by its number, or for 0 the residual sum of squares.
fn nist(i: &RowInputs) -> Result<f64, String> {
    let set = nist_set(i.text("set")?)?;
    let start = set.starts[(i.number("start")? as usize).clamp(1, 2) - 1];
    let residuals = |b: &[f64]| set.data.iter().map(|(x, y)| (set.model)(*x, b) - y).collect();
    let settings =
        LeastSquaresSettings { most_iterations: 2000, tolerance: 1e-15, step: 1e-5, central: true };
    let fit = least_squares(residuals, start, start, settings).map_err(refused)?;
    match i.number("parameter")? as usize {
        0 => Ok(2.0 * fit.cost),
        number => given(fit.parameters.get(number - 1).copied()),
    }
}

/// One fibre whose own variance is that of the common mean; the batches are the groups.
fn groups(centre: f64, between: f64) -> Hierarchy {
    Hierarchy { studio: vec![centre], fibre: vec![0.0], batch: vec![between] }
}

fn batches(data: &[Information]) -> Vec<BatchData<'_>> {
    data.iter().map(|data| BatchData { fibre: 0, data }).collect()
}

fn eight_schools(i: &RowInputs) -> Result<f64, String> {
    const EFFECTS: [(f64, f64); 8] = [
        (28.0, 15.0),
        (8.0, 10.0),
        (-3.0, 16.0),
        (7.0, 11.0),
        (-1.0, 9.0),
        (1.0, 11.0),
        (18.0, 10.0),
        (12.0, 18.0),
    ];
    let data: Vec<Information> =
        EFFECTS.iter().map(|&(effect, error)| Information::of_reading(effect, error)).collect();
    // Half-Cauchy(5) by equal steps of its distribution function: tau = 5 tan(pi u / 2).
    const STEPS: usize = 4000;
    let tau = |step: usize| {
        let share = (step as f64 + 0.5) / STEPS as f64;
        5.0 * (std::f64::consts::FRAC_PI_2 * share).tan()
    };
    let grid: Vec<(f64, f64)> = (0..STEPS).map(|step| (tau(step).powi(2), 1.0)).collect();
    let pooled = given_some(Pooling::new(groups(25.0, 1.0), &batches(&data), &grid))?;
    match i.text("of")? {
        "school" => {
            let number = i.number("number")? as usize;
            given(pooled.batch_mean(number - 1).map(|mean| mean[0]))
        }
        "mean" => given(pooled.studio_mean().map(|mean| mean[0])),
        "deviation" => Ok(pooled.mean_scale(f64::sqrt)),
        other => Err(format!("nothing is called {other}")),
    }
}

fn brightness_operators(i: &RowInputs) -> Result<f64, String> {
    const SHEETS: [[f64; 5]; 4] = [
        [59.8, 60.0, 60.8, 60.8, 59.8],
        [59.8, 60.2, 60.4, 59.9, 60.0],
        [60.7, 60.7, 60.5, 60.9, 60.3],
        [61.0, 60.8, 60.6, 60.5, 60.5],
    ];
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
    let all = mean(SHEETS.as_flattened());
    let within: f64 = SHEETS
        .iter()
        .map(|sheets| sheets.iter().map(|sheet| (sheet - mean(sheets)).powi(2)).sum::<f64>())
        .sum::<f64>()
        / 16.0;
    let data: Vec<Information> = SHEETS
        .iter()
        .map(|sheets| Information::of_reading(mean(sheets) - all, (within / 5.0).sqrt()))
        .collect();
    // A mean of which nothing is known: the largest evidence is restricted maximum likelihood.
    let flat = groups(1e6, 1.0);
    let pooled = given_some(Pooling::by_evidence(flat, &batches(&data), [1e-4, 10.0]))?;
    let variance = pooled.mean_scale(|scale| scale);
    match i.text("of")? {
        "variance" => Ok(variance),
        "share" => Ok(variance / (variance + within / 5.0)),
        "operator" => {
            let number = i.number("number")? as usize;
            given(pooled.batch_mean(number - 1).map(|mean| mean[0]))
        }
        other => Err(format!("nothing is called {other}")),
    }
}

fn given_some<T>(value: Option<T>) -> Result<T, String> {
    value.ok_or_else(|| "the core gives no value".to_owned())
}
