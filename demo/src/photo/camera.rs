//! A phone's camera: spectral sensitivities, white balance, colour matrix, tone curve.

use super::spectrum::{Spectrum, black_body, daylight, observe, published};
use bleachfield_core::colour::space::{D65, Xyz};

/// Spectral sensitivities of the sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sensor {
    /// Measured at NPL: Darrodi et al. (2015), JOSA A 32(3).
    Dslr,
    /// Three smooth bands, as of a phone's sensor behind its infrared filter: own
    /// approximation, no source.
    Phone,
    /// As `Phone`, with a broader red and a narrower blue: own approximation, no source.
    OtherPhone,
    /// One of the [`MEASURED_SENSORS`] of `cameras.csv`, by its number.
    Measured(u8),
}

/// Number of cameras in `cameras.csv`.
pub const MEASURED_SENSORS: u8 = 52;

/// A change of linear sRGB after the camera's own colour matrix, with rows that sum to 1: how
/// the maker's matrix differs from the best fit, and how vivid the maker likes colours.
pub type Look = [[f64; 3]; 3];

/// No change.
pub const PLAIN_LOOK: Look = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// The tone curve applied to linear sRGB.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToneCurve {
    /// The identity: IEC 61966-2-1 alone.
    Plain,
    /// The transfer function of ITU-R BT.709, displayed as sRGB.
    Video,
    /// Log-logistic: `x^c / (x^c + m)`, scaled to 1 at 1; `c` above 1 gives an S curve.
    Film { contrast: f64, middle: f64 },
    /// A rational fit to a film print, Narkowicz (2015), scaled to 1 at 1.
    Print { strength: f64 },
    /// A cosine S curve on the encoded values.
    Cosine { strength: f64 },
}

/// The camera of one scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    pub sensor: Sensor,
    pub look: Look,
    pub curve: ToneCurve,
    /// Local tone mapping: light is divided by the mean light around it to this power, 0 to
    /// about 0.3.
    pub local: f64,
    /// Linear signal before the tone curve of a perfect white in the main light, in its
    /// strongest channel; 1 is full scale.
    pub exposure: f64,
    /// How far automatic white balance adapts from daylight to the light, 0 to 1.
    pub balance: f64,
    /// Relative errors of the white balance in red and blue.
    pub balance_error: [f64; 2],
    /// How much darker the corners are than the middle, 0 to 1.
    pub vignette: f64,
    /// Stray light as a share of a white's.
    pub flare: f64,
    /// Electrons at full scale; fewer give more noise.
    pub electrons: f64,
    /// Standard deviation of a Gaussian blur in pixels.
    pub blur: f64,
    /// JPEG quality, 1 to 100.
    pub quality: u8,
}

impl Camera {
    /// A typical phone camera.
    pub fn phone() -> Self {
        Self {
            sensor: Sensor::Phone,
            look: PLAIN_LOOK,
            curve: ToneCurve::Film { contrast: 1.15, middle: 0.5 },
            local: 0.0,
            exposure: 0.62,
            balance: 0.9,
            balance_error: [0.02, -0.03],
            vignette: 0.08,
            flare: 0.004,
            electrons: 4000.0,
            blur: 0.8,
            quality: 86,
        }
    }

    /// The camera's response under `light`: a function from a stimulus (light times
    /// reflectance) to linear sRGB before exposure, white near 1.
    pub fn response(&self, light: &Spectrum) -> impl Fn(&Spectrum) -> [f64; 3] + use<> {
        let sensitivities = self.sensitivities();
        let raw = move |stimulus: &Spectrum| sensitivities.each_ref().map(|s| stimulus.dot(s));
        let day = raw(&daylight(6504.0));
        let white = raw(light);
        let white_point = self.white_point(white, day, raw);
        let matrix = matrix(white_point, day, raw);
        let error = [1.0 + self.balance_error[0], 1.0, 1.0 + self.balance_error[1]];
        let look = self.look;
        // Scaled so that a white's strongest channel is 1.
        let shown = move |stimulus: &Spectrum| {
            let seen = raw(stimulus);
            times(&look, times(&matrix, [0, 1, 2].map(|c| seen[c] / white_point[c] * error[c])))
        };
        let scale = shown(light).into_iter().fold(f64::MIN, f64::max).max(1e-9);
        move |stimulus: &Spectrum| shown(stimulus).map(|v| v / scale)
    }

