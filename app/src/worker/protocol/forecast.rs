//! Messages of a forecast. The worker holds one, by the number that the page gave it; a newer one
//! replaces it.

use bleachfield_core::forecast::{
    AdviceGoal, AdviceWithReason, Band, ForecastQuantity, ForecastReading, ForecastRequest,
    ForecastSupport,
};
use bleachfield_core::learning::BandCorrection;
use serde::{Deserialize, Serialize};

/// What is to be done with a forecast.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ForecastCommand {
    /// Begin one in place of the one held. Updates follow: the first bands, then those of all
    /// samples; [`super::WorkerResponse::NotHeld`] if it was replaced or stopped meanwhile.
    Start {
        id: u32,
        request: Box<ForecastRequest>,
        seed: u32,
        readings: Vec<ForecastReading>,
        view: ForecastView,
    },
    /// Weigh the one held by these readings in place of the earlier ones.
    Weigh { id: u32, readings: Vec<ForecastReading>, view: ForecastView },
    /// Go on to this many samples.
    Extend { id: u32, samples: u32 },
    /// Drop it, also while it is being made.
    Stop { id: u32 },
}

/// From where a forecast is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ForecastView {
    /// Minutes from the start of the bath.
    pub now: f64,
    pub goal: AdviceGoal,
}

/// A forecast as it is shown.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ForecastUpdate {
    pub view: ForecastView,
    pub support: ForecastSupport,
    /// Of enough samples for advice; else more of them follow.
    pub settled: bool,
    /// Of every quantity that is known; none if the forecast cannot tell.
    pub bands: Vec<QuantityBands>,
    pub advice: AdviceWithReason,
}

/// The bands of one quantity over time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct QuantityBands {
    pub of: ForecastQuantity,
    pub bands: Vec<Band>,
}

impl ForecastUpdate {
    /// With bands as wide as those of earlier baths should have been.
    #[must_use]
    pub fn corrected(mut self, by: &BandCorrection) -> Self {
        for QuantityBands { of, bands } in &mut self.bands {
            for band in bands {
                *band = by.apply(*of, band);
            }
        }
        self
    }

    /// The bands of a quantity; empty if it is not known.
    pub fn bands(&self, of: ForecastQuantity) -> &[Band] {
        self.bands.iter().find(|known| known.of == of).map_or(&[], |known| &known.bands)
    }

    /// The band of a quantity at a time, linear between those that are known.
    pub fn at(&self, of: ForecastQuantity, minutes: f64) -> Option<Band> {
        Band::between(self.bands(of), minutes)
    }
}
