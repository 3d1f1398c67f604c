//! Pouring it away: what to say before a bath or a rinse goes down the drain.
//!
//! Bleachfield knows no local code. It says what is in the liquor and what not
//! to do; the product's label and the local rules decide, and it says that too.

use crate::message::{Message, Value};
use crate::quantity::{MassConcentration, Volume, grams, in_grams_per_litre, in_millilitres};

/// What is about to be poured away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spent {
    pub volume: Volume,
    /// Available chlorine, by strip or plan.
    pub chlorine: Option<MassConcentration>,
    /// Peroxide as H2O2, by strip or plan.
    pub peroxide: Option<MassConcentration>,
    pub ph: Option<f64>,
    /// Acid was used in it.
    pub acid: bool,
}

/// What to know before pouring, in order of weight. Never empty: the local
/// rules always come last.
pub fn before_pouring(spent: &Spent) -> Vec<Message> {
    let some = |strength: Option<MassConcentration>| {
        strength.filter(|strength| in_grams_per_litre(*strength) > 0.0)
    };
    let held = |strength: MassConcentration| {
        Value::Mass(grams(in_grams_per_litre(strength) * in_millilitres(spent.volume) / 1000.0))
    };
    let mut said = Vec::new();
    if let Some(chlorine) = some(spent.chlorine) {
        if spent.acid {
            said.push(Message::new("drain-acid_and_chlorine"));
        }
        said.push(Message::new("drain-chlorine").with("mass", held(chlorine)));
        said.push(Message::new("drain-ventilate"));
    }
    if let Some(peroxide) = some(spent.peroxide) {
        said.push(Message::new("drain-peroxide").with("mass", held(peroxide)));
    }
    if some(spent.chlorine).is_some() && some(spent.peroxide).is_some() {
        said.push(Message::new("drain-two_oxidants"));
    }
    if let Some(ph) = spent.ph.filter(|ph| *ph > 11.0) {
        said.push(Message::new("drain-alkaline").with("ph", Value::Ph(ph)));
    }
    said.push(Message::new("drain-never_together"));
    said.push(Message::new("drain-not_on_soil_or_septic"));
    said.push(Message::new("drain-local_rules"));
    said
}
