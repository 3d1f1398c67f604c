//! A simulated batch, from the cook to the store: each step writes the entries that a
//! person would write, and advances the time.

mod bath;
mod finishing;

pub use bath::BathSettings;

use bleachfield_core::journal::{
    Alkali, BatchStarted, Body, Cook, DrySample, DrynessFrom, Note, Photo, PlanRecord, PulpState,
    Sheets, Stored, StoredForm, Subject, Weighed,
};
use bleachfield_core::pulp::sign_off::EndTestResult;
use bleachfield_core::pulp::storage::{FibreClass, shelf_life};
use bleachfield_core::pulp::{DryingMethod, DrynessSource, WetPulp};
use bleachfield_core::quantity::{Estimate, Ratio, grams, in_grams, in_share, share, weighed};
use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

use super::DemoError;
use super::captured_photo;
use super::journal_builder::{Author, JournalBuilder};
use super::model::{BleachResponse, SQUEEZE, meter, read, usual_dryness};
use crate::photo::preset::{DemoFibre, Lighting, photo};

/// A batch in progress.
pub struct BatchSimulation<'a> {
    pub journal: &'a mut JournalBuilder,
    pub batch: Ulid,
    pub author: Author,
    /// The present instant of this batch.
    pub at: Timestamp,
    fibre: DemoFibre,
    raw_g: f64,
    pulp: Option<WetPulp>,
    /// Share of the cooked pulp's colour that is left.
    colour: f64,
    planned: Option<(Ulid, PlanRecord)>,
    bath: Option<SimulatedBath>,
    /// pH, and oxidant in g/L, of the water in the wet pulp.
    liquor: (f64, f64),
    rinses: u32,
    peroxide_used: bool,
    chlorine_used: bool,
    tests: Vec<EndTestResult>,
    changed: Option<Timestamp>,
}

/// The running bath.
struct SimulatedBath {
    id: Ulid,
    started: Timestamp,
    record: PlanRecord,
    response: BleachResponse,
    /// True strength of the bleach as a share of what the plan assumes.
    true_share: f64,
    colour_before: f64,
    /// Seconds from the start up to which its cues are answered.
    answered_until: i64,
}

/// A fibre's name, and its key in the core's table.
fn names(fibre: DemoFibre) -> (&'static str, &'static str) {
    match fibre {
        DemoFibre::CattailLeaf => ("cattail leaf", "cattail"),
        DemoFibre::IrisLeaf => ("iris leaf", "iris"),
        DemoFibre::HempTow => ("hemp tow", "hemp_bast"),
    }
}

impl JournalBuilder {
    /// Begins a batch with dry plant, g.
    pub fn begin_batch(
        &mut self,
        author: Author,
        at: Timestamp,
        fibre: DemoFibre,
        (name, raw_g): (&str, f64),
        note: &str,
    ) -> BatchSimulation<'_> {
        let batch = self.fresh_id(at);
        let (word, key) = names(fibre);
        let started = Body::BatchStarted(BatchStarted {
            name: name.to_owned(),
            fibre: word.to_owned(),
            fibre_key: Some(key.to_owned()),
            cook: None,
            raw_dry_g: Some(read(raw_g, 0.01 * raw_g)),
            note: note.to_owned(),
        });
        self.write(author, at, Subject::Batch(batch), started);
        BatchSimulation {
            journal: self,
            batch,
            author,
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
}

impl BatchSimulation<'_> {
    /// Writes an entry about the batch.
    pub fn write(&mut self, body: Body) -> Ulid {
        self.journal.write(self.author, self.at, Subject::Batch(self.batch), body)
    }

    pub fn note(&mut self, text: &str) -> Ulid {
        self.write(Body::Note(Note { text: text.to_owned() }))
    }

    /// Advances the time.
    pub fn wait(&mut self, minutes: i64) {
        self.at = self.at.checked_add(SignedDuration::from_mins(minutes)).unwrap_or(self.at);
    }

    /// The cook; the soda ash as a share of the dry plant.
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

