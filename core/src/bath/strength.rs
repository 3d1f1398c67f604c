//! Active content of a bleach from its label, whatever the basis of the label.
//!
//! Available chlorine is expressed as grams of Cl2: one mole of NaOCl counts as
//! 70.906 g. `% w/w = % NaOCl / 1.0499`; the trade percentage is grams per 100 mL,
//! which is a tenth of g/L (White, Handbook of Chlorination, 1972, as quoted in
//! producers' literature).

use crate::{
    chemistry::{
        household::LABEL_OFF,
        hypochlorite_limit::{
            DENSITY_ERROR, DENSITY_OF_WATER, DENSITY_SLOPE, STRONGEST_SHARE, usual_density,
        },
        percarbonate::PercarbonatePowder,
    },
    message::{Field, Message},
    quantity::{
        Basis, ComputedEstimate, Estimate, MassConcentration, MassDensity, OutOfRange,
        QuantityKind, Ratio, UncertainInput, grams_per_litre, grams_per_millilitre,
        in_grams_per_millilitre, in_share, propagate_uncertainty, share,
    },
};
use serde::{Deserialize, Serialize};

/// A bottle of hypochlorite by its label, a titration or an assumption.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottle {
    /// The strength on `basis`: a percentage (`5.25`), or g/L.
    pub figure: Estimate<f64>,
    pub basis: LabelBasis,
    /// Measured density, if any.
    pub density: Option<Estimate<MassDensity>>,
}

/// What the strength on a label counts. 5 % is 50.7 g/L available chlorine as
/// NaOCl by mass, 47.6 as NaOCl by volume, 50.0 as available chlorine by volume.
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
    /// All, in the order to offer them.
    pub const ALL: [LabelBasis; 5] = [
        LabelBasis::NaoclByMass,
        LabelBasis::NaoclByVolume,
        LabelBasis::ChlorineByMass,
        LabelBasis::ChlorineByVolume,
        LabelBasis::ChlorineGramsPerLitre,
    ];

    /// The basis, if the label states it.
    ///
    /// # Errors
    /// A message beside the strength if it does not: the bases differ too much to
    /// assume one.
    pub fn stated(basis: Option<Self>) -> Result<Self, Message> {
        basis.ok_or_else(|| Message::new("refusal-label_basis").beside(BOTTLE_STRENGTH))
    }
}

/// Error of a density that a person measured, as a part of it (common practice, no source).
pub const DENSITY_OFF: f64 = 0.005;

/// A bottle's strength by its label, in whatever it counts. Labels are nominal: a fresh bottle is
/// taken to hold 10 % less to 5 % more (common practice, no source). Loss with age is not
/// included.
pub fn nominal(figure: f64) -> Estimate<f64> {
    Estimate { value: figure, low: figure * 0.90, high: figure * 1.05, basis: Basis::Label }
}

/// Composition of a bottle as a bath needs it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liquid {
    pub available_chlorine: ComputedEstimate<MassConcentration>,
    pub density: ComputedEstimate<MassDensity>,
}

impl Bottle {
    /// A bottle by its label, as [`nominal`].
    pub fn labelled(figure: f64, basis: LabelBasis) -> Self {
        Self { figure: nominal(figure), basis, density: None }
    }

    /// A bottle without a label: 4.5 % NaOCl by mass as in household bleach, but anything from
    /// 2.5 % to 15 %, the strongest that is accepted: pool and trade bleach look the same.
    /// Retail bottles are often 3.5 or 5.25 % (common practice, no source);
    /// the upper end is the strongest household grade (from memory).
    pub fn unknown() -> Self {
        let figure = Estimate { value: 4.5, low: 2.5, high: 15.0, basis: Basis::Assumed };
        Self { figure, basis: LabelBasis::NaoclByMass, density: None }
    }

    /// A bottle by titration.
    pub fn titrated(available_chlorine: Estimate<MassConcentration>) -> Self {
        let figure = available_chlorine.map(crate::quantity::in_grams_per_litre);
        Self { figure, basis: LabelBasis::ChlorineGramsPerLitre, density: None }
    }

    /// Available chlorine and density at 20 °C.
    ///
    /// # Errors
    /// [`OutOfRange`] beside [`BOTTLE_STRENGTH`] unless the strength lies above
    /// 0 and at most at 15 % NaOCl by mass (about 175 g/L available chlorine):
    /// stronger bleach is not sold to a studio. Or beside [`BOTTLE_DENSITY`]
    /// outside 0.95 to 1.35 g/mL.
    pub fn liquid(&self) -> Result<Liquid, OutOfRange> {
        let inputs = self.inputs()?;
        let composition = |[figure, density]: &[f64; 2]| self.composition(*figure, *density);
        let [chlorine, density] = propagate_uncertainty(&inputs, composition).ok_or(out_of(
            BOTTLE_STRENGTH,
            self.kind(),
            self.figure.value,
            self.most(),
        ))?;
        Ok(Liquid {
            available_chlorine: chlorine.map(grams_per_litre),
            density: density.map(grams_per_millilitre),
        })
    }

