//! Which reading would narrow the colour to come most.

use super::forecast::Forecast;
use super::quantity::ForecastQuantity;
use super::reading::model_error;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// A reading that a person can take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum ReadingKind {
    PhStrip,
    OxidantStrip,
    Thermometer,
    /// A photo of the wet pulp with a white card.
    WetPhoto,
    /// A photo of a dried swatch.
    DryPhoto,
}

impl ReadingKind {
    pub const ALL: [Self; 5] =
        [Self::PhStrip, Self::OxidantStrip, Self::Thermometer, Self::WetPhoto, Self::DryPhoto];

    /// The quantity that it reads, and its usual error, one standard deviation: half a step of a
    /// strip, 2 °C either way, 1.5 in L* (own estimates). Of the oxidant a share.
    pub fn reads(self) -> (ForecastQuantity, f64) {
        match self {
            Self::PhStrip => (ForecastQuantity::CooledPh, 0.25),
            Self::OxidantStrip => (ForecastQuantity::OxidantLeft, 0.25),
            Self::Thermometer => (ForecastQuantity::Celsius, 1.0),
            Self::WetPhoto => (ForecastQuantity::WetLightness, 0.8),
            Self::DryPhoto => (ForecastQuantity::DryLightness, 0.8),
        }
    }
}

/// Least part of the variance that a reading must take away to be worth asking for.
const LEAST_WORTH: f64 = 0.05;

/// The reading at `now` that takes away most of the variance of the dry L* at `until`; `None` if
/// none takes away a twentieth.
pub fn most_telling(forecast: &Forecast, now: f64, until: f64) -> Option<ReadingKind> {
    ReadingKind::ALL
        .into_iter()
        .map(|kind| (kind, worth(forecast, kind, now, until)))
        .filter(|(_, worth)| *worth >= LEAST_WORTH)
        .max_by(|one, other| one.1.total_cmp(&other.1))
        .map(|(kind, _)| kind)
}

/// Share of the variance of the dry L* at `until` that a reading at `now` takes away: the square
/// of their correlation over the weighted samples, with the error of reading and model added to
/// the reading's variance. Exact for normal variables (expected posterior variance); else a
/// linear estimate. 0 if the quantity is not known.
pub fn worth(forecast: &Forecast, kind: ReadingKind, now: f64, until: f64) -> f64 {
    let (of, error) = kind.reads();
    let by_ratio = of == ForecastQuantity::OxidantLeft;
    let reading = |value: f64| if by_ratio { value.max(3e-5).ln() } else { value };
    let pairs = forecast
        .values(of, now)
        .into_iter()
        .zip(forecast.values(ForecastQuantity::DryLightness, until))
        .map(|((read, weight), (outcome, _))| (reading(read), outcome, weight));
    let mut sums = [0.0; 6];
    for (read, outcome, weight) in pairs {
        let terms = [1.0, read, outcome, read * read, outcome * outcome, read * outcome];
        for (sum, term) in sums.iter_mut().zip(terms) {
            *sum += weight * term;
        }
    }
    let [all, read, outcome, read_2, outcome_2, both] = sums;
    let (read, outcome) = (read / all, outcome / all);
    let read_variance = (read_2 / all - read * read).max(0.0);
    let outcome_variance = outcome_2 / all - outcome * outcome;
    let covariance = both / all - read * outcome;
    let noise = error.powi(2) + model_error(of).powi(2);
    let share = covariance * covariance / ((read_variance + noise) * outcome_variance);
    if share.is_finite() { share.min(1.0) } else { 0.0 }
}
