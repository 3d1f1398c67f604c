//! Measures real photographs of a 24-patch chart, untaught and taught, against the chart's
//! published values. `photographs.py` fetches them; `tests/colour/run` runs both.
//!
//!     colour-photographs FOLDER
#![allow(clippy::print_stdout, clippy::expect_used)]

use bleachfield_core::colour::camera::chart::{ChartEdition, places};
use bleachfield_core::colour::camera::lesson::{PhotoLesson, from_surfaces};
use bleachfield_core::colour::camera::taught::TaughtCamera;
use bleachfield_core::colour::correction::Correction;
use bleachfield_core::colour::difference::{delta_e00, in_one_photo};
use bleachfield_core::colour::measure::{ColourMeasurement, measure};
use bleachfield_core::colour::patch::{PatchStatistics, read_small};
use bleachfield_core::colour::photo::PhotoPixels;
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::reference_patches::ReferencePatches;
use bleachfield_core::colour::sharpness::edge_width;
use bleachfield_core::colour::space::{Lab, decode, encode};
use bleachfield_core::colour::{ColourError, PatchRole};
use bleachfield_core::quantity::{Basis, Estimate};
use std::process::ExitCode;

/// A photograph: centres of its corner patches in pixels, in order round the chart.
struct Photograph {
    name: &'static str,
    light: Light,
    corners: [[f64; 2]; 4],
    /// The photograph of the same camera and light that teaches.
    teacher: usize,
}

const PHOTOGRAPHS: [Photograph; 4] = [
    Photograph {
        name: "window_case",
        light: Light::Daylight,
        corners: [[581.6, 456.8], [583.1, 241.9], [713.1, 241.9], [711.6, 456.8]],
        teacher: 1,
    },
    Photograph {
        name: "window_board",
        light: Light::Daylight,
        corners: [[327.6, 217.8], [740.5, 229.9], [730.4, 471.3], [321.6, 461.3]],
        teacher: 0,
    },
    Photograph {
        name: "bulb_cloth",
        light: Light::Bulb,
        corners: [[332.1, 313.1], [620.7, 312.4], [633.5, 467.2], [323.1, 473.9]],
        teacher: 3,
    },
    Photograph {
        name: "bulb_wall",
        light: Light::Bulb,
        corners: [[532.5, 306.1], [851.9, 321.2], [840.6, 513.5], [522.8, 491.0]],
        teacher: 2,
    },
];

/// Patches like pulp, beside the white and the grey that serve as references: dark skin, light
/// skin, neutral 6.5 and 3.5.
const LIKE_PULP: [usize; 4] = [0, 1, 20, 22];
/// Neutral 8 serves as the white: the chart's own is burnt out in half of the photographs.
const WHITE: usize = 19;
/// What is burnt out.
const BURNT_OUT: usize = 18;
const GREY: usize = 21;
/// What is aimed at: share of the true L*, a*, b* within ±, at least, and the most that teaching
/// leaves of the median error of the brown patches.
const AIM: (f64, f64) = (0.90, 0.5);
/// What was reached (0.83 and 0.52 on 27 November 2026) less a little: below it something broke.
const FLOOR: (f64, f64) = (0.80, 0.6);

/// Decoded pixels.
struct Picture {
    rgba: Vec<u8>,
    width: u32,
    height: u32,
}

impl Picture {
    /// Reads a binary PPM of 8 bits.
    fn read(path: &str) -> Self {
        let bytes = std::fs::read(path).expect("photographs.py wrote it");
        let mut at = 0;
        let mut word = || {
            let start = at;
            at += bytes[start..].iter().position(u8::is_ascii_whitespace).expect("a header") + 1;
            String::from_utf8_lossy(&bytes[start..at - 1]).into_owned()
        };
        assert_eq!(word(), "P6");
        let [width, height, _] = [word(), word(), word()].map(|n| n.parse().expect("a number"));
        let rgba = bytes[at..].chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect();
        Self { rgba, width, height }
    }

