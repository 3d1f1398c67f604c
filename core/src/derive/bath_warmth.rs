//! How long a running bath stays warm, and what brings it back into its range. The losses are those
//! of its own pairs of thermometer readings, where there are some.
//! Not here: the course of the temperature with all else, which is `forecast`.

use ulid::Ulid;

use super::{
    BathForecast,
    forecast_of_bath::{joined, learnt_in},
};
use crate::{
    bath::{
        CoolingBath, HeatError, HotWaterAdded, LossFactors, WaterBathWarming, add_hot_water,
        warm_in_water_bath, water_bath_conductance,
    },
    journal::Book,
    quantity::{Basis, Celsius, Estimate, Interval, Mass, grams},
};

/// One vessel of a running bath as it cools.
#[derive(Clone, Debug, PartialEq)]
pub struct BathWarmth {
    pub now: Celsius,
    /// Where it is warmed, and the temperature that it is never warmed above.
    pub range: Interval<Celsius>,
    pub cooling: CoolingBath,
    /// Pairs of readings of this bath that the losses are learnt from.
    pub pairs: usize,
    /// Of one vessel; `None` where the size of the bath is not known.
    contents: Option<(Mass, Mass)>,
}

impl BathWarmth {
    /// The warmth of a bath that is `celsius` warm now. `None` if that is no temperature of water,
    /// or the book has no such bath.
    pub fn of(book: &Book, bath: Ulid, forecast: &BathForecast, celsius: f64) -> Option<Self> {
        let view = book.bath(bath)?;
        let batch = book.batches.get(&view.batch)?;
        let mut cooling = forecast.request.cooling?;
        let learnt = learnt_in(batch, view, &cooling);
        let factors: Vec<_> = learnt.iter().map(|factors| factors.dry).collect();
        if let Some(learnt) = joined(&factors) {
            let learnt = Estimate { basis: Basis::Measured, ..learnt };
            cooling.factors = LossFactors { evaporation: learnt, dry: learnt };
        }
        let range = forecast.goal.celsius;
        let of_one =
            |whole: Option<Estimate<f64>>| whole.map(|whole| whole.value / forecast.vessels);
        let contents = of_one(forecast.dry_fibre_g).zip(of_one(forecast.liquor_ml));
        Some(Self {
            now: Celsius::new(celsius).ok()?,
            range: Interval {
                low: Celsius::new(range.low).ok()?,
                high: Celsius::new(range.high).ok()?,
            },
            cooling,
            pairs: factors.len(),
            // The liquor weighs about 1 g/mL.
            contents: contents.map(|(fibre, liquor)| (grams(fibre), grams(liquor))),
        })
    }

    /// Minutes until it is below its range; `None` if it may never be.
    pub fn leaves_range(&self) -> Option<Estimate<f64>> {
        let hours = self.cooling.hours_until_below(self.now, self.range.low)?;
        Some(hours.map(|hours| 60.0 * hours))
    }

    /// Hot water that brings one vessel to the top of its range. `None` where the size of the bath
    /// is not known.
    ///
    /// # Errors
    /// Water that is not hot enough.
    pub fn hot_water(&self, hot: Celsius) -> Option<Result<HotWaterAdded, HeatError>> {
        let (fibre, liquor) = self.contents?;
        Some(add_hot_water(fibre, liquor, self.now, self.range.high, self.range, hot))
    }

    /// Time in a water bath that brings one vessel to the top of its range.
    ///
    /// # Errors
    /// A water bath that is too small or not warm enough.
    pub fn water_bath(&self, water: Mass, at: Celsius) -> Result<WaterBathWarming, HeatError> {
        let CoolingBath { capacity, vessel, .. } = self.cooling;
        let conductance = water_bath_conductance(&vessel);
        let (now, range) = (self.now, self.range);
        warm_in_water_bath(capacity, now, range.high, range, (water, at), conductance)
    }
}
