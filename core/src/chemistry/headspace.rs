//! Chlorine in the air over a hypochlorite liquor.
//!
//! Worst case: a closed vessel at equilibrium, no activity correction (which would lower the
//! results), and the lowest of the published Henry constants. A basis for cautions, not a
//! prediction of room air.
//!
//! Chloride shifts the equilibrium to chlorine, and bleach contains at least as much chloride
//! as hypochlorite: the pH below which gas forms depends on the liquor.

use super::equilibrium::{Constants, Mix, dissolved_chlorine};
use super::exposure_limit;
use super::substance::{in_moles_per_litre, moles_per_litre};
use crate::message::Field;
use crate::quantity::{OutOfRange, QuantityKind};
use uom::si::f64::MolarConcentration;

/// NIOSH recommended exposure limit for chlorine, 15-minute ceiling, ppm.
pub const NIOSH_CEILING_PPM: f64 = exposure_limit::CHLORINE.niosh;
/// OSHA permissible exposure limit for chlorine, ceiling, ppm.
pub const OSHA_CEILING_PPM: f64 = exposure_limit::CHLORINE.osha;
/// Immediately dangerous to life or health, ppm.
pub const DANGEROUS_PPM: f64 = exposure_limit::CHLORINE.dangerous;

pub const GAS_LIMIT: Field = Field("gas_limit");

/// Closed headspace over a liquor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Headspace {
    /// Chlorine(+1) and chloride, mol/L.
    hypochlorite: f64,
    chloride: f64,
    constants: Constants,
}

impl Headspace {
    /// Over this mix, at its temperature.
    pub fn of(mix: &Mix) -> Self {
        Self {
            hypochlorite: mix.hypochlorite_moles_per_litre(),
            chloride: mix.chloride_moles_per_litre(),
            constants: *mix.constants(),
        }
    }

    /// Chlorine in the air if the liquor had this pH, ppm by volume at one atmosphere.
    pub fn ppm_at(&self, ph: f64) -> f64 {
        1e6 * in_moles_per_litre(self.dissolved_at(ph)) / self.constants.chlorine_henry
    }

    /// Dissolved Cl2 if the liquor had this pH.
    pub fn dissolved_at(&self, ph: f64) -> MolarConcentration {
        let h = 10_f64.powf(-ph);
        let k = h * h / (self.constants.chlorine_hydrolysis * (self.constants.hypochlorous + h));
        moles_per_litre(dissolved_chlorine(k, self.hypochlorite, self.chloride))
    }

    /// pH below which the air exceeds `limit_ppm`; `None` if it does not at any pH.
    ///
    /// # Errors
    /// A limit outside 0.001 to 1 000 000 ppm.
    pub fn gas_ph(&self, limit_ppm: f64) -> Result<Option<f64>, OutOfRange> {
        OutOfRange::check(GAS_LIMIT, QuantityKind::Number, limit_ppm, 1e-3, 1e6)?;
        let dissolved = 1e-6 * limit_ppm * self.constants.chlorine_henry;
        let rest = (self.hypochlorite - dissolved, self.chloride - dissolved);
        if rest.0 <= 0.0 || rest.1 <= 0.0 {
            return Ok(None);
        }
        // h² / (Kh (Ka + h)) = k, a quadratic in h.
        let k = dissolved / (rest.0 * rest.1) * self.constants.chlorine_hydrolysis;
        let h = 0.5 * (k + (k * k + 4.0 * k * self.constants.hypochlorous).sqrt());
        Ok(Some(-h.log10()))
    }

    /// [`Self::gas_ph`] for the three published limits.
    pub fn gas_region(&self) -> GasRegion {
        let at = |limit| self.gas_ph(limit).ok().flatten();
        GasRegion {
            exposure_limit: at(NIOSH_CEILING_PPM),
            permissible_limit: at(OSHA_CEILING_PPM),
            dangerous: at(DANGEROUS_PPM),
        }
    }
}

/// pH below which a closed headspace exceeds each limit; `None`: at no pH.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasRegion {
    /// [`NIOSH_CEILING_PPM`].
    pub exposure_limit: Option<f64>,
    /// [`OSHA_CEILING_PPM`].
    pub permissible_limit: Option<f64>,
    /// [`DANGEROUS_PPM`].
    pub dangerous: Option<f64>,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use proptest::prelude::*;

    fn bleach(celsius: f64, moles: f64) -> Headspace {
        Headspace::of(&Mix::new(celsius).unwrap().with_bleach(moles_per_litre(moles)))
    }

    #[test]
    fn water_without_bleach_gives_no_chlorine() {
        let water = bleach(20.0, 0.0);
        assert_eq!(water.gas_ph(0.5).unwrap(), None);
        assert_eq!(water.ppm_at(1.0), 0.0);
        assert!(water.gas_ph(0.0).is_err());
    }

    proptest! {
        // `cases` counts accepted cases only: a liquor that cannot reach the limit is rejected.
        // More than a quarter rejected fails.
        #![proptest_config(ProptestConfig {
            max_global_rejects: ProptestConfig::default().cases / 4,
            ..ProptestConfig::default()
        })]

        #[test]
        fn at_the_gas_ph_the_air_is_at_the_limit(
            celsius in 5.0..80.0_f64, log in -5.0..0.3_f64, limit in 0.1..100.0_f64,
        ) {
            let headspace = bleach(celsius, 10_f64.powf(log));
            let ph = headspace.gas_ph(limit).unwrap();
            prop_assume!(ph.is_some());
            let ph = ph.unwrap();
            prop_assert!((headspace.ppm_at(ph) / limit - 1.0).abs() < 1e-6);
            prop_assert!(headspace.ppm_at(ph - 0.1) > limit);
        }

        #[test]
        fn gas_ph_rises_with_strength(log in -5.0..0.0_f64) {
            let ph = |factor: f64| bleach(20.0, factor * 10_f64.powf(log)).gas_ph(0.5).unwrap();
            prop_assume!(ph(1.0).is_some());
            prop_assert!(ph(2.0) > ph(1.0));
        }
    }
}
