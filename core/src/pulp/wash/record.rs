//! What the book says for a wash to come: the lump, its liquor, the tap, and how
//! well this studio's rinses have worked so far.

use super::{
    Alkali, Efficiency, Liquor, Lump, ReadingPair, Solute, Tap, Targets, WashRefusal, efficiency,
};
use crate::journal::{self, Batch, Body, Book, OwnFigureOf, ReadingOf};
use crate::quantity::{
    Basis, Known, MassConcentration, Ratio, grams, grams_per_litre, in_grams, in_grams_per_litre,
    in_share, millilitres, share,
};

/// pH of the tap where nobody has read it (common practice, no source).
const USUAL_TAP_PH: f64 = 7.5;

/// A rinse is at the tap when its pH is within this of the tap's; the same
/// that the end test allows.
const PH_OVER_TAP: f64 = crate::pulp::sign_off::PH_FROM_TAP;

/// Available chlorine or peroxide that strips call zero: half of their usual
/// first step of 1 mg/L (common practice, no source).
const STRIP_ZERO: f64 = 0.0005;

/// Salt over the tap's own that no sheet shows, g/L, and dissolved brown matter
/// (own estimates, no source): at 20 % dryness they leave 0.08 % of the fibre's
/// mass as salt and 0.02 % as brown matter.
const LITTLE_SALT: f64 = 0.2;
const LITTLE_ORGANICS: f64 = 0.05;

/// What the book knows of a batch that is about to be washed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Record {
    /// The lump as last weighed, with the dryness of the last squeeze.
    pub lump: Option<Lump>,
    /// Available chlorine or peroxide by the last strip.
    pub oxidant: Option<Known<MassConcentration>>,
    /// The last pH of the pulp's own liquor.
    pub ph: Option<f64>,
    pub alkali: Alkali,
    /// pH of the tap, and its hardness as CaCO3, where read here or noted for
    /// the studio.
    pub tap_ph: Option<f64>,
    pub hardness: Option<MassConcentration>,
    /// Rinses since the last bath.
    pub rinses: u32,
}

impl Record {
    /// What is known of no batch in particular: the studio's own tap.
    pub fn of_studio(book: &Book) -> Self {
        let own = |what| book.studio.figures.get(&what).map(|(figure, _)| figure.value);
        Self {
            lump: None,
            oxidant: None,
            ph: None,
            alkali: Alkali::SodaAsh,
            tap_ph: own(OwnFigureOf::TapPh),
            hardness: own(OwnFigureOf::TapHardnessMgPerL).map(|mg| grams_per_litre(mg / 1000.0)),
            rinses: 0,
        }
    }

    /// What is known of `batch`.
    pub fn of(book: &Book, batch: &Batch) -> Self {
        let mut record = Self::of_studio(book);
        if batch.baths.is_empty()
            && batch.cook.as_ref().is_some_and(|c| c.alkali == Some(journal::Alkali::Lye))
        {
            record.alkali = Alkali::Lye;
        }
        let own = book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(f, _)| *f);
        record.lump = batch.weighed.as_ref().map(|weighed| Lump {
            wet_mass: weighed.wet_mass_g.map(grams),
            dryness: own.unwrap_or(weighed.dryness).map(share),
        });
        if let (Some(lump), Some(weighed)) = (&mut record.lump, &batch.weighed) {
            // The same fibre, squeezed as this studio squeezes.
            let dry = weighed.wet_mass_g.value * weighed.dryness.value;
            let scale = dry / in_share(lump.dryness.value) / in_grams(lump.wet_mass.value);
            lump.wet_mass = lump.wet_mass.map(|mass| mass * scale);
        }
        let strip = |mg: f64| Known::within(grams_per_litre(mg / 1000.0), 0.5, Basis::Strip);
        for told in batch.told() {
            match &told.body {
                Body::Weighed(_) | Body::Cooked(_) => {}
                Body::BathStarted(_) => {
                    (record.oxidant, record.rinses) = (None, 0);
                }
                Body::Reading(reading) => match (reading.what, reading.figure) {
                    (ReadingOf::Ph, Some(ph)) => record.ph = Some(ph.value),
                    (ReadingOf::TapPh, Some(ph)) => record.tap_ph = Some(ph.value),
                    (ReadingOf::HardnessMgPerL, Some(mg)) => {
                        record.hardness = Some(grams_per_litre(mg.value / 1000.0));
                    }
                    (ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL, Some(mg)) => {
                        record.oxidant = Some(strip(mg.value))
                    }
                    _ => {}
                },
                Body::Rinsed(rinse) => {
                    record.rinses += 1;
                    record.ph = rinse.ph.map(|ph| ph.value).or(record.ph);
                    record.oxidant =
                        rinse.strip_mg_per_l.map(|mg| strip(mg.value)).or(record.oxidant);
                }
                Body::Antichlored(antichlor) => {
                    record.oxidant =
                        antichlor.strip_mg_per_l.map(|mg| strip(mg.value)).or(record.oxidant);
                }
                Body::EndTest(test) => {
                    use crate::journal::EndTestOf::{ChlorineStrip, LastRinsePh, PeroxideStrip};
                    match (test.test, test.figure) {
                        (ChlorineStrip | PeroxideStrip, Some(mg)) => {
                            record.oxidant = Some(strip(mg.value));
                        }
                        (LastRinsePh, Some(ph)) => record.ph = Some(ph.value),
                        _ => {}
                    }
                }
                Body::AcidFinished(acid) => record.ph = acid.ph_after.map(|ph| ph.value),
                _ => {}
            }
        }
        if batch.baths.is_empty() {
            record.ph =
                record.ph.or_else(|| batch.cook.as_ref()?.ph_after_rinse.map(|ph| ph.value));
        }
        record
    }
}