    /// Weighs the wet pulp; its dryness from a dried sample of 20 g.
    pub fn weigh_with_sample(&mut self, wet_g: f64, sample_dry_g: f64) -> Result<Ulid, DemoError> {
        let (wet, dried) = (weighed(grams(20.0)), weighed(grams(sample_dry_g)));
        let dryness = DrynessSource::Sample { wet, dried, how: Some(DryingMethod::Oven) }
            .estimate()
            .map_err(DemoError::of("a dried sample"))?;
        let sample = DrySample {
            wet_g: wet.map(in_grams),
            dry_g: dried.map(in_grams),
            drying: Some(DryingMethod::Oven),
        };
        self.weigh(wet_g, dryness, DrynessFrom::DriedSample, Some(sample))
    }

    /// Weighs the wet pulp; its dryness from the studio's own figure.
    pub fn weigh_by_own_figure(&mut self, wet_g: f64) -> Result<Ulid, DemoError> {
        self.weigh(wet_g, usual_dryness().map(share), DrynessFrom::OwnFigure, None)
    }

    /// Weighs the wet pulp; its dryness as the core assumes it.
    pub fn weigh_assuming(&mut self, wet_g: f64) -> Result<Ulid, DemoError> {
        let dryness = DrynessSource::Assumed.estimate().map_err(DemoError::of("a dryness"))?;
        self.weigh(wet_g, dryness, DrynessFrom::Assumed, None)
    }

    fn weigh(
        &mut self,
        wet_g: f64,
        dryness: Estimate<Ratio>,
        how: DrynessFrom,
        sample: Option<DrySample>,
    ) -> Result<Ulid, DemoError> {
        self.wait(12);
        let wet = weighed(grams(wet_g));
        self.pulp = Some(WetPulp::new(wet, dryness).map_err(DemoError::of("a lump"))?);
        Ok(self.write(Body::Weighed(Weighed {
            wet_mass_g: wet.map(in_grams),
            dryness: dryness.map(in_share),
            how,
            sample,
        })))
    }

    /// A photo of the pulp with the cards beside it. In daylight its colour is measured too.
    pub fn photograph(
        &mut self,
        pulp: PulpState,
        lighting: Lighting,
        caption: &str,
    ) -> Result<Ulid, DemoError> {
        let left = self.colour_now();
        let seed = 1000 + self.journal.photo_count() as u64;
        let mut scene = photo(self.fibre, left, pulp == PulpState::Wet, lighting, seed);
        (scene.width, scene.height) = (1040, 780);
        let captured = captured_photo::capture(&scene)?;
        let bath = self.bath.as_ref().map(|bath| bath.id);
        let kept = &captured.photo;
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
        self.journal.add_photo(kept.id(), kept.bytes.clone());
        if matches!(lighting, Lighting::Overcast | Lighting::Clear) {
            let reading = captured.colour(pulp, bath)?;
            self.write(Body::ColourReading(Box::new(reading)));
        }
        Ok(entry)
    }

    /// Stores the pulp with 3 % of the fibre lost in washing. Returns the lot.
    pub fn store(&mut self, form: StoredForm, place: &str, note: &str) -> Ulid {
        self.wait(20);
        let lot = self.journal.fresh_id(self.at);
        let days_ago = self.journal.now.duration_since(self.at).as_hours() / 24;
        let stored_on = self.journal.day(days_ago);
        let body = Body::Stored(Stored {
            lot,
            wet_mass_g: weighed(grams((self.dry_g() * 0.97 / SQUEEZE).round())).map(in_grams),
            dryness: usual_dryness(),
            form,
            place: place.to_owned(),
            keep_by: shelf_life(form, FibreClass::Plant, false).keep_by(stored_on),
            untested_why: String::new(),
            note: note.to_owned(),
        });
        self.write(body);
        lot
    }

    /// Forms sheets from a lot, by Teasel.
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
        self.journal.write(Author::Teasel, self.at, Subject::Lot(lot), body);
    }

    /// Oven-dry fibre in the wet pulp, g.
    pub fn dry_g(&self) -> f64 {
        self.pulp.map_or(0.0, |pulp| in_grams(pulp.oven_dry().value))
    }

    /// Mass of the wet pulp after squeezing, g.
    fn squeezed_g(&self) -> f64 {
        self.dry_g() / SQUEEZE
    }

    /// Minutes since the bath began.
    fn minutes(&self, bath: &SimulatedBath) -> f64 {
        self.at.duration_since(bath.started).as_secs_f64() / 60.0
    }

    fn colour_now(&self) -> f64 {
        match &self.bath {
            Some(bath) => bath.colour_before * bath.response.colour(self.minutes(bath)),
            None => self.colour,
        }
    }
}
