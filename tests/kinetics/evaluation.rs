//! What a person does in a simulated studio, and how well the forecast serves them: readings,
//! learning after each batch, the forecast of the next one, the advice to stop.

use super::random::Random;
use super::stop::{Stop, watch};
use super::studio::{Bath, LONGEST, Law, Studio, TruePoint, normal};
use ForecastQuantity::{Celsius, DryLightness, OxidantLeft, Ph, WetLightness};
use bleachfield_core::forecast::{
    Band, Forecast, ForecastQuantity, ForecastReading, ForecastRequest, k_over_s_of_lightness,
    lightness,
};
use bleachfield_core::learning::{
    BandCorrection, Learning, LearningBatch, LearningQuery, LearntParameters,
};
use bleachfield_core::quantity::{Basis, Estimate};

/// Draws of a forecast, and most where few agree with the readings, as in the app.
pub const DRAWS: u32 = 300;
pub const MOST_DRAWS: u32 = 4000;

/// What was found of one bath, or of several.
#[derive(Clone, Copy, Debug, Default)]
pub struct Found {
    pub baths: u32,
    /// Readings held by the band forecast before the bath, of all.
    pub held: [u32; 2],
    /// Readings of the second hour held by the band after those of the first, of all.
    pub held_later: [u32; 2],
    /// Bands of the second hour that could not be told, of all baths.
    pub untold: u32,
    /// Stops within ten minutes of the best times, and of the very minute of the wanted colour.
    pub stops_near: u32,
    pub stops_exact: u32,
    pub damaged: u32,
    /// Minutes between the advised stop and the nearest best time.
    pub regret: f64,
}

/// What was found at one number of batches seen in one studio.
#[derive(Clone, Debug)]
pub struct AtSeen {
    pub found: Found,
    /// Of the band of L* after 90 minutes.
    pub width: f64,
    pub stop: Stop,
}

/// One studio's figures: for each number of batches seen.
pub type StudioFigures = Vec<AtSeen>;

/// Lets a studio make baths, learns from them, and forecasts the next one after so many.
pub fn evaluate(seed: u64, law: Law, after: &[usize]) -> Option<StudioFigures> {
    let studio = Studio::new(seed, law);
    let mut random = Random::new(seed ^ 0x5eed);
    let most = after.iter().copied().max().unwrap_or(0);
    let baths: Vec<Bath> =
        (0..=most).map(|seen| studio.bath(seen, &mut random)).collect::<Option<_>>()?;
    let batches: Vec<LearningBatch> =
        baths.iter().enumerate().map(|(nth, bath)| batch(nth, bath, &mut random)).collect();
    let mut learning = Learning::new(7);
    let mut figures = Vec::new();
    for &seen in after {
        learning.run(&batches[..seen], || true);
        let facts = batches[seen].facts();
        let learnt = learning.outcome(&LearningQuery { facts: &facts, without: None });
        figures.push(next_bath(&studio, &baths[seen], &batches[seen], &learnt, &mut random)?);
    }
    Some(figures)
}

fn batch(nth: usize, bath: &Bath, random: &mut Random) -> LearningBatch {
    LearningBatch {
        id: format!("bath {nth}"),
        fibre: "reed".to_owned(),
        request: bath.request.clone(),
        readings: readings(bath, random),
        minutes: LONGEST as f64,
    }
}

/// Readings that a person takes: each planned one in seven cases of ten.
fn readings(bath: &Bath, random: &mut Random) -> Vec<ForecastReading> {
    let planned = [
        (15, Celsius),
        (20, Ph),
        (20, OxidantLeft),
        (30, WetLightness),
        (50, Celsius),
        (60, WetLightness),
        (60, Ph),
        (60, OxidantLeft),
        (90, WetLightness),
        (100, Celsius),
        (110, Ph),
        (110, OxidantLeft),
        (130, WetLightness),
        (150, DryLightness),
    ];
    let mut taken = Vec::new();
    for (minute, of) in planned {
        if random.chance(0.7) {
            taken.push(reading(bath, minute, of, random));
        }
    }
    taken
}

