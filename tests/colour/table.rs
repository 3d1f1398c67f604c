//! Reads pairs of sRGB values from standard input, six numbers to a line, and writes the
//! core's colour figures for them, for `against_colour_science.py` to compare with PyPI
//! colour-science.
#![allow(clippy::print_stdout)]

use bleachfield_core::colour::difference::delta_e00;
use bleachfield_core::colour::kubelka_munk::{k_over_s, reflectance};
use bleachfield_core::colour::space::{Lab, Xyz, decode};
use bleachfield_core::colour::whiteness::{cie_whiteness, yellowness};
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    println!("x,y,z,l,a,b,yellowness,whiteness,tint,k_over_s,r_of_k_over_s,de00");
    for line in std::io::stdin().lines() {
        let line = line?;
        let codes = line.split(',').map(str::parse).collect::<Result<Vec<f64>, _>>()?;
        let [r, g, b, r2, g2, b2] = codes[..] else {
            return Err(format!("six numbers wanted: {line}").into());
        };
        let linear = [r, g, b].map(|c| decode(c / 255.0));
        let xyz = Xyz::from_linear(linear);
        let lab = Lab::from_xyz(xyz);
        let other = Lab::from_linear([r2, g2, b2].map(|c| decode(c / 255.0)));
        let white = cie_whiteness(xyz);
        let number = |v: Option<f64>| v.map_or_else(String::new, |v| v.to_string());
        let absorption = k_over_s(linear[2]);
        println!(
            "{},{},{},{},{},{},{},{},{},{},{},{}",
            xyz.x,
            xyz.y,
            xyz.z,
            lab.l,
            lab.a,
            lab.b,
            number(yellowness(xyz)),
            number(white.map(|w| w.whiteness)),
            number(white.map(|w| w.tint)),
            number(absorption),
            number(absorption.and_then(reflectance)),
            delta_e00(lab, other)
        );
    }
    Ok(())
}
