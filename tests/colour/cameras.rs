//! Writes `core/src/colour/camera/table.rs`: how far the corrected colour of a pulp is from the
//! truth on a camera that nobody knows.
//!
//!     cargo run --release -p bleachfield-tests --bin colour-cameras > core/src/colour/camera/table.rs
//!
//! Draws cameras (published sensitivities but the held-out ones, colour matrices that differ
//! from the best fit as published ones do, vividness, tone curves, local tone mapping), lights
//! and pulps; corrects each photo by its white, and by a grey where there is one, as the core
//! does; and describes ln(true / corrected) of each channel as a random polynomial of the
//! corrected colour: `FEATURES` coefficients a channel, their covariance by principal
//! components. What the polynomial does not describe is the rest, a scatter of each channel.
#![allow(clippy::print_stdout, clippy::expect_used, dead_code)]

mod campaign;

use bleachfield_core::colour::camera::{FEATURES, features};
use bleachfield_core::colour::quality::limit;
use bleachfield_core::colour::reference::Light;
use bleachfield_core::colour::space::{encode, luminance};
use bleachfield_core::colour::tone::ToneCurve;
use bleachfield_demo::photo::camera::Camera;
use bleachfield_demo::photo::noise::RandomStream;
use bleachfield_demo::photo::pulp::{Pulp, card, slate};
use bleachfield_demo::photo::spectrum::{Spectrum, chart};
use campaign::{LightSource, light_sources, sampled_camera};
use numeris::Matrix;

/// Cameras drawn for each kind of light.
const DRAWS: u64 = 2000;
/// Principal components kept.
const MODES: usize = 8;
const COEFFICIENTS: usize = 3 * FEATURES;
/// Keeps coefficients finite where features of the pulps are alike.
const RIDGE: f64 = 1e-3;

fn main() {
    let sources = light_sources();
    let surfaces = surfaces();
    println!("//! How far the corrected colour of a pulp is from the truth on an unknown camera.");
    println!(
        "//! Written by the program `colour-cameras` of `tests/colour`, which says how: not by"
    );
    println!("//! hand.\n");
    println!("use super::CameraErrors;\n");
    for (name, kind) in
        [("DAYLIGHT", Light::Daylight), ("BULB", Light::Bulb), ("GOOD_LAMP", Light::GoodLamp)]
    {
        let lights: Vec<&LightSource> = sources.iter().filter(|s| s.kind == kind).collect();
        for grey in [true, false] {
            let suffix = if grey { "_WITH_GREY" } else { "" };
            print_table(&format!("{name}{suffix}"), &Ensemble::draw(&lights, grey, &surfaces));
        }
    }
}

/// A camera whose white under the light is not refused as too coloured.
fn balanced_camera(light: &LightSource, random: &mut RandomStream) -> Camera {
    loop {
        let camera = sampled_camera(random);
        let white = camera.response(&light.spectrum)(&light.spectrum);
        let least = white.into_iter().fold(f64::MAX, f64::min);
        if least > 1.0 / limit::COLOURED_LIGHT {
            return camera;
        }
    }
}

/// Reflectances: pulps from raw to bleached, wet and dry, and the chart's patches near them.
fn surfaces() -> Vec<Spectrum> {
    let mut random = RandomStream::new(11);
    let mut all: Vec<Spectrum> = (0..60)
        .map(|n| {
            let pulp = Pulp {
                grey: random.between(0.0, 0.03),
                green: if n % 4 == 0 { random.between(0.0, 0.12) } else { 0.0 },
                ..Pulp::dry(
                    random.between(0.02_f64.ln(), 1.8_f64.ln()).exp(),
                    random.between(75.0, 160.0),
                )
            };
            if n % 2 == 0 { pulp.reflectance() } else { pulp.wetted().reflectance() }
        })
        .collect();
    // Browns and neutrals of the chart, twice: measured spectra weigh more than our own.
    for n in [0, 1, 18, 19, 20, 21] {
        all.extend([chart()[n]; 2]);
    }
    all
}

/// One draw: the coefficients of the polynomial, and the scatter about it.
struct Draw {
    coefficients: [f64; COEFFICIENTS],
    rest: [f64; 3],
}

/// All draws for one kind of light, with or without a grey in the frame.
struct Ensemble {
    draws: Vec<Draw>,
    /// Mean product of two features over the colours.
    metric: Matrix<f64, FEATURES, FEATURES>,
}

