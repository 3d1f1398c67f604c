//! Statistics of many measurements.
#![allow(clippy::print_stdout)]

use crate::campaign::MeasurementResult;
use bleachfield_core::colour::{ColourError, difference::delta_e00};
use std::collections::BTreeMap;

/// Errors of accepted photos, reasons of refused ones.
#[derive(Clone, Debug, Default)]
pub struct ErrorStatistics {
    errors: Vec<f64>,
    /// Signed errors in L*, a*, b*.
    parts: Vec<[f64; 3]>,
    /// Half ranges of L*, a*, b*.
    halves: Vec<[f64; 3]>,
    /// Number of true values within the reading's range, for L*, a*, b*.
    inside: [usize; 3],
    refused: Vec<ColourError>,
}

impl ErrorStatistics {
    pub fn add(&mut self, measured: MeasurementResult) {
        let readings = match measured {
            Ok(readings) => readings,
            Err(reason) => return self.refused.push(reason),
        };
        for (reading, truth) in readings {
            self.errors.push(delta_e00(reading.lab, truth));
            let found = reading.lab;
            let figures = [reading.lightness, reading.a, reading.b];
            self.halves.push(figures.map(|figure| 0.5 * (figure.high - figure.low)));
            self.parts.push([found.l - truth.l, found.a - truth.a, found.b - truth.b]);
            let ranges = [reading.lightness, reading.a, reading.b];
            for (i, (range, truth)) in ranges.iter().zip([truth.l, truth.a, truth.b]).enumerate() {
                self.inside[i] += usize::from(range.low <= truth && truth <= range.high);
            }
        }
        self.errors.sort_by(f64::total_cmp);
    }

    pub fn join(&mut self, other: Self) {
        self.errors.extend(other.errors);
        self.errors.sort_by(f64::total_cmp);
        self.parts.extend(other.parts);
        self.halves.extend(other.halves);
        for (mine, theirs) in self.inside.iter_mut().zip(other.inside) {
            *mine += theirs;
        }
        self.refused.extend(other.refused);
    }

    pub fn accepted(&self) -> usize {
        self.errors.len()
    }

    pub fn refused(&self) -> usize {
        self.refused.len()
    }

    /// The share of photos that are accepted; NaN of none.
    pub fn accepted_share(&self) -> f64 {
        self.accepted() as f64 / (self.accepted() + self.refused()) as f64
    }

    /// A quantile of the errors, `part` from 0 to 1; NaN of none.
    pub fn quantile(&self, part: f64) -> f64 {
        quantile(&self.errors, part)
    }

    /// Share of the true L*, a*, b* within their ranges.
    pub fn inside_share(&self) -> f64 {
        self.inside.iter().sum::<usize>() as f64 / (3 * self.accepted()).max(1) as f64
    }

    /// The number of refusals by reason.
    pub fn reasons(&self) -> String {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for reason in &self.refused {
            *counts.entry(reason.message().key).or_default() += 1;
        }
        let words: Vec<String> = counts.iter().map(|(key, n)| format!("{key} {n}")).collect();
        format!("({})", words.join(", "))
    }

    pub fn print(&self, title: &str) {
        println!(
            "{title}: {} accepted, {} refused {}",
            self.accepted(),
            self.refused(),
            self.reasons()
        );
        println!(
            "  median {:.2}, 95th percentile {:.2}, largest {:.2}",
            self.quantile(0.5),
            self.quantile(0.95),
            self.quantile(1.0)
        );
        let count = self.accepted().max(1) as f64;
        let mean = |i: usize| self.parts.iter().map(|p| p[i]).sum::<f64>() / count;
        let deviation = |i: usize| {
            (self.parts.iter().map(|p| (p[i] - mean(i)).powi(2)).sum::<f64>() / count).sqrt()
        };
        for (i, name) in ["L*", "a*", "b*"].into_iter().enumerate() {
            println!(
                "  {name}: off by {:+.2} on average, standard deviation {:.2}; stated ± {:.1} on average; truth within the stated range in {:.0} %",
                mean(i),
                deviation(i),
                self.halves.iter().map(|h| h[i]).sum::<f64>() / count,
                100.0 * self.inside[i] as f64 / count
            );
        }
    }

    pub fn print_histogram(&self) {
        for step in 0..12 {
            let (from, to) = (0.5 * f64::from(step), 0.5 * f64::from(step + 1));
            let last = step == 11;
            let n = self.errors.iter().filter(|&&e| e >= from && (e < to || last)).count();
            let bar = "#".repeat((n * 120).div_ceil(self.accepted().max(1)));
            println!("  {from:3.1} {} {n:4} {bar}", if last { "up   " } else { "to +.5" });
        }
    }
}

/// A quantile of sorted values, `part` from 0 to 1; NaN of none.
pub fn quantile(sorted: &[f64], part: f64) -> f64 {
    let last = sorted.len().saturating_sub(1);
    sorted.get((part * last as f64).round() as usize).copied().unwrap_or(f64::NAN)
}
