//! What surfaces of known colour teach about one camera in one kind of light: its tone curve,
//! and the matrix from its corrected colours to the true ones, with what is left over.

use super::FEATURES;
use crate::colour::difference::delta_e00;
use crate::colour::space::{Lab, luminance};
use crate::colour::tone::ToneCurve;
use numeris::Matrix;
use serde::{Deserialize, Serialize};

/// A camera that was taught, in one kind of light.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TaughtCamera {
    /// Linear sRGB corrected by white and tone, to true linear sRGB. Its rows sum to 1.
    pub matrix: [[f64; 3]; 3],
    pub tone: ToneCurve,
    /// What is left over: standard deviation of ln(true / corrected) of each channel.
    pub rest: [f64; 3],
}

/// A surface of known colour in the photo that teaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnownSurface {
    /// Median codes, 0 to 255.
    pub codes: [f64; 3],
    /// Centre in the photo, in units of its width.
    pub place: [f64; 2],
    pub lab: Lab,
}

/// What was learnt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lesson {
    pub camera: TaughtCamera,
    /// Median CIEDE2000 of the pulp-like surfaces before, corrected by white and the usual
    /// tone curve.
    pub before: f64,
    /// The same by the matrix, each surface by a matrix of the others.
    pub after: f64,
    /// The same over all surfaces by the final matrix: large if they are not what they are
    /// taken for.
    pub fit: f64,
}

/// Fewest surfaces beside the white; two coefficients a channel are fitted.
pub const FEWEST: usize = 5;

/// Variation from copy to copy of a surface with published values, relative: about 1 ΔE00.
/// Own estimate.
const COPY: f64 = 0.01;

/// Learns from surfaces, the first of which is the white. `None` with fewer than [`FEWEST`]
/// others, or if they do not determine a matrix.
pub fn learn(surfaces: &[KnownSurface]) -> Option<Lesson> {
    let (white, others) = surfaces.split_first()?;
    if others.len() < FEWEST {
        return None;
    }
    let mut slope = [0.0; 2];
    let mut tone = ToneCurve::PLAIN;
    let mut samples = Vec::new();
    let mut matrix = PLAIN;
    // Tone, glare, matrix and the slope of the light across the photo depend on each other.
    for _ in 0..4 {
        let glare;
        (tone, glare) = fitted_tone(white, others, slope);
        samples = samples_of(white, others, tone, glare, slope);
        matrix = fitted(&samples, None)?;
        slope = light_slope(white, others, &samples, matrix, slope).unwrap_or(slope);
    }
    let like: Vec<usize> = (0..samples.len()).filter(|i| is_like_pulp(samples[*i].lab)).collect();
    let like = if like.len() < 3 { (0..samples.len()).collect() } else { like };
    let mut left_over = Vec::new();
    for &i in &like {
        let matrix = fitted(&samples, Some(i))?;
        left_over.push((samples[i], times(&matrix, samples[i].found)));
    }
    let plain = samples_of(white, others, ToneCurve::PLAIN, 0.0, [0.0; 2]);
    let distance = |found, lab| delta_e00(Lab::from_linear(found), lab);
    let rest = [0, 1, 2].map(|c| {
        let squares = left_over
            .iter()
            .map(|(sample, found)| (sample.truth[c].max(1e-3) / found[c].max(1e-3)).ln().powi(2));
        (squares.sum::<f64>() / left_over.len() as f64 + COPY * COPY).sqrt()
    });
    Some(Lesson {
        camera: TaughtCamera { matrix, tone, rest },
        before: median(like.iter().map(|i| distance(plain[*i].found, plain[*i].lab))),
        after: median(left_over.iter().map(|(sample, found)| distance(*found, sample.lab))),
        fit: median(samples.iter().map(|s| distance(times(&matrix, s.found), s.lab))),
    })
}

impl TaughtCamera {
    /// The true linear sRGB of a corrected colour.
    pub(in crate::colour) fn true_colour(&self, found: [f64; 3]) -> [f64; 3] {
        times(&self.matrix, found).map(|v| v.max(0.0))
    }

    /// The error that the tone curve of another photo brings, as coefficients of the features:
    /// its contrast varies by `part`.
    pub(in crate::colour) fn contrast_mode(part: f64) -> [[f64; FEATURES]; 3] {
        // ln of a channel over white is that of the luminance and of the channel over green,
        // of which red and blue are features.
        let common = [0.0, part, 0.0, 0.0, 0.0, 0.0, 0.0];
        let (mut red, mut blue) = (common, common);
        red[3] = part;
        blue[4] = part;
        [red, common, blue]
    }
}

/// Whether a colour is near those of pulp: neutral and light, or brown to yellow and dull.
fn is_like_pulp(lab: Lab) -> bool {
    let chroma = lab.chroma();
    lab.l > 30.0 && (chroma < 6.0 || chroma < 45.0 && (35.0..115.0).contains(&lab.hue_degrees()))
}

const PLAIN: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

#[derive(Clone, Copy)]
struct Sample {
    /// Corrected by white and tone.
    found: [f64; 3],
    truth: [f64; 3],
    lab: Lab,
    weight: f64,
}

