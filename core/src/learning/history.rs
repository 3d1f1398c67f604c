//! Batches as learning takes them, and how near a new bath is to those of the past.

use crate::chemistry::Oxidant;
use crate::forecast::{ForecastReading, ForecastRequest};
use crate::message::{Message, Value};
use serde::{Deserialize, Serialize};

/// One bath of a batch, finished or running, with what was read of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LearningBatch {
    /// Names the bath; never used twice.
    pub id: String,
    /// Baths of one fibre have one name here.
    pub fibre: String,
    /// The bath as it was known at its start, with all that was done to it.
    pub request: ForecastRequest,
    pub readings: Vec<ForecastReading>,
    /// Minutes that the bath lasted, or has lasted so far.
    pub minutes: f64,
}

impl LearningBatch {
    pub fn facts(&self) -> BathFacts {
        BathFacts::of(&self.fibre, &self.request, self.minutes)
    }
}

/// What makes two baths alike.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathFacts {
    pub fibre: String,
    pub oxidant: Oxidant,
    /// Oxidant on oven-dry fibre, mol/kg.
    pub charge: f64,
    pub celsius: f64,
    pub minutes: f64,
}

impl BathFacts {
    pub fn of(fibre: &str, request: &ForecastRequest, minutes: f64) -> Self {
        let consistency = request.consistency.value.clamp(1e-4, 0.5);
        Self {
            fibre: fibre.to_owned(),
            oxidant: request.oxidant,
            charge: request.strength.value * (1.0 - consistency) / consistency,
            celsius: request.celsius.value,
            minutes,
        }
    }

    /// How unlike another bath: 1 is a charge or a time times 1.5, or 5 °C (own choice). Another
    /// fibre counts as 4; another oxidant is never compared.
    fn distance(&self, other: &Self) -> Option<f64> {
        let ratio = |one: f64, other: f64| (one.max(1e-3) / other.max(1e-3)).ln() / 1.5_f64.ln();
        let fibre = if self.fibre == other.fibre { 0.0 } else { 4.0 };
        let parts = [
            ratio(self.charge, other.charge),
            ratio(self.minutes, other.minutes),
            (self.celsius - other.celsius) / 5.0,
            fibre,
        ];
        let same = self.oxidant.is_peroxide() == other.oxidant.is_peroxide();
        same.then(|| parts.iter().map(|part| part * part).sum::<f64>().sqrt())
    }
}

/// A past bath, nearest to one asked for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PastBatch {
    pub id: String,
    pub facts: BathFacts,
}

/// The nearest of past baths with the same kind of oxidant.
pub(super) fn nearest<'a>(
    asked: &BathFacts,
    past: impl Iterator<Item = &'a PastBatch>,
) -> Option<PastBatch> {
    past.filter_map(|batch| Some((asked.distance(&batch.facts)?, batch)))
        .min_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, batch)| batch.clone())
}

/// Longest time that is no extrapolation, over the longest own one.
pub const MOST_TIME_FACTOR: f64 = 1.5;
/// Temperature off all own ones that is no extrapolation, °C.
pub const MOST_CELSIUS_OFF: f64 = 10.0;

/// How a forecast goes beyond the own baths that it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Extrapolation {
    /// Own baths lasted at most `longest` minutes.
    Longer { longest: f64 },
    /// Own baths were at most this warm, °C.
    Warmer { warmest: f64 },
    /// Own baths were at least this warm, °C.
    Cooler { coolest: f64 },
}

impl Extrapolation {
    /// All that holds of a bath over the own ones of its fibre; nothing without any.
    pub(super) fn of<'a>(asked: &BathFacts, own: impl Iterator<Item = &'a BathFacts>) -> Vec<Self> {
        let mut own = own.peekable();
        if own.peek().is_none() {
            return Vec::new();
        }
        let (mut longest, mut warmest, mut coolest) = (0.0_f64, f64::MIN, f64::MAX);
        for facts in own {
            longest = longest.max(facts.minutes);
            warmest = warmest.max(facts.celsius);
            coolest = coolest.min(facts.celsius);
        }
        let cases = [
            (asked.minutes > MOST_TIME_FACTOR * longest, Self::Longer { longest }),
            (asked.celsius > warmest + MOST_CELSIUS_OFF, Self::Warmer { warmest }),
            (asked.celsius < coolest - MOST_CELSIUS_OFF, Self::Cooler { coolest }),
        ];
        cases.into_iter().filter(|(holds, _)| *holds).map(|(_, case)| case).collect()
    }

    pub fn message(&self) -> Message {
        match *self {
            Self::Longer { longest } => {
                Message::new("learning-longer").with("longest", Value::Minutes(longest))
            }
            Self::Warmer { warmest } => {
                Message::new("learning-warmer").with("warmest", Value::Celsius(warmest))
            }
            Self::Cooler { coolest } => {
                Message::new("learning-cooler").with("coolest", Value::Celsius(coolest))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn facts(fibre: &str, charge: f64, celsius: f64, minutes: f64) -> BathFacts {
        let oxidant = Oxidant::Hypochlorite;
        BathFacts { fibre: fibre.to_owned(), oxidant, charge, celsius, minutes }
    }

    fn past(id: &str, facts: BathFacts) -> PastBatch {
        PastBatch { id: id.to_owned(), facts }
    }

    #[test]
    fn the_nearest_is_of_the_same_fibre_and_alike() {
        let baths = [
            past("far", facts("iris", 0.9, 38.0, 60.0)),
            past("near", facts("iris", 0.45, 40.0, 75.0)),
            past("other", facts("hemp", 0.4, 38.0, 60.0)),
        ];
        let found = nearest(&facts("iris", 0.4, 38.0, 60.0), baths.iter());
        assert_eq!(found.map(|batch| batch.id), Some("near".to_owned()));
        let mut peroxide = facts("iris", 0.4, 38.0, 60.0);
        peroxide.oxidant = Oxidant::Percarbonate;
        assert_eq!(nearest(&peroxide, baths.iter()), None);
    }

    #[test]
    fn what_goes_beyond_the_own_baths_is_said() {
        let own = [facts("iris", 0.4, 38.0, 60.0), facts("iris", 0.4, 42.0, 80.0)];
        let beyond =
            |celsius, minutes| Extrapolation::of(&facts("iris", 0.4, celsius, minutes), own.iter());
        assert!(beyond(50.0, 119.0).is_empty() && beyond(29.0, 30.0).is_empty());
        assert_eq!(beyond(40.0, 121.0), [Extrapolation::Longer { longest: 80.0 }]);
        assert_eq!(beyond(53.0, 60.0), [Extrapolation::Warmer { warmest: 42.0 }]);
        assert_eq!(beyond(27.0, 60.0), [Extrapolation::Cooler { coolest: 38.0 }]);
        assert!(Extrapolation::of(&own[0], [].iter()).is_empty());
    }
}
