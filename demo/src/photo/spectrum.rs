//! Spectra on one grid: 380 to 780 nm by 5 nm.

use bleachfield_core::colour::space::{D65, Lab, Xyz};
use std::sync::OnceLock;

/// Samples in a spectrum.
pub const SAMPLES: usize = 81;
const FIRST_NM: f64 = 380.0;
const STEP_NM: f64 = 5.0;

/// A power, a reflectance or a sensitivity at each grid point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spectrum(pub [f64; SAMPLES]);

/// The grid points, nm.
pub fn nanometres() -> impl Iterator<Item = f64> {
    (0..SAMPLES).map(|i| FIRST_NM + STEP_NM * i as f64)
}

impl Spectrum {
    /// From a function of the wavelength in nm.
    pub fn of(f: impl Fn(f64) -> f64) -> Self {
        let mut values = [0.0; SAMPLES];
        for (value, nm) in values.iter_mut().zip(nanometres()) {
            *value = f(nm);
        }
        Self(values)
    }

    pub fn times(&self, other: &Self) -> Self {
        let mut product = *self;
        for (mine, theirs) in product.0.iter_mut().zip(other.0) {
            *mine *= theirs;
        }
        product
    }

    pub fn plus(&self, other: &Self, part: f64) -> Self {
        let mut sum = *self;
        for (mine, theirs) in sum.0.iter_mut().zip(other.0) {
            *mine += part * theirs;
        }
        sum
    }

    pub fn dot(&self, other: &Self) -> f64 {
        self.0.iter().zip(other.0).map(|(one, other)| one * other).sum()
    }

    /// The same shape with a luminance of 1 on a perfect white.
    pub fn as_light(&self) -> Self {
        let luminance = self.dot(published("cmf_y"));
        Self(self.0.map(|v| v / luminance))
    }

    /// CIELAB of this reflectance under D65 for the 2° observer: the true colour that a
    /// measurement is compared with.
    pub fn lab(&self) -> Lab {
        let light = daylight(6504.0);
        let [x, y, z] = observe(&light.times(self));
        let [xw, yw, zw] = observe(&light);
        Lab::from_xyz(Xyz { x: D65.x * x / xw, y: D65.y * y / yw, z: D65.z * z / zw })
    }
}

/// XYZ of a colour stimulus, unscaled.
pub fn observe(stimulus: &Spectrum) -> [f64; 3] {
    ["cmf_x", "cmf_y", "cmf_z"].map(|name| stimulus.dot(published(name)))
}

/// A published spectrum by its name in `spectra.csv` or `cameras.csv`.
///
/// # Panics
/// If no table has such a name. Names are constants of this crate.
pub fn published(name: &str) -> &'static Spectrum {
    match table().iter().find(|(known, _)| *known == name) {
        Some((_, spectrum)) => spectrum,
        None => panic!("no spectrum {name}"),
    }
}

/// Names of the published lights: fluorescent, high pressure, LED, indoor daylight.
pub fn published_lights() -> impl Iterator<Item = &'static str> {
    table()
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| ["FL", "HP", "LED", "ID"].iter().any(|kind| name.starts_with(kind)))
}

/// Reflectances of a 24-patch chart, row by row from dark skin to black.
pub fn chart() -> [Spectrum; 24] {
    std::array::from_fn(|n| *published(&format!("chart{n:02}")))
}

/// A black body, in kelvin: tungsten, halogen, candle. Planck's law, CIE 15 (2004),
/// section 3, with c2 = 1.4388e-2 m K; illuminant A is 2856 K to within its rounding.
pub fn black_body(kelvin: f64) -> Spectrum {
    Spectrum::of(|nm| {
        let metres = nm * 1e-9;
        metres.powi(-5) / ((1.4388e-2 / (metres * kelvin)).exp() - 1.0)
    })
    .as_light()
}

/// Daylight of a correlated colour temperature from 4000 to 25 000 K: CIE 15 (2004),
/// equations 3.3 to 3.6; D65 is 6504 K.
pub fn daylight(kelvin: f64) -> Spectrum {
    let t = 1000.0 / kelvin;
    let x = if kelvin <= 7000.0 {
        0.244_063 + t * (0.099_11 + t * (2.9678 - t * 4.6070))
    } else {
        0.237_040 + t * (0.247_48 + t * (1.9018 - t * 2.0064))
    };
    let y = -3.0 * x * x + 2.870 * x - 0.275;
    let m = 0.0241 + 0.2562 * x - 0.7341 * y;
    let m1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / m;
    let m2 = (0.0300 - 31.4424 * x + 30.0717 * y) / m;
    published("day_S0").plus(published("day_S1"), m1).plus(published("day_S2"), m2).as_light()
}

/// A narrow band, as of a coloured LED: centre and half width at half maximum, nm.
pub fn band(centre_nm: f64, half_width_nm: f64) -> Spectrum {
    let sigma = half_width_nm / 1.1774;
    Spectrum::of(|nm| (-0.5 * ((nm - centre_nm) / sigma).powi(2)).exp()).as_light()
}

fn table() -> &'static [(&'static str, Spectrum)] {
    static TABLE: OnceLock<Vec<(&'static str, Spectrum)>> = OnceLock::new();
    let files = [include_str!("spectra.csv"), include_str!("cameras.csv")];
    TABLE.get_or_init(|| files.iter().flat_map(|file| file.lines()).filter_map(row).collect())
}

fn row(line: &'static str) -> Option<(&'static str, Spectrum)> {
    let (name, values) = line.split_once(',').filter(|_| !line.starts_with('#'))?;
    let mut spectrum = Spectrum([0.0; SAMPLES]);
    for (slot, text) in spectrum.0.iter_mut().zip(values.split(',')) {
        *slot = text.parse().unwrap_or_else(|_| panic!("spectrum {name}: {text}"));
    }
    Some((name, spectrum))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn xy(light: &Spectrum) -> (f64, f64) {
        let [x, y, z] = observe(light);
        (x / (x + y + z), y / (x + y + z))
    }

    /// CIE 15 (2004): chromaticities of A and D65; FL2 from table T.7.
    #[test]
    fn lights_have_their_published_chromaticity() {
        for (light, x, y) in [
            (black_body(2856.0), 0.4476, 0.4074),
            (daylight(6504.0), 0.3127, 0.3290),
            (daylight(5003.0), 0.3457, 0.3585),
            (*published("FL2"), 0.3721, 0.3751),
            (*published("FL11"), 0.3805, 0.3769),
        ] {
            let found = xy(&light);
            assert!((found.0 - x).abs() < 5e-4 && (found.1 - y).abs() < 5e-4, "{found:?}, {x} {y}");
        }
    }

    #[test]
    fn a_perfect_white_is_white() {
        let lab = Spectrum::of(|_| 1.0).lab();
        assert!((lab.l - 100.0).abs() < 1e-6 && lab.chroma() < 1e-6);
    }

    #[test]
    fn at_least_40_lights_are_published() {
        assert!(published_lights().count() >= 40);
    }
}