/// How far to rinse, of each solute that is known in `liquor`: oxidant to what
/// strips call zero, alkali to within 0.3 pH of the tap, salt and brown matter
/// to little.
///
/// # Errors
/// As [`Alkali::strength`].
pub fn usual_targets(
    liquor: &Liquor,
    tap: &Tap,
    alkali: Alkali,
    tap_ph: Option<f64>,
    celsius: f64,
) -> Result<Targets, crate::chemistry::EquilibriumError> {
    let near_tap = tap_ph.unwrap_or(USUAL_TAP_PH).max(USUAL_TAP_PH) + PH_OVER_TAP;
    let over = |solute, little: f64| {
        grams_per_litre(tap.get(solute).map_or(0.0, in_grams_per_litre) + little)
    };
    Ok(Targets {
        oxidant: liquor.oxidant.map(|_| over(Solute::Oxidant, STRIP_ZERO)),
        alkali: match liquor.alkali {
            Some(_) => Some(alkali.strength(near_tap, celsius)?),
            None => None,
        },
        salt: liquor.salt.map(|_| over(Solute::Salt, LITTLE_SALT)),
        organics: liquor.organics.map(|_| over(Solute::Organics, LITTLE_ORGANICS)),
    })
}

/// How well rinses work in this studio: by the readings taken between rinses in
/// every batch of the book, else by the studio's own figure, else assumed.
///
/// A strip's fall or, where none was read, the pH's makes a pair. What the lump
/// held comes of the squeeze noted with the rinse, else of the last weighing.
///
/// # Errors
/// [`WashRefusal::BadEfficiency`] where the readings cannot be.
pub fn learnt(book: &Book, celsius: f64) -> Result<Efficiency, WashRefusal> {
    let pairs: Vec<ReadingPair> =
        book.batches.values().flat_map(|batch| pairs(book, batch, celsius)).collect();
    if let Some(learnt) = efficiency::learn(&pairs)? {
        return Ok(learnt);
    }
    let own = book.studio.figures.get(&OwnFigureOf::WashingEfficiency);
    Ok(own
        .map_or_else(Efficiency::assumed, |(figure, _)| Efficiency { exponent: *figure, pairs: 0 }))
}

fn pairs(book: &Book, batch: &Batch, celsius: f64) -> Vec<ReadingPair> {
    let Record { alkali, tap_ph, lump, .. } = Record::of(book, batch);
    let Some(weighed) = batch.weighed.as_ref() else { return Vec::new() };
    let dry = weighed.wet_mass_g.value * weighed.dryness.value;
    let usual = lump.map_or(weighed.dryness.value, |lump| in_share(lump.dryness.value));
    let tap_ph = tap_ph.unwrap_or(USUAL_TAP_PH);
    let mut pairs = Vec::new();
    let mut before: (Option<f64>, Option<f64>) = (None, None);
    for told in batch.told() {
        match &told.body {
            Body::Reading(reading) => match reading.what {
                ReadingOf::Ph => before.0 = reading.figure.map(|ph| ph.value),
                ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                    before.1 = reading.figure.map(|mg| mg.value);
                }
                _ => {}
            },
            // What came in between makes a reading before it no measure of rinsing.
            Body::BathStarted(_)
            | Body::Added(_)
            | Body::Antichlored(_)
            | Body::AcidFinished(_)
            | Body::ReserveAdded(_) => before = (None, None),
            Body::Rinsed(rinse) => {
                let dryness = rinse.dryness_after.map_or(usual, |dryness| dryness.value);
                let held = millilitres(dry / dryness * (1.0 - dryness));
                let water = millilitres(rinse.water_l.value * 1000.0);
                let after = (rinse.ph.map(|ph| ph.value), rinse.strip_mg_per_l.map(|mg| mg.value));
                let mg = |mg: f64| grams_per_litre(mg / 1000.0);
                match (before, after) {
                    ((_, Some(one)), (_, Some(other))) if other > 0.0 => pairs.push(ReadingPair {
                        before: mg(one),
                        after: mg(other),
                        tap: mg(0.0),
                        held,
                        water,
                    }),
                    ((Some(one), _), (Some(other), _)) => pairs.extend(
                        alkali.reading_pair((one, other), tap_ph, celsius, held, water).ok(),
                    ),
                    _ => {}
                }
                before = after;
            }
            _ => {}
        }
    }
    pairs
}

