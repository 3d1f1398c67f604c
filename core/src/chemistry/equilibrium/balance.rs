//! The numeric kernel: charge balance at a given hydrogen ion activity.
//!
//! Bare numbers here, all in moles per kilogram of water. Nothing allocates.

use super::constants::Constants;
use super::species::Species;

/// What a bath holds, whatever form it takes in solution.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Totals {
    /// Charge of the ions that take part in nothing: sodium less sulfate and its like.
    pub spectator_charge: f64,
    /// Sum of charge squared times amount over the same ions.
    pub spectator_strength: f64,
    /// Their number.
    pub spectator_count: f64,
    /// Chloride, free or bound in Cl2.
    pub chloride: f64,
    /// Chlorine(+1): Cl2, HOCl and OCl-.
    pub hypochlorite: f64,
    pub carbonate: f64,
    pub peroxide: f64,
    pub acetate: f64,
    pub citrate: f64,
    /// Fixed CO2(aq) when open to air; `carbonate` is then not looked at.
    pub open_carbon_dioxide: Option<f64>,
}

/// Activity coefficients of ions by charge, and the activity of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Activity {
    pub one: f64,
    pub two: f64,
    pub three: f64,
    pub water: f64,
}

impl Activity {
    /// Davies (1962): `log γ = -A z² (√I/(1+√I) - 0.3 I)`, good to I = 0.5 mol/kg; uncharged
    /// species count as ideal. Water by Raoult's law in the form `a = 1 - 0.017 Σm`, Garrels
    /// & Christ (1965) (from memory).
    pub fn davies(slope: f64, ionic_strength: f64, solutes: f64) -> Self {
        let root = ionic_strength.sqrt();
        let log_one = -slope * (root / (1.0 + root) - 0.3 * ionic_strength);
        let one = (log_one * std::f64::consts::LN_10).exp();
        let squared = one * one;
        let two = squared * squared;
        let three = two * two * one;
        Self { one, two, three, water: (1.0 - 0.017 * solutes).max(0.5) }
    }
}

/// Constants with the activity coefficients folded in, for sums in concentrations.
#[derive(Clone, Copy)]
pub(crate) struct Folded {
    activity: Activity,
    water: f64,
    carbonic_1: f64,
    carbonic_12: f64,
    hypochlorous: f64,
    chlorine: f64,
    peroxide: f64,
    acetic: f64,
    citric: [f64; 3],
}

impl Folded {
    pub fn new(constants: &Constants, activity: Activity) -> Self {
        let per_one = 1.0 / activity.one;
        let per_two = 1.0 / activity.two;
        let [citric_1, citric_2, citric_3] = constants.citric;
        let citric_12 = citric_1 * citric_2;
        Self {
            activity,
            water: constants.water * activity.water * per_one,
            carbonic_1: constants.carbonic_1 * activity.water * per_one,
            carbonic_12: constants.carbonic_1 * constants.carbonic_2 * activity.water * per_two,
            hypochlorous: constants.hypochlorous * per_one,
            chlorine: activity.one / (constants.chlorine_hydrolysis * activity.water),
            peroxide: constants.peroxide * per_one,
            acetic: constants.acetic * per_one,
            citric: [
                citric_1 * per_one,
                citric_12 * per_two,
                citric_12 * citric_3 / activity.three,
            ],
        }
    }

    /// Charge of water's own ions, `[H+] - [OH-]`, mol/kg.
    pub fn proton_charge(&self, h: f64) -> f64 {
        h / self.activity.one - self.water / h
    }
}

/// Which form of each acid counts as the zero of the proton balance: the number of protons
/// it has given up. Chosen once per bath so that the forms which dominate cancel exactly,
/// and the rest can be summed without loss.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Reference {
    citrate: u8,
    acetate: u8,
    carbonate: u8,
    hypochlorite: u8,
    peroxide: u8,
    /// Strong charge that the reference forms leave over, mol/kg.
    remainder: f64,
}

