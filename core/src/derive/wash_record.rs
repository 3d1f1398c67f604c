//! What the book knows of a batch that is to be washed: its pulp, the readings of its liquor
//! and of the tap water. Not here: the wash itself, which is `pulp::wash`.

use crate::chemistry::oxidant_strip;
use crate::journal::{
    self, Antichlored, Batch, Body, Book, EndTest, EndTestOf, Figure, OwnFigureOf, Reading,
    ReadingOf, Rinsed, Weighed,
};
use crate::pulp::wash::{Alkali, STRIP_PH, SqueezedPulp, WashReadings, recorded_dryness};
use crate::quantity::{
    Estimate, MassConcentration, grams, grams_per_litre, in_grams, in_share, share,
};

/// What the book knows of a batch that is to be washed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WashRecord {
    /// The pulp as last weighed, at the dryness of this studio's squeeze.
    pub pulp: Option<SqueezedPulp>,
    /// The last reading of each kind, with its range and basis.
    pub readings: WashReadings,
    /// Rinses since the last bath.
    pub rinses: u32,
}

impl WashRecord {
    /// What is known of no batch in particular: the studio's tap water.
    pub fn of_studio(book: &Book) -> Self {
        let own = |what| book.studio.figures.get(&what).map(|(figure, _)| *figure);
        Self {
            readings: WashReadings {
                tap_ph: own(OwnFigureOf::TapPh),
                hardness: own(OwnFigureOf::TapHardnessMgPerL).map(milligrams_per_litre),
                ..WashReadings::default()
            },
            ..Self::default()
        }
    }

    /// What is known of `batch`: the last readings stand.
    pub fn of(book: &Book, batch: &Batch) -> Self {
        let mut record = Self::of_studio(book);
        if batch.baths.is_empty()
            && batch.cook.as_ref().is_some_and(|c| c.alkali == Some(journal::Alkali::Lye))
        {
            record.readings.alkali = Alkali::Lye;
        }
        let own = book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(f, _)| *f);
        record.pulp = batch.weighed.as_ref().map(|weighed| squeezed(weighed, own));
        for entry in batch.visible_entries() {
            match &entry.body {
                Body::BathStarted(_) => (record.readings.oxidant, record.rinses) = (None, 0),
                Body::Reading(reading) => record.read(reading),
                Body::Rinsed(rinse) => record.rinsed(rinse),
                Body::Antichlored(antichlor) => record.antichlored(antichlor),
                Body::EndTest(test) => record.tested(test),
                Body::AcidFinished(acid) => record.readings.ph = acid.ph_after.map(ph),
                _ => {}
            }
        }
        if batch.baths.is_empty() {
            let cooked = || batch.cook.as_ref()?.ph_after_rinse.map(ph);
            record.readings.ph = record.readings.ph.or_else(cooked);
        }
        record
    }

    fn read(&mut self, reading: &Reading) {
        let Some(figure) = reading.figure else { return };
        let readings = &mut self.readings;
        match reading.what {
            ReadingOf::Ph => readings.ph = Some(ph(figure)),
            ReadingOf::TapPh => readings.tap_ph = Some(ph(figure)),
            ReadingOf::HardnessMgPerL => readings.hardness = Some(milligrams_per_litre(figure)),
            ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                readings.oxidant = Some(strip(figure));
            }
            ReadingOf::Celsius | ReadingOf::StarchIodide | ReadingOf::Other => {}
        }
    }

    fn rinsed(&mut self, rinse: &Rinsed) {
        self.rinses += 1;
        self.readings.ph = rinse.ph.map(ph).or(self.readings.ph);
        self.readings.oxidant = rinse.strip_mg_per_l.map(strip).or(self.readings.oxidant);
    }

    fn antichlored(&mut self, antichlor: &Antichlored) {
        self.readings.oxidant = antichlor.strip_mg_per_l.map(strip).or(self.readings.oxidant);
    }

    fn tested(&mut self, test: &EndTest) {
        let Some(figure) = test.figure else { return };
        match test.test {
            EndTestOf::ChlorineStrip | EndTestOf::PeroxideStrip => {
                self.readings.oxidant = Some(strip(figure));
            }
            EndTestOf::LastRinsePh => self.readings.ph = Some(ph(figure)),
            EndTestOf::StarchIodide | EndTestOf::Feel | EndTestOf::Smell => {}
        }
    }
}

