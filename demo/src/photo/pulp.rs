//! What pulp, cards and the bench reflect.

use super::spectrum::Spectrum;
use bleachfield_core::colour::kubelka_munk;

/// A pulp's absorption over scattering, as it changes with the wavelength.
///
/// Lignin and its darkened relatives absorb more and more towards the blue; a plain
/// exponential is close over the visible. An unbleached chemical pulp of 25 % blue
/// reflectance and 45 % at 600 nm gives a fall by e over about 118 nm. From memory,
/// no source for a studio's leaf fibres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulp {
    /// K/S at 457 nm, dry.
    pub k_over_s_457: f64,
    /// Over how many nm the absorption falls by e.
    pub fall_nm: f64,
    /// K/S that all wavelengths share: dirt, iron, overdone bleaching's grey.
    pub grey: f64,
    /// K/S at 670 nm of what is left of a leaf's green.
    pub green: f64,
    /// Wet pulp scatters less: its K/S is this many times the dry one.
    pub wet: f64,
}

impl Pulp {
    /// K/S times this in a wet pulp: own estimate, no source.
    pub const WET: f64 = 2.1;

    pub fn dry(k_over_s_457: f64, fall_nm: f64) -> Self {
        Self { k_over_s_457, fall_nm, grey: 0.004, green: 0.0, wet: 1.0 }
    }

    #[must_use]
    pub fn wetted(self) -> Self {
        Self { wet: Self::WET, ..self }
    }

    /// The same pulp with its colour taken down to `left` of what it was, 0 to 1.
    #[must_use]
    pub fn bleached(self, left: f64) -> Self {
        Self {
            k_over_s_457: self.k_over_s_457 * left,
            // Bleaching leaves the yellow end for last.
            fall_nm: self.fall_nm * (0.75 + 0.25 * left),
            green: self.green * left * left,
            ..self
        }
    }

    pub fn reflectance(&self) -> Spectrum {
        Spectrum::of(|nm| {
            let brown = self.k_over_s_457 * (-(nm - 457.0) / self.fall_nm).exp();
            let green = self.green * (-0.5 * ((nm - 670.0) / 22.0).powi(2)).exp();
            let all = (brown + green + self.grey) * self.wet;
            kubelka_munk::reflectance(all).unwrap_or(0.0)
        })
    }
}

/// A card of about even reflectance that leans a little, as real ones do: `lean` is
/// how much more it reflects at 700 than at 400 nm.
pub fn card(reflectance: f64, lean: f64) -> Spectrum {
    Spectrum::of(|nm| reflectance * (1.0 + lean * (nm - 550.0) / 300.0))
}

/// Copy paper with an optical brightener: it takes up violet and gives it back in
/// the blue, as far as the light holds violet (`violet` 0 to 1). From memory.
pub fn copy_paper(violet: f64) -> Spectrum {
    Spectrum::of(|nm| {
        let paper = 0.90 - 0.03 * (-(nm - 400.0) / 60.0).exp();
        let glow = 0.14 * violet * (-0.5 * ((nm - 440.0) / 22.0).powi(2)).exp();
        let taken = 0.5 / (1.0 + ((nm - 405.0) / 6.0).exp());
        paper * (1.0 - taken) + glow
    })
}

/// A slate bench: dark, a trace of blue.
pub fn slate() -> Spectrum {
    Spectrum::of(|nm| 0.115 - 0.012 * (nm - 550.0) / 200.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bleaching_lightens_and_water_darkens() {
        let raw = Pulp::dry(1.1, 118.0);
        let (dry, wet, pale) = (
            raw.reflectance().lab(),
            raw.wetted().reflectance().lab(),
            raw.bleached(0.1).reflectance().lab(),
        );
        assert!(wet.l < dry.l && dry.l < pale.l);
        assert!(pale.b < dry.b && (55.0..80.0).contains(&dry.l), "{dry:?}");
    }

    #[test]
    fn nothing_reflects_more_than_it_gets() {
        for spectrum in [Pulp::dry(0.01, 90.0).reflectance(), card(0.9, 0.01), slate()] {
            assert!(spectrum.0.iter().all(|r| (0.0..=1.0).contains(r)));
        }
    }
}
