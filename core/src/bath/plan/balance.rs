//! Material balance of a bath in bare numbers: g, mL, g/mL, shares.
//!
//! Masses are additive. Volumes are assumed to be: fibre at the density of
//! cellulose, water and bottle at their own, dissolved powder and soda ash at 0.4 mL/g (from
//! memory; crystalline percarbonate has 0.47).

use crate::{bath::peroxide_bottle::soda_ash_per_peroxide, pulp::CELLULOSE_DENSITY};

/// Volume that a gram of dissolved salt takes up, mL.
const DISSOLVED: f64 = 0.4;

/// Dose, mass and volume of a bleach per gram of active chemical.
#[derive(Clone, Copy)]
pub(super) struct PerActive {
    /// mL of a bottle, g of a powder.
    dose: f64,
    /// g
    mass: f64,
    /// mL
    volume: f64,
}

impl PerActive {
    /// A bottle with `strength` g/mL active and `density` g/mL.
    pub(super) fn of_bottle(strength: f64, density: f64) -> Self {
        let dose = 1.0 / strength;
        Self { dose, mass: dose * density, volume: dose }
    }

    /// A powder with `strength` g/g active.
    pub(super) fn of_powder(strength: f64) -> Self {
        let dose = 1.0 / strength;
        Self { dose, mass: dose, volume: dose * DISSOLVED }
    }

    /// A bottle of peroxide with `strength` g/mL active and `density` g/mL, and the soda ash that
    /// goes with it.
    pub(super) fn of_peroxide(strength: f64, density: f64) -> Self {
        let soda_ash = soda_ash_per_peroxide();
        let bottle = Self::of_bottle(strength, density);
        Self {
            mass: bottle.mass + soda_ash,
            volume: bottle.volume + DISSOLVED * soda_ash,
            ..bottle
        }
    }
}

/// Target for the active chemical.
#[derive(Clone, Copy)]
pub(super) enum ActiveTarget {
    /// g/mL of all the liquor.
    Strength(f64),
    /// g/g oven-dry fibre.
    Charge(f64),
}

/// Target for the size of the bath.
#[derive(Clone, Copy)]
pub(super) enum SizeTarget {
    /// g/g
    Consistency(f64),
    /// mL of fibre and liquor.
    Volume(f64),
}

/// Amounts that meet both targets. `water` is negative where there is no room.
#[derive(Clone, Copy)]
pub(super) struct Amounts {
    /// g
    pub(super) active: f64,
    /// mL or g
    pub(super) dose: f64,
    /// g per unit of dose
    pub(super) dose_mass: f64,
    /// g to add
    pub(super) water: f64,
    /// mL of all the liquor
    pub(super) liquor: f64,
}

/// Most water beside the fibre, in g, if the bleach took up no room.
pub(super) fn water_capacity(oven_dry: f64, size: SizeTarget, water_density: f64) -> f64 {
    match size {
        SizeTarget::Consistency(consistency) => oven_dry * (1.0 / consistency - 1.0),
        SizeTarget::Volume(total) => (total - oven_dry / CELLULOSE_DENSITY) * water_density,
    }
}

/// Solves for the amounts. `wet` in g, `dryness` as a share.
pub(super) fn amounts(
    wet: f64,
    dryness: f64,
    bleach: PerActive,
    target: ActiveTarget,
    size: SizeTarget,
    water_density: f64,
) -> Amounts {
    let oven_dry = wet * dryness;
    let capacity = water_capacity(oven_dry, size, water_density);
    // g of water displaced per g of active.
    let displaced = match size {
        SizeTarget::Consistency(_) => bleach.mass,
        SizeTarget::Volume(_) => bleach.volume * water_density,
    };
    let liquor =
        |active: f64| (capacity - active * displaced) / water_density + active * bleach.volume;
    let active = match target {
        ActiveTarget::Charge(charge) => charge * oven_dry,
        // active = strength * liquor(active), solved for active.
        ActiveTarget::Strength(strength) => {
            let expansion = bleach.volume - displaced / water_density;
            strength * capacity / water_density / (1.0 - strength * expansion)
        }
    };
    Amounts {
        active,
        dose: active * bleach.dose,
        dose_mass: bleach.mass / bleach.dose,
        water: capacity - active * displaced - (wet - oven_dry),
        liquor: liquor(active),
    }
}

/// Composition of a bath. Masses in g, volumes in mL.
pub(super) struct Composition {
    pub(super) oven_dry: f64,
    pub(super) pulp_water: f64,
    pub(super) active: f64,
    pub(super) charge: f64,
    /// g/mL
    pub(super) strength: f64,
    pub(super) consistency: f64,
    pub(super) total_mass: f64,
    pub(super) total_volume: f64,
}

/// Composition of a bath of `dose` (mL or g) and `water` (g).
pub(super) fn composition(
    wet: f64,
    dryness: f64,
    bleach: PerActive,
    (dose, water): (f64, f64),
    water_density: f64,
) -> Composition {
    let oven_dry = wet * dryness;
    let pulp_water = wet - oven_dry;
    let active = dose / bleach.dose;
    let liquor = (pulp_water + water) / water_density + active * bleach.volume;
    let total_mass = wet + water + active * bleach.mass;
    Composition {
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
