//! sRGB, CIELAB, CIEDE2000, yellowness, whiteness, K/S, post-colour number, the card.

use super::{ReferenceTable, RowInputs, given};
use bleachfield_core::colour::correction::Correction;
use bleachfield_core::colour::difference::delta_e00;
use bleachfield_core::colour::kubelka_munk::{k_over_s, reflectance};
use bleachfield_core::colour::measure::{ColourMeasurement, measure};
use bleachfield_core::colour::patch::PatchStatistics;
use bleachfield_core::colour::photo::Area;
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::reference_patches::ReferencePatches;
use bleachfield_core::colour::reversion::post_colour_number;
use bleachfield_core::colour::space::{Lab, Xyz, decode};
use bleachfield_core::colour::whiteness::{Whiteness, cie_whiteness, yellowness};

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "colour",
    checks: &[
        ("de00", |i| Ok(delta_e00(lab(i, ["l", "a", "b"])?, lab(i, ["l2", "a2", "b2"])?))),
        ("lab_l", |i| Ok(Lab::from_linear(linear(i, "")?).l)),
        ("lab_a", |i| Ok(Lab::from_linear(linear(i, "")?).a)),
        ("lab_b", |i| Ok(Lab::from_linear(linear(i, "")?).b)),
        ("xyz_x", |i| Ok(Xyz::from_linear(linear(i, "")?).x)),
        ("xyz_y", |i| Ok(Xyz::from_linear(linear(i, "")?).y)),
        ("xyz_z", |i| Ok(Xyz::from_linear(linear(i, "")?).z)),
        ("yellowness", |i| given(yellowness(xyz(i)?))),
        ("whiteness", |i| Ok(white(i)?.whiteness)),
        ("tint", |i| Ok(white(i)?.tint)),
        ("k_over_s", |i| given(k_over_s(i.number("reflectance")?))),
        ("reflectance", |i| given(reflectance(i.number("k_over_s")?))),
        ("post_colour", |i| given(post_colour_number(i.number("before")?, i.number("after")?))),
        ("card_red", |i| Ok(card(i)?.linear[0])),
        ("card_green", |i| Ok(card(i)?.linear[1])),
        ("card_blue", |i| Ok(card(i)?.linear[2])),
        ("card_l", |i| Ok(card(i)?.lab.l)),
        ("card_a", |i| Ok(card(i)?.lab.a)),
        ("card_b", |i| Ok(card(i)?.lab.b)),
        ("card_blue_k_over_s", |i| Ok(card(i)?.blue_k_over_s.value)),
        ("card_yellowness", |i| Ok(card(i)?.yellowness.value)),
    ],
};

fn lab(i: &RowInputs, [l, a, b]: [&str; 3]) -> Result<Lab, String> {
    Ok(Lab { l: i.number(l)?, a: i.number(a)?, b: i.number(b)? })
}

fn xyz(i: &RowInputs) -> Result<Xyz, String> {
    Ok(Xyz { x: i.number("x")?, y: i.number("y")?, z: i.number("z")? })
}

fn white(i: &RowInputs) -> Result<Whiteness, String> {
    cie_whiteness(xyz(i)?).ok_or_else(|| "outside what the formula holds for".to_owned())
}

fn codes(i: &RowInputs, prefix: &str) -> Result<[f64; 3], String> {
    let code = |name: &str| i.number(&format!("{prefix}{name}"));
    Ok([code("red")?, code("green")?, code("blue")?])
}

fn linear(i: &RowInputs, prefix: &str) -> Result<[f64; 3], String> {
    Ok(codes(i, prefix)?.map(|code| decode(code / 255.0)))
}

/// Pulp and white in the same place of a photo, so that light and lens are one.
fn card(i: &RowInputs) -> Result<ColourMeasurement, String> {
    let patch = |median| PatchStatistics {
        area: Area { x: 560, y: 410, width: 80, height: 80 },
        median,
        spread: [0.0; 3],
        clipped_high: 0.0,
        clipped_low: 0.0,
        unevenness: 0.0,
        pixels: 6400,
    };
    let patches = ReferencePatches {
        white: patch(codes(i, "white_")?),
        second_white: None,
        grey: None,
        edge: None,
        width: 1200,
        height: 900,
    };
    let references = References {
        white: Surface::card(i.number("white_reflectance")?),
        grey: None,
        light: Light::Daylight,
    };
    let pulp = patch(codes(i, "")?);
    let correction =
        Correction::new(&patches, &references).map_err(|refused| format!("{refused:?}"))?;
    measure(&correction, &pulp).map_err(|refused| format!("{refused:?}"))
}