    /// The white point of automatic white balance, as raw values: near the locus of
    /// daylights and black bodies, and part of the way to the true white.
    fn white_point(
        &self,
        white: [f64; 3],
        day: [f64; 3],
        raw: impl Fn(&Spectrum) -> [f64; 3],
    ) -> [f64; 3] {
        let nearest = likely_lights()
            .map(|light| raw(&light))
            .min_by(|one, other| apart(white, *one).total_cmp(&apart(white, *other)))
            .unwrap_or(day);
        // A tint off that locus is followed only up to a limit.
        let reach = 0.20;
        let trust = (reach / apart(white, nearest).max(1e-9)).min(1.0);
        [0, 1, 2].map(|c| {
            let likely = chroma(nearest)[c].ln();
            let seen = likely + trust * (chroma(white)[c].ln() - likely);
            let from = chroma(day)[c].ln();
            (from + self.balance * (seen - from)).exp()
        })
    }

    fn sensitivities(&self) -> [Spectrum; 3] {
        let bell = |centre: f64, low: f64, high: f64| {
            Spectrum::of(move |nm| {
                let sigma = if nm < centre { low } else { high };
                (-0.5 * ((nm - centre) / sigma).powi(2)).exp()
            })
        };
        // An infrared filter takes the deep red away.
        let filter = Spectrum::of(|nm| 1.0 / (1.0 + ((nm - 660.0) / 12.0).exp()));
        match self.sensor {
            Sensor::Dslr => ["dslr_r", "dslr_g", "dslr_b"].map(|name| *published(name)),
            Sensor::Phone => [
                bell(600.0, 26.0, 45.0).plus(&bell(530.0, 40.0, 25.0), 0.12),
                bell(532.0, 36.0, 40.0),
                bell(458.0, 24.0, 34.0).plus(&bell(530.0, 30.0, 30.0), 0.08),
            ]
            .map(|s| s.times(&filter)),
            Sensor::OtherPhone => [
                bell(592.0, 32.0, 55.0).plus(&bell(470.0, 25.0, 25.0), 0.06),
                bell(525.0, 40.0, 45.0),
                bell(450.0, 20.0, 28.0),
            ]
            .map(|s| s.times(&filter)),
            Sensor::Measured(n) => {
                ["r", "g", "b"].map(|channel| *published(&format!("cam{n:02}_{channel}")))
            }
        }
    }
}

/// A look of this vividness, where 1 changes nothing and 0 is grey, after a change of the
/// matrix by `mixed`: what red takes from green and blue, green from red and blue, blue from
/// red and green.
pub fn look(vividness: f64, mixed: [f64; 6]) -> Look {
    let [rg, rb, gr, gb, br, bg] = mixed;
    let matrix = [[1.0 - rg - rb, rg, rb], [gr, 1.0 - gr - gb, gb], [br, bg, 1.0 - br - bg]];
    // Luminance weights of IEC 61966-2-1.
    let weights = [0.2126, 0.7152, 0.0722];
    let mut vivid = PLAIN_LOOK;
    for (c, row) in vivid.iter_mut().enumerate() {
        for (d, cell) in row.iter_mut().enumerate() {
            *cell = (1.0 - vividness) * weights[d] + if c == d { vividness } else { 0.0 };
        }
    }
    let column = |d: usize| matrix.map(|row| row[d]);
    let columns = [0, 1, 2].map(|d| times(&vivid, column(d)));
    [0, 1, 2].map(|c| columns.map(|column| column[c]))
}

impl ToneCurve {
    /// Maps linear light, clipped to 0..1, to linear light as displayed by sRGB, 0..1.
    pub fn apply(&self, light: f64) -> f64 {
        use bleachfield_core::colour::space::{decode, encode};
        let x = light.clamp(0.0, 1.0);
        match *self {
            Self::Plain => x,
            Self::Video => decode(if x < 0.018 { 4.5 * x } else { 1.099 * x.powf(0.45) - 0.099 }),
            Self::Film { contrast, middle } => {
                let s = |x: f64| x.powf(contrast) / (x.powf(contrast) + middle);
                s(x) / s(1.0)
            }
            Self::Print { strength } => {
                let s = |x: f64| (x * (2.51 * x + 0.03)) / (x * (2.43 * x + 0.59) + 0.14);
                (1.0 - strength) * x + strength * s(x) / s(1.0)
            }
            Self::Cosine { strength } => {
                let e = encode(x);
                let s = 0.5 - 0.5 * (std::f64::consts::PI * e).cos();
                decode((1.0 - strength) * e + strength * s)
            }
        }
    }
}

fn likely_lights() -> impl Iterator<Item = Spectrum> {
    let warm = (0..16).map(|i| black_body(2400.0 + 100.0 * f64::from(i)));
    let cool = (0..21).map(|i| daylight(4000.0 + 250.0 * f64::from(i)));
    warm.chain(cool)
}

/// Raw values divided by green.
fn chroma(raw: [f64; 3]) -> [f64; 3] {
    raw.map(|v| v.max(1e-9) / raw[1].max(1e-9))
}

