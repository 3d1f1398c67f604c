//! Equilibria, strength and decay, titration, percarbonate, water.

mod bath;
mod strength;

use super::ReferenceTable;

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "chemistry",
    checks: &[
        ("water_density", bath::water_density),
        ("debye_slope", bath::debye_slope),
        ("activity_coefficient", bath::activity_coefficient),
        ("pk", bath::pk),
        ("constant", bath::constant),
        ("chlorine_hydrolysis_at", bath::chlorine_hydrolysis_at),
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
