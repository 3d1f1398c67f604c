//! Prints how far colours measured from synthetic photographs are from the truth,
//! and how many spoiled ones are refused. `tests/colour/run` runs it.
#![allow(clippy::print_stdout, clippy::expect_used)]

mod campaign;
mod tally;

use bleachfield_core::colour::difference::delta_e00;
use campaign::{Held, Spoiled, good, lights, measured, pair};
use tally::Tally;

/// Photos of each light, and of each way to spoil one.
const EACH_LIGHT: u64 = 8;
const EACH_SPOILED: u64 = 60;

fn main() -> std::process::ExitCode {
    let lights = lights();
    println!(
        "{} lights, {EACH_LIGHT} photos each: three cameras, five kinds of curve,",
        lights.len()
    );
    println!("exposure, white balance, vignette, flare, noise, blur, JPEG and marking varied\n");
    let mut all = Tally::default();
    let mut by_light = Vec::new();
    for (i, (name, light)) in lights.iter().enumerate() {
        let mut here = Tally::default();
        for k in 0..EACH_LIGHT {
            let scene = good(light, 1000 * i as u64 + k);
            here.add(measured(&scene, Held::TwoWhitesAndGrey));
        }
        by_light.push((name, here.clone()));
        all.join(here);
    }
    all.print("Two whites and a grey: CIEDE2000 to the truth");
    all.print_histogram();
    println!("\nBy light (median, largest, refused):");
    for (name, tally) in &by_light {
        println!(
            "  {name:18} {:5.2} {:6.2} {:3}",
            tally.quantile(0.5),
            tally.quantile(1.0),
            tally.refused()
        );
    }
    for (held, words) in
        [(Held::WhiteAndGrey, "One white and a grey"), (Held::White, "One white alone")]
    {
        let mut fewer = Tally::default();
        for (i, (_, light)) in lights.iter().enumerate() {
            for k in 0..2 {
                fewer.add(measured(&good(light, 1000 * i as u64 + k), held));
            }
        }
        println!();
        fewer.print(words);
    }

    let mut differences = Vec::new();
    for (i, (_, light)) in lights.iter().enumerate() {
        for k in 0..3 {
            let scene = pair(light, 500_000 + 1000 * i as u64 + k);
            if let Ok(found) = measured(&scene, Held::TwoWhitesAndGrey) {
                let [(one, true_one), (other, true_other)] = found[..] else { continue };
                let seen = delta_e00(one.lab, other.lab);
                differences.push((seen - delta_e00(true_one, true_other)).abs());
            }
        }
    }
    differences.sort_by(f64::total_cmp);
    let middle = differences[differences.len() / 2];
    let most = differences[differences.len() * 95 / 100];
    println!("\nTwo pulps in one photo, {} photos: error of their CIEDE2000", differences.len());
    println!("  median {middle:.2}, 95th percentile {most:.2}");

    println!("\nSpoiled photos, {EACH_SPOILED} of each kind:");
    let (mut refused, mut total) = (0, 0);
    for kind in Spoiled::ALL {
        let mut tally = Tally::default();
        for k in 0..EACH_SPOILED {
            tally.add(measured(&kind.scene(900_000 + k), Held::TwoWhitesAndGrey));
        }
        println!("  {kind:?}: {} refused {}", tally.refused(), tally.reasons());
        refused += tally.refused();
        total += EACH_SPOILED as usize;
    }
    let share = refused as f64 / total as f64;
    println!("  all: {:.1} % refused", 100.0 * share);

    let kept =
        all.quantile(0.5) <= 2.0 && all.quantile(0.95) <= 4.0 && middle <= 1.0 && share >= 0.95;
    println!(
        "\n{}",
        if kept { "All within what is promised." } else { "NOT within what is promised." }
    );
    if kept { std::process::ExitCode::SUCCESS } else { std::process::ExitCode::FAILURE }
}
