//! What is really in the bottle or the bag, whatever way its label counts.
//!
//! Available chlorine is counted as grams of Cl2: one mole of NaOCl is 70.906 g
//! of it. `% w/w = % NaOCl / 1.0499`; the trade percentage is grams per 100 mL,
//! which is a tenth of g/L (White, Handbook of Chlorination, 1972, as quoted in
//! producers' literature).

use crate::{
    message::{Field, Message},
    quantity::{
        Basis, Figure, Input, Kind, Known, MassConcentration, MassDensity, OutOfRange, Ratio,
        grams_per_litre, grams_per_millilitre, in_grams_per_millilitre, in_share, share, spread,
    },
};
use serde::{Deserialize, Serialize};

/// A bottle of hypochlorite as its label, a titration or a guess has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottle {
    /// The number on the label: a percentage (`5.25`), or g/L.
    pub figure: Known<f64>,
    pub basis: LabelBasis,
    /// Measured density, where someone weighed a known volume.
    pub density: Option<Known<MassDensity>>,
}

/// What a label's number counts. 5 % of the first four are 50.7, 50.0 (w/v
/// available chlorine) and 47.6 g/L (w/v NaOCl): never one for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelBasis {
    /// % sodium hypochlorite by mass (w/w), as in the US.
    NaoclByMass,
    /// % sodium hypochlorite by volume: g per 100 mL (w/v).
    NaoclByVolume,
    /// % available (active) chlorine by mass (w/w).
    ChlorineByMass,
    /// % available (active) chlorine by volume, the trade percentage: g per 100 mL.
    ChlorineByVolume,
    /// g/L available chlorine.
    ChlorineGramsPerLitre,
}

impl LabelBasis {
    /// Every basis, in the order to offer them.
    pub const ALL: [LabelBasis; 5] = [
        LabelBasis::NaoclByMass,
        LabelBasis::NaoclByVolume,
        LabelBasis::ChlorineByMass,
        LabelBasis::ChlorineByVolume,
        LabelBasis::ChlorineGramsPerLitre,
    ];

    /// The basis, if the label says which.
    ///
    /// # Errors
    /// A message beside the strength where it does not: 5 % of one basis is not 5 % of
    /// another.
    pub fn stated(basis: Option<Self>) -> Result<Self, Message> {
        basis.ok_or_else(|| Message::new("refusal-label_basis").beside(BOTTLE_STRENGTH))
    }
}

/// A bottle in the terms that a bath needs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liquid {
    pub available_chlorine: Figure<MassConcentration>,
    pub density: Figure<MassDensity>,
}

impl Bottle {
    /// A bottle whose label was read. Labels are nominal: a fresh bottle is
    /// taken to hold 10 % less to 5 % more (common practice, no source). What
    /// age has taken is not in here.
    pub fn labelled(figure: f64, basis: LabelBasis) -> Self {
        let (low, high) = (figure * 0.90, figure * 1.05);
        let figure = Known { value: figure, low, high, basis: Basis::Label };
        Self { figure, basis, density: None }
    }

    /// A bottle whose label is gone: 4.5 % NaOCl by mass, 2.5 to 8.25 %.
    /// Retail bottles are often 3.5 or 5.25 % (common practice, no source);
    /// the upper end is the strongest household grade (from memory).
    pub fn unknown() -> Self {
        let figure = Known { value: 4.5, low: 2.5, high: 8.25, basis: Basis::Assumed };
        Self { figure, basis: LabelBasis::NaoclByMass, density: None }
    }

    /// A bottle that was titrated.
    pub fn titrated(available_chlorine: Known<MassConcentration>) -> Self {
        let figure = available_chlorine.map(crate::quantity::in_grams_per_litre);
        Self { figure, basis: LabelBasis::ChlorineGramsPerLitre, density: None }
    }

