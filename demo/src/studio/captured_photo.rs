//! A photo of the pulp as the journal stores it, and its colour as the core measures it.

use bleachfield_core::colour::PatchRole;
use bleachfield_core::colour::measure::measure;
use bleachfield_core::colour::patch;
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::{
    correction::Correction,
    reference_patches::{Marks, ReferencePatches},
};
use bleachfield_core::exchange::photo::{Cleaned, clean};
use bleachfield_core::journal::{ColourReading, PulpState};
use jpeg_decoder::Decoder;
use ulid::Ulid;

use super::DemoError;
use crate::photo::{GroundTruth, Scene, render};

/// Every frame holds a white card of 90 % and a grey card of 18 %.
const WHITE_CARD: f64 = 0.90;
const CARD_NAME: &str = "white card, 90 %";

/// A photo without metadata, and the areas of pulp and cards in it.
pub struct CapturedPhoto {
    pub photo: Cleaned,
    marks: GroundTruth,
}

/// Renders a scene and strips the photo's metadata.
///
/// # Errors
/// If the scene cannot be rendered or the core does not take the photo.
pub fn capture(scene: &Scene) -> Result<CapturedPhoto, DemoError> {
    let rendered = render(scene).map_err(DemoError::of("a photo"))?;
    let photo = clean(&rendered.jpeg).map_err(DemoError::of("a photo"))?;
    Ok(CapturedPhoto { photo, marks: rendered.truth })
}

impl CapturedPhoto {
    /// Measures the colour of its pulp.
    ///
    /// # Errors
    /// If the core refuses the photo.
    pub fn colour(&self, pulp: PulpState, bath: Option<Ulid>) -> Result<ColourReading, DemoError> {
        let pixels = rgba(&self.photo.bytes)?;
        let (width, height) = (self.photo.width_px, self.photo.height_px);
        let frame = bleachfield_core::colour::photo::PhotoPixels::new(&pixels, width, height)
            .ok_or_else(|| DemoError::of("pixels")("their number"))?;
        let GroundTruth { white, second_white, grey, ref pulps, .. } = self.marks;
        let marks = Marks { white, second_white, grey };
        let patches = ReferencePatches::read(&frame, &marks).map_err(DemoError::of("a card"))?;
        let references = References {
            grey: Some(Surface::grey_card()),
            white: Surface::card(WHITE_CARD),
            light: Light::Daylight,
        };
        let correction =
            Correction::new(&patches, &references).map_err(DemoError::of("a correction"))?;
        let &(area, _) = pulps.first().ok_or_else(|| DemoError::of("pulp")("none in the photo"))?;
        let seen = patch::read(&frame, area, PatchRole::Pulp).map_err(DemoError::of("pulp"))?;
        let reading = measure(&correction, &seen).map_err(DemoError::of("a colour"))?;

        let mut kept = ColourReading::of(&reading, &correction, &seen);
        kept.photo = Some(self.photo.id());
        kept.reference = CARD_NAME.to_owned();
        (kept.pulp, kept.bath) = (pulp, bath);
        Ok(kept)
    }
}

/// The pixels of an RGB JPEG as RGBA.
fn rgba(jpeg: &[u8]) -> Result<Vec<u8>, DemoError> {
    let rgb = Decoder::new(jpeg).decode().map_err(DemoError::of("pixels"))?;
    Ok(rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], u8::MAX]).collect())
}
