//! Colours of the photo that is held. Nothing here uses the browser.

use std::cell::RefCell;

use bleachfield_core::{
    colour::{
        camera::lesson::{from_chart, from_surfaces},
        correction::Correction,
        difference::in_one_photo,
        find::{Proposal, propose},
        measure::{ColourMeasurement, measure},
        patch::{self, PatchStatistics},
        photo::{Area, PhotoPixels},
        reference::{References, Surface},
        reference_patches::{Marks, ReferencePatches},
        space::Lab,
        {ColourError, PatchRole},
    },
    journal::{CameraTaught, ColourReading},
    quantity::{Basis, Estimate},
};

use super::canvas::Pixels;
use crate::worker::protocol::{
    ColourRequest, ColourResult, KnownSurfaces, PatchMark, PhotoAnalysis, TeachRequest,
};

thread_local! {
    /// The photo prepared or analysed last, by its id.
    static HELD: RefCell<Option<(String, Pixels)>> = const { RefCell::new(None) };
}

/// Holds the pixels of a photo in place of those held before.
pub fn hold(photo: String, pixels: Pixels) {
    HELD.set(Some((photo, pixels)));
}

pub fn is_held(photo: &str) -> bool {
    with_held(photo, |_| Some(())).is_some()
}

/// Proposes where white, grey and pulp are in the photo; `None` if it is not held.
pub fn analyse_held(photo: &str) -> Option<PhotoAnalysis> {
    with_held(photo, analyse)
}

/// Measures colours in a photo; `None` if it is not held.
pub fn measure_held(request: &ColourRequest) -> Option<ColourResult> {
    with_held(&request.photo, |frame| Some(measured(frame, request)))
}

fn with_held<T>(photo: &str, read: impl FnOnce(&PhotoPixels) -> Option<T>) -> Option<T> {
    HELD.with_borrow(|held| {
        let (_, pixels) = held.as_ref().filter(|(id, _)| id == photo)?;
        read(&PhotoPixels::new(&pixels.rgba, pixels.width, pixels.height)?)
    })
}

fn analyse(frame: &PhotoPixels) -> Option<PhotoAnalysis> {
    let (width, height) = (frame.width(), frame.height());
    let mut found = propose(frame);
    // A single pale area is the pulp: a white without pulp is of no use, and pulp taken for
    // its own white reference would come out white.
    if found.pulp.is_none() && found.second_white.is_none() && found.grey.is_none() {
        found.pulp = found.white.take();
    }
    let places = [
        (PatchRole::White, found.white),
        (PatchRole::SecondWhite, found.second_white),
        (PatchRole::Grey, found.grey),
        (PatchRole::Pulp, found.pulp),
    ];
    let proposed = places
        .into_iter()
        .filter_map(|(place, found)| Some(mark(place, found?, width, height)))
        .collect();
    Some(PhotoAnalysis { width, height, proposed })
}

