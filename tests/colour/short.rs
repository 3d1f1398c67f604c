//! A few synthetic photographs measured, and a few spoiled ones refused; the whole
//! campaign with its figures is `tests/colour/run`.
#![allow(clippy::expect_used, clippy::print_stdout, dead_code)]

mod campaign;
mod tally;

use bleachfield_core::colour::quality::Rejection;
use bleachfield_core::colour::reference::Light;
use campaign::{Held, Spoiled, found, good, lamps, measured, pair};
use tally::Tally;

#[test]
fn good_photos_are_measured() {
    let mut tally = Tally::default();
    for (i, lamp) in
        lamps().iter().enumerate().filter(|(i, l)| i % 4 == 0 && l.kind != Light::OtherLamp)
    {
        tally.add(measured(&good(&lamp.spectrum, i as u64), Held::TwoWhitesAndGrey, lamp.kind));
    }
    assert!(tally.accepted() >= 9, "only {} accepted", tally.accepted());
    assert!(tally.quantile(0.5) <= 2.0, "median {}", tally.quantile(0.5));
    assert!(tally.quantile(0.9) <= 4.0, "largest but one {}", tally.quantile(0.9));
}

#[test]
fn each_kind_of_spoiled_photo_is_refused() {
    for kind in Spoiled::ALL {
        let refused = (0..4)
            .filter(|&k| {
                measured(&kind.scene(40 + k), Held::TwoWhitesAndGrey, Light::Daylight).is_err()
            })
            .count();
        assert!(refused >= 3, "{kind:?}: {refused} of 4");
    }
}

#[test]
fn a_frame_without_white_is_refused_with_what_to_do() {
    let lamp = &lamps()[8];
    let mut scene = good(&lamp.spectrum, 3);
    scene.white = None;
    let refused = measured(&scene, Held::White, lamp.kind).expect_err("no white");
    assert_eq!(refused, Rejection::NoReference);
    assert_eq!(refused.instruction().key, "colour-do-add_white");
}

#[test]
fn two_pulps_in_one_photo_are_told_apart() {
    use bleachfield_core::colour::difference::delta_e00;
    let lamp = &lamps()[11];
    let mut errors: Vec<f64> = (0..5)
        .map(|k| {
            let pulps = measured(&pair(&lamp.spectrum, 70 + k), Held::TwoWhitesAndGrey, lamp.kind)
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
    let lamp = &lamps()[10];
    let right = (0..4).filter(|&k| found(&good(&lamp.spectrum, 20 + k))[0] == Some(true)).count();
    assert!(right >= 3, "{right} of 4");
}
