//! The arithmetic of a bath in bare numbers: g, mL, g/mL, shares.
//!
//! Masses add exactly. Volumes are taken to add: fibre at the density of
//! cellulose, water at its own, a bottle at its own, dissolved powder at 0.4
//! mL/g (from memory; percarbonate's crystal is 0.47).

use crate::pulp::CELLULOSE_DENSITY;

/// What one gram of active chemical brings with it.
#[derive(Clone, Copy)]
pub(super) struct Chemical {
    /// Dose per gram active: mL of a bottle, g of a powder.
    dose: f64,
    /// g and mL per gram active.
    mass: f64,
    volume: f64,
}

impl Chemical {
    /// A bottle at `strength` g/mL active and `density` g/mL.
    pub(super) fn bottle(strength: f64, density: f64) -> Self {
        let dose = 1.0 / strength;
        Self { dose, mass: dose * density, volume: dose }
    }

    /// A powder at `strength` g/g active.
    pub(super) fn powder(strength: f64) -> Self {
        let dose = 1.0 / strength;
        Self { dose, mass: dose, volume: dose * 0.4 }
    }
}

#[derive(Clone, Copy)]
pub(super) enum Target {
    /// g/mL of all the liquor.
    Strength(f64),
    /// g/g oven-dry.
    Charge(f64),
}

#[derive(Clone, Copy)]
pub(super) enum Fill {
    Consistency(f64),
    /// mL of fibre and liquor.
    Volume(f64),
}

/// What has to be measured out. `water` is below zero where there is no room.
#[derive(Clone, Copy)]
pub(super) struct Need {
    pub(super) active: f64,
    /// mL or g.
    pub(super) dose: f64,
    /// g of dose per unit of dose.
    pub(super) dose_mass: f64,
    /// g to add.
    pub(super) water: f64,
    /// mL of liquor in all.
    pub(super) liquor: f64,
}

/// g of water that fit beside the fibre, if no bleach took up room.
pub(super) fn room(oven_dry: f64, fill: Fill, water_density: f64) -> f64 {
    match fill {
        Fill::Consistency(consistency) => oven_dry * (1.0 / consistency - 1.0),
        Fill::Volume(total) => (total - oven_dry / CELLULOSE_DENSITY) * water_density,
    }
}

pub(super) fn need(
    wet: f64,
    dryness: f64,
    chemical: Chemical,
    target: Target,
    fill: Fill,
    water_density: f64,
) -> Need {
    let oven_dry = wet * dryness;
    let room = room(oven_dry, fill, water_density);
    // Grams of water that each gram of active displaces.
    let displaced = match fill {
        Fill::Consistency(_) => chemical.mass,
        Fill::Volume(_) => chemical.volume * water_density,
    };
    let liquor =
        |active: f64| (room - active * displaced) / water_density + active * chemical.volume;
    let active = match target {
        Target::Charge(charge) => charge * oven_dry,
        // active = strength * liquor(active), solved for active.
        Target::Strength(strength) => {
            let grows = chemical.volume - displaced / water_density;
            strength * room / water_density / (1.0 - strength * grows)
        }
    };
    Need {
        active,
        dose: active * chemical.dose,
        dose_mass: chemical.mass / chemical.dose,
        water: room - active * displaced - (wet - oven_dry),
        liquor: liquor(active),
    }
}

/// What comes of amounts that were measured out.
pub(super) struct Outcome {
    pub(super) oven_dry: f64,
    pub(super) pulp_water: f64,
    pub(super) active: f64,
    pub(super) charge: f64,
    /// g/mL.
    pub(super) strength: f64,
    pub(super) consistency: f64,
    pub(super) total_mass: f64,
    pub(super) total_volume: f64,
}

/// `measured` is the dose (mL or g) and the water (g).
pub(super) fn outcome(
    wet: f64,
    dryness: f64,
    chemical: Chemical,
    measured: (f64, f64),
    water_density: f64,
) -> Outcome {
    let (dose, water) = measured;
    let oven_dry = wet * dryness;
    let pulp_water = wet - oven_dry;
    let active = dose / chemical.dose;
    let liquor = (pulp_water + water) / water_density + active * chemical.volume;
    let total_mass = wet + water + active * chemical.mass;
    Outcome {
        oven_dry,
        pulp_water,
        active,
        charge: active / oven_dry,
        strength: active / liquor,
        consistency: oven_dry / total_mass,
        total_mass,
        total_volume: oven_dry / CELLULOSE_DENSITY + liquor,
    }
}