/// The same fibre at the dryness of this studio's own squeeze, where it is known.
fn squeezed(weighed: &Weighed, own_dryness: Option<Figure>) -> SqueezedPulp {
    let mut pulp = SqueezedPulp {
        wet_mass: weighed.wet_mass_g.map(grams),
        dryness: own_dryness.map_or_else(|| weighed.dryness.map(share), recorded_dryness),
    };
    let dry = weighed.wet_mass_g.value * weighed.dryness.value;
    let scale = dry / in_share(pulp.dryness.value) / in_grams(pulp.wet_mass.value);
    pulp.wet_mass = pulp.wet_mass.map(|mass| mass * scale);
    pulp
}

/// A pH with the range that was recorded; ±[`STRIP_PH`] where none was.
pub(super) fn ph(figure: Figure) -> Estimate<f64> {
    if figure.low < figure.high {
        return figure;
    }
    let (low, high) = ((figure.value - STRIP_PH).max(0.0), (figure.value + STRIP_PH).min(14.0));
    Estimate { low, high, ..figure }
}

/// A strip in mg/L with the range that was recorded; that of [`oxidant_strip`] where none was.
pub(super) fn strip(figure: Figure) -> Estimate<MassConcentration> {
    if figure.low < figure.high {
        return milligrams_per_litre(figure);
    }
    milligrams_per_litre(oxidant_strip(figure.value))
}

fn milligrams_per_litre(figure: Figure) -> Estimate<MassConcentration> {
    figure.map(|mg| grams_per_litre(mg / 1000.0))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::{book, exact, reading, rinse, weighed};
    use crate::quantity::{Basis, in_grams_per_litre};

    fn record(bodies: Vec<Body>) -> WashRecord {
        let book = book(bodies);
        WashRecord::of(&book, book.batches.values().next().unwrap())
    }

    #[test]
    fn the_last_readings_stand() {
        let record = record(vec![
            weighed(),
            reading(ReadingOf::AvailableChlorineMgPerL, exact(100.0)),
            reading(ReadingOf::HardnessMgPerL, exact(250.0)),
            rinse(4.0, Some(20.0), Some(9.5)),
            rinse(4.0, None, Some(8.5)),
        ]);
        let readings = record.readings;
        assert_eq!(readings.ph.unwrap().value, 8.5);
        assert_eq!(in_grams_per_litre(readings.oxidant.unwrap().value), 0.02);
        assert_eq!(in_grams_per_litre(readings.hardness.unwrap().value), 0.25);
        assert_eq!(record.rinses, 2);
        assert!((in_grams(record.pulp.unwrap().held().value) - 1000.0).abs() < 1e-9);
    }

    #[test]
    fn a_ph_keeps_its_range_and_how_it_was_read() {
        let meter = Estimate { value: 9.0, low: 8.9, high: 9.1, basis: Basis::Measured };
        let read = |figure| record(vec![reading(ReadingOf::Ph, figure)]).readings.ph;
        assert_eq!(read(meter), Some(meter));
        let strip = Estimate::exact(9.0, Basis::Strip);
        assert_eq!(read(strip), Some(Estimate { low: 8.5, high: 9.5, ..strip }));
        let tap = record(vec![reading(ReadingOf::TapPh, meter)]).readings.tap_ph;
        assert_eq!(tap, Some(meter));
    }

    #[test]
    fn a_strip_keeps_the_range_that_was_recorded() {
        let read =
            |figure| record(vec![reading(ReadingOf::PeroxideMgPerL, figure)]).readings.oxidant;
        let steps = Estimate { value: 10.0, low: 5.0, high: 25.0, basis: Basis::Strip };
        assert_eq!(read(steps).map(|known| known.map(in_grams_per_litre).high), Some(0.025));
        let exact = read(exact(10.0)).unwrap().map(in_grams_per_litre);
        assert_eq!((exact.low, exact.high, exact.basis), (0.005, 0.015, Basis::Strip));
    }
}
