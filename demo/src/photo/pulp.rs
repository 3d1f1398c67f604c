//! Reflectance spectra of pulp, cards and the bench.

use super::spectrum::Spectrum;
use bleachfield_core::colour::kubelka_munk;

/// A pulp's absorption over scattering, K/S, as a function of wavelength.
///
/// Lignin and its darkened relatives absorb more and more towards the blue; a plain
/// exponential is close over the visible. An unbleached chemical pulp of 25 % blue
/// reflectance and 45 % at 600 nm decays by a factor e over about 118 nm. From memory,
/// no source for a studio's leaf fibres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulp {
    /// K/S at 457 nm, dry.
    pub k_over_s_457: f64,
    /// Decay length of the absorption towards the red, nm.
    pub decay_nm: f64,
    /// K/S independent of wavelength: dirt, iron, greying by overbleaching.
    pub grey: f64,
    /// K/S at 670 nm of residual chlorophyll.
    pub green: f64,
    /// Factor on K/S; above 1 where wet pulp scatters less.
    pub wet: f64,
}

impl Pulp {
    /// The factor of wet pulp: own estimate, no source.
    pub const WET: f64 = 2.1;

    pub fn dry(k_over_s_457: f64, decay_nm: f64) -> Self {
        Self { k_over_s_457, decay_nm, grey: 0.004, green: 0.0, wet: 1.0 }
    }

    #[must_use]
    pub fn wetted(self) -> Self {
        Self { wet: Self::WET, ..self }
    }

    /// The same pulp with the share `left` of its colour, 0 to 1.
    #[must_use]
    pub fn bleached(self, left: f64) -> Self {
        Self {
            k_over_s_457: self.k_over_s_457 * left,
            // The residual colour becomes more yellow.
            decay_nm: self.decay_nm * (0.75 + 0.25 * left),
            green: self.green * left * left,
            ..self
        }
    }

    pub fn reflectance(&self) -> Spectrum {
        Spectrum::of(|nm| {
            let brown = self.k_over_s_457 * (-(nm - 457.0) / self.decay_nm).exp();
            let green = self.green * (-0.5 * ((nm - 670.0) / 22.0).powi(2)).exp();
            let all = (brown + green + self.grey) * self.wet;
            kubelka_munk::reflectance(all).unwrap_or(0.0)
        })
    }
}

/// A nearly neutral card: `slope` is the relative increase of its reflectance from 400 to
/// 700 nm.
pub fn card(reflectance: f64, slope: f64) -> Spectrum {
    Spectrum::of(|nm| reflectance * (1.0 + slope * (nm - 550.0) / 300.0))
}

/// A slate bench: dark, slightly blue.
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
    fn reflectances_lie_between_0_and_1() {
        for spectrum in [Pulp::dry(0.01, 90.0).reflectance(), card(0.9, 0.01), slate()] {
            assert!(spectrum.0.iter().all(|r| (0.0..=1.0).contains(r)));
        }
    }
}
