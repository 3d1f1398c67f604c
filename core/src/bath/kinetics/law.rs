//! Rate forms, each a function of plain numbers with its source. Which constants they take is
//! in `parameter`.

/// J/(mol·K), CODATA.
pub const GAS_CONSTANT: f64 = 8.314_463;
/// Molar mass of one anhydroglucose unit of cellulose, g/mol.
pub const GLUCOSE_UNIT: f64 = 162.14;
/// Oxidant spent on one scission, mol: 4 to 5 atoms of oxygen, on starch in alkaline
/// hypochlorite; cellulose is taken to be alike (Schmorak & Lewin 1963, abstract).
pub const OXIDANT_PER_SCISSION: f64 = 4.5;
/// Carboxyl groups formed with one scission (the same source).
pub const ACID_PER_SCISSION: f64 = 2.0;

/// Factor on a rate constant from `from` to `to`, °C, by Arrhenius. `energy` in J/mol.
pub fn arrhenius(energy: f64, from: f64, to: f64) -> f64 {
    (energy / GAS_CONSTANT * (1.0 / (from + 273.15) - 1.0 / (to + 273.15))).exp()
}

/// Rate constant of a transition state, s⁻¹ times its unit of concentration, by Eyring:
/// `kT/h exp(dS/R) exp(-dH/RT)`; J/mol and J/(mol·K).
pub fn eyring(enthalpy: f64, entropy: f64, celsius: f64) -> f64 {
    const BOLTZMANN_PER_PLANCK: f64 = 2.083_662e10;
    let kelvin = celsius + 273.15;
    BOLTZMANN_PER_PLANCK
        * kelvin
        * (entropy / GAS_CONSTANT - enthalpy / (GAS_CONSTANT * kelvin)).exp()
}

/// k of `2 HOCl + OCl-`, L²/(mol²·s): dH* 64.0 kJ/mol, dS* -67 J/(mol·K), 15-50 °C in 1 M
/// perchlorate; Adam, Fábián, Suzuki & Gordon (1992), Inorg. Chem. 31:3534 (abstract).
pub fn hypochlorous_decay(celsius: f64) -> f64 {
    eyring(64_000.0, -67.0, celsius)
}

/// Loss of oxidant by that path, mol/(L·s): three for each turn (the factor was not seen).
pub fn hypochlorous_decay_rate(celsius: f64, acid: f64, base: f64) -> f64 {
    3.0 * hypochlorous_decay(celsius) * acid * acid * base
}

/// Share of hypochlorite left after `seconds` of second-order decay, `k` in L/(mol·s).
pub fn second_order_left(k: f64, start: f64, seconds: f64) -> f64 {
    1.0 / (1.0 + k * start * seconds)
}

/// Degree of polymerization after `scissions` for each glucose unit: Ekenstam,
/// `1/DP - 1/DP0 = s`. For random scission; not near DP 200, where crystalline parts level off.
pub fn polymerization_after(start: f64, scissions: f64) -> f64 {
    1.0 / (1.0 / start + scissions)
}

/// Scissions for each glucose unit between two degrees of polymerization.
pub fn scissions_between(start: f64, end: f64) -> f64 {
    1.0 / end - 1.0 / start
}

/// Degree of polymerization from intrinsic viscosity in CED, mL/g, by SCAN-C 15:62,
/// `P^0.905 = 0.75 [η]`; reported to be low (Evans & Wallis 1989, abstract).
pub fn polymerization_scan(intrinsic_viscosity: f64) -> f64 {
    (0.75 * intrinsic_viscosity).powf(1.0 / 0.905)
}

/// The same by `1.65 [η]`, tentative (Evans & Wallis 1989, abstract).
pub fn polymerization_linear(intrinsic_viscosity: f64) -> f64 {
    1.65 * intrinsic_viscosity
}

/// Rate of peeling relative to pH 11: a factor of 0.34 for each pH below (hydrocellulose;
/// abstract). Not used by the forecast: baths are below the pH and heat of peeling.
pub fn peeling_relative_to_ph_11(ph: f64) -> f64 {
    0.34_f64.powf(11.0 - ph)
}