    /// As a camera's automatic white balance would have left it: channels scaled in linear light
    /// until neutral 8 is neutral. The photographs are raw conversions without it.
    fn balanced(&self, corners: [[f64; 2]; 4]) -> Option<Self> {
        let pixels = self.pixels();
        let area = places(corners, &pixels)?[WHITE];
        let neutral = read_small(&pixels, area, PatchRole::Surface).ok()?.median;
        let linear = neutral.map(|code| decode(code / 255.0));
        let most = linear.into_iter().fold(0.0, f64::max);
        let tables = linear.map(|own| {
            let scaled = |code: u8| encode((decode(f64::from(code) / 255.0) * most / own).min(1.0));
            (0..=255).map(|code| (scaled(code) * 255.0).round() as u8).collect::<Vec<u8>>()
        });
        let rgba = self.rgba.chunks_exact(4).flat_map(|p| {
            let [r, g, b] = [0, 1, 2].map(|c| tables[c][usize::from(p[c])]);
            [r, g, b, 255]
        });
        Some(Self { rgba: rgba.collect(), ..*self })
    }

    fn pixels(&self) -> PhotoPixels<'_> {
        PhotoPixels::new(&self.rgba, self.width, self.height).expect("whole rows")
    }
}

/// The errors of all measured patches.
#[derive(Default)]
struct Errors {
    /// CIEDE2000 of the brown patches.
    brown: Vec<f64>,
    all: Vec<f64>,
    inside: usize,
    figures: usize,
}

impl Errors {
    fn add(&mut self, nth: usize, found: &ColourMeasurement, truth: Lab) {
        let error = delta_e00(found.lab, truth);
        self.all.push(error);
        if nth < 2 {
            self.brown.push(error);
        }
        let ranges = [found.lightness, found.a, found.b];
        for (range, truth) in ranges.iter().zip([truth.l, truth.a, truth.b]) {
            self.figures += 1;
            self.inside += usize::from(range.low <= truth && truth <= range.high);
        }
    }

    fn share(&self) -> f64 {
        self.inside as f64 / self.figures.max(1) as f64
    }

    fn print(&self, name: &str) {
        println!(
            "{name}: {} patches, median ΔE00 {:.1}, of browns {:.1}; truth within ± in {:.0} % of {} figures",
            self.all.len(),
            median(&self.all),
            median(&self.brown),
            100.0 * self.share(),
            self.figures
        );
    }
}

