//! The readings that a wash is calculated from, and the targets usual for them.
//! Not here: where the readings come from; `derive::wash_record` takes them from a book.

use super::{
    Alkali, Efficiency, PulpLiquor, RinseTiming, Solute, SqueezedPulp, TapWater, Targets, Wash,
};
use crate::chemistry::EquilibriumError;
use crate::pulp::sign_off::PH_FROM_TAP;
use crate::quantity::{Basis, Estimate, MassConcentration, grams_per_litre, in_grams_per_litre};

/// pH of tap water that nobody has read (common practice, no source).
pub(crate) const USUAL_TAP_PH: f64 = 7.5;

/// Concentration of available chlorine or peroxide that a strip shows as zero,
/// g/L: half of the usual first step of 1 mg/L (common practice, no source).
const STRIP_ZERO: f64 = 0.0005;

/// Salt above the tap's own that does no harm in a sheet, g/L, and dissolved
/// brown matter (own estimates, no source): at 20 % dryness they leave 0.08 % of
/// the fibre's mass as salt and 0.02 % as brown matter.
const HARMLESS_SALT: f64 = 0.2;
const HARMLESS_ORGANICS: f64 = 0.05;

/// Error of a strength of salt or brown matter that a person worked out, as a part of it (own
/// estimate, no source).
const WORKED_OUT_OFF: f64 = 0.3;

/// A strength of salt or brown matter that a person worked out.
pub fn worked_out(strength: MassConcentration) -> Estimate<MassConcentration> {
    Estimate::within(strength, WORKED_OUT_OFF, Basis::Computed)
}

/// Readings of the liquor in the pulp and of the tap water, each with its range
/// and basis; `None` where there is no reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WashReadings {
    /// Which alkali the liquor's pH is due to.
    pub alkali: Alkali,
    /// pH of the liquor squeezed from the pulp.
    pub ph: Option<Estimate<f64>>,
    /// Available chlorine or peroxide in it.
    pub oxidant: Option<Estimate<MassConcentration>>,
    pub salt: Option<Estimate<MassConcentration>>,
    pub organics: Option<Estimate<MassConcentration>>,
    pub tap_ph: Option<Estimate<f64>>,
    /// Total hardness of the tap water as CaCO3.
    pub hardness: Option<Estimate<MassConcentration>>,
}

impl Default for WashReadings {
    /// No reading; soda ash, the alkali of cooks and percarbonate baths.
    fn default() -> Self {
        Self {
            alkali: Alkali::SodaAsh,
            ph: None,
            oxidant: None,
            salt: None,
            organics: None,
            tap_ph: None,
            hardness: None,
        }
    }
}

/// Targets that a person sets in place of the usual ones.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OwnTargets {
    pub ph: Option<f64>,
    pub oxidant: Option<MassConcentration>,
}

impl WashReadings {
    /// The wash of `pulp` with water at `celsius`: each solute that was read
    /// down to its own target, where there is one, else to the usual one.
    ///
    /// # Errors
    /// A pH outside 0–14 or above what the alkali reaches; a temperature
    /// outside 5–80 °C.
    pub fn wash(
        &self,
        pulp: SqueezedPulp,
        own: OwnTargets,
        efficiency: Efficiency,
        timing: RinseTiming,
        celsius: f64,
    ) -> Result<Wash, EquilibriumError> {
        let liquor = self.liquor(celsius)?;
        let tap = self.tap(celsius)?;
        let mut targets = self.usual_targets(&liquor, &tap, celsius)?;
        if let (Some(own), Some(_)) = (own.oxidant, liquor.oxidant) {
            targets.oxidant = Some(own);
        }
        if let (Some(own), Some(_)) = (own.ph, liquor.alkali) {
            targets.alkali = Some(self.alkali.strength(own, celsius)?);
        }
        Ok(Wash { pulp, liquor, targets, tap, efficiency, timing })
    }

    fn liquor(&self, celsius: f64) -> Result<PulpLiquor, EquilibriumError> {
        let alkali = self.ph.map(|ph| self.alkali.strength_range(ph, celsius)).transpose()?;
        Ok(PulpLiquor { oxidant: self.oxidant, alkali, salt: self.salt, organics: self.organics })
    }

