//! Dry fibre and water in wet pulp: dryness, consistency, air-dry mass.
//! Not here: pulp squeezed between rinses, which is `wash::SqueezedPulp`.
//!
//! Consistency is oven-dry fibre mass over total slurry mass (TAPPI T 240,
//! ISO 4119; wording from memory); dryness is the same for wet pulp (ISO 638,
//! TAPPI T 412; wording from memory). Oven-dry means dried at 105 °C to
//! constant mass.

use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

use crate::{
    message::Field,
    quantity::{
        Basis, ComputedEstimate, Estimate, Mass, OutOfRange, QuantityKind, Ratio, UncertainInput,
        grams, in_grams, in_share, propagate_uncertainty, share,
    },
};

/// Wet pulp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WetPulp {
    pub wet: Estimate<Mass>,
    /// Oven-dry mass over wet mass.
    pub dryness: Estimate<Ratio>,
}

impl WetPulp {
    /// Wet pulp of a mass and a dryness.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the mass is above 0 and at most 500 kg, and the
    /// dryness between 0.1 % and 100 %, ranges included.
    pub fn new(wet: Estimate<Mass>, dryness: Estimate<Ratio>) -> Result<Self, OutOfRange> {
        let pulp = Self { wet, dryness };
        pulp.check()?;
        Ok(pulp)
    }

    /// Oven-dry fibre in it.
    pub fn oven_dry(&self) -> ComputedEstimate<Mass> {
        self.part(|dryness| dryness)
    }

    /// Water in it.
    pub fn water(&self) -> ComputedEstimate<Mass> {
        self.part(|dryness| 1.0 - dryness)
    }

    /// Its air-dry mass by the trade's convention of 10 % moisture (saleable
    /// mass, ISO 801; the 90 % is from memory). A figure for invoices: pulp
    /// dried in a room holds 6 to 9 %.
    pub fn air_dry(&self) -> ComputedEstimate<Mass> {
        self.part(|dryness| dryness / AIR_DRY)
    }

    pub(crate) fn check(&self) -> Result<(), OutOfRange> {
        self.wet.map(in_grams).check(WET_MASS, QuantityKind::Mass, 1e-3, 500_000.0)?;
        self.dryness.map(in_share).check(DRYNESS, QuantityKind::Share, 1e-3, 1.0)?;
        Ok(())
    }

    fn part(&self, of: impl Fn(f64) -> f64) -> ComputedEstimate<Mass> {
        let inputs = [
            UncertainInput::of(WET_MASS, self.wet.map(in_grams)),
            UncertainInput::of(DRYNESS, self.dryness.map(in_share)),
        ];
        let value = in_grams(self.wet.value) * of(in_share(self.dryness.value));
        match propagate_uncertainty(&inputs, |[wet, dryness]| [wet * of(*dryness)]) {
            Some([figure]) => figure.map(grams),
            None => ComputedEstimate::exact(grams(value)),
        }
    }
}

/// The source of a dryness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DrynessSource {
    /// Not measured: [`ASSUMED_DRYNESS`].
    Assumed,
    /// This studio's own figure for pulp squeezed the same way.
    Own(Estimate<Ratio>),
    /// A sample weighed wet and again dry.
    /// `how` is `None` where nobody said how it was dried: the range then covers both ways.
    Sample { wet: Estimate<Mass>, dried: Estimate<Mass>, how: Option<DryingMethod> },
}

/// How a sample was dried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum DryingMethod {
    /// At 105 °C to constant mass.
    Oven,
    /// In the room. It still holds 6 to 9 % of moisture: the equilibrium of
    /// pulp at 23 °C and 50 % relative humidity, the climate of ISO 187
    /// (figures from memory).
    Air,
}

impl DryingMethod {
    /// Oven-dry share of a sample dried this way.
    fn dry_share(self) -> Estimate<f64> {
        match self {
            Self::Oven => Estimate::exact(1.0, Basis::Measured),
            Self::Air => Estimate { value: 0.925, low: 0.91, high: 0.94, basis: Basis::Measured },
        }
    }

