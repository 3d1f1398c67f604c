//! A photograph of the pulp, as the journal keeps it, and its colour as the core
//! measures it.

use bleachfield_core::colour::correction::{Correction, Marks, ReferencePatches};
use bleachfield_core::colour::measure::{Reading, measure};
use bleachfield_core::colour::patch::{self, Area, Patch};
use bleachfield_core::colour::quality::Place;
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::journal::photo::{Cleaned, clean};
use bleachfield_core::journal::{ColourReading, Patch as Kept, PulpState};
use jpeg_decoder::Decoder;
use ulid::Ulid;

use super::Failure;
use crate::photo::{Scene, Truth, render};

/// What lies in every frame: a white card of 90 % and a grey of 18 %.
const WHITE_CARD: f64 = 0.90;
const CARD_NAME: &str = "white card, 90 %";

/// A photo, without anything but its pixels, and where things are in it.
pub struct Picture {
    pub photo: Cleaned,
    marks: Truth,
}

/// Takes the picture.
///
/// # Errors
/// If the scene cannot be rendered or the core does not take the photo.
pub fn take(scene: &Scene) -> Result<Picture, Failure> {
    let rendered = render(scene).map_err(Failure::of("a photo"))?;
    let photo = clean(&rendered.jpeg).map_err(Failure::of("a photo"))?;
    Ok(Picture { photo, marks: rendered.truth })
}

impl Picture {
    /// The colour of the pulp in it.
    ///
    /// # Errors
    /// If the core refuses the photo.
    pub fn colour(&self, pulp: PulpState, bath: Option<Ulid>) -> Result<ColourReading, Failure> {
        let pixels = rgba(&self.photo.bytes)?;
        let (width, height) = (self.photo.width_px, self.photo.height_px);
        let frame = patch::Photo::new(&pixels, width, height)
            .ok_or_else(|| Failure::of("pixels")("their number"))?;
        let Truth { white, second_white, grey, ref pulps } = self.marks;
        let marks = Marks { white, second_white, grey };
        let patches = ReferencePatches::read(&frame, &marks).map_err(Failure::of("a card"))?;
        let references = References {
            grey: Some(Surface::grey_card()),
            white: Surface::card(WHITE_CARD),
            light: Light::Daylight,
        };
        let correction =
            Correction::new(&patches, &references).map_err(Failure::of("a correction"))?;
        let &(area, _) = pulps.first().ok_or_else(|| Failure::of("pulp")("none in the photo"))?;
        let seen = patch::read(&frame, area, Place::Pulp).map_err(Failure::of("pulp"))?;
        let reading = measure(&correction, &seen).map_err(Failure::of("a colour"))?;

        let kept = |role: &str, patch: &Patch| kept(role, patch, width, height);
        let marked = [("white", Some(&patches.white)), ("pulp", Some(&seen))]
            .into_iter()
            .chain([("second_white", patches.second_white.as_ref())])
            .chain([("grey", patches.grey.as_ref())])
            .filter_map(|(role, patch)| Some(kept(role, patch?)))
            .collect();
        Ok(as_kept(self, &reading, marked, pulp, bath))
    }
}

/// The pixels of a photo as a canvas gives them. Ours are all in three colours.
fn rgba(jpeg: &[u8]) -> Result<Vec<u8>, Failure> {
    let rgb = Decoder::new(jpeg).decode().map_err(Failure::of("pixels"))?;
    Ok(rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], u8::MAX]).collect())
}

fn as_kept(
    picture: &Picture,
    reading: &Reading,
    patches: Vec<Kept>,
    pulp: PulpState,
    bath: Option<Ulid>,
) -> ColourReading {
    ColourReading {
        photo: Some(picture.photo.id.clone()),
        bath,
        pulp,
        lightness: reading.lightness,
        a: reading.a,
        b: reading.b,
        yellowness: Some(reading.yellowness),
        // Of a hundred, as the trade counts reflectance.
        blue_index: Some(reading.blue.map(|share| share * 100.0)),
        reference: CARD_NAME.to_owned(),
        patches,
        measures: [
            ("chroma".to_owned(), reading.chroma),
            ("blue_k_over_s".to_owned(), reading.blue_k_over_s),
        ]
        .into(),
        remarks: Vec::new(),
    }
}

/// A patch in shares of the photo, its spread as plain median deviation.
fn kept(role: &str, patch: &Patch, width: u32, height: u32) -> Kept {
    let Area { width: w, height: h, .. } = patch.area;
    let [x, y] = patch.area.centre();
    Kept {
        role: role.to_owned(),
        centre_x: x / f64::from(width),
        centre_y: y / f64::from(height),
        radius: f64::from(w.min(h)) / 2.0 / f64::from(width),
        rgb: patch.median,
        spread: patch.spread.map(|deviation| deviation / 1.4826),
        clipped_share: patch.clipped_high + patch.clipped_low,
    }
}
