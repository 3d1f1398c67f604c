//! Confidence that a region is a white card, a grey card or pulp.

use super::segment::{ConnectedRegion, Segmentation};
use crate::colour::space::extremes;

/// Confidence, 0 to 1, that the region is a white card; `None` if it cannot be one.
pub(super) fn as_white(region: &ConnectedRegion, all: &Segmentation) -> Option<f64> {
    let brightest = all.regions.iter().map(|r| r.mean[1]).fold(0.0, f64::max);
    let (least, most) = extremes(region.mean);
    let size = all.share(region);
    let is_card = region.mean[1] > 0.25
        && region.mean[1] > 0.55 * brightest
        && most / least.max(1e-4) < 2.2
        && region.fill() > 0.72
        && (0.003..0.35).contains(&size);
    let edge = if region.at_edge { 0.7 } else { 1.0 };
    is_card.then(|| {
        let neutral = 1.0 - 0.6 * (most / least.max(1e-4) - 1.0).min(1.0);
        let plain = 1.0 - (region.spread / 0.15).min(1.0) * 0.4;
        let straight = ((region.fill() - 0.65) / 0.25).min(1.0);
        edge * neutral * plain * straight * (region.mean[1] / brightest).sqrt()
    })
}

/// Whether the region is a second patch of the same white.
pub(super) fn is_second_white(region: &ConnectedRegion, white: &ConnectedRegion) -> bool {
    let (least, most) = extremes(over(region, white));
    most < 1.5 && least > 0.66 && most / least < 1.08
}

/// Confidence, 0 to 1, that the region is a grey card; `None` if it cannot be one.
pub(super) fn as_grey(region: &ConnectedRegion, white: &ConnectedRegion) -> Option<f64> {
    let over = over(region, white);
    let (least, most) = extremes(over);
    let size = region.pixels as f64 / white.pixels as f64;
    let is_grey = (0.08..0.6).contains(&over[1])
        && most / least.max(1e-4) < 1.25
        && region.fill() > 0.72
        && !region.at_edge
        && (0.15..8.0).contains(&size);
    is_grey.then(|| {
        let neutral = 1.0 - 2.0 * (most / least - 1.0);
        neutral * ((region.fill() - 0.65) / 0.25).min(1.0)
    })
}

/// Confidence, 0 to 1, that the region is pulp: large, off the edge, neither white nor grey;
/// `None` if it cannot be.
pub(super) fn as_pulp(
    region: &ConnectedRegion,
    white: Option<&ConnectedRegion>,
    all: &Segmentation,
) -> Option<f64> {
    let size = all.share(region);
    let taken = white.is_some_and(|white| {
        region.label == white.label
            || is_second_white(region, white) && region.fill() > 0.85
            || as_grey(region, white).is_some()
    });
    let is_pulp = !taken && !region.at_edge && size > 0.01 && region.fill() > 0.5;
    is_pulp.then(|| {
        let round = 1.0 - 2.0 * (region.fill() - 0.785).abs();
        round * (size / 0.08).sqrt().min(1.0)
    })
}

/// Mean light of the region over that of the white.
fn over(region: &ConnectedRegion, white: &ConnectedRegion) -> [f64; 3] {
    [0, 1, 2].map(|c| region.mean[c] / white.mean[c])
}
