//! What is written about a batch outside the bath itself: before it, and after.

use super::{Amount, Figure, PhotoId, Schedule};
use crate::colour::reversion::Ageing;
use crate::{choice, record, words};
use ulid::Ulid;

/// A batch begins: some fibre, cooked somehow.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatchStarted {
    pub name: String,
    /// The fibre's name as the person knows it.
    pub fibre: String,
    /// The fibre's key in the core's table, if it was chosen from there.
    pub fibre_key: Option<String>,
    pub cook: Option<Cook>,
    /// Oven-dry mass of the raw plant, for yield.
    pub raw_dry_g: Option<Figure>,
    pub note: String,
}

record!(BatchStarted { name, fibre, fibre_key, cook, raw_dry_g, note: blank });

/// The batch gets another name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Renamed {
    pub name: String,
}

record!(Renamed { name });

/// How the fibre was cooked; all of it optional, since pulp may come from
/// elsewhere.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cook {
    pub alkali: Option<Alkali>,
    /// Grams of the alkali as weighed.
    pub alkali_g: Option<Figure>,
    /// Alkali on oven-dry fibre, as a share (0.15 is 15 %).
    pub charge_share: Option<Figure>,
    pub liquor_l: Option<Figure>,
    pub celsius: Option<Figure>,
    pub hours: Option<Figure>,
    /// pH of the liquor squeezed out after rinsing: what the pulp carries over.
    pub ph_after_rinse: Option<Figure>,
    pub note: String,
}

record!(Cook {
    alkali,
    alkali_g,
    charge_share,
    liquor_l,
    celsius,
    hours,
    ph_after_rinse,
    note: blank,
});

/// The alkali of a cook.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Alkali {
    /// Anhydrous sodium carbonate.
    SodaAsh,
    /// Sodium carbonate decahydrate.
    WashingSoda,
    /// Sodium hydroxide.
    Lye,
    WoodAsh,
    Lime,
    /// Cooked in plain water, or not at all.
    None,
    /// Named in the cook's note.
    Other,
}

words!(Alkali {
    SodaAsh = "soda_ash",
    WashingSoda = "washing_soda",
    Lye = "lye",
    WoodAsh = "wood_ash",
    Lime = "lime",
    None = "none",
    Other = "other",
});

/// Wet pulp on the scale, and how dry it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    pub wet_mass_g: Figure,
    /// Oven-dry mass over wet mass, as a share (0.2 is 20 %).
    pub dryness: Figure,
    pub how: DrynessFrom,
    /// The sample that was dried, when one was.
    pub sample: Option<DrySample>,
}

record!(Weighed { wet_mass_g, dryness, how, sample });

/// Where a dryness came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DrynessFrom {
    /// A sample of this pulp was weighed wet and dried.
    DriedSample,
    /// This studio's own figure for how hard it squeezes.
    OwnFigure,
    /// Nobody measured it.
    Assumed,
}

words!(DrynessFrom {
    DriedSample = "dried_sample",
    OwnFigure = "own_figure",
    Assumed = "assumed",
});

/// A small sample weighed wet, then dried and weighed again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrySample {
    pub wet_g: Figure,
    pub dry_g: Figure,
}

record!(DrySample { wet_g, dry_g });

/// A reading off a strip, meter or thermometer.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The bath it was taken in; none for rinse water, tap or stored pulp.
    pub bath: Option<Ulid>,
    pub what: ReadingOf,
    /// In the unit of `what`; none when it was read as words only.
    pub figure: Option<Figure>,
    /// What the person saw, as they put it.
    pub text: String,
}

record!(Reading { bath, what, figure, text: blank });

/// What was read, and so the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ReadingOf {
    Ph,
    /// Strip for available (free or total) chlorine, mg/L.
    AvailableChlorineMgPerL,
    /// Strip for peroxide, mg/L.
    PeroxideMgPerL,
    /// Bath temperature, °C.
    Celsius,
    /// Starch–iodide paper: 0 no colour, 1 blue or brown.
    StarchIodide,
    /// Total hardness of the water, mg/L as CaCO3.
    HardnessMgPerL,
    /// pH of the tap water, against which a last rinse is judged.
    TapPh,
    /// Told by `text`.
    Other,
}

