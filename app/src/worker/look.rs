//! Measuring the photo that was looked at. Nothing here knows of a browser.

use std::cell::RefCell;

use bleachfield_core::{
    colour::{
        ColourError, PatchRole,
        correction::Correction,
        difference::between,
        find::{Proposal, propose},
        measure::measure,
        patch,
        photo::{Area, PhotoPixels},
        reference::{References, Surface},
        reference_patches::{Marks, ReferencePatches},
        space::Lab,
    },
    journal::ColourReading,
    quantity::{Basis, Estimate},
};

use super::{
    message::{Answer, ColourAsked, ColourFound, Looked, Mark},
    pixels::Pixels,
};

/// A photo that was looked at.
pub struct Seen {
    pixels: Pixels,
    looked: Looked,
}

impl Seen {
    /// Measures it by the marks that it proposes, else as is `likely` to be asked.
    pub fn colour_as(&self, likely: &ColourAsked) -> Option<ColourFound> {
        self.colour(&likely.of("", &self.looked))
    }

    /// Measures what is marked in it.
    fn colour(&self, asked: &ColourAsked) -> Option<ColourFound> {
        let Pixels { rgba, width, height } = &self.pixels;
        Some(measured(&PhotoPixels::new(rgba, *width, *height)?, asked))
    }
}

thread_local! {
    /// The photo last looked at, by its id.
    static HELD: RefCell<Option<(String, Seen)>> = const { RefCell::new(None) };
}

/// Keeps what was seen of a photo, for its colour may be measured next.
pub fn hold(photo: String, seen: Seen) -> Looked {
    let looked = seen.looked.clone();
    HELD.set(Some((photo, seen)));
    looked
}

/// What was seen of the photo, if it is the one that is held.
pub fn look_again(photo: &str) -> Option<Answer> {
    HELD.with_borrow(|held| {
        let (_, seen) = held.as_ref().filter(|(held, _)| held == photo)?;
        Some(Answer::Looked(seen.looked.clone()))
    })
}

/// Keeps a photo's pixels and says where things may be in it.
pub fn look(photo: String, pixels: Pixels) -> Answer {
    let Some(seen) = see(pixels) else { return Answer::Unseen };
    Answer::Looked(hold(photo, seen))
}

/// Where things may be in a photo; `None` if its pixels are not as many as is said.
pub fn see(pixels: Pixels) -> Option<Seen> {
    let Pixels { width, height, .. } = pixels;
    let frame = PhotoPixels::new(&pixels.rgba, width, height)?;
    let mut found = propose(&frame);
    // One pale thing alone in the photo is the pulp: a white without pulp is no use to
    // anybody, and pulp taken for its own white would come out white.
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
    Some(Seen { pixels, looked: Looked { width, height, proposed } })
}

/// Measures what is marked in the photo last looked at.
pub fn colour(asked: &ColourAsked) -> Answer {
    HELD.with_borrow(|held| {
        let held = held.as_ref().filter(|(photo, _)| *photo == asked.photo);
        match held.and_then(|(_, seen)| seen.colour(asked)) {
            Some(found) => Answer::Colour(Box::new(found)),
            None => Answer::NotHeld,
        }
    })
}

fn measured(frame: &PhotoPixels, asked: &ColourAsked) -> ColourFound {
    let refused =
        |refused| ColourFound { readings: Vec::new(), doubt: None, between: None, refused };
    let correction = match correction(frame, asked) {
        Ok(correction) => correction,
        Err(against) => return refused(against),
    };
    let mut found = Vec::new();
    let mut against = Vec::new();
    let references = asked.marks.iter().filter(|mark| mark.place != PatchRole::Pulp);
    let references: Vec<Area> = references.map(|mark| area(mark, frame)).collect();
    for mark in asked.marks.iter().filter(|mark| mark.place == PatchRole::Pulp) {
        let here = area(mark, frame);
        if references.iter().any(|reference| reference.overlaps(&here)) {
            against.push(ColourError::Overlapping { place: PatchRole::Pulp });
            continue;
        }
        let seen = patch::read(frame, here, PatchRole::Pulp);
        match seen.and_then(|seen| Ok((measure(&correction, &seen)?, seen))) {
            Ok(pulp) => found.push(pulp),
            Err(rejection) => against.push(rejection),
        }
    }
    if !against.is_empty() {
        return refused(against);
    }
    ColourFound {
        readings: found
            .iter()
            .map(|(reading, seen)| ColourReading::of(reading, &correction, seen))
            .collect(),
        doubt: found.first().map(|(reading, _)| reading.dominant),
        between: match &found[..] {
            [(one, _), (other, _)] => Some(between(one, other, true)),
            _ => None,
        },
        refused: Vec::new(),
    }
}