impl Reference {
    /// Hands the strong charge to the acids, strongest first, while it half fills them.
    pub fn of(totals: &Totals) -> Self {
        let mut left = totals.spectator_charge - totals.chloride;
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

/// The two sides of the proton balance at one hydrogen ion activity.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Balance {
    /// Protons above the reference forms, and protons missing; each above zero, mol/kg.
    pub above: f64,
    pub below: f64,
    /// Their change with ln h.
    pub above_slope: f64,
    pub below_slope: f64,
    /// mol/kg.
    pub ionic_strength: f64,
    /// Sum of all dissolved things, mol/kg.
    pub solutes: f64,
}

/// The proton balance at hydrogen ion activity `h`.
#[inline]
pub(crate) fn balance(totals: &Totals, reference: &Reference, folded: &Folded, h: f64) -> Balance {
    let per_h = 1.0 / h;
    let hydrogen = h / folded.activity.one;
    let hydroxide = folded.water * per_h;
    let mut sum = Balance {
        above: hydrogen + reference.remainder.max(0.0),
        below: hydroxide + (-reference.remainder).max(0.0),
        above_slope: hydrogen,
        below_slope: -hydroxide,
        ionic_strength: hydrogen + hydroxide + totals.spectator_strength,
        solutes: hydrogen + hydroxide + totals.spectator_count,
    };
    let r1 = folded.carbonic_1 * per_h;
    let r2 = folded.carbonic_12 * per_h * per_h;
    if let Some(gas) = totals.open_carbon_dioxide {
        let (bicarbonate, carbonate) = (gas * r1, gas * r2);
        sum.below += bicarbonate + 2.0 * carbonate;
        sum.below_slope -= bicarbonate + 4.0 * carbonate;
        sum.ionic_strength += bicarbonate + 4.0 * carbonate;
        sum.solutes += gas + bicarbonate + carbonate;
    } else if totals.carbonate > 0.0 {
        let unit = totals.carbonate / (1.0 + r1 + r2);
        sum.polyprotic([unit, unit * r1, unit * r2], totals.carbonate, reference.carbonate);
    }
    sum.monoprotic(totals.peroxide, folded.peroxide, h, reference.peroxide);
    sum.monoprotic(totals.acetate, folded.acetic, h, reference.acetate);
    if totals.hypochlorite > 0.0 {
        sum.chlorine(totals, &chlorine(totals, folded, h), reference.hypochlorite);
    } else {
        sum.ionic_strength += totals.chloride;
        sum.solutes += totals.chloride;
    }
    if totals.citrate > 0.0 {
        let [c1, c2, c3] = citrate_ratios(folded, per_h);
        let unit = totals.citrate / (1.0 + c1 + c2 + c3);
        let forms = [unit, unit * c1, unit * c2, unit * c3];
        sum.polyprotic(forms, totals.citrate, reference.citrate);
    }
    sum.ionic_strength *= 0.5;
    sum
}

impl Balance {
    /// Adds an acid whose `forms` have given up 0, 1, 2... protons.
    #[inline]
    fn polyprotic<const N: usize>(&mut self, forms: [f64; N], total: f64, reference: u8) {
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
            self.ionic_strength += given * given * form;
        }
        self.solutes += total;
    }

    #[inline]
    fn monoprotic(&mut self, total: f64, constant: f64, h: f64, reference: u8) {
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
        self.ionic_strength += base;
        self.solutes += total;
    }

    /// Adds Cl2, HOCl, OCl- and Cl-; chloride's reference is always Cl-.
    #[inline]
    fn chlorine(&mut self, totals: &Totals, found: &Chlorine, reference: u8) {
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
        self.ionic_strength += base + chloride;
        self.solutes += rest + totals.chloride;
    }
}

/// The same sums where only ionic strength and solutes are wanted.
pub(crate) fn balance_at(totals: &Totals, folded: &Folded, h: f64) -> Balance {
    balance(totals, &Reference::of(totals), folded, h)
}