    /// The independent inputs of [`Self::composition`]: the strength on its basis, and the
    /// density in g/mL, or the error of the modelled density, so that density follows strength.
    ///
    /// # Errors
    /// As [`Self::liquid`].
    pub(super) fn inputs(&self) -> Result<[UncertainInput; 2], OutOfRange> {
        let (kind, most) = (self.kind(), self.most());
        OutOfRange::check(BOTTLE_STRENGTH, kind, self.figure.value, self.least(), most)?;
        // The range is cut at the strongest bleach that is sold.
        let figure = Estimate { high: self.figure.high.min(most), ..self.figure };
        let figure = figure.check(BOTTLE_STRENGTH, kind, 0.0, most)?;
        let density = match self.density {
            Some(density) => {
                let density = density.map(in_grams_per_millilitre);
                density.check(BOTTLE_DENSITY, QuantityKind::Density, 0.95, 1.35)?
            }
            None => Estimate {
                value: 0.0,
                low: -DENSITY_ERROR,
                high: DENSITY_ERROR,
                basis: Basis::Computed,
            },
        };
        Ok([
            UncertainInput::of(BOTTLE_STRENGTH, figure),
            UncertainInput::of(BOTTLE_DENSITY, density),
        ])
    }

    /// Available chlorine in g/L and density in g/mL for values of [`Self::inputs`].
    pub(super) fn composition(&self, figure: f64, density: f64) -> [f64; 2] {
        let density = match self.density {
            Some(_) => density,
            None => modelled_density(figure, self.basis) + density,
        };
        [grams_per_litre_of(figure, self.basis, density), density]
    }

    fn kind(&self) -> QuantityKind {
        match self.basis {
            LabelBasis::ChlorineGramsPerLitre => QuantityKind::Concentration,
            // The percentage itself, not a share.
            _ => QuantityKind::Number,
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

/// A percarbonate powder by its label, a titration or an assumption.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Powder {
    pub figure: Estimate<Ratio>,
    pub basis: PowderBasis,
}

/// What the percentage on a powder counts.
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

    /// Strength of pure percarbonate on this basis.
    pub fn pure(self) -> f64 {
        match self {
            PowderBasis::Percarbonate => 1.0,
            PowderBasis::Peroxide => PURE_PEROXIDE,
            PowderBasis::ActiveOxygen => PURE_ACTIVE_OXYGEN,
        }
    }
}

impl Powder {
    /// A powder by its label, ±5 % of the strength (common practice, no
    /// source; safety data sheets give wider bands).
    pub fn labelled(figure: Ratio, basis: PowderBasis) -> Self {
        Self { figure: Estimate::within(figure, LABEL_OFF, Basis::Label), basis }
    }

    /// A powder without a label, as [`PercarbonatePowder::unknown`].
    pub fn unknown() -> Self {
        let figure = PercarbonatePowder::unknown().share.map(share);
        Self { figure, basis: PowderBasis::Percarbonate }
    }

    /// Mass share of hydrogen peroxide in the powder.
    ///
    /// # Errors
    /// [`OutOfRange`] beside [`POWDER_STRENGTH`] above the content of pure
    /// percarbonate (32.5 % H2O2), or for none.
    pub fn peroxide(&self) -> Result<ComputedEstimate<Ratio>, OutOfRange> {
        let input = self.input()?;
        let content = |[figure]: &[f64; 1]| [self.content(*figure)];
        let [peroxide] = propagate_uncertainty(&[input], content).ok_or(out_of(
            POWDER_STRENGTH,
            QuantityKind::Share,
            input.value,
            self.basis.pure(),
        ))?;
        Ok(peroxide.map(share))
    }

    /// The input of [`Self::content`]: the strength on its basis.
    ///
    /// # Errors
    /// As [`Self::peroxide`].
    pub(super) fn input(&self) -> Result<UncertainInput, OutOfRange> {
        let pure = self.basis.pure();
        let figure = self.figure.map(in_share);
        // Labels are rounded: 32.5 % stands for pure, which is 32.496 %.
        let most = pure * 1.0005;
        OutOfRange::check(POWDER_STRENGTH, QuantityKind::Share, figure.value, 1e-3 * pure, most)?;
        // The range is cut at pure percarbonate.
        let figure = Estimate {
            value: figure.value.min(pure),
            low: figure.low.min(pure),
            high: figure.high.min(pure),
            basis: figure.basis,
        };
        let figure = figure.check(POWDER_STRENGTH, QuantityKind::Share, 0.0, pure)?;
        Ok(UncertainInput::of(POWDER_STRENGTH, figure))
    }

