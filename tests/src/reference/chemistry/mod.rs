//! Equilibria, activity, strength and decay, titration, percarbonate, water, other substances.

mod bath;
mod strength;
mod substances;

use super::ReferenceTable;

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "chemistry",
    checks: &[
        ("water_density", bath::water_density),
        ("debye_slope", bath::debye_slope),
        ("pk", bath::pk),
        ("constant", bath::constant),
        ("chlorine_hydrolysis_in_salt", bath::chlorine_hydrolysis_in_salt),
        ("ph", bath::ph),
        ("species", bath::species),
        ("share", bath::share),
        ("chlorine_share", bath::chlorine_share),
        ("half_chlorine_ph", bath::half_chlorine_ph),
        ("headspace", bath::headspace),
        ("gas_ph", bath::gas_ph),
        ("dose", bath::dose),
        ("decay_rate", strength::decay_rate),
        ("half_life", strength::half_life),
        ("left", strength::left),
        ("bottle_left", strength::bottle_left),
        ("molar_mass", strength::molar_mass),
        ("milligrams_per_millilitre", strength::milligrams_per_millilitre),
        ("titrate_liquid", strength::titrate_liquid),
        ("titrate_powder", strength::titrate_powder),
        ("powder", strength::powder),
        ("released", strength::released),
        ("oxygen", strength::oxygen),
        ("solubility", strength::solubility),
        ("activation", strength::activation),
        ("peroxide_left", strength::peroxide_left),
        ("pool_chlorine", strength::pool_chlorine),
        ("chlorine_stock", strength::chlorine_stock),
    ],
};

/// Activity coefficients, and pH in strong solutions.
pub const ACTIVITY: ReferenceTable = ReferenceTable {
    name: "chemistry_activity",
    checks: &[
        ("mean_activity_coefficient", bath::mean_activity_coefficient),
        ("ph", bath::ph),
        ("pk", bath::pk),
    ],
};

pub const SUBSTANCES: ReferenceTable = ReferenceTable {
    name: "chemistry_substances",
    checks: &[
        ("chlorine_source_mass", substances::chlorine_source_mass),
        ("sulfur_dioxide_mass", substances::sulfur_dioxide_mass),
        ("available_chlorine", substances::available_chlorine),
        ("purity", substances::purity),
        ("peroxide_density", substances::peroxide_density),
        ("peroxide_strength", substances::peroxide_strength),
        ("exposure_limit", substances::exposure_limit),
        ("air_mass", substances::air_mass),
    ],
};