    /// How a sample of `wet` and `dried` mass was dried, judged by the dryness that was
    /// calculated from it; `None` where neither way gives it.
    pub fn of(wet: f64, dried: f64, dryness: f64) -> Option<Self> {
        let fits = |way: &Self| (dried * way.dry_share().value / wet - dryness).abs() < 1e-6;
        [Self::Oven, Self::Air].into_iter().find(fits)
    }
}

impl DrynessSource {
    /// The dryness with its range.
    ///
    /// # Errors
    /// [`OutOfRange`] beside the field of the mass or share: a mass of zero, a
    /// sample that gained mass in drying, a share above 1.
    pub fn estimate(self) -> Result<Estimate<Ratio>, OutOfRange> {
        match self {
            DrynessSource::Assumed => Ok(ASSUMED_DRYNESS.map(share)),
            DrynessSource::Own(own) => {
                own.map(in_share).check(DRYNESS, QuantityKind::Share, 1e-3, 1.0)?;
                Ok(own)
            }
            DrynessSource::Sample { wet, dried, how: Some(how) } => sample(wet, dried, how),
            DrynessSource::Sample { wet, dried, how: None } => {
                let air = sample(wet, dried, DryingMethod::Air)?;
                let oven = sample(wet, dried, DryingMethod::Oven)?;
                Ok(Estimate {
                    value: (air.value + oven.value) * 0.5,
                    low: air.low,
                    high: oven.high,
                    basis: Basis::Assumed,
                })
            }
        }
    }
}

/// Dryness of pulp squeezed by hand: 20 %, 15 to 25 %. No published value was
/// found; common practice, no source. It is the largest single error of a
/// calculation, so it is marked as assumed wherever it is shown.
pub const ASSUMED_DRYNESS: Estimate<f64> =
    Estimate { value: 0.20, low: 0.15, high: 0.25, basis: Basis::Assumed };

/// Dry share of air-dry pulp, as sold (ISO 801; from memory).
pub const AIR_DRY: f64 = 0.90;

/// Oven-dry share of plant dried in the room, before the cook (common practice, no source).
const AIR_DRY_RAW: Estimate<f64> =
    Estimate { value: 0.91, low: 0.88, high: 0.94, basis: Basis::Assumed };

/// Oven-dry mass of raw plant that was weighed dry from the room.
pub fn oven_dry_raw(weighed: Estimate<Mass>) -> Estimate<Mass> {
    Estimate {
        value: weighed.value * AIR_DRY_RAW.value,
        low: weighed.low * AIR_DRY_RAW.low,
        high: weighed.high * AIR_DRY_RAW.high,
        basis: weighed.basis.max(AIR_DRY_RAW.basis),
    }
}

/// Highest dryness by hand, and by a screw or a press: common practice for the
/// first, Smook's handbook (from memory) for the second.
pub const SQUEEZED_AT_MOST: f64 = 0.25;
pub const PRESSED_AT_MOST: f64 = 0.45;

/// Density of cellulose in water in g/mL (handbook value, from memory).
pub const CELLULOSE_DENSITY: f64 = 1.5;

pub const WET_MASS: Field = Field("wet_mass");
pub const DRYNESS: Field = Field("dryness");
pub const SAMPLE_WET: Field = Field("sample_wet");
pub const SAMPLE_DRIED: Field = Field("sample_dried");
pub const LIQUOR_MASS: Field = Field("liquor_mass");

/// Consistency of `oven_dry` fibre in a slurry of `total` mass; 0 for an empty
/// slurry. The masses are not checked.
pub fn consistency(oven_dry: Mass, total: Mass) -> Ratio {
    let total = in_grams(total);
    share(if total > 0.0 { in_grams(oven_dry) / total } else { 0.0 })
}

/// Total slurry mass of `oven_dry` fibre at `consistency`.
pub fn slurry_mass(oven_dry: Mass, consistency: Ratio) -> Mass {
    oven_dry / consistency
}