fn main() -> ExitCode {
    let folder = std::env::args().nth(1).expect("the folder of the photographs");
    let pictures = PHOTOGRAPHS.map(|p| {
        let read = Picture::read(&format!("{folder}/{}.ppm", p.name));
        read.balanced(p.corners).expect("a chart in the photograph")
    });
    let lessons: Vec<Result<PhotoLesson, Vec<ColourError>>> = PHOTOGRAPHS
        .iter()
        .zip(&pictures)
        .map(|(photo, picture)| {
            let pixels = picture.pixels();
            let areas = places(photo.corners, &pixels).expect("a chart in the photograph");
            let known = areas.into_iter().zip(ChartEdition::FromNovember2014.lab());
            let known = known.enumerate().filter(|(n, _)| *n != BURNT_OUT);
            let known: Vec<_> = known.map(|(_, known)| known).collect();
            from_surfaces(&pixels, &known, photo.light)
        })
        .collect();
    println!("Real photographs of a 24-patch chart (published values of November 2014 on):");
    let (mut untaught, mut taught) = (Errors::default(), Errors::default());
    let mut differences = [0_usize; 2];
    for (i, photo) in PHOTOGRAPHS.iter().enumerate() {
        match &lessons[i] {
            Ok(found) => println!(
                "  {}: teaches; pulp-like patches {:.1} before, {:.1} after, all fitted to {:.1}",
                photo.name, found.lesson.before, found.lesson.after, found.lesson.fit
            ),
            Err(reasons) => println!("  {}: no lesson, {}", photo.name, reasons[0]),
        }
        let camera = lessons[photo.teacher].as_ref().ok().map(PhotoLesson::camera);
        for grey in [true, false] {
            let with = if grey { "white and grey" } else { "white alone" };
            match measured(&pictures[i], photo, grey, None) {
                Ok(found) => {
                    print_line(photo.name, &format!("{with}, untaught"), &found);
                    found.iter().for_each(|(n, m, lab, _)| untaught.add(*n, m, *lab));
                    compared(&pictures[i], photo, grey, &mut differences);
                }
                Err(reason) => println!("  {} {with}: refused, {reason}", photo.name),
            }
            if let Some(camera) = camera
                && let Ok(found) = measured(&pictures[i], photo, grey, Some(camera))
            {
                print_line(photo.name, &format!("{with}, taught by the other"), &found);
                found.iter().for_each(|(n, m, lab, _)| taught.add(*n, m, *lab));
            }
        }
    }
    untaught.print("\nUntaught");
    taught.print("Taught by another photograph of the same camera and light");
    println!(
        "Differences in L* within one photograph, untaught: truth within ± in {} of {}",
        differences[0], differences[1]
    );
    let leaves = median(&taught.brown) / median(&untaught.brown);
    println!("Teaching leaves {:.0} % of the median error of browns", 100.0 * leaves);
    let reaches = |(share, left): (f64, f64)| untaught.share() >= share && leaves <= left;
    let passed = reaches(FLOOR);
    println!(
        "{}",
        match (reaches(AIM), passed) {
            (true, _) => "The aim of 90 % within ± and half of the error is reached.",
            (false, true) => "The aim of 90 % within ± and half of the error is NOT reached yet.",
            (false, false) => "WORSE than before.",
        }
    );
    if passed { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

type Found = Vec<(usize, ColourMeasurement, Lab, PatchStatistics)>;

/// The pulp-like patches by the chart's own white, and its grey.
fn measured(
    picture: &Picture,
    photo: &Photograph,
    grey: bool,
    camera: Option<TaughtCamera>,
) -> Result<Found, ColourError> {
    let (correction, patches) = correction(picture, photo, grey, camera)?;
    let labs = ChartEdition::FromNovember2014.lab();
    LIKE_PULP
        .into_iter()
        .map(|n| Ok((n, measure(&correction, &patches[n])?, labs[n], patches[n])))
        .collect()
}

fn correction(
    picture: &Picture,
    photo: &Photograph,
    grey: bool,
    camera: Option<TaughtCamera>,
) -> Result<(Correction, Vec<PatchStatistics>), ColourError> {
    let pixels = picture.pixels();
    let areas = places(photo.corners, &pixels)
        .ok_or(ColourError::OutsidePhoto { place: PatchRole::Surface })?;
    let patches: Vec<PatchStatistics> = areas
        .into_iter()
        .map(|area| read_small(&pixels, area, PatchRole::Surface))
        .collect::<Result<_, _>>()?;
    let labs = ChartEdition::FromNovember2014.lab();
    let references = ReferencePatches {
        white: patches[WHITE],
        second_white: None,
        grey: grey.then_some(patches[GREY]),
        edge: edge_width(&pixels),
        width: picture.width,
        height: picture.height,
    };
    let surfaces = References {
        white: surface(labs[WHITE]),
        grey: grey.then(|| surface(labs[GREY])),
        light: photo.light,
    };
    let correction =
        Correction::with_camera(&references, &surfaces, camera).map_err(|reasons| reasons[0])?;
    Ok((correction, patches))
}

/// A card with published CIELAB, ± 0.01 of reflectance.
fn surface(lab: Lab) -> Surface {
    Surface::own(lab.to_xyz().to_linear().map(|value| Estimate {
        value,
        low: value - 0.01,
        high: (value + 0.01).min(1.0).max(value),
        basis: Basis::Label,
    }))
}

/// Counts differences in L* between neighbours in [`LIKE_PULP`] within their ±.
fn compared(picture: &Picture, photo: &Photograph, grey: bool, counts: &mut [usize; 2]) {
    let Ok((correction, patches)) = correction(picture, photo, grey, None) else { return };
    let labs = ChartEdition::FromNovember2014.lab();
    for pair in LIKE_PULP.windows(2) {
        let found = in_one_photo(&correction, &patches[pair[0]], &patches[pair[1]]).lightness;
        let truth = labs[pair[1]].l - labs[pair[0]].l;
        counts[0] += usize::from(found.low <= truth && truth <= found.high);
        counts[1] += 1;
    }
}

fn print_line(photo: &str, how: &str, found: &Found) {
    let errors: Vec<String> = found
        .iter()
        .map(|(n, m, lab, _)| {
            let figure = |range: Estimate<f64>, truth: f64| {
                let half = 0.5 * (range.high - range.low);
                let missed = if (range.value - truth).abs() > half { "!" } else { "" };
                format!("{:+.1} ±{half:.1}{missed}", range.value - truth)
            };
            let [l, a, b] = [figure(m.lightness, lab.l), figure(m.a, lab.a), figure(m.b, lab.b)];
            format!("\n    {n}: ΔE00 {:.1} (L* {l}, a* {a}, b* {b})", delta_e00(m.lab, *lab))
        })
        .collect();
    println!("  {photo} {how}: {}", errors.concat());
}

fn median(values: &[f64]) -> f64 {
    let mut values = values.to_vec();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
