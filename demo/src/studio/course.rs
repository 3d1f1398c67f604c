//! One batch being worked, from the cook to the store: each step writes down what a
//! person would have, and moves the clock.

mod bath;
mod clean;

pub use bath::Wanted;

use bleachfield_core::journal::{
    Alkali, BatchStarted, Body, Cook, DrySample, DrynessFrom, Note, Photo, PlanRecord, PulpState,
    Sheets, Stored, StoredForm, Subject, Weighed,
};
use bleachfield_core::pulp::storage::{FibreClass, shelf_life};
use bleachfield_core::pulp::{DryingMethod, DrynessSource, WetPulp};
use bleachfield_core::quantity::{Basis, Estimate, grams, in_grams, in_share, share, weighed};
use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

use super::Failure;
use super::log::{Hand, Log};
use super::model::{Appetite, SQUEEZE, meter, read};
use super::picture;
use crate::photo::preset::{Fibre, Hour, photo};

/// A batch at work.
pub struct Course<'a> {
    pub log: &'a mut Log,
    pub batch: Ulid,
    pub hand: Hand,
    /// Now, in this batch.
    pub at: Timestamp,
    fibre: Fibre,
    raw_g: f64,
    pulp: Option<WetPulp>,
    /// Share of the cooked colour that is left.
    colour: f64,
    planned: Option<(Ulid, PlanRecord)>,
    bath: Option<Bath>,
    /// pH and oxidant, g/L, of the water in the lump.
    liquor: (f64, f64),
    rinses: u32,
    peroxide_used: bool,
    chlorine_used: bool,
    tests: Vec<bleachfield_core::pulp::sign_off::EndTestResult>,
    changed: Option<Timestamp>,
}

/// The bath that runs.
struct Bath {
    id: Ulid,
    started: Timestamp,
    record: PlanRecord,
    appetite: Appetite,
    /// What it truly holds of what the plan says.
    truth: f64,
    colour_before: f64,
    /// Seconds up to which its cues were seen to.
    tended: i64,
}

/// What a fibre is called, and its key in the core's table.
fn names(fibre: Fibre) -> (&'static str, &'static str) {
    match fibre {
        Fibre::CattailLeaf => ("cattail leaf", "cattail"),
        Fibre::IrisLeaf => ("iris leaf", "iris"),
        Fibre::HempTow => ("hemp tow", "hemp_bast"),
    }
}

impl<'a> Course<'a> {
    /// A batch begins: dry plant is weighed.
    pub fn begin(
        log: &'a mut Log,
        hand: Hand,
        at: Timestamp,
        fibre: Fibre,
        (name, raw_g): (&str, f64),
        note: &str,
    ) -> Self {
        let batch = log.fresh_id(at);
        let (word, key) = names(fibre);
        let started = Body::BatchStarted(BatchStarted {
            name: name.to_owned(),
            fibre: word.to_owned(),
            fibre_key: Some(key.to_owned()),
            cook: None,
            raw_dry_g: Some(read(raw_g, 0.01 * raw_g)),
            note: note.to_owned(),
        });
        log.write(hand, at, Subject::Batch(batch), started);
        Self {
            log,
            batch,
            hand,
            at,
            fibre,
            raw_g,
            pulp: None,
            colour: 1.0,
            planned: None,
            bath: None,
            liquor: (0.0, 0.0),
            rinses: 0,
            peroxide_used: false,
            chlorine_used: false,
            tests: Vec::new(),
            changed: None,
        }
    }

    /// Writes about the batch.
    pub fn write(&mut self, body: Body) -> Ulid {
        self.log.write(self.hand, self.at, Subject::Batch(self.batch), body)
    }

    pub fn note(&mut self, text: &str) -> Ulid {
        self.write(Body::Note(Note { text: text.to_owned() }))
    }

    /// Time passes.
    pub fn wait(&mut self, minutes: i64) {
        self.at = self.at.checked_add(SignedDuration::from_mins(minutes)).unwrap_or(self.at);
    }

    /// The cook: soda ash by its share of the dry plant.
    pub fn cook(&mut self, share_of_raw: f64, hours: f64, ph_after_rinse: f64, note: &str) {
        self.wait((hours * 60.0) as i64 + 95);
        let alkali_g = share_of_raw * self.raw_g;
        let cook = Cook {
            alkali: Some(Alkali::SodaAsh),
            alkali_g: Some(read(alkali_g, 1.0)),
            charge_share: Some(read(share_of_raw, 0.01 * share_of_raw)),
            liquor_l: Some(read(self.raw_g / 1000.0 * 15.0, 0.25)),
            celsius: Some(read(97.0, 2.0)),
            hours: Some(read(hours, 0.1)),
            ph_after_rinse: Some(meter(ph_after_rinse)),
            note: note.to_owned(),
        };
        self.write(Body::Cooked(cook));
    }

    /// The lump on the scale, its dryness by a sample of 20 g that was dried.
    pub fn weigh_with_sample(&mut self, wet_g: f64, sample_dry_g: f64) -> Result<Ulid, Failure> {
        let (wet, dried) = (weighed(grams(20.0)), weighed(grams(sample_dry_g)));
        let dryness = DrynessSource::Sample { wet, dried, how: DryingMethod::Oven }
            .estimate()
            .map_err(Failure::of("a dried sample"))?;
        let sample = DrySample { wet_g: wet.map(in_grams), dry_g: dried.map(in_grams) };
        self.weigh(wet_g, dryness, DrynessFrom::DriedSample, Some(sample))
    }