/// Available chlorine in the liquor, mol/L, of a `charge` on oven-dry fibre at a consistency
/// (both shares), all of it in the liquor and density 1.
pub fn available_chlorine_molar(charge: f64, consistency: f64) -> f64 {
    const CHLORINE: f64 = 70.906;
    1000.0 * charge * consistency / (1.0 - consistency) / CHLORINE
}

/// Effective hypochlorite for colour and lignin, mol/L: OCl- and `speedup` times HOCl. Rates on
/// starch fall from pH 7.5 to 11 (Schmorak et al. 1961, abstract).
#[inline]
pub fn bleaching_hypochlorite(acid: f64, base: f64, speedup: f64) -> f64 {
    base + speedup * acid
}

/// Rate constants of scission by hypochlorite, each L/(mol·s) for one glucose unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScissionRates {
    pub hypochlorite: f64,
    pub hypochlorous_acid: f64,
    /// Of both together, largest where they are equal.
    pub together: f64,
}

/// Scissions for each glucose unit and second: one path for OCl-, one for HOCl, and one for
/// both together, `HOCl OCl-/(HOCl + OCl-)`, first order in oxidant over all. The third makes
/// the attack worst at pH 7 and milder at 4.5, as found on cotton (Clibbens & Ridge 1927;
/// conservation handbook, read as an order of rank only); its form is an own reading.
#[inline]
pub fn scission_rate(rates: &ScissionRates, acid: f64, base: f64) -> f64 {
    let both = acid + base;
    let together = if both > 0.0 { acid * base / both } else { 0.0 };
    rates.hypochlorite * base + rates.hypochlorous_acid * acid + rates.together * together
}

/// Effective peroxide for colour, (mol/L)^½: the square root of HO2-, Ni, Dixon & Ooi (1997),
/// Can. J. Chem. Eng. 75 (abstract), pH 10.5-11.5, 60-92 °C; below 60 °C extrapolated. Straight
/// below 1e-6 mol/L.
#[inline]
pub fn bleaching_peroxide(perhydroxyl: f64) -> f64 {
    perhydroxyl / (perhydroxyl.max(0.0) + 1e-6).sqrt()
}

/// The temperature factor of that source, `1.41e10 exp(-69 610/RT)`; its unit of time is not in
/// the abstract.
pub fn peroxide_colour_factor(celsius: f64) -> f64 {
    1.41e10 * (-69_610.0 / (GAS_CONSTANT * (celsius + 273.15))).exp()
}

/// Share of the greatest self-decomposition of peroxide, 0 to 1: `4 f (1 - f)` with the
/// dissociated share `f`, largest when half ionised (Duke & Haas 1961, secondary; abstract).
#[inline]
pub fn peroxide_decay_share(acid: f64, base: f64) -> f64 {
    let both = acid + base;
    if both > 0.0 { 4.0 * acid * base / (both * both) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attack_is_worst_where_both_forms_are_equal_and_least_without_acid() {
        let rates = ScissionRates { hypochlorite: 1.0, hypochlorous_acid: 12.0, together: 48.0 };
        let at = |acid: f64| scission_rate(&rates, acid, 1.0 - acid);
        assert!(at(0.72) > at(1.0) && at(1.0) > at(0.03) && at(0.03) > at(0.001));
        assert_eq!(scission_rate(&rates, 0.0, 0.0), 0.0);
    }

    #[test]
    fn peroxide_decays_fastest_half_ionised() {
        assert!((peroxide_decay_share(0.5, 0.5) - 1.0).abs() < 1e-12);
        assert!(peroxide_decay_share(0.9, 0.1) < 0.4);
        assert_eq!(peroxide_decay_share(0.0, 0.0), 0.0);
        assert!((bleaching_peroxide(0.01) - 0.1).abs() < 1e-5 && bleaching_peroxide(0.0) == 0.0);
    }
}