words!(ReadingOf {
    Ph = "ph",
    AvailableChlorineMgPerL = "available_chlorine_mg_per_l",
    PeroxideMgPerL = "peroxide_mg_per_l",
    Celsius = "celsius",
    StarchIodide = "starch_iodide",
    HardnessMgPerL = "hardness_mg_per_l",
    TapPh = "tap_ph",
    Other = "other",
});

/// A photo of the pulp. The bytes are kept apart, under their id.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    pub photo: PhotoId,
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: String,
    /// Size of the picture as stored, before its orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    pub bytes: u64,
    /// EXIF orientation 1 to 8; the stored bytes keep it too.
    pub orientation: u8,
    pub pulp: PulpState,
    pub bath: Option<Ulid>,
    pub caption: String,
}

record!(Photo { photo, mime, width_px, height_px, bytes, orientation, pulp, bath, caption: blank });

/// How wet the pulp was when it was looked at: wet pulp looks darker.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PulpState {
    #[default]
    Wet,
    Pressed,
    Dried,
}

words!(PulpState {
    Wet = "wet",
    Pressed = "pressed",
    Dried = "dried",
});

/// A colour measured from a photo.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourReading {
    pub photo: Option<PhotoId>,
    pub bath: Option<Ulid>,
    pub pulp: PulpState,
    /// CIELAB, D65, 2° observer.
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
    pub yellowness: Option<Figure>,
    pub blue_index: Option<Figure>,
    /// What served as white: "copy paper", a card's name.
    pub reference: String,
    pub patches: Vec<Patch>,
    /// Any further measures, by name with the unit in it.
    pub measures: std::collections::BTreeMap<String, Figure>,
    pub remarks: Vec<String>,
    /// How the swatch was aged before, if it was.
    pub ageing: Option<Ageing>,
    /// The entry with the same swatch's earlier reading: wet, before it dried, or
    /// fresh, before it aged.
    pub earlier: Option<Ulid>,
}

record!(ColourReading {
    photo,
    bath,
    pulp,
    lightness,
    a,
    b,
    yellowness,
    blue_index,
    reference,
    patches,
    measures: blank,
    remarks: blank,
    ageing,
    earlier,
});

/// The colour that a batch is bleached towards. The newest is the one in force.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourTarget {
    /// CIELAB, D65, 2° observer.
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
    pub from: TargetFrom,
    /// What the person calls it; empty for a named step.
    pub name: String,
}

record!(ColourTarget { lightness, a, b, from, name: blank });

/// Where a target came from.
#[derive(Clone, Debug, PartialEq)]
pub enum TargetFrom {
    /// A colour reading anywhere in the book, by its entry.
    Swatch(Ulid),
    /// A photo of a real paper, measured.
    Photo(PhotoId),
    /// One of the core's paper whites.
    Step(crate::colour::target::PaperWhite),
}

choice!(TargetFrom { Swatch(entry) = "swatch", Photo(photo) = "photo", Step(white) = "step" });

/// A patch that was marked on a photo; coordinates are shares of its width
/// and height after orientation, 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// `white`, `grey`, `pulp`, or another word of the colour module's.
    pub role: String,
    pub centre_x: f64,
    pub centre_y: f64,
    pub radius: f64,
    /// Median sRGB of the patch, 0 to 255.
    pub rgb: [f64; 3],
    /// Median absolute deviation of each.
    pub spread: [f64; 3],
    pub clipped_share: f64,
}

record!(Patch { role, centre_x, centre_y, radius, rgb, spread, clipped_share });

/// One rinse.
#[derive(Clone, Debug, PartialEq)]
pub struct Rinsed {
    pub water_l: Figure,
    /// How long it soaked.
    pub minutes: Option<Figure>,
    /// Share of oven-dry mass after squeezing.
    pub dryness_after: Option<Figure>,
    /// pH of the water squeezed out.
    pub ph: Option<Figure>,
    /// Chlorine or peroxide strip in the water squeezed out, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    pub note: String,
}