    /// Its available chlorine and density at 20 °C.
    ///
    /// # Errors
    /// [`OutOfRange`] beside [`BOTTLE_STRENGTH`] unless the strength lies above
    /// 0 and at most at 15 % NaOCl by mass (about 175 g/L available chlorine):
    /// stronger is not sold to a studio, so it is a slip of the pen. Or beside
    /// [`BOTTLE_DENSITY`] outside 0.95 to 1.35 g/mL.
    pub fn liquid(&self) -> Result<Liquid, OutOfRange> {
        let (kind, most) = (self.kind(), self.most());
        OutOfRange::check(BOTTLE_STRENGTH, kind, self.figure.value, self.least(), most)?;
        // The upper end of a label's range stops where labels stop.
        let figure = Known { high: self.figure.high.min(most), ..self.figure };
        let figure = figure.check(BOTTLE_STRENGTH, kind, 0.0, most)?;
        let given = match self.density {
            Some(density) => Some(density.map(in_grams_per_millilitre).check(
                BOTTLE_DENSITY,
                Kind::Density,
                0.95,
                1.35,
            )?),
            None => None,
        };
        // A modelled density enters as what it may be off by, so that a
        // stronger label is a denser one too.
        let known = given.unwrap_or(Known {
            value: 0.0,
            low: -DENSITY_OFF,
            high: DENSITY_OFF,
            basis: Basis::Computed,
        });
        let basis = self.basis;
        let inputs = [Input::of(BOTTLE_STRENGTH, figure), Input::of(BOTTLE_DENSITY, known)];
        let sums = |[figure, density]: &[f64; 2]| {
            let density = match given {
                Some(_) => *density,
                None => modelled_density(*figure, basis) + density,
            };
            [grams_per_litre_of(*figure, basis, density), density]
        };
        let [chlorine, density] =
            spread(&inputs, sums).ok_or(out_of(BOTTLE_STRENGTH, kind, figure.value, most))?;
        Ok(Liquid {
            available_chlorine: chlorine.map(grams_per_litre),
            density: density.map(grams_per_millilitre),
        })
    }

    fn kind(&self) -> Kind {
        match self.basis {
            LabelBasis::ChlorineGramsPerLitre => Kind::Concentration,
            // The figure is the percentage itself, not a share.
            _ => Kind::Number,
        }
    }

    fn least(&self) -> f64 {
        match self.basis {
            LabelBasis::ChlorineGramsPerLitre => 0.1,
            _ => 0.01,
        }
    }

    /// 15 % NaOCl by mass on this label's own basis, by the modelled density.
    fn most(&self) -> f64 {
        let density = modelled_density(STRONGEST, LabelBasis::NaoclByMass);
        let chlorine = grams_per_litre_of(STRONGEST, LabelBasis::NaoclByMass, density);
        figure_of(chlorine, self.basis, density)
    }
}

/// A percarbonate powder as its label, a titration or a guess has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Powder {
    pub figure: Known<Ratio>,
    pub basis: PowderBasis,
}

/// What a powder's percentage counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PowderBasis {
    /// Sodium percarbonate in the powder.
    Percarbonate,
    /// Hydrogen peroxide in the powder.
    Peroxide,
    /// Active oxygen in the powder.
    ActiveOxygen,
}

impl PowderBasis {
    pub const ALL: [PowderBasis; 3] =
        [PowderBasis::Percarbonate, PowderBasis::Peroxide, PowderBasis::ActiveOxygen];

    /// The figure that pure percarbonate has on this basis.
    pub fn pure(self) -> f64 {
        match self {
            PowderBasis::Percarbonate => 1.0,
            PowderBasis::Peroxide => PURE_PEROXIDE,
            PowderBasis::ActiveOxygen => PURE_ACTIVE_OXYGEN,
        }
    }
}

impl Powder {
    /// A powder whose label was read, ±5 % of the figure (common practice, no
    /// source; safety data sheets give wider bands).
    pub fn labelled(figure: Ratio, basis: PowderBasis) -> Self {
        Self { figure: Known::within(figure, 0.05, Basis::Label), basis }
    }

    /// A powder of unknown make: 30 % percarbonate, 15 to 95 %. Laundry
    /// boosters run from 15 to 70 %, and powder sold as percarbonate is below
    /// 95 % by its safety data sheet (ranges from memory).
    pub fn unknown() -> Self {
        let figure = Known { value: 0.30, low: 0.15, high: 0.95, basis: Basis::Assumed };
        Self { figure: figure.map(share), basis: PowderBasis::Percarbonate }
    }