/// A dryness as a person typed it: their own figure, give or take a tenth of
/// itself (own estimate; hands differ from squeeze to squeeze).
pub fn own_dryness(dryness: Ratio) -> Known<Ratio> {
    Known::within(dryness, 0.1, Basis::OwnRecord)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::{Device, Pen, Rinsed, Subject, Weighed};
    use jiff::{SignedDuration, Timestamp};
    use ulid::Ulid;

    fn book(bodies: Vec<Body>) -> Book {
        let mut pen = Pen::new(Device::new("a").unwrap(), None);
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        Book::of(bodies.into_iter().enumerate().map(|(i, body)| {
            let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
            pen.write(now, i as u128, "", about, body).unwrap()
        }))
    }

    fn figure(value: f64) -> journal::Figure {
        Known::exact(value, Basis::Measured)
    }

    fn rinse(litres: f64, strip: Option<f64>, ph: Option<f64>) -> Body {
        Body::Rinsed(Rinsed {
            water_l: figure(litres),
            minutes: None,
            dryness_after: None,
            ph: ph.map(figure),
            strip_mg_per_l: strip.map(figure),
            note: String::new(),
        })
    }

    fn weighed() -> Body {
        Body::Weighed(Weighed {
            wet_mass_g: figure(1250.0),
            dryness: figure(0.2),
            how: journal::DrynessFrom::OwnFigure,
            sample: None,
        })
    }

    fn reading(what: ReadingOf, value: f64) -> Body {
        Body::Reading(journal::Reading {
            bath: None,
            what,
            figure: Some(figure(value)),
            text: String::new(),
        })
    }

    #[test]
    fn the_last_readings_stand() {
        let book = book(vec![
            weighed(),
            reading(ReadingOf::AvailableChlorineMgPerL, 100.0),
            reading(ReadingOf::HardnessMgPerL, 250.0),
            rinse(4.0, Some(20.0), Some(9.5)),
            rinse(4.0, None, Some(8.5)),
        ]);
        let record = Record::of(&book, book.batches.values().next().unwrap());
        assert_eq!(record.ph, Some(8.5));
        assert_eq!(in_grams_per_litre(record.oxidant.unwrap().value), 0.02);
        assert_eq!(in_grams_per_litre(record.hardness.unwrap()), 0.25);
        assert_eq!(record.rinses, 2);
        assert!((in_grams(record.lump.unwrap().held().value) - 1000.0).abs() < 1e-9);
    }

    #[test]
    fn rinses_teach_how_well_they_work() {
        // 1 L held, 4 L added: perfect mixing leaves a fifth; these left 0.2^0.7.
        let left = 0.2_f64.powf(0.7);
        let book = book(vec![
            weighed(),
            reading(ReadingOf::AvailableChlorineMgPerL, 100.0),
            rinse(4.0, Some(100.0 * left), None),
            rinse(4.0, Some(100.0 * left * left), None),
            rinse(4.0, Some(0.0), None),
        ]);
        let found = learnt(&book, 20.0).unwrap();
        assert_eq!(found.pairs, 2, "a strip at zero tells nothing");
        assert!((found.exponent.value - 0.7).abs() < 1e-9);
        assert_eq!(learnt(&Book::default(), 20.0).unwrap(), Efficiency::assumed());
    }

    #[test]
    fn usual_targets_are_above_what_the_tap_brings() {
        let hard = grams_per_litre(0.3);
        for tap_ph in [6.5, 7.5, 8.4] {
            let tap = Alkali::SodaAsh.tap(tap_ph, hard, 15.0).unwrap();
            let some = Some(Known::exact(grams_per_litre(5.0), Basis::Measured));
            let liquor = Liquor { oxidant: some, alkali: some, salt: some, organics: some };
            let targets =
                usual_targets(&liquor, &tap, Alkali::SodaAsh, Some(tap_ph), 15.0).unwrap();
            for solute in Solute::ALL {
                let floor = tap.get(solute).unwrap_or_else(|| grams_per_litre(0.0));
                assert!(targets.get(solute).unwrap() > floor, "{solute:?} at {tap_ph}");
            }
        }
    }
}
