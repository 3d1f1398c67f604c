//! Proton balance at a given hydrogen ion activity: the function whose root the solver finds.
//!
//! Plain numbers in mol/kg of water. Allocates nothing.

use super::activity::Medium;
use super::conditional::ConditionalConstants;
use super::speciate::{ChlorineEquilibrium, citrate_ratios};
use super::totals::Totals;

/// Both sides of the proton balance at one hydrogen ion activity.
#[derive(Clone, Copy, Debug)]
pub(super) struct ProtonBalance {
    /// Protons in excess of the reference forms, mol/kg, positive.
    pub above: f64,
    /// Protons missing from the reference forms, mol/kg, positive.
    pub below: f64,
    /// d(above)/d(ln h).
    pub above_slope: f64,
    /// d(below)/d(ln h).
    pub below_slope: f64,
    pub medium: Medium,
}

/// Reference level of the proton balance: for each acid the number of protons lost by the form
/// that counts as zero.
///
/// Chosen once per bath so that the dominant forms cancel exactly and the remaining terms are
/// summed without loss of precision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ProtonReference {
    citrate: u8,
    acetate: u8,
    carbonate: u8,
    hypochlorite: u8,
    peroxide: u8,
    /// Strong charge not balanced by the reference forms, mol/kg.
    remainder: f64,
}

impl ProtonReference {
    /// Assigns the strong charge to the acids, strongest first, where it covers more than half
    /// of the acid.
    pub fn of(totals: &Totals) -> Self {
        let mut left = totals.spectator_charge() - totals.chloride;
        let mut take = |amount: f64| {
            let taken = amount > 0.0 && left > 0.5 * amount;
            if taken {
                left -= amount;
            }
            u8::from(taken)
        };
        let citrate = take(totals.citrate) + take(totals.citrate);
        let acetate = take(totals.acetate);
        let citrate = citrate + take(totals.citrate);
        let closed = if totals.open_carbon_dioxide.is_none() { totals.carbonate } else { 0.0 };
        let carbonate = take(closed);
        let hypochlorite = take(totals.hypochlorite);
        let carbonate = carbonate + take(closed);
        let peroxide = take(totals.peroxide);
        Self { citrate, acetate, carbonate, hypochlorite, peroxide, remainder: left }
    }
}

impl ProtonBalance {
    /// The balance at hydrogen ion activity `h`.
    #[inline]
    pub fn at(
        totals: &Totals,
        reference: &ProtonReference,
        conditional: &ConditionalConstants,
        h: f64,
    ) -> Self {
        let per_h = 1.0 / h;
        let hydrogen = h / conditional.activity.hydrogen;
        let hydroxide = conditional.water * per_h;
        let mut sum = Self {
            above: hydrogen + reference.remainder.max(0.0),
            below: hydroxide + (-reference.remainder).max(0.0),
            above_slope: hydrogen,
            below_slope: -hydroxide,
            medium: Medium {
                ionic_strength: hydrogen + hydroxide + totals.spectator_strength(),
                solutes: hydrogen + hydroxide + totals.spectator_count(),
                hydrogen,
                chloride: totals.strong_anion,
            },
        };
        sum.add_carbonate(totals, reference, conditional, per_h);
        sum.add_monoprotic(totals.peroxide, conditional.peroxide, h, reference.peroxide);
        sum.add_monoprotic(totals.acetate, conditional.acetic, h, reference.acetate);
        if totals.hypochlorite > 0.0 {
            let chlorine = ChlorineEquilibrium::at(totals, conditional, h);
            sum.add_chlorine(totals, &chlorine, reference.hypochlorite);
        } else {
            sum.medium.ionic_strength += totals.chloride;
            sum.medium.solutes += totals.chloride;
            sum.medium.chloride += totals.chloride;
        }
        if totals.citrate > 0.0 {
            let [c1, c2, c3] = citrate_ratios(conditional, per_h);
            let unit = totals.citrate / (1.0 + c1 + c2 + c3);
            let forms = [unit, unit * c1, unit * c2, unit * c3];
            sum.add_polyprotic(forms, totals.citrate, reference.citrate);
        }
        sum.medium.ionic_strength *= 0.5;
        sum
    }

