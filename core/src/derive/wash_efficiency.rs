//! The washing efficiency of this studio's rinses, by the readings in its book.
//! Not here: the fit, which is `pulp::wash::efficiency`.

use super::WashRecord;
use crate::journal::{Batch, Body, Book, OwnFigureOf, ReadingOf};
use crate::pulp::wash::{Efficiency, RinsePair, USUAL_TAP_PH, WashError, efficiency};
use crate::quantity::{Volume, grams_per_litre, in_share, millilitres};

/// The washing efficiency by the readings between rinses in every batch of the
/// book, else by the studio's own figure, else assumed.
///
/// Two strips make a pair or, without them, two pH readings. The water held
/// follows from the dryness noted with the rinse, else from the last weighing.
///
/// # Errors
/// [`WashError::BadEfficiency`] where the readings are impossible.
pub fn wash_efficiency(book: &Book, celsius: f64) -> Result<Efficiency, WashError> {
    let pairs: Vec<RinsePair> =
        book.batches.values().flat_map(|batch| pairs(book, batch, celsius)).collect();
    if let Some(fitted) = efficiency::fit(&pairs)? {
        return Ok(fitted);
    }
    let own = book.studio.figures.get(&OwnFigureOf::WashingEfficiency);
    Ok(own
        .map_or_else(Efficiency::assumed, |(figure, _)| Efficiency { exponent: *figure, pairs: 0 }))
}

/// Liquor readings on one side of a rinse.
#[derive(Clone, Copy, Default)]
struct RinseReadings {
    ph: Option<f64>,
    strip_mg_per_l: Option<f64>,
}

fn pairs(book: &Book, batch: &Batch, celsius: f64) -> Vec<RinsePair> {
    let WashRecord { pulp, readings, .. } = WashRecord::of(book, batch);
    let Some(weighed) = batch.weighed.as_ref() else { return Vec::new() };
    let dry = weighed.wet_mass_g.value * weighed.dryness.value;
    let usual = pulp.map_or(weighed.dryness.value, |pulp| in_share(pulp.dryness.value));
    let tap_ph = readings.tap_ph.map_or(USUAL_TAP_PH, |ph| ph.value);
    let mut pairs = Vec::new();
    let mut before = RinseReadings::default();
    for entry in batch.visible_entries() {
        match &entry.body {
            Body::Reading(reading) => match reading.what {
                ReadingOf::Ph => before.ph = reading.figure.map(|ph| ph.value),
                ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                    before.strip_mg_per_l = reading.figure.map(|mg| mg.value);
                }
                _ => {}
            },
            // A reading from before one of these does not compare with one after it.
            Body::BathStarted(_)
            | Body::Added(_)
            | Body::Antichlored(_)
            | Body::AcidFinished(_)
            | Body::ReserveAdded(_) => before = RinseReadings::default(),
            Body::Rinsed(rinse) => {
                let dryness = rinse.dryness_after.map_or(usual, |dryness| dryness.value);
                let held = millilitres(dry / dryness * (1.0 - dryness));
                let water = millilitres(rinse.water_l.value * 1000.0);
                let after = RinseReadings {
                    ph: rinse.ph.map(|ph| ph.value),
                    strip_mg_per_l: rinse.strip_mg_per_l.map(|mg| mg.value),
                };
                let by_ph = |ph| readings.alkali.rinse_pair(ph, tap_ph, celsius, held, water).ok();
                pairs.extend(pair(before, after, held, water, by_ph));
                before = after;
            }
            _ => {}
        }
    }
    pairs
}

/// The pair of a rinse: by strips, else by pH. A strip at zero afterwards has
/// no logarithm and leaves the pH.
fn pair(
    before: RinseReadings,
    after: RinseReadings,
    held: Volume,
    water: Volume,
    by_ph: impl Fn((f64, f64)) -> Option<RinsePair>,
) -> Option<RinsePair> {
    let mg_per_l = |mg: f64| grams_per_litre(mg / 1000.0);
    match (before.strip_mg_per_l, after.strip_mg_per_l) {
        (Some(before), Some(after)) if after > 0.0 => Some(RinsePair {
            before: mg_per_l(before),
            after: mg_per_l(after),
            tap: mg_per_l(0.0),
            held,
            water,
        }),
        _ => by_ph((before.ph?, after.ph?)),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::{book, exact, reading, rinse, weighed};

    #[test]
    fn readings_between_rinses_give_the_efficiency() {
        // 1 L held, 4 L added: perfect mixing leaves a fifth; these left 0.2^0.7.
        let left = 0.2_f64.powf(0.7);
        let book = book(vec![
            weighed(),
            reading(ReadingOf::AvailableChlorineMgPerL, exact(100.0)),
            rinse(4.0, Some(100.0 * left), None),
            rinse(4.0, Some(100.0 * left * left), None),
            rinse(4.0, Some(0.0), None),
        ]);
        let found = wash_efficiency(&book, 20.0).unwrap();
        assert_eq!(found.pairs, 2, "a strip at zero is unusable");
        assert!((found.exponent.value - 0.7).abs() < 1e-9);
        assert_eq!(wash_efficiency(&Book::default(), 20.0).unwrap(), Efficiency::assumed());
    }
}
