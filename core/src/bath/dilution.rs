//! Dilution of a bottle with water: C1 V1 = C2 V2.
//!
//! Both strengths are on one basis, that of the label. Exact for g/L and
//! weight-by-volume strengths; for by-mass strengths volumes replace masses,
//! which makes the liquor stronger than the target by the bottle's excess
//! density, 2 to 10 %. Volumes are assumed to be additive.

use super::strength::BOTTLE_STRENGTH;
use crate::{
    message::{Field, Message, Value},
    quantity::{
        ComputedEstimate, Estimate, OutOfRange, QuantityKind, UncertainInput, Volume,
        in_millilitres, millilitres, propagate_uncertainty,
    },
};

/// Amounts to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diluted {
    pub bottle: ComputedEstimate<Volume>,
    pub water: ComputedEstimate<Volume>,
    /// Strength of the liquor from the nominal amounts, on the label's basis:
    /// the target, with the bottle's range.
    pub strength: ComputedEstimate<f64>,
}

/// Why a dilution is impossible.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DilutionError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Both strengths on one basis.
    #[error("the bottle ({bottle}) is weaker than the target ({target})")]
    TooWeak { bottle: f64, target: f64 },
}

impl DilutionError {
    /// The message for a person, beside the field concerned.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::TooWeak { bottle, target } => Message::new("refusal-dilution-too_weak")
                .beside(TARGET_STRENGTH)
                .with("bottle", Value::Number(*bottle))
                .with("target", Value::Number(*target)),
        }
    }
}

/// Volumes of bottle and water that make `total` at `target`. Strengths on one
/// basis, in % or g/L.
///
/// # Errors
/// [`DilutionError`] for a bottle weaker than the target, or numbers that are
/// not positive and finite.
pub fn dilute(bottle: Estimate<f64>, target: f64, total: Volume) -> Result<Diluted, DilutionError> {
    let bottle = strength(bottle)?;
    let total = volume(TOTAL_VOLUME, total)?;
    check_target(target, bottle.value)?;
    let inputs = [UncertainInput::of(BOTTLE_STRENGTH, bottle)];
    let poured = total * target / bottle.value;
    let [need, water, made] = propagate_uncertainty(&inputs, |[bottle]| {
        // At the weak end of the bottle's range the whole volume is bottle.
        let need = (total * target / bottle).min(total);
        [need, total - need, bottle * poured / total]
    })
    .ok_or(out_of(bottle.value))?;
    let (bottle, water) = (need.map(millilitres), water.map(millilitres));
    Ok(Diluted { bottle, water, strength: made })
}

/// Volume of water that dilutes the `rest` of a bottle to `target`.
///
/// # Errors
/// As [`dilute`].
pub fn water_for_rest(
    bottle: Estimate<f64>,
    rest: Volume,
    target: f64,
) -> Result<Diluted, DilutionError> {
    let bottle = strength(bottle)?;
    let rest = volume(REST_VOLUME, rest)?;
    check_target(target, bottle.value)?;
    let added = rest * (bottle.value / target - 1.0);
    let inputs = [UncertainInput::of(BOTTLE_STRENGTH, bottle)];
    let [water, made] = propagate_uncertainty(&inputs, |[strength]| {
        [rest * (strength / target - 1.0).max(0.0), strength * rest / (rest + added)]
    })
    .ok_or(out_of(bottle.value))?;
    Ok(Diluted {
        bottle: ComputedEstimate::exact(millilitres(rest)),
        water: water.map(millilitres),
        strength: made,
    })
}

/// Strength of `poured` bottle in `water`.
///
/// # Errors
/// [`DilutionError::OutOfRange`] for numbers that are not positive and finite.
pub fn strength_after(
    bottle: Estimate<f64>,
    poured: Volume,
    water: Volume,
) -> Result<ComputedEstimate<f64>, DilutionError> {
    let bottle = strength(bottle)?;
    let poured = volume(POURED_VOLUME, poured)?;
    let water = in_millilitres(water);
    OutOfRange::check(WATER_VOLUME, QuantityKind::Volume, water, 0.0, 2_000_000.0)?;
    let inputs = [UncertainInput::of(BOTTLE_STRENGTH, bottle)];
    let [made] = propagate_uncertainty(&inputs, |[bottle]| [bottle * poured / (poured + water)])
        .ok_or(out_of(bottle.value))?;
    Ok(made)
}

