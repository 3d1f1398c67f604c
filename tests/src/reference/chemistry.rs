//! Equilibria, strength and decay, titration, percarbonate, water.

use super::{Inputs, Subject};
use bleachfield_core::chemistry::water;

pub const SUBJECT: Subject = Subject {
    name: "chemistry",
    csv: include_str!("../../reference/chemistry.csv"),
    checks: &[("water_density", water_density)],
};

fn water_density(inputs: &Inputs) -> Result<f64, String> {
    Ok(1000.0 * water::kilograms_per_litre(inputs.number("celsius")?))
}
