//! Prints the errors of colours measured from synthetic photographs, and how many photographs
//! with a defect are refused. Fails outside its limits. `tests/colour/run` runs it.
#![allow(clippy::print_stdout, clippy::expect_used)]

mod campaign;
mod statistics;

use bleachfield_core::colour::ColourError;
use bleachfield_core::colour::difference::{ColourDifference, delta_e00};
use bleachfield_core::colour::reference::Light;
use bleachfield_core::colour::space::Lab;
use bleachfield_demo::photo::camera::Camera;
use bleachfield_demo::photo::noise::RandomStream;
use bleachfield_demo::photo::scene::Scene;
use campaign::{
    Defect, LightSource, ReferenceSet, good, held_out_camera, light_sources, measured, measured_by,
    measured_difference, pair, taught,
};
use statistics::{ErrorStatistics, quantile};
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
/// Photos for each light by unknown cameras.
const PER_UNKNOWN: u64 = 3;
/// Share of true values within the stated range, at least.
const WITHIN: f64 = 0.90;
/// Shares of good photos accepted, and of photos with a defect refused, at least.
const ACCEPTED: f64 = 0.95;
const REFUSED: f64 = 0.95;

fn main() -> ExitCode {
    let sources = light_sources();
    let (good, poor): (Vec<&LightSource>, Vec<&LightSource>) =
        sources.iter().partition(|source| source.kind != Light::OtherLamp);
    println!("Synthetic photographs of known pulps: three cameras, five kinds of tone curve;");
    println!("exposure, white balance, vignette, flare, noise, blur, JPEG and marking varied.\n");
    if std::env::args().nth(1).is_some_and(|part| part == "unknown-cameras") {
        unknown_cameras(&good);
        return ExitCode::SUCCESS;
    }
    let within = [
        single_pulps(&good),
        unknown_cameras(&good),
        pairs_of_pulps(&good),
        defects(),
        poor_lights(&poor),
    ];
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
    let mut known = Differences::default();
    let mut held_out = Differences::default();
    for (i, source) in sources.iter().enumerate() {
        for k in 0..PAIRS {
            let seed = 500_000 + 1000 * i as u64 + k;
            let scene = pair(&source.spectrum, seed);
            let references = ReferenceSet::TwoWhitesAndGrey;
            known.add(measured_difference(&scene, references, source.kind));
            let camera = held_out_camera(&mut RandomStream::new(seed ^ 0xCA));
            let scene = Scene { camera, ..scene };
            held_out.add(measured_difference(&scene, references, source.kind));
        }
    }
    let total = sources.len() * PAIRS as usize;
    println!("\nTwo pulps in one photo:");
    known.print("the campaign's cameras", total);
    held_out.print("cameras left out of the table", total);
    known.delta_e.len() as f64 >= ACCEPTED * total as f64
        && known.at(0.5) <= MEDIAN_DIFFERENCE
        && held_out.inside_share() >= WITHIN
}

/// Errors of differences between two pulps.
#[derive(Default)]
struct Differences {
    /// Of CIEDE2000.
    delta_e: Vec<f64>,
    /// Half ranges of the difference in lightness.
    halves: Vec<f64>,
    /// True differences within the range: of CIEDE2000 and of lightness.
    inside: [usize; 2],
}

impl Differences {
    fn add(&mut self, measured: Result<(ColourDifference, [Lab; 2]), ColourError>) {
        let Ok((found, [one, other])) = measured else { return };
        let truth = [delta_e00(one, other), other.l - one.l];
        for (i, (range, truth)) in [found.delta_e00, found.lightness].iter().zip(truth).enumerate()
        {
            self.inside[i] += usize::from(range.low <= truth && truth <= range.high);
        }
        self.delta_e.push((found.delta_e00.value - truth[0]).abs());
        self.halves.push(0.5 * (found.lightness.high - found.lightness.low));
        self.delta_e.sort_by(f64::total_cmp);
        self.halves.sort_by(f64::total_cmp);
    }

    fn at(&self, part: f64) -> f64 {
        quantile(&self.delta_e, part)
    }

    /// Share of lightness differences within their range.
    fn inside_share(&self) -> f64 {
        self.inside[1] as f64 / self.delta_e.len().max(1) as f64
    }

    fn print(&self, name: &str, total: usize) {
        println!(
            "  {name}, {} of {total} photos: error of the CIEDE2000 between them, median {:.2}, 95th percentile {:.2}",
            self.delta_e.len(),
            self.at(0.5),
            self.at(0.95)
        );
        println!(
            "    truth within the stated range in {:.0} %; of the difference in L* (median ± {:.1}) in {:.0} %",
            100.0 * self.inside[0] as f64 / self.delta_e.len().max(1) as f64,
            quantile(&self.halves, 0.5),
            100.0 * self.inside_share()
        );
    }
}

/// Photos by cameras that the table of unknown cameras was not made with, untaught and taught.
/// Whether enough true colours are within the range, and teaching helps enough.
fn unknown_cameras(sources: &[&LightSource]) -> bool {
    println!("\nCameras left out of the table of unknown cameras:");
    let mut shares = Vec::new();
    let mut all = [ErrorStatistics::default(), ErrorStatistics::default()];
    for (references, name) in [
        (ReferenceSet::TwoWhitesAndGrey, "two whites and a grey"),
        (ReferenceSet::White, "one white"),
    ] {
        let mut untaught = ErrorStatistics::default();
        let mut taught_by = ErrorStatistics::default();
        for (i, source) in sources.iter().enumerate() {
            for k in 0..PER_UNKNOWN {
                let seed = 600_000 + 1000 * i as u64 + k;
                let camera = held_out_camera(&mut RandomStream::new(seed ^ 0xCA));
                let scene = Scene { camera, ..good(&source.spectrum, seed) };
                untaught.add(measured(&scene, references, source.kind));
                let lesson = lesson_for(&scene, sources, source, seed);
                match taught(&lesson, source.kind) {
                    Ok(camera) => {
                        taught_by.add(measured_by(&scene, references, source.kind, Some(camera)));
                    }
                    Err(reason) => taught_by.add(Err(reason)),
                }
            }
        }
        untaught.print(&format!("  {name}, untaught"));
        taught_by.print(&format!("  {name}, taught"));
        shares.extend([untaught.inside_share(), taught_by.inside_share()]);
        all[0].join(untaught);
        all[1].join(taught_by);
    }
    let medians = all.each_ref().map(|statistics| statistics.quantile(0.5));
    println!("  median untaught {:.2}, taught {:.2}", medians[0], medians[1]);
    shares.iter().all(|share| *share >= WITHIN)
}

/// The photo of a chart by the camera of a scene, in another light of the same kind.
fn lesson_for(scene: &Scene, sources: &[&LightSource], source: &LightSource, seed: u64) -> Scene {
    let random = &mut RandomStream::new(seed ^ 0x7EAC);
    let alike: Vec<&&LightSource> = sources.iter().filter(|s| s.kind == source.kind).collect();
    let light = alike[random.bits() as usize % alike.len()].spectrum;
    let camera = Camera {
        exposure: random.between(0.5, 0.75),
        balance_error: [random.between(-0.05, 0.05), random.between(-0.05, 0.05)],
        ..scene.camera
    };
    let (width, height) = (scene.width, scene.height);
    let falloff = random.between(-0.1, 0.1);
    Scene { width, height, light, camera, falloff, ..Scene::chart(random.between(-5.0, 5.0), seed) }
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
