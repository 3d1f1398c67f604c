//! Prints the errors of colours measured from synthetic photographs, and how many photographs
//! with a defect are refused. Fails outside its limits. `tests/colour/run` runs it.
#![allow(clippy::print_stdout, clippy::expect_used)]

mod campaign;
mod statistics;

use bleachfield_core::colour::difference::{between, delta_e00};
use bleachfield_core::colour::reference::Light;
use campaign::{Defect, LightSource, ReferenceSet, good, light_sources, measured, pair};
use statistics::ErrorStatistics;
use std::process::ExitCode;

/// Photos for each light, and for each defect.
const PER_LIGHT: u64 = 6;
const PER_DEFECT: u64 = 50;
/// Pairs of pulps for each light.
const PAIRS: u64 = 3;

/// Limits of CIEDE2000 to the true colour: median and 95th percentile.
const MEDIAN: f64 = 2.0;
const PERCENTILE_95: f64 = 4.0;
/// Limit of the median error of the difference between two pulps.
const MEDIAN_DIFFERENCE: f64 = 1.0;
/// Shares of good photos accepted, and of photos with a defect refused, at least.
const ACCEPTED: f64 = 0.95;
const REFUSED: f64 = 0.95;

fn main() -> ExitCode {
    let sources = light_sources();
    let (good, poor): (Vec<&LightSource>, Vec<&LightSource>) =
        sources.iter().partition(|source| source.kind != Light::OtherLamp);
    println!("Synthetic photographs of known pulps: three cameras, five kinds of tone curve;");
    println!("exposure, white balance, vignette, flare, noise, blur, JPEG and marking varied.\n");
    let within = [single_pulps(&good), pairs_of_pulps(&good), defects(), poor_lights(&poor)];
    proposed_areas(&good);
    let passed = within.iter().all(|within| *within);
    println!("\n{}", if passed { "All within the limits." } else { "NOT within the limits." });
    if passed { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Errors of photos without a defect. Whether they are within the limits.
fn single_pulps(sources: &[&LightSource]) -> bool {
    let mut all = ErrorStatistics::default();
    let mut kinds = [Light::Daylight, Light::Bulb, Light::GoodLamp]
        .map(|kind| (kind, ErrorStatistics::default()));
    println!(
        "{} lights, {PER_LIGHT} photos of each (colour rendering; median, largest, refused):",
        sources.len()
    );
    for (i, source) in sources.iter().enumerate() {
        let here = measured_in(source, 1000 * i as u64, PER_LIGHT, source.kind);
        print_line(source, &here);
        for (_, statistics) in kinds.iter_mut().filter(|(kind, _)| *kind == source.kind) {
            statistics.join(here.clone());
        }
        all.join(here);
    }
    println!();
    all.print("Two whites and a grey: CIEDE2000 to the truth");
    all.print_histogram();
    for (kind, statistics) in &kinds {
        statistics.print(&format!("  {kind:?}"));
    }
    for (references, name) in [
        (ReferenceSet::WhiteAndGrey, "One white and a grey"),
        (ReferenceSet::White, "One white alone"),
    ] {
        let mut fewer = ErrorStatistics::default();
        for (i, source) in sources.iter().enumerate() {
            for k in 0..2 {
                let scene = good(&source.spectrum, 1000 * i as u64 + k);
                fewer.add(measured(&scene, references, source.kind));
            }
        }
        fewer.print(name);
    }
    all.accepted_share() >= ACCEPTED
        && all.quantile(0.5) <= MEDIAN
        && all.quantile(0.95) <= PERCENTILE_95
}

/// Photos with two whites and a grey in one light, the person calling the light `called`.
fn measured_in(source: &LightSource, seed: u64, count: u64, called: Light) -> ErrorStatistics {
    let mut statistics = ErrorStatistics::default();
    for k in 0..count {
        let scene = good(&source.spectrum, seed + k);
        statistics.add(measured(&scene, ReferenceSet::TwoWhitesAndGrey, called));
    }
    statistics
}

fn print_line(source: &LightSource, statistics: &ErrorStatistics) {
    println!(
        "  {:18} {:4} {:6.2} {:6.2} {:3}",
        source.name,
        source.rendering,
        statistics.quantile(0.5),
        statistics.quantile(1.0),
        statistics.refused()
    );
}

/// Errors of the difference between two pulps in one photo. Whether they are within the limits.
fn pairs_of_pulps(sources: &[&LightSource]) -> bool {
    let (mut errors, mut inside) = (Vec::new(), 0);
    for (i, source) in sources.iter().enumerate() {
        for k in 0..PAIRS {
            let scene = pair(&source.spectrum, 500_000 + 1000 * i as u64 + k);
            let measurement = measured(&scene, ReferenceSet::TwoWhitesAndGrey, source.kind);
            let Ok([(one, true_one), (other, true_other)]) = measurement.as_deref() else {
                continue;
            };
            let difference = between(one, other, true);
            let truth = delta_e00(*true_one, *true_other);
            errors.push((difference.value - truth).abs());
            inside += usize::from(difference.low <= truth && truth <= difference.high);
        }
    }
    errors.sort_by(f64::total_cmp);
    let total = sources.len() * PAIRS as usize;
    println!(
        "\nTwo pulps in one photo, {} of {total} photos: error of the CIEDE2000 between them",
        errors.len()
    );
    if (errors.len() as f64) < ACCEPTED * total as f64 {
        return false;
    }
    let at = |part: f64| errors[((errors.len() - 1) as f64 * part).round() as usize];
    println!(
        "  median {:.2}, 95th percentile {:.2}; truth within the stated range in {:.0} %",
        at(0.5),
        at(0.95),
        100.0 * inside as f64 / errors.len() as f64
    );
    at(0.5) <= MEDIAN_DIFFERENCE
}

/// Photos with a defect. Whether enough of them are refused.
fn defects() -> bool {
    println!("\nPhotos with a defect, {PER_DEFECT} of each kind:");
    let (mut refused, mut total) = (0, 0);
    for defect in Defect::ALL {
        let mut statistics = ErrorStatistics::default();
        for k in 0..PER_DEFECT {
            let scene = defect.scene(900_000 + k);
            statistics.add(measured(&scene, ReferenceSet::TwoWhitesAndGrey, Light::Daylight));
        }
        println!("  {defect:?}: {} refused {}", statistics.refused(), statistics.reasons());
        refused += statistics.refused();
        total += PER_DEFECT as usize;
    }
    let share = refused as f64 / total as f64;
    println!("  all: {:.1} % refused", 100.0 * share);
    share >= REFUSED
}

/// Lights of poor colour rendering: measured as if they were good lamps, and by their own
/// name. Whether all are refused by their own name.
fn poor_lights(sources: &[&LightSource]) -> bool {
    println!(
        "\n{} lights of colour rendering under 80, called good lamps (a photo does not show it):",
        sources.len()
    );
    let (mut called_good, mut called_other) = <(ErrorStatistics, ErrorStatistics)>::default();
    for (i, source) in sources.iter().enumerate() {
        let seed = 300_000 + 1000 * i as u64;
        let here = measured_in(source, seed, PER_LIGHT, Light::GoodLamp);
        print_line(source, &here);
        called_good.join(here);
        called_other.join(measured_in(source, seed, 1, Light::OtherLamp));
    }
    called_good.print("  together");
    println!("  called by their own name: {} refused", called_other.refused());
    called_other.accepted() == 0 && called_other.refused() == sources.len()
}

/// Where the automatic proposals fall.
fn proposed_areas(sources: &[&LightSource]) {
    let mut counts = [[0_u32; 3]; 4];
    for (i, source) in sources.iter().enumerate() {
        for k in 0..2 {
            let scene = good(&source.spectrum, 700_000 + 1000 * i as u64 + k);
            for (count, hit) in counts.iter_mut().zip(campaign::proposals_hit(&scene)) {
                count[hit.map_or(2, |right| usize::from(!right))] += 1;
            }
        }
    }
    println!("\nProposed areas (right, wrong, none), {} photos:", 2 * sources.len());
    for (what, [right, wrong, none]) in ["white", "second white", "grey", "pulp"].iter().zip(counts)
    {
        println!("  {what}: {right}, {wrong}, {none}");
    }
}