    fn tap(&self, celsius: f64) -> Result<TapWater, EquilibriumError> {
        let hardness = self.hardness.map_or_else(|| grams_per_litre(0.0), |known| known.value);
        match self.tap_ph {
            Some(ph) => self.alkali.tap(ph.value, hardness, celsius),
            None => Ok(TapWater { salt: Some(hardness), ..TapWater::default() }),
        }
    }

    /// Oxidant to what strips show as zero, alkali to within 0.3 pH of the tap,
    /// salt and brown matter to a harmless concentration.
    fn usual_targets(
        &self,
        liquor: &PulpLiquor,
        tap: &TapWater,
        celsius: f64,
    ) -> Result<Targets, EquilibriumError> {
        let tap_ph = self.tap_ph.map_or(USUAL_TAP_PH, |ph| ph.value).max(USUAL_TAP_PH);
        let above_tap = |solute, excess: f64| {
            grams_per_litre(tap.get(solute).map_or(0.0, in_grams_per_litre) + excess)
        };
        let alkali = match liquor.alkali {
            Some(_) => Some(self.alkali.strength(tap_ph + PH_FROM_TAP, celsius)?),
            None => None,
        };
        Ok(Targets {
            oxidant: liquor.oxidant.map(|_| above_tap(Solute::Oxidant, STRIP_ZERO)),
            alkali,
            salt: liquor.salt.map(|_| above_tap(Solute::Salt, HARMLESS_SALT)),
            organics: liquor.organics.map(|_| above_tap(Solute::Organics, HARMLESS_ORGANICS)),
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::pulp::wash::strip_ph;
    use crate::quantity::{grams, share};

    fn wash(readings: &WashReadings, own: OwnTargets) -> Wash {
        let pulp = SqueezedPulp {
            wet_mass: Estimate::exact(grams(1000.0), Basis::Measured),
            dryness: Estimate::exact(share(0.2), Basis::Measured),
        };
        let timing = RinseTiming::default();
        readings.wash(pulp, own, Efficiency::assumed(), timing, 15.0).unwrap()
    }

    #[test]
    fn usual_targets_are_above_the_tap_water() {
        let some = Some(Estimate::exact(grams_per_litre(5.0), Basis::Measured));
        let hardness = Some(Estimate::exact(grams_per_litre(0.3), Basis::Measured));
        for tap_ph in [6.5, 7.5, 8.4] {
            let readings = WashReadings {
                ph: Some(strip_ph(11.0)),
                oxidant: some,
                salt: some,
                organics: some,
                tap_ph: Some(strip_ph(tap_ph)),
                hardness,
                ..WashReadings::default()
            };
            let wash = wash(&readings, OwnTargets::default());
            for solute in Solute::ALL {
                let floor = wash.tap.get(solute).unwrap_or_else(|| grams_per_litre(0.0));
                assert!(wash.targets.get(solute).unwrap() > floor, "{solute:?} at {tap_ph}");
            }
        }
    }

    #[test]
    fn an_own_target_replaces_the_usual_one() {
        let readings = WashReadings { ph: Some(strip_ph(11.0)), ..WashReadings::default() };
        let usual = wash(&readings, OwnTargets::default()).targets;
        let own = OwnTargets { ph: Some(9.0), oxidant: Some(grams_per_litre(0.01)) };
        let own = wash(&readings, own).targets;
        assert!(own.alkali > usual.alkali);
        assert_eq!(own.oxidant, None, "no oxidant was read");
    }

    #[test]
    fn a_meter_leaves_less_room_for_the_alkali_than_a_strip() {
        let meter = Estimate { value: 10.0, low: 9.9, high: 10.1, basis: Basis::Measured };
        let by = |ph| WashReadings { ph: Some(ph), ..WashReadings::default() };
        let alkali = |ph| wash(&by(ph), OwnTargets::default()).liquor.alkali.unwrap();
        let (meter, strip) = (alkali(meter), alkali(strip_ph(10.0)));
        assert_eq!(meter.value, strip.value);
        assert_eq!((meter.basis, strip.basis), (Basis::Measured, Basis::Strip));
        assert!(meter.low > strip.low && meter.high < strip.high);
    }
}