    /// Mass share of hydrogen peroxide for a value of [`Self::input`].
    pub(super) fn content(&self, figure: f64) -> f64 {
        figure / self.basis.pure() * PURE_PEROXIDE
    }
}

pub use crate::chemistry::{
    hypochlorite_limit::NAOCL_PER_CHLORINE,
    percarbonate::{PURE_ACTIVE_OXYGEN, PURE_PEROXIDE},
};

pub const BOTTLE_STRENGTH: Field = Field("bottle_strength");
pub const BOTTLE_DENSITY: Field = Field("bottle_density");
pub const POWDER_STRENGTH: Field = Field("powder_strength");

/// Available chlorine in g/L for a strength `figure` on `basis` at `density` g/mL.
pub fn grams_per_litre_of(figure: f64, basis: LabelBasis, density: f64) -> f64 {
    match basis {
        LabelBasis::NaoclByMass => figure * 10.0 * density / NAOCL_PER_CHLORINE,
        LabelBasis::NaoclByVolume => figure * 10.0 / NAOCL_PER_CHLORINE,
        LabelBasis::ChlorineByMass => figure * 10.0 * density,
        LabelBasis::ChlorineByVolume => figure * 10.0,
        LabelBasis::ChlorineGramsPerLitre => figure,
    }
}

/// The strength on `basis` for `chlorine` g/L available chlorine at `density`
/// g/mL: the inverse of [`grams_per_litre_of`].
pub fn figure_of(chlorine: f64, basis: LabelBasis, density: f64) -> f64 {
    chlorine / grams_per_litre_of(1.0, basis, density)
}

/// Density of bleach in g/mL at 20 °C by [`DENSITY_SLOPE`], ±[`DENSITY_ERROR`].
pub fn modelled_density(figure: f64, basis: LabelBasis) -> f64 {
    let by_mass =
        |chlorine_percent: f64| DENSITY_OF_WATER / (1.0 - DENSITY_SLOPE * 10.0 * chlorine_percent);
    match basis {
        LabelBasis::NaoclByMass => by_mass(figure / NAOCL_PER_CHLORINE),
        LabelBasis::ChlorineByMass => by_mass(figure),
        other => usual_density(grams_per_litre_of(figure, other, 1.0)),
    }
}

/// [`STRONGEST_SHARE`] as % NaOCl by mass.
const STRONGEST: f64 = 100.0 * STRONGEST_SHARE;

fn out_of(subject: Field, kind: QuantityKind, given: f64, max: f64) -> OutOfRange {
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
    fn five_percent_differs_between_bases() {
        near(chlorine(5.0, LabelBasis::NaoclByMass), 50.7, 0.05);
        near(chlorine(5.0, LabelBasis::NaoclByVolume), 47.6, 0.05);
        near(chlorine(5.0, LabelBasis::ChlorineByVolume), 50.0, 1e-9);
        near(chlorine(50.0, LabelBasis::ChlorineGramsPerLitre), 50.0, 1e-9);
    }

    #[test]
    fn a_label_without_a_basis_is_refused_beside_its_strength() {
        let refused = LabelBasis::stated(None).unwrap_err();
        assert_eq!(refused.field, Some(BOTTLE_STRENGTH));
        assert_eq!(LabelBasis::stated(Some(LabelBasis::NaoclByMass)), Ok(LabelBasis::NaoclByMass));
    }

    #[test]
    fn conversion_to_grams_per_litre_is_invertible() {
        for basis in LabelBasis::ALL {
            for figure in [0.5, 3.5, 5.25, 12.5] {
                let density = modelled_density(figure, basis);
                let back = figure_of(grams_per_litre_of(figure, basis, density), basis, density);
                near(back, figure, 1e-9);
            }
        }
    }

    #[test]
    fn a_strength_above_the_strongest_sold_is_refused() {
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
        let density = Estimate::exact(grams_per_millilitre(1.07), Basis::Measured);
        let bottle =
            Bottle { density: Some(density), ..Bottle::labelled(5.25, LabelBasis::NaoclByMass) };
        let liquid = bottle.liquid().unwrap();
        near(in_grams_per_litre(liquid.available_chlorine.value), 53.5, 0.1);
        near(in_grams_per_millilitre(liquid.density.value), 1.07, 1e-12);
    }

    #[test]
    fn an_unknown_label_is_assumed_with_a_wide_range() {
        let liquid = Bottle::unknown().liquid().unwrap();
        assert!(liquid.available_chlorine.assumed);
        let (low, high) = (liquid.available_chlorine.low, liquid.available_chlorine.high);
        assert!(in_grams_per_litre(high) > 2.0 * in_grams_per_litre(low));
        // Stronger than household bleach, so that its caution is shown.
        assert!(in_grams_per_litre(high) > 150.0, "{high:?}");
        assert!(Powder::unknown().peroxide().unwrap().assumed);
    }

    #[test]
    fn more_peroxide_than_in_pure_percarbonate_is_refused() {
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