pub const TARGET_STRENGTH: Field = Field("target_strength");
pub const TOTAL_VOLUME: Field = Field("total_volume");
pub const REST_VOLUME: Field = Field("rest_volume");
pub const POURED_VOLUME: Field = Field("poured_volume");
pub const WATER_VOLUME: Field = Field("water_volume");

/// Accepted range of a strength, in % or g/L.
const STRENGTH_MIN: f64 = 1e-4;
const STRENGTH_MAX: f64 = 500.0;

fn strength(bottle: Estimate<f64>) -> Result<Estimate<f64>, OutOfRange> {
    bottle.check(BOTTLE_STRENGTH, QuantityKind::Number, STRENGTH_MIN, STRENGTH_MAX)
}

fn check_target(target: f64, bottle: f64) -> Result<(), DilutionError> {
    OutOfRange::check(TARGET_STRENGTH, QuantityKind::Number, target, STRENGTH_MIN, STRENGTH_MAX)?;
    if target > bottle { Err(DilutionError::TooWeak { bottle, target }) } else { Ok(()) }
}

fn volume(field: Field, volume: Volume) -> Result<f64, OutOfRange> {
    OutOfRange::check(field, QuantityKind::Volume, in_millilitres(volume), 1e-3, 2_000_000.0)
}

fn out_of(given: f64) -> OutOfRange {
    OutOfRange {
        subject: BOTTLE_STRENGTH,
        given,
        min: STRENGTH_MIN,
        max: STRENGTH_MAX,
        kind: QuantityKind::Number,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::quantity::Basis;
    use proptest::prelude::*;

    fn label(value: f64) -> Estimate<f64> {
        Estimate::within(value, 0.05, Basis::Label)
    }

    #[test]
    fn half_a_litre_at_two_percent() {
        for (bottle, millilitres) in [(3.5, 285.7), (5.25, 190.5)] {
            let made = dilute(label(bottle), 2.0, crate::quantity::millilitres(500.0)).unwrap();
            assert!((in_millilitres(made.bottle.value) - millilitres).abs() < 0.05);
            assert!((in_millilitres(made.water.value) - (500.0 - millilitres)).abs() < 0.05);
            assert_eq!(made.bottle.dominant, Some(BOTTLE_STRENGTH));
            assert!((made.strength.value - 2.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_bottle_weaker_than_the_target_is_refused() {
        let error = dilute(label(1.5), 2.0, millilitres(500.0)).unwrap_err();
        assert_eq!(error, DilutionError::TooWeak { bottle: 1.5, target: 2.0 });
        assert!(water_for_rest(label(1.5), millilitres(500.0), 2.0).is_err());
    }

    #[test]
    fn a_bottle_as_strong_as_the_target_needs_no_water() {
        let made = dilute(label(2.0), 2.0, millilitres(500.0)).unwrap();
        assert_eq!(in_millilitres(made.water.value), 0.0);
        assert!(in_millilitres(made.water.low) >= 0.0);
    }

    #[test]
    fn numbers_that_are_not_positive_and_finite_are_refused() {
        for (bottle, target, total) in
            [(f64::NAN, 2.0, 500.0), (5.0, f64::NAN, 500.0), (5.0, 0.0, 500.0), (5.0, 2.0, -1.0)]
        {
            let bottle = Estimate::exact(bottle, Basis::Label);
            assert!(dilute(bottle, target, millilitres(total)).is_err());
        }
    }

    proptest! {
        #[test]
        fn dilution_conserves_the_active(
            bottle in 0.1f64..200.0, part in 0.001f64..1.0, total in 1.0f64..1e6,
        ) {
            let target = bottle * part;
            let made = dilute(label(bottle), target, millilitres(total)).unwrap();
            let poured = in_millilitres(made.bottle.value);
            prop_assert!((poured * bottle / (total * target) - 1.0).abs() < 1e-9);
            let sum = poured + in_millilitres(made.water.value);
            prop_assert!((sum / total - 1.0).abs() < 1e-12);
            let back = strength_after(label(bottle), made.bottle.value, made.water.value).unwrap();
            prop_assert!((back.value / target - 1.0).abs() < 1e-9);
        }

        #[test]
        fn diluting_the_rest_gives_the_target(
            bottle in 0.1f64..200.0, part in 0.01f64..1.0, rest in 1.0f64..1e4,
        ) {
            let target = bottle * part;
            let made = water_for_rest(label(bottle), millilitres(rest), target).unwrap();
            let back = strength_after(label(bottle), millilitres(rest), made.water.value).unwrap();
            prop_assert!((back.value / target - 1.0).abs() < 1e-9);
        }
    }
}