    /// The lump on the scale, its dryness by the studio's own figure.
    pub fn weigh_by_own_figure(&mut self, wet_g: f64) -> Result<Ulid, Failure> {
        let own = Estimate { basis: Basis::OwnRecord, ..read(SQUEEZE, 0.015) };
        self.weigh(wet_g, own.map(share), DrynessFrom::OwnFigure, None)
    }

    /// The lump on the scale, its dryness as the core assumes it.
    pub fn weigh_assuming(&mut self, wet_g: f64) -> Result<Ulid, Failure> {
        let dryness = DrynessSource::Assumed.estimate().map_err(Failure::of("a dryness"))?;
        self.weigh(wet_g, dryness, DrynessFrom::Assumed, None)
    }

    fn weigh(
        &mut self,
        wet_g: f64,
        dryness: Estimate<bleachfield_core::quantity::Ratio>,
        how: DrynessFrom,
        sample: Option<DrySample>,
    ) -> Result<Ulid, Failure> {
        self.wait(12);
        let wet = weighed(grams(wet_g));
        self.pulp = Some(WetPulp::new(wet, dryness).map_err(Failure::of("a lump"))?);
        Ok(self.write(Body::Weighed(Weighed {
            wet_mass_g: wet.map(in_grams),
            dryness: dryness.map(in_share),
            how,
            sample,
        })))
    }

    /// A photo of the pulp with the cards beside it. By daylight its colour is read too;
    /// by lamplight these two only look.
    pub fn photograph(
        &mut self,
        pulp: PulpState,
        hour: Hour,
        caption: &str,
    ) -> Result<Ulid, Failure> {
        let left = self.colour_now();
        let seed = 1000 + self.log.photos() as u64;
        let mut scene = photo(self.fibre, left, pulp == PulpState::Wet, hour, seed);
        (scene.width, scene.height) = (1040, 780);
        let picture = picture::take(&scene)?;
        let bath = self.bath.as_ref().map(|bath| bath.id);
        let kept = &picture.photo;
        let entry = self.write(Body::Photo(Photo {
            photo: kept.id(),
            mime: kept.mime.to_owned(),
            width_px: kept.width_px,
            height_px: kept.height_px,
            bytes: kept.bytes.len() as u64,
            orientation: kept.orientation,
            pulp,
            bath,
            caption: caption.to_owned(),
        }));
        self.log.keep(kept.id(), kept.bytes.clone());
        if matches!(hour, Hour::Overcast | Hour::Clear) {
            let reading = picture.colour(pulp, bath)?;
            self.write(Body::ColourReading(Box::new(reading)));
        }
        Ok(entry)
    }

    /// Pulp is put by; 3 % of the fibre went down the drain. The answer is the lot.
    pub fn store(&mut self, form: StoredForm, place: &str, note: &str) -> Ulid {
        self.wait(20);
        let lot = self.log.fresh_id(self.at);
        let days_ago = self.log.now.duration_since(self.at).as_hours() / 24;
        let put_by = self.log.day(days_ago);
        let dryness = Estimate { basis: Basis::OwnRecord, ..read(SQUEEZE, 0.015) };
        let body = Body::Stored(Stored {
            lot,
            wet_mass_g: weighed(grams((self.dry_g() * 0.97 / SQUEEZE).round())).map(in_grams),
            dryness,
            form,
            place: place.to_owned(),
            keep_by: shelf_life(form, FibreClass::Plant, false).keep_by(put_by),
            note: note.to_owned(),
        });
        self.write(body);
        lot
    }

    /// Sheets are pulled from a lot, by the other person.
    pub fn sheets(
        &mut self,
        lot: Ulid,
        count: u32,
        (format, width_mm, height_mm): (&str, f64, f64),
        grammage: f64,
        note: &str,
    ) {
        // Air-dry sheets hold 7 % of water; the mould keeps 92 % of the fibre.
        let sheet_g = grammage * width_mm * height_mm * 1e-6 * 0.93 / 0.92;
        let dry_g = (f64::from(count) * sheet_g).round();
        let body = Body::Sheets(Sheets {
            count,
            format: format.to_owned(),
            width_mm: Some(width_mm),
            height_mm: Some(height_mm),
            grammage_g_per_m2: Some(read(grammage, 4.0)),
            dry_g: Some(read(dry_g, 0.05 * dry_g)),
            note: note.to_owned(),
        });
        self.log.write(Hand::Teasel, self.at, Subject::Lot(lot), body);
    }

    /// Oven-dry fibre in the lump.
    pub fn dry_g(&self) -> f64 {
        self.pulp.map_or(0.0, |pulp| in_grams(pulp.oven_dry().value))
    }

    /// What the lump weighs after a squeeze.
    fn squeezed_g(&self) -> f64 {
        self.dry_g() / SQUEEZE
    }

    /// Minutes since the bath began.
    fn minutes(&self, bath: &Bath) -> f64 {
        self.at.duration_since(bath.started).as_secs_f64() / 60.0
    }

    fn colour_now(&self) -> f64 {
        match &self.bath {
            Some(bath) => bath.colour_before * bath.appetite.colour(self.minutes(bath)),
            None => self.colour,
        }
    }
}