impl Ensemble {
    fn draw(lights: &[&LightSource], grey: bool, surfaces: &[Spectrum]) -> Self {
        let mut metric = Matrix::zeros();
        let draws: Vec<Draw> = (0..DRAWS)
            .map(|seed| {
                let random = &mut RandomStream::new(seed * 7 + u64::from(grey));
                let light = lights[random.bits() as usize % lights.len()];
                let camera = balanced_camera(light, random);
                let errors = errors(&camera, light, grey, surfaces, random);
                let (draw, products) = fitted(&errors);
                metric += products * (1.0 / DRAWS as f64);
                draw
            })
            .collect();
        Self { draws, metric }
    }

    /// Principal components as coefficients, one standard deviation each, largest first.
    fn modes(&self) -> Vec<[f64; COEFFICIENTS]> {
        let ridge = Matrix::<f64, FEATURES, FEATURES>::eye() * (RIDGE * RIDGE);
        let root = (self.metric + ridge).cholesky().expect("positive definite").l_full();
        // In the coordinates `root^T * coefficients` the mean square over the colours is 1.
        let mut covariance = Matrix::<f64, COEFFICIENTS, COEFFICIENTS>::zeros();
        for draw in &self.draws {
            let scaled = by_channel(&draw.coefficients, |c| root.transpose() * c);
            covariance += Matrix::from_fn(|i, j| scaled[i] * scaled[j] / self.draws.len() as f64);
        }
        let eigen = covariance.eig_symmetric().expect("symmetric");
        let inverse = root.transpose();
        (0..MODES)
            .map(|k| COEFFICIENTS - 1 - k)
            .map(|k| {
                let size = eigen.eigenvalues()[k].max(0.0).sqrt();
                let scaled = std::array::from_fn(|i| size * eigen.eigenvectors()[(i, k)]);
                by_channel(&scaled, |c| back_substituted(&inverse, c))
            })
            .collect()
    }

    /// Scatter of each channel: that about the polynomial, and the components left out.
    fn rest(&self, modes: &[[f64; COEFFICIENTS]]) -> [f64; 3] {
        let power = |coefficients: &[f64; COEFFICIENTS], c: usize| {
            let own = channel(coefficients, c);
            let product = own.transpose() * self.metric * own;
            product[(0, 0)]
        };
        [0, 1, 2].map(|c| {
            let count = self.draws.len() as f64;
            let mean = |of: &dyn Fn(&Draw) -> f64| self.draws.iter().map(of).sum::<f64>() / count;
            let scatter = mean(&|draw| draw.rest[c].powi(2));
            let all = mean(&|draw| power(&draw.coefficients, c));
            let kept: f64 = modes.iter().map(|mode| power(mode, c)).sum();
            (scatter + (all - kept).max(0.0)).sqrt()
        })
    }

    /// Mean error of each channel over all draws and colours.
    fn mean(&self) -> [f64; COEFFICIENTS] {
        std::array::from_fn(|i| {
            self.draws.iter().map(|d| d.coefficients[i]).sum::<f64>() / self.draws.len() as f64
        })
    }
}

type FeatureVector = Matrix<f64, FEATURES, 1>;

fn channel(coefficients: &[f64; COEFFICIENTS], c: usize) -> FeatureVector {
    Matrix::from_fn(|i, _| coefficients[c * FEATURES + i])
}

fn by_channel(
    coefficients: &[f64; COEFFICIENTS],
    map: impl Fn(FeatureVector) -> FeatureVector,
) -> [f64; COEFFICIENTS] {
    let mapped = [0, 1, 2].map(|c| map(channel(coefficients, c)));
    std::array::from_fn(|i| mapped[i / FEATURES][(i % FEATURES, 0)])
}

/// Solves `upper * x = b` for an upper triangular matrix.
fn back_substituted(upper: &Matrix<f64, FEATURES, FEATURES>, b: FeatureVector) -> FeatureVector {
    let mut x = FeatureVector::zeros();
    for i in (0..FEATURES).rev() {
        let known: f64 = (i + 1..FEATURES).map(|j| upper[(i, j)] * x[(j, 0)]).sum();
        x[(i, 0)] = (b[(i, 0)] - known) / upper[(i, i)];
    }
    x
}

/// A corrected colour with ln(true / corrected) of each channel.
type ColourError = ([f64; 3], [f64; 3]);