/// One weighing by the three conventions in which papermakers state "10 g of
/// pulp to 85 mL".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConsistencyReadings {
    /// Oven-dry fibre over total mass, the standard: 2.1 % for 10 g at 20 %
    /// dryness in 85 g.
    pub standard: Ratio,
    /// As if the pulp weighed were oven-dry: 10.5 %.
    pub if_dry: Ratio,
    /// Pulp as weighed over liquor added, as recipes often calculate "pulp to
    /// liquor": 11.8 %, called "at least 12 %".
    pub pulp_to_liquor: Ratio,
}

/// The three conventions for `wet` pulp at `dryness` in `liquor`.
///
/// # Errors
/// [`OutOfRange`] for a mass that is not above 0 or a dryness outside 0 to 1.
pub fn readings(
    wet: Mass,
    dryness: Ratio,
    liquor: Mass,
) -> Result<ConsistencyReadings, OutOfRange> {
    let above_zero = |field, mass| {
        OutOfRange::check(field, QuantityKind::Mass, in_grams(mass), 1e-6, 5_000_000.0)
    };
    above_zero(WET_MASS, wet)?;
    above_zero(LIQUOR_MASS, liquor)?;
    OutOfRange::check(DRYNESS, QuantityKind::Share, in_share(dryness), 0.0, 1.0)?;
    let total = wet + liquor;
    Ok(ConsistencyReadings {
        standard: consistency(wet * in_share(dryness), total),
        if_dry: consistency(wet, total),
        pulp_to_liquor: consistency(wet, liquor),
    })
}

/// Checks that a mass and both ends of its range are finite and above 0.
///
/// # Errors
/// The first that is not.
pub(super) fn check_positive(mass: Estimate<Mass>) -> Result<(), Mass> {
    let bad = |mass: &Mass| !(in_grams(*mass).is_finite() && in_grams(*mass) > 0.0);
    [mass.low, mass.value, mass.high].into_iter().find(bad).map_or(Ok(()), Err)
}

