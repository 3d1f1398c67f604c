//! Prints how far colours measured from synthetic photographs are from the truth,
//! and how many spoiled ones are refused. `tests/colour/run` runs it.
#![allow(clippy::print_stdout, clippy::expect_used)]

mod campaign;
mod statistics;

use bleachfield_core::colour::difference::{between, delta_e00};
use bleachfield_core::colour::reference::Light;
use bleachfield_demo::photo::scene::Scene;
use campaign::{
    Defect, LightSource, ReferenceSet, good, light_sources, measured, pair, proposals_hit,
};
use statistics::ErrorStatistics;

/// Photos of each light, and of each way to spoil one.
const EACH_LIGHT: u64 = 6;
const EACH_SPOILED: u64 = 50;

fn main() -> std::process::ExitCode {
    let light_sources = light_sources();
    let (good, poor): (Vec<&LightSource>, Vec<&LightSource>) =
        light_sources.iter().partition(|lamp| lamp.kind != Light::OtherLamp);
    println!("Synthetic photographs of known pulps: three cameras, five kinds of tone curve;");
    println!("exposure, white balance, vignette, flare, noise, blur, JPEG and marking varied.\n");

    let all = errors(&good);
    let middle = differences(&good);
    let share = spoiled();
    proposals(&good);

    println!(
        "\nWhat no photo shows: {} lights of colour rendering under 80, were they called",
        poor.len()
    );
    println!("good lamps. Called by their name, all of these are refused.");
    let mut told = ErrorStatistics::default();
    for (i, lamp) in poor.iter().enumerate() {
        let mut here = ErrorStatistics::default();
        for k in 0..EACH_LIGHT {
            let scene = scene(lamp, 300_000 + 1000 * i as u64 + k);
            here.add(measured(&scene, ReferenceSet::TwoWhitesAndGrey, Light::GoodLamp));
        }
        line(lamp, &here);
        told.join(here);
    }
    told.print("  together");

    let kept =
        all.quantile(0.5) <= 2.0 && all.quantile(0.95) <= 4.0 && middle <= 1.0 && share >= 0.95;
    println!(
        "\n{}",
        if kept { "All within what is promised." } else { "NOT within what is promised." }
    );
    if kept { std::process::ExitCode::SUCCESS } else { std::process::ExitCode::FAILURE }
}

/// The errors of photos that nothing is wrong with.
fn errors(light_sources: &[&LightSource]) -> ErrorStatistics {
    let mut all = ErrorStatistics::default();
    let mut kinds = [Light::Daylight, Light::Bulb, Light::GoodLamp]
        .map(|kind| (kind, ErrorStatistics::default()));
    println!(
        "{} lights, {EACH_LIGHT} photos of each (colour rendering; median, largest, refused):",
        light_sources.len()
    );
    for (i, lamp) in light_sources.iter().enumerate() {
        let mut here = ErrorStatistics::default();
        for k in 0..EACH_LIGHT {
            here.add(measured(
                &scene(lamp, 1000 * i as u64 + k),
                ReferenceSet::TwoWhitesAndGrey,
                lamp.kind,
            ));
        }
        line(lamp, &here);
        for (kind, statistics) in &mut kinds {
            if *kind == lamp.kind {
                statistics.join(here.clone());
            }
        }
        all.join(here);
    }
    println!();
    all.print("Two whites and a grey: CIEDE2000 to the truth");
    all.print_histogram();
    for (kind, statistics) in &kinds {
        statistics.print(&format!("  {kind:?}"));
    }
    for (held, words) in [
        (ReferenceSet::WhiteAndGrey, "One white and a grey"),
        (ReferenceSet::White, "One white alone"),
    ] {
        let mut fewer = ErrorStatistics::default();
        for (i, lamp) in light_sources.iter().enumerate() {
            for k in 0..2 {
                fewer.add(measured(&scene(lamp, 1000 * i as u64 + k), held, lamp.kind));
            }
        }
        fewer.print(words);
    }
    all
}

fn line(lamp: &LightSource, statistics: &ErrorStatistics) {
    println!(
        "  {:18} {:4} {:6.2} {:6.2} {:3}",
        lamp.name,
        lamp.rendering,
        statistics.quantile(0.5),
        statistics.quantile(1.0),
        statistics.refused()
    );
}

fn scene(lamp: &LightSource, seed: u64) -> Scene {
    good(&lamp.spectrum, seed)
}

/// The median error of the difference between two pulps in one photo.
fn differences(light_sources: &[&LightSource]) -> f64 {
    let (mut errors, mut inside) = (Vec::new(), 0);
    for (i, lamp) in light_sources.iter().enumerate() {
        for k in 0..3 {
            let scene = pair(&lamp.spectrum, 500_000 + 1000 * i as u64 + k);
            let Ok(found) = measured(&scene, ReferenceSet::TwoWhitesAndGrey, lamp.kind) else {
                continue;
            };
            let [(one, true_one), (other, true_other)] = found[..] else { continue };
            let (seen, truth) = (between(&one, &other, true), delta_e00(true_one, true_other));
            errors.push((seen.value - truth).abs());
            inside += usize::from(seen.low <= truth && truth <= seen.high);
        }
    }
    errors.sort_by(f64::total_cmp);
    let at = |part: f64| errors[((errors.len() - 1) as f64 * part).round() as usize];
    println!(
        "\nTwo pulps in one photo, {} photos: error of the CIEDE2000 between them",
        errors.len()
    );
    println!(
        "  median {:.2}, 95th percentile {:.2}; truth within the stated range in {:.0} %",
        at(0.5),
        at(0.95),
        100.0 * inside as f64 / errors.len() as f64
    );
    at(0.5)
}

/// The share of spoiled photos that are refused.
fn spoiled() -> f64 {
    println!("\nSpoiled photos, {EACH_SPOILED} of each kind:");
    let (mut refused, mut total) = (0, 0);
    for kind in Defect::ALL {
        let mut statistics = ErrorStatistics::default();
        for k in 0..EACH_SPOILED {
            let scene = kind.scene(900_000 + k);
            statistics.add(measured(&scene, ReferenceSet::TwoWhitesAndGrey, Light::Daylight));
        }
        println!("  {kind:?}: {} refused {}", statistics.refused(), statistics.reasons());
        refused += statistics.refused();
        total += EACH_SPOILED as usize;
    }
    let share = refused as f64 / total as f64;
    println!("  all: {:.1} % refused", 100.0 * share);
    share
}

/// Where the automatic proposals fall.
fn proposals(light_sources: &[&LightSource]) {
    let mut counts = [[0_u32; 3]; 4];
    for (i, lamp) in light_sources.iter().enumerate() {
        for k in 0..2 {
            let scene = scene(lamp, 700_000 + 1000 * i as u64 + k);
            for (count, found) in counts.iter_mut().zip(proposals_hit(&scene)) {
                count[found.map_or(2, |right| usize::from(!right))] += 1;
            }
        }
    }
    println!("\nProposed places (right, wrong, none), {} photos:", 2 * light_sources.len());
    for (what, [right, wrong, none]) in ["white", "second white", "grey", "pulp"].iter().zip(counts)
    {
        println!("  {what}: {right}, {wrong}, {none}");
    }
}