fn apart(one: [f64; 3], other: [f64; 3]) -> f64 {
    let (one, other) = (chroma(one), chroma(other));
    (one[0] / other[0]).ln().hypot((one[2] / other[2]).ln())
}

/// The camera's colour matrix, from balanced raw to linear sRGB: fitted for tungsten and
/// for daylight over smooth reflectances, interpolated by the warmth of the white point,
/// as raw converters do.
fn matrix(
    white_point: [f64; 3],
    day: [f64; 3],
    raw: impl Fn(&Spectrum) -> [f64; 3],
) -> [[f64; 3]; 3] {
    let (warm, cool) = (black_body(2856.0), daylight(6504.0));
    let blueness = |raw: [f64; 3]| (raw[2] / raw[0].max(1e-9)).max(1e-9).ln();
    let span = blueness(day) - blueness(raw(&warm));
    let part = ((blueness(white_point) - blueness(raw(&warm))) / span).clamp(0.0, 1.0);
    let (at_warm, at_cool) = (fitted(&warm, &raw), fitted(&cool, &raw));
    let mut mixed = at_warm;
    for (row, cool_row) in mixed.iter_mut().zip(at_cool) {
        for (cell, cool_cell) in row.iter_mut().zip(cool_row) {
            *cell += part * (cool_cell - *cell);
        }
    }
    mixed
}

/// Least squares over the training reflectances, constrained to map white to white.
fn fitted(light: &Spectrum, raw: &impl Fn(&Spectrum) -> [f64; 3]) -> [[f64; 3]; 3] {
    let white = raw(light);
    let day = daylight(6504.0);
    let day_white = observe(&day);
    // With rows that sum to 1: out - g = m_r (r - g) + m_b (b - g).
    let (mut rr, mut rb, mut bb) = (0.0, 0.0, 0.0);
    let mut right = [[0.0; 2]; 3];
    for surface in training() {
        let seen = raw(&light.times(&surface));
        let balanced = [0, 1, 2].map(|c| seen[c] / white[c]);
        let [x, y, z] = observe(&day.times(&surface));
        let wanted = Xyz {
            x: D65.x * x / day_white[0],
            y: D65.y * y / day_white[1],
            z: D65.z * z / day_white[2],
        }
        .to_linear();
        let (r, b) = (balanced[0] - balanced[1], balanced[2] - balanced[1]);
        rr += r * r;
        rb += r * b;
        bb += b * b;
        for (sums, wanted) in right.iter_mut().zip(wanted) {
            let rest = wanted - balanced[1];
            sums[0] += r * rest;
            sums[1] += b * rest;
        }
    }
    let determinant = rr * bb - rb * rb;
    right.map(|[r, b]| {
        let red = (r * bb - b * rb) / determinant;
        let blue = (b * rr - r * rb) / determinant;
        [red, 1.0 - red - blue, blue]
    })
}

/// Smooth reflectances of all hues, as on a colour chart: peaks, dips and edges at many
/// wavelengths. No pulp among them.
fn training() -> impl Iterator<Item = Spectrum> {
    let centres = (0..9).map(|i| 420.0 + 32.0 * f64::from(i));
    centres.flat_map(|centre| {
        let bump = move |nm: f64| (-0.5 * ((nm - centre) / 45.0_f64).powi(2)).exp();
        let edge = move |nm: f64| 1.0 / (1.0 + (-(nm - centre) / 18.0).exp());
        [
            Spectrum::of(move |nm| 0.12 + 0.5 * bump(nm)),
            Spectrum::of(move |nm| 0.7 - 0.45 * bump(nm)),
            Spectrum::of(move |nm| 0.08 + 0.6 * edge(nm)),
            Spectrum::of(move |nm| 0.75 - 0.5 * edge(nm)),
        ]
    })
}

fn times(matrix: &[[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tone_curves_rise_from_0_to_1() {
        for curve in [
            ToneCurve::Plain,
            ToneCurve::Video,
            ToneCurve::Film { contrast: 1.2, middle: 0.5 },
            ToneCurve::Print { strength: 0.5 },
            ToneCurve::Cosine { strength: 0.3 },
        ] {
            assert!(curve.apply(0.0).abs() < 1e-9 && (curve.apply(1.0) - 1.0).abs() < 1e-9);
            let steps: Vec<f64> = (0..=100).map(|i| curve.apply(f64::from(i) / 100.0)).collect();
            assert!(steps.windows(2).all(|w| w[1] > w[0]), "{curve:?}");
        }
    }

    #[test]
    fn a_white_in_daylight_is_rendered_near_white() {
        let light = daylight(6504.0);
        let camera = Camera { balance_error: [0.0; 2], ..Camera::phone() };
        let white = camera.response(&light)(&light);
        assert!(white.iter().all(|v| (v - 1.0).abs() < 0.03), "{white:?}");
    }
}