fn sample(
    wet: Estimate<Mass>,
    dried: Estimate<Mass>,
    how: DryingMethod,
) -> Result<Estimate<Ratio>, OutOfRange> {
    let (wet_g, dried_g) = (wet.map(in_grams), dried.map(in_grams));
    wet_g.check(SAMPLE_WET, QuantityKind::Mass, 1e-3, 100_000.0)?;
    OutOfRange::check(SAMPLE_DRIED, QuantityKind::Mass, dried_g.value, 1e-6, wet_g.value)?;
    dried_g.check(SAMPLE_DRIED, QuantityKind::Mass, 0.0, 100_000.0)?;
    let dry_share = how.dry_share();
    let inputs = [
        UncertainInput::of(SAMPLE_WET, wet_g),
        UncertainInput::of(SAMPLE_DRIED, dried_g),
        UncertainInput::of(DRYNESS, dry_share),
    ];
    let value = dried_g.value * dry_share.value / wet_g.value;
    let figure = propagate_uncertainty(&inputs, |[wet, dried, dry]| [dried * dry / wet])
        .map_or(ComputedEstimate::exact(value), |[figure]| figure);
    let basis = wet.basis.max(dried.basis);
    let low = figure.low.max(1e-3).min(figure.value);
    let high = figure.high.min(1.0);
    let known = Estimate { value: figure.value, low, high, basis };
    known.check(DRYNESS, QuantityKind::Share, 1e-3, 1.0)?;
    Ok(known.map(share))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn near(a: f64, b: f64, tolerance: f64) {
        assert!((a - b).abs() <= tolerance, "{a} is not {b}");
    }

    fn exact(mass: f64) -> Estimate<Mass> {
        Estimate::exact(grams(mass), Basis::Measured)
    }

    #[test]
    fn pulp_is_fibre_and_water() {
        let pulp =
            WetPulp::new(exact(500.0), Estimate::exact(share(0.2), Basis::OwnRecord)).unwrap();
        near(in_grams(pulp.oven_dry().value), 100.0, 1e-9);
        near(in_grams(pulp.water().value), 400.0, 1e-9);
        near(in_grams(pulp.air_dry().value), 111.111, 1e-3);
    }

    #[test]
    fn an_assumed_dryness_marks_the_result_and_dominates_it() {
        let dryness = DrynessSource::Assumed.estimate().unwrap();
        let pulp = WetPulp::new(Estimate::within(grams(500.0), 0.01, Basis::Measured), dryness);
        let dry = pulp.unwrap().oven_dry();
        assert!(dry.assumed);
        assert_eq!(dry.dominant, Some(DRYNESS));
        near(in_grams(dry.low), 76.2, 0.1);
        near(in_grams(dry.high), 123.8, 0.1);
    }

    #[test]
    fn an_air_dried_sample_still_holds_water() {
        let oven = dried(Some(DryingMethod::Oven));
        let air = dried(Some(DryingMethod::Air));
        near(in_share(oven.value), 0.20, 1e-12);
        near(in_share(air.value), 0.185, 1e-12);
        near(in_share(air.low), 0.18215, 1e-9);
        near(in_share(air.high), 0.18785, 1e-9);
    }

    /// 50 g wet, 10 g dried.
    fn dried(how: Option<DryingMethod>) -> Estimate<Ratio> {
        DrynessSource::Sample { wet: exact(50.0), dried: exact(10.0), how }.estimate().unwrap()
    }

    #[test]
    fn a_sample_dried_nobody_said_how_is_assumed_over_both_ways() {
        let [oven, air, unsaid] =
            [Some(DryingMethod::Oven), Some(DryingMethod::Air), None].map(dried);
        assert_eq!((unsaid.low, unsaid.high), (air.low, oven.high));
        assert!(unsaid.value > air.value && unsaid.value < oven.value);
        assert_eq!((unsaid.basis, air.basis), (Basis::Assumed, Basis::Measured));
    }

    #[test]
    fn the_drying_of_an_old_sample_is_judged_by_its_dryness() {
        assert_eq!(DryingMethod::of(50.0, 10.0, 0.2), Some(DryingMethod::Oven));
        assert_eq!(DryingMethod::of(50.0, 10.0, 0.185), Some(DryingMethod::Air));
        assert_eq!(DryingMethod::of(50.0, 10.0, 0.191), None);
    }

    #[test]
    fn raw_plant_weighed_in_the_room_is_dry_by_assumption() {
        let raw = oven_dry_raw(exact(1000.0)).map(in_grams);
        assert_eq!((raw.value, raw.low, raw.high), (910.0, 880.0, 940.0));
        assert_eq!(raw.basis, Basis::Assumed);
    }

    #[test]
    fn a_sample_cannot_gain_mass_in_drying() {
        let from = DrynessSource::Sample { wet: exact(10.0), dried: exact(12.0), how: None };
        let error = from.estimate().unwrap_err();
        assert_eq!((error.subject, error.max), (SAMPLE_DRIED, 10.0));
    }

    #[test]
    fn ten_grams_to_eighty_five_differs_by_convention() {
        let of = |wet, dryness| readings(grams(wet), share(dryness), grams(85.0)).unwrap();
        near(in_share(of(10.0, 1.0).standard), 0.105, 5e-4);
        near(in_share(of(10.0, 0.2).standard), 0.021, 5e-4);
        near(in_share(of(10.0, 0.2).pulp_to_liquor), 0.118, 5e-4);
        near(in_share(of(10.0, 0.2).if_dry), 0.105, 5e-4);
        assert!(readings(grams(f64::NAN), share(0.2), grams(85.0)).is_err());
        assert!(readings(grams(1.0), share(0.2), grams(0.0)).is_err());
    }

    #[test]
    fn impossible_pulp_is_refused() {
        let dry = Estimate::exact(share(0.2), Basis::Label);
        assert!(WetPulp::new(exact(0.0), dry).is_err());
        assert!(WetPulp::new(exact(f64::NAN), dry).is_err());
        assert!(WetPulp::new(exact(1.0), Estimate::exact(share(1.2), Basis::Label)).is_err());
    }
}