fn samples_of(
    white: &KnownSurface,
    others: &[KnownSurface],
    tone: ToneCurve,
    glare: f64,
    slope: [f64; 2],
) -> Vec<Sample> {
    let own = white.lab.to_xyz().to_linear();
    others
        .iter()
        .map(|surface| {
            let light = lit(white, surface, slope);
            let found = [0, 1, 2].map(|c| {
                let over = tone.decode(surface.codes[c]) / tone.decode(white.codes[c]).max(1e-4);
                without_glare(over, glare) * own[c] / light
            });
            // Pulp is what will be measured; vivid colours only hold the matrix.
            let weight = match surface.lab.hue_degrees() {
                _ if is_like_pulp(surface.lab) => 1.0,
                30.0..125.0 => 0.3,
                _ => 0.05,
            };
            let truth = surface.lab.to_xyz().to_linear();
            Sample { found, truth, lab: surface.lab, weight }
        })
        .collect()
}

/// Light at a surface over that at the white.
fn lit(white: &KnownSurface, surface: &KnownSurface, slope: [f64; 2]) -> f64 {
    let along = [0, 1].map(|i| slope[i] * (surface.place[i] - white.place[i]));
    (along[0] + along[1]).exp()
}

/// Least squares of the relative error, with rows that sum to 1, without the sample `left_out`.
fn fitted(samples: &[Sample], left_out: Option<usize>) -> Option<[[f64; 3]; 3]> {
    let mut products = Matrix::<f64, 2, 2>::eye() * 1e-4;
    let mut right = Matrix::<f64, 2, 3>::zeros();
    let used = samples.iter().enumerate().filter(|(i, _)| Some(*i) != left_out);
    for (_, sample) in used {
        let [r, g, b] = sample.found;
        let scale = sample.weight / (luminance(sample.truth) + 0.02).powi(2);
        let x = [r - g, b - g];
        products += Matrix::from_fn(|i, j| scale * x[i] * x[j]);
        // What the matrix adds to each channel.
        let rest = [0, 1, 2].map(|c| sample.truth[c] - sample.found[c]);
        right += Matrix::from_fn(|i, c| scale * x[i] * rest[c]);
    }
    let solved = products.cholesky().ok()?.solve_matrix(&right);
    Some([0, 1, 2].map(|c| {
        let (red, blue) = (solved[(0, c)], solved[(1, c)]);
        let mut row = PLAIN[c];
        row[0] += red;
        row[1] -= red + blue;
        row[2] += blue;
        row
    }))
}

/// Light of a surface over that of the white, without a glare of this share of the white.
fn without_glare(over_white: f64, glare: f64) -> f64 {
    ((over_white - glare) / (1.0 - glare)).max(0.0)
}

/// The tone curve by the neutral surfaces: contrast and shoulder of least squares, and the
/// photo's glare as a share of its white, which is no part of the camera.
fn fitted_tone(white: &KnownSurface, others: &[KnownSurface], slope: [f64; 2]) -> (ToneCurve, f64) {
    let own = luminance(white.lab.to_xyz().to_linear());
    let neutrals: Vec<(&KnownSurface, f64)> = others
        .iter()
        .filter(|surface| surface.lab.chroma() < 6.0)
        .map(|surface| {
            let truth = luminance(surface.lab.to_xyz().to_linear());
            (surface, truth / own * lit(white, surface, slope))
        })
        .collect();
    if neutrals.is_empty() {
        return (ToneCurve::PLAIN, 0.0);
    }
    let error = |(tone, glare): &(ToneCurve, f64)| {
        let over = |surface: &KnownSurface| {
            let over = tone.luminance(surface.codes) / tone.luminance(white.codes).max(1e-4);
            // In equal steps of lightness rather than of light, as noise is.
            without_glare(over, *glare).cbrt()
        };
        let squares = neutrals.iter().map(|(s, ratio)| (over(s) - ratio.cbrt()).powi(2));
        // A little towards the usual curve without glare, which few neutrals do not determine.
        squares.sum::<f64>()
            + 1e-5 * (tone.shoulder - 0.67).powi(2)
            + 1e-5 * (tone.contrast - 1.1).powi(2)
            + 1e-2 * glare * glare
    };
    let grid = (0..=12).flat_map(|i| {
        (0..=40).flat_map(move |j| {
            let tone =
                ToneCurve { contrast: 0.7 + 0.02 * f64::from(j), shoulder: 0.2 * f64::from(i) };
            (0..=8).map(move |k| (tone, 0.005 * f64::from(k)))
        })
    });
    grid.map(|curve| (curve, error(&curve)))
        .min_by(|one, other| one.1.total_cmp(&other.1))
        .map_or((ToneCurve::PLAIN, 0.0), |(curve, _)| curve)
}

/// Slope of ln(light) over the photo, by the luminance of all surfaces.
fn light_slope(
    white: &KnownSurface,
    others: &[KnownSurface],
    samples: &[Sample],
    matrix: [[f64; 3]; 3],
    before: [f64; 2],
) -> Option<[f64; 2]> {
    let mut products = Matrix::<f64, 2, 2>::eye() * 1e-3;
    let mut right = Matrix::<f64, 2, 1>::zeros();
    for (surface, sample) in others.iter().zip(samples) {
        let found = luminance(times(&matrix, sample.found)).max(1e-3);
        let error = (found / luminance(sample.truth).max(1e-3)).ln().clamp(-0.3, 0.3);
        let x = [0, 1].map(|i| surface.place[i] - white.place[i]);
        products += Matrix::from_fn(|i, j| x[i] * x[j]);
        right += Matrix::from_fn(|i, _| x[i] * error);
    }
    let more = products.cholesky().ok()?.solve_matrix(&right);
    Some([0, 1].map(|i| before[i] + more[(i, 0)]))
}

fn times(matrix: &[[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
