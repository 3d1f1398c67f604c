//! Disposal of spent liquor: what to know before a bath or a rinse is poured away.
//! Not here: any local rule; the product's label and the local rules decide.

use crate::message::{Message, Value};
use crate::quantity::{MassConcentration, Volume, grams, in_grams_per_litre, in_millilitres};

/// Liquor of a bath without a plan, mL: a bucket (own estimate, no source).
pub const UNPLANNED_VOLUME_ML: f64 = 10_000.0;

/// Liquor to be poured away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpentLiquor {
    pub volume: Volume,
    /// Available chlorine, by strip or plan.
    pub chlorine: Option<MassConcentration>,
    /// Peroxide as H2O2, by strip or plan.
    pub peroxide: Option<MassConcentration>,
    pub ph: Option<f64>,
    /// Whether acid was used in it.
    pub acid: bool,
}

/// What to know before pouring, most important first; the local rules always
/// come last.
pub fn disposal_advice(liquor: &SpentLiquor) -> Vec<Message> {
    let present = |strength: Option<MassConcentration>| {
        strength.filter(|strength| in_grams_per_litre(*strength) > 0.0)
    };
    let mass = |strength: MassConcentration| {
        Value::Mass(grams(in_grams_per_litre(strength) * in_millilitres(liquor.volume) / 1000.0))
    };
    let (chlorine, peroxide) = (present(liquor.chlorine), present(liquor.peroxide));
    let mut advice = Vec::new();
    if let Some(chlorine) = chlorine {
        if liquor.acid {
            advice.push(Message::new("drain-acid_and_chlorine"));
        }
        advice.push(Message::new("drain-chlorine").with("mass", mass(chlorine)));
        advice.push(Message::new("drain-ventilate"));
    }
    if let Some(peroxide) = peroxide {
        advice.push(Message::new("drain-peroxide").with("mass", mass(peroxide)));
    }
    if chlorine.is_some() && peroxide.is_some() {
        advice.push(Message::new("drain-two_oxidants"));
    }
    if let Some(ph) = liquor.ph.filter(|ph| *ph > 11.0) {
        advice.push(Message::new("drain-alkaline").with("ph", Value::Ph(ph)));
    }
    advice.push(Message::new("drain-never_together"));
    advice.push(Message::new("drain-not_on_soil_or_septic"));
    advice.push(Message::new("drain-local_rules"));
    advice
}
