//! Proposals of where the white, the grey and the pulp are in a photo.
//! The person confirms or moves them; measuring is in [`measure`](super::measure).

mod downsample;
mod score;
mod segment;

use self::downsample::DownsampledPhoto;
use self::score::{as_grey, as_pulp, as_white, is_second_white};
use self::segment::{ConnectedRegion, Segmentation};
use super::patch::LEAST_SIDE;
use super::photo::{Area, PhotoPixels};
use serde::{Deserialize, Serialize};

/// A proposed place, for a person to confirm or move.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proposal {
    pub area: Area,
    /// Confidence from shape, uniformity, position; 0 to 1.
    pub confidence: f64,
}

/// Proposals for one photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Proposals {
    pub white: Option<Proposal>,
    pub second_white: Option<Proposal>,
    pub grey: Option<Proposal>,
    pub pulp: Option<Proposal>,
}

/// Proposes a bright neutral rectangle, a grey one and a region of pulp, found in the
/// downsampled photo; areas are in pixels of the photo.
pub fn propose(photo: &PhotoPixels) -> Proposals {
    let small = DownsampledPhoto::of(photo);
    let all = Segmentation::of(&small);
    let proposal = |(region, confidence): (&ConnectedRegion, f64)| {
        let area = all.inner_area(region).scaled(small.factor);
        // A photo scaled to 512 px is about a quarter of the smallest worth measuring.
        (area.width * 4 >= LEAST_SIDE && area.height * 4 >= LEAST_SIDE)
            .then_some(Proposal { area, confidence: confidence.clamp(0.0, 1.0) })
    };
    let mut whites: Vec<(&ConnectedRegion, f64)> =
        all.regions.iter().filter_map(|r| Some((r, as_white(r, &all)?))).collect();
    whites.sort_by(|one, other| other.1.total_cmp(&one.1));
    let white = whites.first().map(|(region, _)| *region);
    let pulp = best(&all.regions, |region| as_pulp(region, white, &all)).and_then(proposal);
    let Some(white) = white else { return Proposals { pulp, ..Proposals::default() } };
    let second = whites.iter().skip(1).find(|(region, _)| is_second_white(region, white));
    Proposals {
        white: whites.first().copied().and_then(proposal),
        second_white: second.copied().and_then(proposal),
        grey: best(&all.regions, |region| as_grey(region, white)).and_then(proposal),
        pulp,
    }
}

/// The region of highest score.
fn best(
    regions: &[ConnectedRegion],
    score: impl Fn(&ConnectedRegion) -> Option<f64>,
) -> Option<(&ConnectedRegion, f64)> {
    regions
        .iter()
        .filter_map(|region| Some((region, score(region)?)))
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const WIDTH: u32 = 320;
    const HEIGHT: u32 = 240;

    /// A dark bench with uniform shapes.
    fn bench(shapes: &[(Area, [u8; 3], bool)]) -> Vec<u8> {
        let mut rgba = Vec::new();
        for (x, y) in (0..HEIGHT).flat_map(|y| (0..WIDTH).map(move |x| (x, y))) {
            let shape = shapes.iter().find(|(area, _, round)| {
                let [cx, cy] = area.centre();
                let (dx, dy) = (f64::from(x) - cx, f64::from(y) - cy);
                let (w, h) = (f64::from(area.width) / 2.0, f64::from(area.height) / 2.0);
                if *round { (dx / w).hypot(dy / h) <= 1.0 } else { dx.abs() <= w && dy.abs() <= h }
            });
            let [r, g, b] = shape.map_or([70, 72, 78], |(_, rgb, _)| *rgb);
            rgba.extend([r, g, b, 255]);
        }
        rgba
    }

    fn area(x: u32, y: u32, side: u32) -> Area {
        Area { x, y, width: side, height: side }
    }

    fn within(inner: &Area, outer: &Area) -> bool {
        inner.x >= outer.x
            && inner.y >= outer.y
            && inner.x + inner.width <= outer.x + outer.width
            && inner.y + inner.height <= outer.y + outer.height
    }

    #[test]
    fn white_second_white_grey_and_pulp_are_found() {
        let (white, second, grey, pulp) =
            (area(20, 80, 50), area(250, 85, 50), area(40, 170, 45), area(110, 50, 120));
        let rgba = bench(&[
            (white, [225, 220, 205], false),
            (second, [215, 210, 196], false),
            (grey, [108, 106, 99], false),
            (pulp, [190, 165, 120], true),
        ]);
        let found = propose(&PhotoPixels::new(&rgba, WIDTH, HEIGHT).unwrap());
        for (proposal, truth) in [
            (found.white, white),
            (found.second_white, second),
            (found.grey, grey),
            (found.pulp, pulp),
        ] {
            let proposal = proposal.unwrap();
            assert!(within(&proposal.area, &truth), "{proposal:?} in {truth:?}");
            assert!(proposal.confidence > 0.3);
        }
    }

    #[test]
    fn an_empty_bench_has_no_proposals() {
        let rgba = bench(&[]);
        let found = propose(&PhotoPixels::new(&rgba, WIDTH, HEIGHT).unwrap());
        assert_eq!(found, Proposals::default());
    }

    #[test]
    fn pulp_alone_is_not_proposed_as_white() {
        let rgba = bench(&[(area(110, 50, 120), [190, 160, 100], true)]);
        let found = propose(&PhotoPixels::new(&rgba, WIDTH, HEIGHT).unwrap());
        assert!(found.white.is_none() && found.pulp.is_some());
    }
}
