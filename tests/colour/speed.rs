//! Prints the time of reading and measuring a photo of 12 megapixels, and of proposing areas
//! in one of 512 pixels:
//! `cargo run --release -p bleachfield-tests --bin colour-speed`.
#![allow(clippy::print_stdout, clippy::expect_used)]

use bleachfield_core::colour::PatchRole;
use bleachfield_core::colour::correction::Correction;
use bleachfield_core::colour::find::propose;
use bleachfield_core::colour::measure::measure;
use bleachfield_core::colour::patch::read;
use bleachfield_core::colour::photo::PhotoPixels;
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::reference_patches::{Marks, ReferencePatches};
use bleachfield_core::colour::sharpness::edge_width;
use bleachfield_demo::photo::preset::{DemoFibre, Lighting, photo};
use bleachfield_demo::photo::render::render_pixels;
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let mut scene = photo(DemoFibre::CattailLeaf, 0.5, true, Lighting::Overcast, 1);
    (scene.width, scene.height) = (4000, 3000);
    let (rgb, truth) = render_pixels(&scene);
    let rgba = with_alpha(&rgb);
    let large = PhotoPixels::new(&rgba, 4000, 3000).expect("whole rows");
    let marks = Marks { white: truth.white, second_white: truth.second_white, grey: truth.grey };
    let pulp = truth.pulps[0].0;
    timed("three patches of 12 megapixels", || {
        let areas = [
            (truth.white, PatchRole::White),
            (truth.grey, PatchRole::Grey),
            (Some(pulp), PatchRole::Pulp),
        ];
        for (area, place) in areas {
            black_box(read(&large, area.expect("in the scene"), place).expect("readable"));
        }
    });
    timed("sharpness of 12 megapixels", || {
        black_box(edge_width(&large));
    });
    let patches = ReferencePatches::read(&large, &marks).expect("readable");
    let references = References {
        white: Surface::card(0.90),
        grey: Some(Surface::grey_card()),
        light: Light::Daylight,
    };
    let patch = read(&large, pulp, PatchRole::Pulp).expect("readable");
    timed("correction and reading from patches", || {
        let correction = Correction::new(&patches, &references).expect("a good photo");
        black_box(measure(&correction, &patch).expect("a good photo"));
    });

    (scene.width, scene.height) = (512, 384);
    let (rgb, _) = render_pixels(&scene);
    let rgba = with_alpha(&rgb);
    let small = PhotoPixels::new(&rgba, 512, 384).expect("whole rows");
    timed("proposals for 512 pixels", || {
        black_box(propose(&small));
    });
}

/// Median of 21 runs.
fn timed(what: &str, mut run: impl FnMut()) {
    let mut times: Vec<f64> = (0..21)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what}: {:.2} ms", times[10]);
}

fn with_alpha(rgb: &[u8]) -> Vec<u8> {
    rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect()
}
