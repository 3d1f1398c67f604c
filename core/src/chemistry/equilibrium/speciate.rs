//! Concentration of every species at a given hydrogen ion activity, mol/kg.

use super::conditional::ConditionalConstants;
use super::species::Species;
use super::totals::Totals;
use strum::{EnumCount, VariantArray};

/// Every species at hydrogen ion activity `h`, mol/kg, indexed by [`Species`].
pub(super) fn speciate(
    totals: &Totals,
    conditional: &ConditionalConstants,
    h: f64,
) -> [f64; Species::COUNT] {
    let per_h = 1.0 / h;
    let mut amounts = [0.0; Species::COUNT];
    let mut put = |species: Species, amount: f64| amounts[species as usize] = amount;
    put(Species::Hydrogen, h / conditional.activity.hydrogen);
    put(Species::Hydroxide, conditional.water * per_h);

    let r1 = conditional.carbonic_1 * per_h;
    let r2 = conditional.carbonic_12 * per_h * per_h;
    let gas = match totals.open_carbon_dioxide {
        Some(fixed) => fixed / conditional.activity.carbon_dioxide,
        None => totals.carbonate / (1.0 + r1 + r2),
    };
    put(Species::CarbonDioxide, gas);
    put(Species::Bicarbonate, gas * r1);
    put(Species::Carbonate, gas * r2);

    let chlorine = ChlorineEquilibrium::at(totals, conditional, h);
    let rest = totals.hypochlorite - chlorine.cl2;
    put(Species::Chlorine, chlorine.cl2);
    put(Species::HypochlorousAcid, rest * (1.0 - chlorine.dissociated));
    put(Species::Hypochlorite, rest * chlorine.dissociated);
    put(Species::Chloride, totals.chloride - chlorine.cl2);

    let perhydroxyl = conditional.peroxide / (conditional.peroxide + h);
    put(Species::HydrogenPeroxide, totals.peroxide * (1.0 - perhydroxyl));
    put(Species::Perhydroxyl, totals.peroxide * perhydroxyl);
    let acetate = conditional.acetic / (conditional.acetic + h);
    put(Species::AceticAcid, totals.acetate * (1.0 - acetate));
    put(Species::Acetate, totals.acetate * acetate);

    let [c1, c2, c3] = citrate_ratios(conditional, per_h);
    let unit = totals.citrate / (1.0 + c1 + c2 + c3);
    put(Species::CitricAcid, unit);
    put(Species::DihydrogenCitrate, unit * c1);
    put(Species::HydrogenCitrate, unit * c2);
    put(Species::Citrate, unit * c3);
    amounts
}

/// Net charge of the solutes, without H+ and OH-, mol/kg.
pub(super) fn charge(totals: &Totals, conditional: &ConditionalConstants, h: f64) -> f64 {
    let amounts = speciate(totals, conditional, h);
    Species::VARIANTS
        .iter()
        .zip(amounts)
        .filter(|(species, _)| !matches!(species, Species::Hydrogen | Species::Hydroxide))
        .map(|(species, amount)| f64::from(species.charge()) * amount)
        .sum::<f64>()
        + totals.spectator_charge()
}

/// Cl2, HOCl and OCl- at one hydrogen ion activity.
pub(super) struct ChlorineEquilibrium {
    /// mol/kg.
    pub cl2: f64,
    /// d(cl2)/d(ln h).
    pub cl2_slope: f64,
    /// Share of HOCl + OCl- that is OCl-.
    pub dissociated: f64,
}

impl ChlorineEquilibrium {
    #[inline]
    pub fn at(totals: &Totals, conditional: &ConditionalConstants, h: f64) -> Self {
        let dissociated = conditional.hypochlorous / (conditional.hypochlorous + h);
        let k = h * conditional.chlorine * (1.0 - dissociated);
        let (c, l) = (totals.hypochlorite, totals.chloride);
        let cl2 = dissolved_chlorine(k, c, l);
        let cl2_slope = cl2 * (1.0 + dissociated) / (1.0 + k * (c + l - 2.0 * cl2));
        Self { cl2, cl2_slope, dissociated }
    }
}

/// Cl2: solves `x = k (C - x)(L - x)`, with chlorine(+1) `C`, chloride `L` and
/// `k = [Cl2] / ([HOCl + OCl-][Cl-])` at this acidity.
#[inline]
pub(in crate::chemistry) fn dissolved_chlorine(k: f64, c: f64, l: f64) -> f64 {
    let b = k * (c + l) + 1.0;
    // Smaller root of the quadratic, in the form without cancellation.
    let product = k * c * l;
    2.0 * product / (b + (b * b - 4.0 * k * product).max(0.0).sqrt())
}

/// Concentrations of H2Cit-, HCit2- and Cit3- over that of H3Cit.
#[inline]
pub(super) fn citrate_ratios(conditional: &ConditionalConstants, per_h: f64) -> [f64; 3] {
    let [k1, k12, k123] = conditional.citric;
    [k1 * per_h, k12 * per_h * per_h, k123 * per_h * per_h * per_h]
}
