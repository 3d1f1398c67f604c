//! Thinning a bottle with water: C1 V1 = C2 V2.
//!
//! Both strengths are on one basis, whichever the label uses. For g/L and
//! weight-by-volume figures that is exact; for by-mass figures volumes stand in
//! for masses, which makes the liquor stronger than asked by the bottle's excess
//! density, 2 to 10 %. Volumes are taken to add.

use crate::{
    message::{Field, Message, Value},
    quantity::{
        Figure, Input, Kind, Known, OutOfRange, Volume, in_millilitres, millilitres, spread,
    },
};

/// What to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diluted {
    pub bottle: Figure<Volume>,
    pub water: Figure<Volume>,
    /// What the liquor holds when the nominal amounts are mixed, on the label's
    /// basis: the target, with the bottle's range.
    pub strength: Figure<f64>,
}

/// Why a dilution cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DilutionRefusal {
    /// A number outside what can be.
    OutOfRange(OutOfRange),
    /// The bottle is weaker than what is asked of it. Both on one basis.
    TooWeak { bottle: f64, target: f64 },
}

impl From<OutOfRange> for DilutionRefusal {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

impl DilutionRefusal {
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

/// How much bottle and water make `total` at `target`. Strengths on one basis,
/// in % or g/L.
///
/// # Errors
/// [`DilutionRefusal`] for a bottle weaker than the target, or numbers that
/// are not above zero and finite.
pub fn dilute(bottle: Known<f64>, target: f64, total: Volume) -> Result<Diluted, DilutionRefusal> {
    let bottle = strength(bottle)?;
    let total = volume(TOTAL_VOLUME, total)?;
    OutOfRange::check(TARGET_STRENGTH, Kind::Number, target, TINY, MOST)?;
    if target > bottle.value {
        return Err(DilutionRefusal::TooWeak { bottle: bottle.value, target });
    }
    let inputs = [Input::of(super::BOTTLE_STRENGTH, bottle)];
    let poured = total * target / bottle.value;
    let [need, water, made] = spread(&inputs, |[bottle]| {
        // A bottle at the weak end of its range cannot fill more than all of it.
        let need = (total * target / bottle).min(total);
        [need, total - need, bottle * poured / total]
    })
    .ok_or(out_of(bottle.value))?;
    let (bottle, water) = (need.map(millilitres), water.map(millilitres));
    Ok(Diluted { bottle, water, strength: made })
}

/// How much water to add to the `rest` of a bottle to bring it down to
/// `target`.
///
/// # Errors
/// As [`dilute`].
pub fn water_for_rest(
    bottle: Known<f64>,
    rest: Volume,
    target: f64,
) -> Result<Diluted, DilutionRefusal> {
    let known = strength(bottle)?;
    let rest = volume(REST_VOLUME, rest)?;
    OutOfRange::check(TARGET_STRENGTH, Kind::Number, target, TINY, MOST)?;
    if target > known.value {
        return Err(DilutionRefusal::TooWeak { bottle: known.value, target });
    }
    let added = rest * (known.value / target - 1.0);
    let inputs = [Input::of(super::BOTTLE_STRENGTH, known)];
    let [water, made] = spread(&inputs, |[bottle]| {
        [rest * (bottle / target - 1.0).max(0.0), bottle * rest / (rest + added)]
    })
    .ok_or(out_of(known.value))?;
    Ok(Diluted {
        bottle: Figure::exact(millilitres(rest)),
        water: water.map(millilitres),
        strength: made,
    })
}

/// What strength comes of `poured` bottle in `water`.
///
/// # Errors
/// [`DilutionRefusal::OutOfRange`] for numbers that are not above zero and
/// finite.
pub fn strength_after(
    bottle: Known<f64>,
    poured: Volume,
    water: Volume,
) -> Result<Figure<f64>, DilutionRefusal> {
    let bottle = strength(bottle)?;
    let poured = volume(POURED_VOLUME, poured)?;
    let water = in_millilitres(water);
    OutOfRange::check(WATER_VOLUME, Kind::Volume, water, 0.0, 2_000_000.0)?;
    let inputs = [Input::of(super::BOTTLE_STRENGTH, bottle)];
    let [made] = spread(&inputs, |[bottle]| [bottle * poured / (poured + water)])
        .ok_or(out_of(bottle.value))?;
    Ok(made)
}

pub const TARGET_STRENGTH: Field = Field("target_strength");
pub const TOTAL_VOLUME: Field = Field("total_volume");
pub const REST_VOLUME: Field = Field("rest_volume");
pub const POURED_VOLUME: Field = Field("poured_volume");
pub const WATER_VOLUME: Field = Field("water_volume");

/// Weakest and strongest figure taken, in % or g/L.
const TINY: f64 = 1e-4;
const MOST: f64 = 500.0;

fn strength(bottle: Known<f64>) -> Result<Known<f64>, OutOfRange> {
    bottle.check(super::BOTTLE_STRENGTH, Kind::Number, TINY, MOST)
}

fn volume(field: Field, volume: Volume) -> Result<f64, OutOfRange> {
    OutOfRange::check(field, Kind::Volume, in_millilitres(volume), 1e-3, 2_000_000.0)
}

fn out_of(given: f64) -> OutOfRange {
    OutOfRange { subject: super::BOTTLE_STRENGTH, given, min: TINY, max: MOST, kind: Kind::Number }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::quantity::Basis;
    use proptest::prelude::*;

    fn label(value: f64) -> Known<f64> {
        Known::within(value, 0.05, Basis::Label)
    }

    #[test]
    fn half_a_litre_at_two_percent() {
        for (bottle, millilitres) in [(3.5, 285.7), (5.25, 190.5)] {
            let made = dilute(label(bottle), 2.0, crate::quantity::millilitres(500.0)).unwrap();
            assert!((in_millilitres(made.bottle.value) - millilitres).abs() < 0.05);
            assert!((in_millilitres(made.water.value) - (500.0 - millilitres)).abs() < 0.05);
            assert_eq!(made.bottle.dominant, Some(super::super::BOTTLE_STRENGTH));
            assert!((made.strength.value - 2.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_bottle_weaker_than_the_target_is_refused() {
        let error = dilute(label(1.5), 2.0, millilitres(500.0)).unwrap_err();
        assert_eq!(error, DilutionRefusal::TooWeak { bottle: 1.5, target: 2.0 });
        assert!(water_for_rest(label(1.5), millilitres(500.0), 2.0).is_err());
    }

    #[test]
    fn a_bottle_as_strong_as_the_target_needs_no_water() {
        let made = dilute(label(2.0), 2.0, millilitres(500.0)).unwrap();
        assert_eq!(in_millilitres(made.water.value), 0.0);
        assert!(in_millilitres(made.water.low) >= 0.0);
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for (bottle, target, total) in
            [(f64::NAN, 2.0, 500.0), (5.0, f64::NAN, 500.0), (5.0, 0.0, 500.0), (5.0, 2.0, -1.0)]
        {
            let bottle = Known::exact(bottle, Basis::Label);
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
        fn thinning_the_rest_gives_the_target(
            bottle in 0.1f64..200.0, part in 0.01f64..1.0, rest in 1.0f64..1e4,
        ) {
            let target = bottle * part;
            let made = water_for_rest(label(bottle), millilitres(rest), target).unwrap();
            let back = strength_after(label(bottle), millilitres(rest), made.water.value).unwrap();
            prop_assert!((back.value / target - 1.0).abs() < 1e-9);
        }
    }
}