    /// Hydrogen peroxide as a share of the powder.
    ///
    /// # Errors
    /// [`OutOfRange`] beside [`POWDER_STRENGTH`] for more than pure percarbonate
    /// can hold (32.5 % H2O2), or nothing.
    pub fn peroxide(&self) -> Result<Figure<Ratio>, OutOfRange> {
        let pure = self.basis.pure();
        let figure = self.figure.map(in_share);
        // Labels round: 32.5 % is pure, though pure is 32.496 %.
        let most = pure * 1.0005;
        OutOfRange::check(POWDER_STRENGTH, Kind::Share, figure.value, 1e-3 * pure, most)?;
        // The label's range stops at pure.
        let figure = Known {
            value: figure.value.min(pure),
            low: figure.low.min(pure),
            high: figure.high.min(pure),
            basis: figure.basis,
        };
        let figure = figure.check(POWDER_STRENGTH, Kind::Share, 0.0, pure)?;
        let inputs = [Input::of(POWDER_STRENGTH, figure)];
        let [peroxide] = spread(&inputs, |[figure]| [figure / pure * PURE_PEROXIDE])
            .ok_or(out_of(POWDER_STRENGTH, Kind::Share, figure.value, pure))?;
        Ok(peroxide.map(share))
    }
}

/// Grams of NaOCl per gram of available chlorine: 74.442 / 70.906.
pub const NAOCL_PER_CHLORINE: f64 = 74.442 / 70.906;

pub use crate::chemistry::percarbonate::{PURE_ACTIVE_OXYGEN, PURE_PEROXIDE};

pub const BOTTLE_STRENGTH: Field = Field("bottle_strength");
pub const BOTTLE_DENSITY: Field = Field("bottle_density");
pub const POWDER_STRENGTH: Field = Field("powder_strength");

/// Available chlorine in g/L of a label `figure` at `density` g/mL.
pub fn grams_per_litre_of(figure: f64, basis: LabelBasis, density: f64) -> f64 {
    match basis {
        LabelBasis::NaoclByMass => figure * 10.0 * density / NAOCL_PER_CHLORINE,
        LabelBasis::NaoclByVolume => figure * 10.0 / NAOCL_PER_CHLORINE,
        LabelBasis::ChlorineByMass => figure * 10.0 * density,
        LabelBasis::ChlorineByVolume => figure * 10.0,
        LabelBasis::ChlorineGramsPerLitre => figure,
    }
}

/// The figure that a label on `basis` would show for `chlorine` g/L at
/// `density` g/mL: the inverse of [`grams_per_litre_of`].
pub fn figure_of(chlorine: f64, basis: LabelBasis, density: f64) -> f64 {
    chlorine / grams_per_litre_of(1.0, basis, density)
}

/// Density of bleach in g/mL at 20 °C from its label: `0.998 + 0.00131` per g/L
/// of available chlorine, a line through water and the producers' point of 120
/// g/L at 1.157 (salt equal in moles, no excess caustic). Real bleach varies by
/// ±0.02, mostly with its caustic.
pub fn modelled_density(figure: f64, basis: LabelBasis) -> f64 {
    let by_mass = |chlorine_percent: f64| 0.998 / (1.0 - DENSITY_SLOPE * 10.0 * chlorine_percent);
    match basis {
        LabelBasis::NaoclByMass => by_mass(figure / NAOCL_PER_CHLORINE),
        LabelBasis::ChlorineByMass => by_mass(figure),
        other => 0.998 + DENSITY_SLOPE * grams_per_litre_of(figure, other, 1.0),
    }
}

const DENSITY_SLOPE: f64 = 0.001_31;
const DENSITY_OFF: f64 = 0.02;

/// Strongest bleach taken, % NaOCl by mass. Trade hypochlorite is 12 to 15 %
/// (common practice, no source).
const STRONGEST: f64 = 15.0;