fn measured(frame: &PhotoPixels, request: &ColourRequest) -> ColourResult {
    let refused = |refused| ColourResult {
        readings: Vec::new(),
        doubt: None,
        differences: Vec::new(),
        refused,
    };
    let correction = match correction(frame, request) {
        Ok(correction) => correction,
        Err(rejections) => return refused(rejections),
    };
    // The figures without the lesson are kept beside those with it.
    let untaught = correction
        .camera
        .and_then(|_| Correction::new(&correction.patches, &correction.references).ok());
    let mut readings = Vec::new();
    let mut rejections = Vec::new();
    let references = request.marks.iter().filter(|mark| mark.place != PatchRole::Pulp);
    let references: Vec<Area> = references.map(|mark| area(mark, frame)).collect();
    for mark in request.marks.iter().filter(|mark| mark.place == PatchRole::Pulp) {
        let pulp = area(mark, frame);
        if references.iter().any(|reference| reference.overlaps(&pulp)) {
            rejections.push(ColourError::Overlapping { place: PatchRole::Pulp });
            continue;
        }
        let patch = patch::read(frame, pulp, PatchRole::Pulp);
        match patch.and_then(|patch| Ok((measure(&correction, &patch)?, patch))) {
            Ok(measured) => readings.push(measured),
            Err(rejection) => rejections.push(rejection),
        }
    }
    if !rejections.is_empty() {
        return refused(rejections);
    }
    let record = |(reading, patch): &(ColourMeasurement, PatchStatistics)| {
        let found = ColourReading::of(reading, &correction, patch);
        match (request.camera, &untaught) {
            (Some((lesson, _)), Some(untaught)) => match measure(untaught, patch) {
                Ok(plain) => ColourReading::of(&plain, untaught, patch).taught(found, lesson),
                Err(_) => found,
            },
            _ => found,
        }
    };
    let differences = readings
        .first()
        .map(|(_, first)| {
            let others = readings.iter().skip(1);
            others.map(|(_, other)| in_one_photo(&correction, first, other)).collect()
        })
        .unwrap_or_default();
    ColourResult {
        readings: readings.iter().map(record).collect(),
        doubt: readings.first().map(|(reading, _)| reading.dominant),
        differences,
        refused: Vec::new(),
    }
}

/// Teaches the camera by the photo that is held; `None` if it is another.
pub fn teach_held(request: &TeachRequest) -> Option<Result<CameraTaught, Vec<ColourError>>> {
    with_held(&request.photo, |frame| Some(lesson(frame, request)))
}

fn lesson(frame: &PhotoPixels, request: &TeachRequest) -> Result<CameraTaught, Vec<ColourError>> {
    let (width, height) = (f64::from(frame.width()), f64::from(frame.height()));
    let found = match &request.surfaces {
        KnownSurfaces::Chart { edition, corners } => {
            let corners = corners.map(|[x, y]| [x * width, y * height]);
            from_chart(frame, corners, *edition, request.light)?
        }
        KnownSurfaces::Marked(marks) => {
            let known: Vec<(Area, Lab)> =
                marks.iter().map(|(mark, lab)| (area(mark, frame), *lab)).collect();
            from_surfaces(frame, &known, request.light)?
        }
    };
    Ok(CameraTaught::of(&found, request.light))
}

fn correction(
    frame: &PhotoPixels,
    request: &ColourRequest,
) -> Result<Correction, Vec<ColourError>> {
    let at = |place| request.marks.iter().find(|mark| mark.place == place).map(|m| area(m, frame));
    let marks = Marks {
        white: at(PatchRole::White),
        second_white: at(PatchRole::SecondWhite),
        grey: at(PatchRole::Grey),
    };
    let patches = ReferencePatches::read(frame, &marks).map_err(|rejection| vec![rejection])?;
    let references = References {
        white: request.white.map_or_else(Surface::copy_paper, card),
        grey: marks.grey.map(|_| request.grey.map_or_else(Surface::grey_card, card)),
        light: request.light,
    };
    Correction::with_camera(&patches, &references, request.camera.map(|(_, camera)| camera))
}

/// A card with printed CIELAB: ± 0.01 of reflectance, as [`Surface::card`].
fn card([l, a, b]: [f64; 3]) -> Surface {
    let linear = Lab { l, a, b }.to_xyz().to_linear();
    Surface::own(linear.map(|value| Estimate {
        value,
        low: value - 0.01,
        high: (value + 0.01).min(1.0).max(value),
        basis: Basis::Label,
    }))
}

/// The square in pixels, clipped to the photo.
fn area(mark: &PatchMark, frame: &PhotoPixels) -> Area {
    let (width, height) = (f64::from(frame.width()), f64::from(frame.height()));
    let radius = mark.radius * width;
    let edge = |middle: f64, most: f64| {
        let low = (middle - radius).round().clamp(0.0, most);
        let high = (middle + radius).round().clamp(0.0, most);
        (low as u32, (high - low) as u32)
    };
    let (x, across) = edge(mark.x * width, width);
    let (y, down) = edge(mark.y * height, height);
    Area { x, y, width: across, height: down }
}

