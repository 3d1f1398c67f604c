//! A few synthetic photographs measured, and every one with a defect refused. The whole
//! campaign with its figures is `tests/colour/run`.
#![allow(clippy::expect_used, clippy::print_stdout, dead_code)]

mod campaign;
mod statistics;

use bleachfield_core::colour::ColourError;
use bleachfield_core::colour::difference::delta_e00;
use bleachfield_core::colour::reference::Light;
use campaign::{Defect, ReferenceSet, good, light_sources, measured, pair, proposals_hit};
use statistics::ErrorStatistics;

#[test]
fn good_photos_are_measured() {
    let sources = light_sources();
    let chosen: Vec<_> = sources
        .iter()
        .enumerate()
        .filter(|(i, source)| i % 4 == 0 && source.kind != Light::OtherLamp)
        .collect();
    let mut statistics = ErrorStatistics::default();
    for (i, source) in &chosen {
        let scene = good(&source.spectrum, *i as u64);
        statistics.add(measured(&scene, ReferenceSet::TwoWhitesAndGrey, source.kind));
    }
    assert_eq!(statistics.accepted(), chosen.len(), "{}", statistics.reasons());
    assert!(statistics.quantile(0.5) <= 2.0, "median {}", statistics.quantile(0.5));
    assert!(statistics.quantile(0.9) <= 4.0, "90th percentile {}", statistics.quantile(0.9));
}

#[test]
fn every_photo_with_a_defect_is_refused() {
    let accepted: Vec<String> = Defect::ALL
        .into_iter()
        .flat_map(|defect| (40..44).map(move |seed| (defect, seed)))
        .filter(|(defect, seed)| {
            let scene = defect.scene(*seed);
            measured(&scene, ReferenceSet::TwoWhitesAndGrey, Light::Daylight).is_ok()
        })
        .map(|(defect, seed)| format!("{defect:?} {seed}"))
        .collect();
    assert!(accepted.is_empty(), "accepted: {}", accepted.join(", "));
}

#[test]
fn a_photo_without_white_is_refused_with_what_to_do() {
    let source = &light_sources()[8];
    let mut scene = good(&source.spectrum, 3);
    scene.white = None;
    let refused = measured(&scene, ReferenceSet::White, source.kind).expect_err("no white");
    assert_eq!(refused, ColourError::NoReference);
    assert_eq!(refused.instruction().key, "colour-do-add_white");
}

#[test]
fn the_difference_between_two_pulps_in_one_photo_is_measured() {
    let source = &light_sources()[11];
    let mut errors: Vec<f64> = (70..75)
        .map(|seed| {
            let scene = pair(&source.spectrum, seed);
            let pulps = measured(&scene, ReferenceSet::TwoWhitesAndGrey, source.kind)
                .expect("a good photo");
            let (one, other) = (&pulps[0], &pulps[1]);
            (delta_e00(one.0.lab, other.0.lab) - delta_e00(one.1, other.1)).abs()
        })
        .collect();
    errors.sort_by(f64::total_cmp);
    assert!(errors[2] <= 1.0, "{errors:?}");
}

#[test]
fn the_white_is_proposed_where_it_lies() {
    let source = &light_sources()[10];
    let missed: Vec<u64> = (20..24)
        .filter(|&seed| proposals_hit(&good(&source.spectrum, seed))[0] != Some(true))
        .collect();
    assert!(missed.is_empty(), "missed in {missed:?}");
}