/// Net charge of the contents, without that of water's own ions, mol/kg.
pub(crate) fn charge(totals: &Totals, folded: &Folded, h: f64) -> f64 {
    let amounts = speciate(totals, folded, h);
    Species::ALL
        .into_iter()
        .zip(amounts)
        .filter(|(species, _)| !matches!(species, Species::Hydrogen | Species::Hydroxide))
        .map(|(species, amount)| f64::from(species.charge()) * amount)
        .sum::<f64>()
        + totals.spectator_charge
}

/// Every species at hydrogen ion activity `h`, mol/kg, by [`Species`] number.
pub(crate) fn speciate(totals: &Totals, folded: &Folded, h: f64) -> [f64; Species::COUNT] {
    let per_h = 1.0 / h;
    let mut amounts = [0.0; Species::COUNT];
    let mut put = |species: Species, amount: f64| amounts[species as usize] = amount;
    put(Species::Hydrogen, h / folded.activity.one);
    put(Species::Hydroxide, folded.water * per_h);

    let r1 = folded.carbonic_1 * per_h;
    let r2 = folded.carbonic_12 * per_h * per_h;
    let gas = totals.open_carbon_dioxide.unwrap_or(totals.carbonate / (1.0 + r1 + r2));
    put(Species::CarbonDioxide, gas);
    put(Species::Bicarbonate, gas * r1);
    put(Species::Carbonate, gas * r2);

    let chlorine = chlorine(totals, folded, h);
    let rest = totals.hypochlorite - chlorine.cl2;
    put(Species::Chlorine, chlorine.cl2);
    put(Species::HypochlorousAcid, rest * (1.0 - chlorine.dissociated));
    put(Species::Hypochlorite, rest * chlorine.dissociated);
    put(Species::Chloride, totals.chloride - chlorine.cl2);

    let perhydroxyl = folded.peroxide / (folded.peroxide + h);
    put(Species::HydrogenPeroxide, totals.peroxide * (1.0 - perhydroxyl));
    put(Species::Perhydroxyl, totals.peroxide * perhydroxyl);
    let acetate = folded.acetic / (folded.acetic + h);
    put(Species::AceticAcid, totals.acetate * (1.0 - acetate));
    put(Species::Acetate, totals.acetate * acetate);

    let [c1, c2, c3] = citrate_ratios(folded, per_h);
    let unit = totals.citrate / (1.0 + c1 + c2 + c3);
    put(Species::CitricAcid, unit);
    put(Species::DihydrogenCitrate, unit * c1);
    put(Species::HydrogenCitrate, unit * c2);
    put(Species::Citrate, unit * c3);
    amounts
}

struct Chlorine {
    cl2: f64,
    /// Change of `cl2` with ln h.
    cl2_slope: f64,
    /// Part of HOCl + OCl- that is OCl-.
    dissociated: f64,
}

/// Cl2 from `x = k (C - x)(L - x)`: chlorine(+1) `C`, chloride `L`, and
/// `k = [Cl2] / ([HOCl + OCl-][Cl-])` at this acidity.
#[inline]
fn chlorine(totals: &Totals, folded: &Folded, h: f64) -> Chlorine {
    let dissociated = folded.hypochlorous / (folded.hypochlorous + h);
    let k = h * folded.chlorine * (1.0 - dissociated);
    let (c, l) = (totals.hypochlorite, totals.chloride);
    let b = k * (c + l) + 1.0;
    // The smaller root, written so that nothing cancels.
    let product = k * c * l;
    let cl2 = 2.0 * product / (b + (b * b - 4.0 * k * product).max(0.0).sqrt());
    let cl2_slope = cl2 * (1.0 + dissociated) / (1.0 + k * (c + l - 2.0 * cl2));
    Chlorine { cl2, cl2_slope, dissociated }
}

#[inline]
fn citrate_ratios(folded: &Folded, per_h: f64) -> [f64; 3] {
    let [k1, k12, k123] = folded.citric;
    [k1 * per_h, k12 * per_h * per_h, k123 * per_h * per_h * per_h]
}