/// The largest square in the middle of a proposed area.
fn mark(place: PatchRole, found: Proposal, width: u32, height: u32) -> PatchMark {
    let [x, y] = found.area.centre();
    let side = f64::from(found.area.width.min(found.area.height));
    let (width, height) = (f64::from(width), f64::from(height));
    PatchMark { place, x: x / width, y: y / height, radius: side / 2.0 / width }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::colour::reference::Light;

    /// Light paper on the left, pulp on the right, with a little noise.
    fn photo() -> Pixels {
        let (width, height) = (400, 300);
        let rgba = (0..width * height)
            .flat_map(|i| {
                let noise = (i * 7 % 5) as u8;
                let [r, g, b] = if i % width < 200 { [225, 224, 222] } else { [180, 160, 120] };
                [r + noise, g + noise, b + noise, 255]
            })
            .collect();
        Pixels { rgba, width, height }
    }

    fn request(marks: Vec<PatchMark>) -> ColourRequest {
        let photo = "here".to_owned();
        ColourRequest {
            photo,
            marks,
            white: None,
            grey: None,
            light: Light::Daylight,
            camera: None,
        }
    }

    fn at(place: PatchRole, x: f64) -> PatchMark {
        PatchMark { place, x, y: 0.5, radius: 0.1 }
    }

    #[test]
    fn a_photo_is_held_until_the_next_and_measured_repeatedly() {
        assert_eq!(measure_held(&request(Vec::new())), None);
        hold("here".into(), photo());
        let marks =
            vec![at(PatchRole::White, 0.25), at(PatchRole::Pulp, 0.75), at(PatchRole::Pulp, 0.8)];
        let both = measure_held(&request(marks)).unwrap();
        assert_eq!(both.refused, []);
        let [one, other] = &both.readings[..] else { panic!("{both:?}") };
        // (180, 160, 120) under a white of 90 %: a yellow of medium lightness.
        assert!((60.0..75.0).contains(&one.lightness.value), "{:?}", one.lightness);
        assert!(one.b.value > 15.0);
        assert!((one.lightness.value - other.lightness.value).abs() < 1.0);
        assert!(both.differences[0].delta_e00.value < 1.0);
        assert!(measure_held(&request(Vec::new())).is_some());
        hold("other".into(), photo());
        assert_eq!(measure_held(&request(Vec::new())), None);
    }

    #[test]
    fn a_held_photo_is_analysed_at_its_own_size() {
        assert_eq!(analyse_held("here"), None);
        hold("here".into(), photo());
        let analysis = analyse_held("here").unwrap();
        assert_eq!((analysis.width, analysis.height), (400, 300));
        assert!(is_held("here") && !is_held("other"));
    }

    #[test]
    fn without_a_white_reference_it_is_refused() {
        hold("here".into(), photo());
        let result = measure_held(&request(vec![at(PatchRole::Pulp, 0.75)])).unwrap();
        assert_eq!(result.refused, [ColourError::NoReference]);
        assert!(result.readings.is_empty());
    }

    #[test]
    fn pulp_marked_on_the_white_reference_is_refused() {
        hold("here".into(), photo());
        let marks = vec![at(PatchRole::White, 0.25), at(PatchRole::Pulp, 0.4)];
        let result = measure_held(&request(marks)).unwrap();
        assert_eq!(result.refused, [ColourError::Overlapping { place: PatchRole::Pulp }]);
    }

    #[test]
    fn pixels_that_do_not_match_the_size_are_not_analysed() {
        hold("here".into(), Pixels { width: 399, ..photo() });
        assert_eq!(analyse_held("here"), None);
    }
}