/// The quantity as it is.
pub fn truth(bath: &Bath, minute: usize, of: ForecastQuantity) -> f64 {
    let at: &TruePoint = &bath.course[minute.min(LONGEST)];
    let dry = k_over_s_of_lightness(bath.inputs.lightness) * at.colour;
    match of {
        DryLightness => lightness(dry),
        WetLightness => lightness(dry / bath.inputs.drying),
        OxidantLeft => at.oxidant,
        // The bath is kept warm: a strip in a cooled sample is left out here.
        Ph | ForecastQuantity::CooledPh => at.ph,
        Celsius => at.celsius,
        ForecastQuantity::Scissions
        | ForecastQuantity::ChainLoss
        | ForecastQuantity::DryYellowness => f64::NAN,
    }
}

/// Standard deviation of a reading; of the oxidant a share.
fn deviation(of: ForecastQuantity) -> f64 {
    match of {
        DryLightness | WetLightness => 0.8,
        OxidantLeft => 0.25,
        Ph => 0.15,
        _ => 0.7,
    }
}

pub fn reading(
    bath: &Bath,
    minute: usize,
    of: ForecastQuantity,
    random: &mut Random,
) -> ForecastReading {
    const HALF_95: f64 = 1.96;
    let (true_value, deviation) = (truth(bath, minute, of), deviation(of));
    let noise = deviation * normal(random);
    let basis = Basis::Measured;
    let value = if of == OxidantLeft {
        let value = true_value.max(1e-5) * noise.exp();
        let spread = (HALF_95 * deviation).exp();
        Estimate { value, low: value / spread, high: value * spread, basis }
    } else {
        Estimate::plus_minus(true_value + noise, HALF_95 * deviation, basis)
    };
    ForecastReading { minutes: minute as f64, of, value }
}

fn next_bath(
    studio: &Studio,
    bath: &Bath,
    batch: &LearningBatch,
    learnt: &LearntParameters,
    random: &mut Random,
) -> Option<AtSeen> {
    let parameters = learnt.distribution.clone();
    let request = ForecastRequest { parameters, ..bath.request.clone() };
    let mut forecast = Forecast::new(request, 11).ok()?;
    forecast.extend(DRAWS);
    let mut found = Found { baths: 1, ..Found::default() };
    found.held = held(&forecast, &learnt.correction, &batch.readings);
    let width = width(&forecast, &learnt.correction);
    let (first, second): (Vec<ForecastReading>, Vec<ForecastReading>) =
        batch.readings.iter().partition(|reading| reading.minutes <= 60.0);
    forecast.weigh(&first);
    if forecast.extend_until_told(DRAWS, MOST_DRAWS).can_tell() {
        found.held_later = held(&forecast, &learnt.correction, &second);
    } else {
        found.untold = 1;
    }
    let stop = watch(studio, bath, &mut forecast, random);
    found.stops_near = u32::from(stop.is_near());
    found.stops_exact = u32::from(stop.is_near_first());
    found.regret = stop.off();
    found.damaged = u32::from(stop.is_damaged());
    Some(AtSeen { found, width, stop })
}

/// Readings within the 80 % bands, and how many there are.
fn held(
    forecast: &Forecast,
    correction: &BandCorrection,
    readings: &[ForecastReading],
) -> [u32; 2] {
    let mut held = [0, 0];
    for reading in readings {
        let bands = forecast.bands(reading.of);
        let Some(band) = bands.iter().find(|band: &&Band| band.minutes == reading.minutes) else {
            continue;
        };
        let band = correction.apply_to_reading(reading.of, band, deviation(reading.of));
        held[0] += u32::from((band.low_80..=band.high_80).contains(&reading.value.value));
        held[1] += 1;
    }
    held
}

/// Of the 80 % band of the dry L* after 90 minutes.
fn width(forecast: &Forecast, correction: &BandCorrection) -> f64 {
    let bands = forecast.bands(DryLightness);
    let band = bands.iter().find(|band| band.minutes == 90.0);
    band.map_or(f64::NAN, |band| correction.apply(DryLightness, band).width())
}