/// Photographs the surfaces with one camera and corrects them as the core does.
fn errors(
    camera: &Camera,
    light: &LightSource,
    grey: bool,
    surfaces: &[Spectrum],
    random: &mut RandomStream,
) -> Vec<ColourError> {
    let response = camera.response(&light.spectrum);
    let linear = |s: &Spectrum| response(&light.spectrum.times(s));
    let bench = luminance(linear(&slate()));
    let codes = |s: &Spectrum, own: f64| {
        let seen = linear(s);
        // Around a patch there is the patch itself and the bench.
        let around = (own * luminance(seen) + (1.0 - own) * bench) / (0.35 + 0.65 * bench);
        let gain = around.max(1e-3).powf(-camera.local);
        seen.map(|v| {
            let light = camera.exposure * (gain * v + camera.flare);
            255.0 * encode(camera.curve.apply(light.max(0.0)))
        })
    };
    let white = codes(&card(0.90, 0.0), random.between(0.3, 0.7));
    let grey_codes = codes(&card(0.18, 0.0), random.between(0.3, 0.7));
    let tone = Some(()).filter(|()| grey).and_then(|()| ToneCurve::fit(white, grey_codes, 0.2));
    let tone = tone.unwrap_or(ToneCurve::PLAIN);
    let own = random.between(0.5, 0.9);
    surfaces
        .iter()
        .map(|surface| {
            let codes = codes(surface, own);
            let found =
                [0, 1, 2].map(|c| (0.90 * tone.decode(codes[c]) / tone.decode(white[c])).max(1e-3));
            let truth = surface.lab().to_xyz().to_linear();
            (found, [0, 1, 2].map(|c| (truth[c].max(1e-3) / found[c]).ln()))
        })
        .collect()
}

/// Least squares of the polynomial over the colours of one draw, and its mean products.
fn fitted(errors: &[ColourError]) -> (Draw, Matrix<f64, FEATURES, FEATURES>) {
    let count = errors.len() as f64;
    let mut products = Matrix::<f64, FEATURES, FEATURES>::zeros();
    let mut right = Matrix::<f64, FEATURES, 3>::zeros();
    for (found, error) in errors {
        let f = features(*found);
        products += Matrix::from_fn(|i, j| f[i] * f[j] / count);
        right += Matrix::from_fn(|i, c| f[i] * error[c] / count);
    }
    let ridge = Matrix::<f64, FEATURES, FEATURES>::eye() * (RIDGE * RIDGE);
    let solved = (products + ridge).cholesky().expect("positive definite").solve_matrix(&right);
    let rest = [0, 1, 2].map(|c| {
        let squares = errors.iter().map(|(found, error)| {
            let f = features(*found);
            let fit: f64 = (0..FEATURES).map(|i| solved[(i, c)] * f[i]).sum();
            (error[c] - fit).powi(2)
        });
        (squares.sum::<f64>() / count).sqrt()
    });
    let coefficients = std::array::from_fn(|i| solved[(i % FEATURES, i / FEATURES)]);
    (Draw { coefficients, rest }, products)
}

fn print_table(name: &str, ensemble: &Ensemble) {
    let modes = ensemble.modes();
    let rest = ensemble.rest(&modes);
    let list =
        |values: &[f64]| values.iter().map(|v| format!("{v:.4}")).collect::<Vec<_>>().join(", ");
    let mean = ensemble.mean();
    eprintln!("{name}: rest {}", list(&rest));
    for colour in [[0.2, 0.14, 0.08], [0.4, 0.32, 0.2], [0.6, 0.52, 0.4], [0.8, 0.76, 0.68]] {
        let f = features(colour);
        let at = |of: &[f64; COEFFICIENTS], c: usize| -> f64 {
            (0..FEATURES).map(|i| of[c * FEATURES + i] * f[i]).sum()
        };
        let means = [0, 1, 2].map(|c| at(&mean, c));
        let sizes = [0, 1, 2].map(|c| modes.iter().map(|m| at(m, c).powi(2)).sum::<f64>().sqrt());
        eprintln!("  at {}: mean {}, size {}", list(&colour), list(&means), list(&sizes));
    }
    println!("#[rustfmt::skip]");
    println!("pub(super) const {name}: CameraErrors = CameraErrors {{");
    println!("    modes: &[");
    for mode in &modes {
        println!("        [");
        for c in 0..3 {
            println!("            [{}],", list(&mode[c * FEATURES..(c + 1) * FEATURES]));
        }
        println!("        ],");
    }
    println!("    ],");
    println!("    rest: [{}],", list(&rest));
    println!("}};\n");
}