fn correction(frame: &PhotoPixels, asked: &ColourAsked) -> Result<Correction, Vec<ColourError>> {
    let at = |place| asked.marks.iter().find(|mark| mark.place == place).map(|m| area(m, frame));
    let marks = Marks {
        white: at(PatchRole::White),
        second_white: at(PatchRole::SecondWhite),
        grey: at(PatchRole::Grey),
    };
    let patches = ReferencePatches::read(frame, &marks).map_err(|rejection| vec![rejection])?;
    let references = References {
        white: asked.white.map_or_else(Surface::copy_paper, card),
        grey: marks.grey.map(|_| asked.grey.map_or_else(Surface::grey_card, card)),
        light: asked.light,
    };
    Correction::new(&patches, &references)
}

/// A card whose maker prints its CIELAB: within a hundredth of reflectance, as
/// [`Surface::card`].
fn card([l, a, b]: [f64; 3]) -> Surface {
    let linear = Lab { l, a, b }.to_xyz().to_linear();
    Surface::own(linear.map(|value| Estimate {
        value,
        low: value - 0.01,
        high: (value + 0.01).min(1.0).max(value),
        basis: Basis::Label,
    }))
}

/// The square in the photo's own pixels, its part inside the photo.
fn area(mark: &Mark, frame: &PhotoPixels) -> Area {
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

/// The largest square in the middle of what was proposed.
fn mark(place: PatchRole, found: Proposal, width: u32, height: u32) -> Mark {
    let [x, y] = found.area.centre();
    let side = f64::from(found.area.width.min(found.area.height));
    let (width, height) = (f64::from(width), f64::from(height));
    Mark { place, x: x / width, y: y / height, radius: side / 2.0 / width }
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
                let shake = (i * 7 % 5) as u8;
                let [r, g, b] = if i % width < 200 { [225, 224, 222] } else { [180, 160, 120] };
                [r + shake, g + shake, b + shake, 255]
            })
            .collect();
        Pixels { rgba, width, height }
    }

    fn asked(marks: Vec<Mark>) -> ColourAsked {
        let photo = "here".to_owned();
        ColourAsked { photo, marks, white: None, grey: None, light: Light::Daylight }
    }

    fn at(place: PatchRole, x: f64) -> Mark {
        Mark { place, x, y: 0.5, radius: 0.1 }
    }

    fn found(answer: Answer) -> ColourFound {
        let Answer::Colour(found) = answer else { panic!("{answer:?}") };
        *found
    }

    #[test]
    fn a_photo_is_held_until_the_next_and_measured_as_often_as_one_likes() {
        assert!(matches!(colour(&asked(Vec::new())), Answer::NotHeld));
        assert!(matches!(look("here".into(), photo()), Answer::Looked(_)));
        let marks =
            vec![at(PatchRole::White, 0.25), at(PatchRole::Pulp, 0.75), at(PatchRole::Pulp, 0.8)];
        let both = found(colour(&asked(marks)));
        assert_eq!(both.refused, []);
        let [one, other] = &both.readings[..] else { panic!("{both:?}") };
        // (180, 160, 120) under a white of 90 %: a yellow of middle lightness.
        assert!((60.0..75.0).contains(&one.lightness.value), "{:?}", one.lightness);
        assert!(one.b.value > 15.0);
        assert!((one.lightness.value - other.lightness.value).abs() < 1.0);
        assert!(both.between.unwrap().value < 1.0);
        look("other".into(), photo());
        assert!(matches!(colour(&asked(Vec::new())), Answer::NotHeld));
    }

    #[test]
    fn without_a_white_it_is_refused_with_what_to_do() {
        look("here".into(), photo());
        let none = found(colour(&asked(vec![at(PatchRole::Pulp, 0.75)])));
        assert_eq!(none.refused, [ColourError::NoReference]);
        assert!(none.readings.is_empty());
    }

    #[test]
    fn pulp_that_is_marked_on_the_white_is_refused() {
        look("here".into(), photo());
        let marks = vec![at(PatchRole::White, 0.25), at(PatchRole::Pulp, 0.4)];
        let found = found(colour(&asked(marks)));
        assert_eq!(found.refused, [ColourError::Overlapping { place: PatchRole::Pulp }]);
    }

    #[test]
    fn pixels_that_are_not_as_many_as_said_are_not_looked_at() {
        let wrong = Pixels { width: 399, ..photo() };
        assert!(matches!(look("here".into(), wrong), Answer::Unseen));
    }
}