fn out_of(subject: Field, kind: Kind, given: f64, max: f64) -> OutOfRange {
    OutOfRange { subject, given, min: 0.0, max, kind }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::quantity::in_grams_per_litre;

    fn chlorine(figure: f64, basis: LabelBasis) -> f64 {
        let bottle = Bottle::labelled(figure, basis).liquid().unwrap();
        in_grams_per_litre(bottle.available_chlorine.value)
    }

    fn near(a: f64, b: f64, tolerance: f64) {
        assert!((a - b).abs() <= tolerance, "{a} is not {b}");
    }

    #[test]
    fn five_percent_is_not_five_percent() {
        near(chlorine(5.0, LabelBasis::NaoclByMass), 50.7, 0.05);
        near(chlorine(5.0, LabelBasis::NaoclByVolume), 47.6, 0.05);
        near(chlorine(5.0, LabelBasis::ChlorineByVolume), 50.0, 1e-9);
        near(chlorine(50.0, LabelBasis::ChlorineGramsPerLitre), 50.0, 1e-9);
    }

    #[test]
    fn a_label_that_does_not_say_what_it_counts_is_refused_beside_its_strength() {
        let refused = LabelBasis::stated(None).unwrap_err();
        assert_eq!(refused.field, Some(BOTTLE_STRENGTH));
        assert_eq!(LabelBasis::stated(Some(LabelBasis::NaoclByMass)), Ok(LabelBasis::NaoclByMass));
    }

    #[test]
    fn a_figure_goes_through_grams_per_litre_and_back() {
        for basis in LabelBasis::ALL {
            for figure in [0.5, 3.5, 5.25, 12.5] {
                let density = modelled_density(figure, basis);
                let back = figure_of(grams_per_litre_of(figure, basis, density), basis, density);
                near(back, figure, 1e-9);
            }
        }
    }

    #[test]
    fn a_label_beyond_what_is_sold_is_refused() {
        assert!(Bottle::labelled(14.0, LabelBasis::NaoclByMass).liquid().is_ok());
        for (figure, basis) in [
            (15.1, LabelBasis::NaoclByMass),
            (52.5, LabelBasis::NaoclByMass),
            (190.0, LabelBasis::ChlorineGramsPerLitre),
            (0.0, LabelBasis::NaoclByMass),
            (-1.0, LabelBasis::ChlorineByVolume),
            (f64::NAN, LabelBasis::ChlorineByMass),
        ] {
            let error = Bottle::labelled(figure, basis).liquid().unwrap_err();
            assert_eq!(error.subject, BOTTLE_STRENGTH, "{figure} {basis:?}");
        }
    }

    #[test]
    fn a_measured_density_replaces_the_modelled_one() {
        let density = Known::exact(grams_per_millilitre(1.07), Basis::Measured);
        let bottle =
            Bottle { density: Some(density), ..Bottle::labelled(5.25, LabelBasis::NaoclByMass) };
        let liquid = bottle.liquid().unwrap();
        near(in_grams_per_litre(liquid.available_chlorine.value), 53.5, 0.1);
        near(in_grams_per_millilitre(liquid.density.value), 1.07, 1e-12);
    }

    #[test]
    fn no_label_is_marked_assumed_and_wide() {
        let liquid = Bottle::unknown().liquid().unwrap();
        assert!(liquid.available_chlorine.assumed);
        let (low, high) = (liquid.available_chlorine.low, liquid.available_chlorine.high);
        assert!(in_grams_per_litre(high) > 2.0 * in_grams_per_litre(low));
        assert!(Powder::unknown().peroxide().unwrap().assumed);
    }

    #[test]
    fn no_powder_holds_more_peroxide_than_pure_percarbonate() {
        near(PURE_PEROXIDE, 0.3250, 5e-5);
        near(PowderBasis::ActiveOxygen.pure(), 0.15285, 5e-6);
        let powder = |figure, basis| Powder::labelled(share(figure), basis).peroxide();
        near(in_share(powder(0.135, PowderBasis::ActiveOxygen).unwrap().value), 0.287, 5e-4);
        let pure = powder(1.0, PowderBasis::Percarbonate).unwrap();
        near(in_share(pure.high), PURE_PEROXIDE, 1e-12);
        assert!(powder(0.325, PowderBasis::Peroxide).is_ok());
        assert!(powder(0.33, PowderBasis::Peroxide).is_err());
        assert!(powder(0.16, PowderBasis::ActiveOxygen).is_err());
        assert!(powder(0.0, PowderBasis::Percarbonate).is_err());
    }
}