    /// Adds CO2, HCO3- and CO3²-; in an open bath CO2 has a fixed activity and is the reference form.
    #[inline]
    fn add_carbonate(
        &mut self,
        totals: &Totals,
        reference: &ProtonReference,
        conditional: &ConditionalConstants,
        per_h: f64,
    ) {
        let r1 = conditional.carbonic_1 * per_h;
        let r2 = conditional.carbonic_12 * per_h * per_h;
        if let Some(fixed) = totals.open_carbon_dioxide {
            let gas = fixed / conditional.activity.carbon_dioxide;
            let (bicarbonate, carbonate) = (gas * r1, gas * r2);
            self.below += bicarbonate + 2.0 * carbonate;
            self.below_slope -= bicarbonate + 4.0 * carbonate;
            self.medium.ionic_strength += bicarbonate + 4.0 * carbonate;
            self.medium.solutes += gas + bicarbonate + carbonate;
        } else if totals.carbonate > 0.0 {
            let unit = totals.carbonate / (1.0 + r1 + r2);
            let forms = [unit, unit * r1, unit * r2];
            self.add_polyprotic(forms, totals.carbonate, reference.carbonate);
        }
    }

    /// Adds an acid whose `forms` have lost 0, 1, 2... protons.
    #[inline]
    fn add_polyprotic<const N: usize>(&mut self, forms: [f64; N], total: f64, reference: u8) {
        let mut lost = 0.0;
        for (given, form) in forms.iter().enumerate() {
            lost += given as f64 * form;
        }
        let mean = lost / total;
        for (given, form) in forms.iter().enumerate() {
            let given = given as f64;
            let surplus = f64::from(reference) - given;
            let slope = form * (mean - given); // d(form)/d(ln h)
            if surplus > 0.0 {
                self.above += surplus * form;
                self.above_slope += surplus * slope;
            } else {
                self.below -= surplus * form;
                self.below_slope -= surplus * slope;
            }
            self.medium.ionic_strength += given * given * form;
        }
        self.medium.solutes += total;
    }

    #[inline]
    fn add_monoprotic(&mut self, total: f64, constant: f64, h: f64, reference: u8) {
        if total <= 0.0 {
            return;
        }
        let unit = total / (constant + h);
        let (acid, base) = (unit * h, unit * constant);
        let slope = acid * base / total;
        if reference == 1 {
            self.above += acid;
            self.above_slope += slope;
        } else {
            self.below += base;
            self.below_slope -= slope;
        }
        self.medium.ionic_strength += base;
        self.medium.solutes += total;
    }

    /// Adds Cl2, HOCl, OCl- and Cl-. The reference form of chloride is always Cl-.
    #[inline]
    fn add_chlorine(&mut self, totals: &Totals, found: &ChlorineEquilibrium, reference: u8) {
        let rest = totals.hypochlorite - found.cl2;
        let chloride = totals.chloride - found.cl2;
        let (acid, base) = (rest * (1.0 - found.dissociated), rest * found.dissociated);
        let exchange = acid * found.dissociated;
        let acid_slope = exchange - found.cl2_slope * (1.0 - found.dissociated);
        let base_slope = -exchange - found.cl2_slope * found.dissociated;
        if reference == 1 {
            self.above += acid + 2.0 * found.cl2;
            self.above_slope += acid_slope + 2.0 * found.cl2_slope;
        } else {
            self.above += found.cl2;
            self.above_slope += found.cl2_slope;
            self.below += base;
            self.below_slope += base_slope;
        }
        self.medium.ionic_strength += base + chloride;
        self.medium.chloride += chloride;
        self.medium.solutes += rest + totals.chloride;
    }
}