record!(Rinsed { water_l, minutes, dryness_after, ph, strip_mg_per_l, note: blank });

/// The last oxidant was taken out with a reagent.
#[derive(Clone, Debug, PartialEq)]
pub struct Antichlored {
    pub reagent: Antichlor,
    pub product: Option<Ulid>,
    pub grams: Figure,
    pub minutes: Option<Figure>,
    /// Strip afterwards, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    pub note: String,
}

record!(Antichlored { reagent, product, grams, minutes, strip_mg_per_l, note: blank });

/// What takes out the last oxidant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Antichlor {
    ThiosulfatePentahydrate,
    ThiosulfateAnhydrous,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    AscorbicAcid,
    Peroxide,
    Other,
}

words!(Antichlor {
    ThiosulfatePentahydrate = "thiosulfate_pentahydrate",
    ThiosulfateAnhydrous = "thiosulfate_anhydrous",
    Sulfite = "sulfite",
    Bisulfite = "bisulfite",
    Metabisulfite = "metabisulfite",
    AscorbicAcid = "ascorbic_acid",
    Peroxide = "peroxide",
    Other = "other",
});

/// A test that the pulp is clean.
#[derive(Clone, Debug, PartialEq)]
pub struct EndTest {
    pub test: EndTestOf,
    pub outcome: Outcome,
    /// In the test's own unit: pH, or mg/L.
    pub figure: Option<Figure>,
    pub note: String,
}

record!(EndTest { test, outcome, figure, note: blank });

/// Which end test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum EndTestOf {
    ChlorineStrip,
    PeroxideStrip,
    StarchIodide,
    /// pH of the last rinse against the tap's.
    LastRinsePh,
    /// No slipperiness between the fingers.
    Feel,
    Smell,
}

words!(EndTestOf {
    ChlorineStrip = "chlorine_strip",
    PeroxideStrip = "peroxide_strip",
    StarchIodide = "starch_iodide",
    LastRinsePh = "last_rinse_ph",
    Feel = "feel",
    Smell = "smell",
});

/// How a test came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    Passed,
    Failed,
    Unclear,
}

words!(Outcome {
    Passed = "passed",
    Failed = "failed",
    Unclear = "unclear",
});

/// The pulp was brought to neutral with an acid.
#[derive(Clone, Debug, PartialEq)]
pub struct AcidFinished {
    pub acid: Acid,
    pub product: Option<Ulid>,
    pub amount: Amount,
    pub ph_before: Option<Figure>,
    pub ph_after: Option<Figure>,
    pub note: String,
}

record!(AcidFinished { acid, product, amount, ph_before, ph_after, note: blank });

/// An acid for a neutral finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Acid {
    Citric,
    Acetic,
    Other,
}

words!(Acid {
    Citric = "citric",
    Acetic = "acetic",
    Other = "other",
});

/// An alkaline reserve was worked into the pulp.
#[derive(Clone, Debug, PartialEq)]
pub struct ReserveAdded {
    /// Calcium carbonate added.
    pub calcium_carbonate_g: Figure,
    /// Share of it that is reckoned to stay in the sheet.
    pub retention_share: Option<Figure>,
}

record!(ReserveAdded { calcium_carbonate_g, retention_share });

/// The batch is called clean, or is let go with a reason though it is not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SignedOff {
    /// Every end test that applies was made and passed.
    pub complete: bool,
    /// Why it was signed off though one failed or is missing.
    pub reason: String,
}

record!(SignedOff { complete, reason: blank });

/// The batch was given up: spilt, spoilt, thrown out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Abandoned {
    pub why: String,
}

record!(Abandoned { why });

/// Cues of a bath from here on follow another schedule.
#[derive(Clone, Debug, PartialEq)]
pub struct ScheduleChanged {
    pub bath: Ulid,
    /// Minutes still count from the start of the bath.
    pub schedule: Schedule,
    pub why: String,
}

record!(ScheduleChanged { bath, schedule, why: blank });
